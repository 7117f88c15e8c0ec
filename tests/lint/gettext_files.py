# SPDX-License-Identifier: MIT
"""Checks of the translations: POTFILES both ways, and each language complete and sound."""
import re
import subprocess
import tempfile
from pathlib import Path

from sources import read, walk

MARKED = {
  '.c': re.compile(r'\b(?:N|C|Q|NC)?_ \(\s*"|\b(?:N|C|Q|NC)?_\(\s*"|\bngettext \(\s*"|\bg_dngettext \('),
  '.h': re.compile(r'\bN_ ?\(\s*"'),
  '.ui': re.compile(r'translatable="(?:yes|true)"'),
  '.in': re.compile(r'^(?:Name|Comment|Keywords)=|<summary>', re.M),
}


def listed(root, name):
  lines = (line.strip() for line in read(root, f'po/{name}').splitlines())
  return [line for line in lines if line and not line.startswith('#')]


def potfiles(root, build):
  names = listed(root, 'POTFILES')
  found = [f'po/POTFILES: {name} does not exist' for name in names if not (root / name).is_file()]
  found += [f'po/POTFILES: {name} is in it twice' for name in sorted({n for n in names if names.count(n) > 1})]
  for path in walk(root):
    if path.parts[0] not in ('src', 'data') or path.suffix not in MARKED:
      continue
    has = bool(MARKED[path.suffix].search(read(root, path)))
    if has and str(path) not in names:
      found.append(f'po/POTFILES: {path} has words to translate and is not in it')
    if not has and str(path) in names:
      found.append(f'po/POTFILES: {path} has no words to translate')
  if names != sorted(names):
    found.append('po/POTFILES: not in the order of the alphabet')
  return found


def run(*command, **more):
  return subprocess.run([str(part) for part in command], capture_output=True, text=True, **more)


def template(root, folder):
  """A fresh template of every string, as the build makes it."""
  pot = Path(folder) / 'fresh.pot'
  made = run('xgettext', f'--files-from={root / "po/POTFILES"}', f'--directory={root}', '--from-code=UTF-8', '--add-comments',
             '--keyword=_', '--keyword=N_', '--keyword=C_:1c,2', '--keyword=NC_:1c,2', '--keyword=g_dngettext:2,3',
             '--keyword=ngettext:1,2', '--flag=g_strdup_printf:1:c-format', '-o', pot)
  return pot, [] if made.returncode == 0 else [f'xgettext: {made.stderr.strip()}']


def translations(root, build):
  found = []
  with tempfile.TemporaryDirectory() as folder:
    pot, found = template(root, folder)
    if found:
      return found
    for language in listed(root, 'LINGUAS'):
      po = root / 'po' / f'{language}.po'
      if not po.is_file():
        found.append(f'po/{language}.po does not exist')
        continue
      sound = run('msgfmt', '--check', '--check-accelerators=_', '-o', Path(folder) / 'x.mo', po)
      if sound.returncode != 0:
        found.append(f'po/{language}.po: {sound.stderr.strip()}')
        continue
      merged = Path(folder) / 'merged.po'
      run('msgmerge', '--quiet', '--no-fuzzy-matching', '-o', merged, po, pot, check=True)
      for kind in ('--untranslated', '--only-fuzzy'):
        left = run('msgattrib', kind, '--no-obsolete', '--no-wrap', merged).stdout
        for text in re.findall(r'^msgid (".*"(?:\n".*")*)', left, re.M):
          if text != '""':
            found.append(f'po/{language}.po: not translated: {text}')
  return found


CHECKS = {'potfiles': potfiles, 'translations': translations}
