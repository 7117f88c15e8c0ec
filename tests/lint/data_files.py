# SPDX-License-Identifier: MIT
"""Checks of what is installed beside the programs, each by the tool that its format's makers offer."""
import subprocess


def complaints(command, paths, root):
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
  return complaints(['desktop-file-validate'], files(build, 'data/*.desktop'), root)


def metainfo(root, build):
  paths = files(build, 'data/*.metainfo.xml')
  return complaints(['appstreamcli', 'validate', '--no-net', '--explain'], paths, root) + \
    complaints(['appstream-util', 'validate-relax', '--nonet'], paths, root)


def xml(root, build):
  """Well-formed: the MIME type, the icons, the pages of the help, what GTK builds windows from."""
  return complaints(['xmllint', '--noout', '--nonet'],
                    files(root, 'data/*.xml', 'data/icons/**/*.svg', 'help/**/*.page', 'src/**/*.ui', 'data/**/*.ui'), root)


def mime(root, build):
  """The database that the desktop would make of it says that a .rig file is ours."""
  import shutil
  import tempfile
  from pathlib import Path
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
  found = complaints(['yelp-check', 'validate'], files(root, 'help/C/*.page'), root)
  for what in ('links', 'ids', 'orphans', 'media', 'style', 'hrefs')[:4]:
    run = subprocess.run(['yelp-check', what, str(root / 'help/C')], capture_output=True, text=True)
    if run.returncode != 0 or run.stdout.strip():
      found.append(f'yelp-check {what}: {" / ".join((run.stdout + run.stderr).strip().splitlines()[:6])}')
  return found


CHECKS = {'desktop': desktop, 'metainfo': metainfo, 'xml': xml, 'mime': mime, 'help': help_pages}
