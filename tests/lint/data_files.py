# SPDX-License-Identifier: MIT
"""Checks of what is installed beside the programs, each by the tool that its format's makers offer."""
import shutil
import subprocess
import tempfile
from pathlib import Path


def complaints(command, paths):
  found = []
  if not paths:
    found.append(f'{command[0]}: nothing to look at')
  for path in paths:
    run = subprocess.run(command + [str(path)], capture_output=True, text=True)
    said = (run.stdout + run.stderr).strip()
    if run.returncode != 0 or ': warning:' in said:
      found.append(f'{path.name}: {" / ".join(said.splitlines()[:6])}')
  return found


def files(root, *patterns):
  return sorted(path for pattern in patterns for path in root.glob(pattern))


def desktop(root, build):
  return complaints(['desktop-file-validate'], files(build, 'data/*.desktop'))


def metainfo(root, build):
  paths = files(build, 'data/*.metainfo.xml')
  return complaints(['appstreamcli', 'validate', '--no-net', '--explain'], paths) + \
    complaints(['appstream-util', 'validate-relax', '--nonet'], paths)


def xml(root, build):
  """Well-formed: the MIME type, the icons, the pages of the help, what GTK builds windows from."""
  return complaints(['xmllint', '--noout', '--nonet'],
                    files(root, 'data/*.xml', 'data/icons/**/*.svg', 'help/**/*.page', 'src/**/*.ui', 'data/**/*.ui'))


def mime(root, build):
  """The database that the desktop would make of it says that a .rig file is ours."""
  found = []
  with tempfile.TemporaryDirectory() as folder:
    packages = Path(folder) / 'packages'
    packages.mkdir()
    for path in files(root, 'data/*.xml'):
      shutil.copy(path, packages)
    run = subprocess.run(['update-mime-database', folder], capture_output=True, text=True)
    if run.returncode != 0:
      found.append(f'update-mime-database: {run.stderr.strip()}')
    globs = Path(folder) / 'globs2'
    if not globs.exists() or 'application/x-rigwright+json:*.rig' not in globs.read_text():
      found.append('*.rig is not application/x-rigwright+json')
  return found


def help_pages(root, build):
  """Valid Mallard; no link leads nowhere, no page is an orphan or has an id other than its file's name."""
  found = []
  for what in ('validate', 'links', 'ids', 'orphans', 'media'):
    run = subprocess.run(['yelp-check', what, str(root / 'help/C')], capture_output=True, text=True)
    said = (run.stdout + run.stderr).strip()
    if run.returncode != 0 or said:
      found.append(f'yelp-check {what}: {" / ".join(said.splitlines()[:6])}')
  return found


CHECKS = {'desktop': desktop, 'metainfo': metainfo, 'xml': xml, 'mime': mime, 'help': help_pages}
