# SPDX-License-Identifier: MIT
"""Checks of the source files: layers, headers, licence lines, words, white space, length."""
import hashlib
import os
import re
import shlex
import subprocess
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

# What each folder of src/ may include: the project's own folders, and outside libraries by the first part of
# the include. Everything may include the C library and GLib.
LAYERS = {
  'rig': set(),
  'net': {'rig'},
  'rules': {'rig', 'net'},
  'file': {'rig', 'json-glib'},
  'paper': {'rig', 'net', 'rules', 'file', 'cairo', 'pango'},
  'cli': {'rig', 'net', 'rules', 'file', 'paper', 'json-glib', 'cairo', 'pango'},
  'ui': {'rig', 'net', 'rules', 'file', 'paper', 'cairo', 'pango', 'gtk', 'gdk', 'gsk', 'graphene'},
}
LIBRARIES = {'json-glib', 'cairo', 'pango', 'gtk', 'gdk', 'gsk', 'graphene'}
INCLUDE = re.compile(r'^\s*#\s*include\s+[<"]([^>"]+)[>"]', re.M)

# Made files and files without comments carry no licence line.
NO_LICENCE = {'.rig', '.json', '.png', '.md', '.ttf', '.csv', '.ref', '.txt', '.pdf', '.svgref'}
TEXT = {'.c', '.h', '.py', '.sh', '.ui', '.css', '.xml', '.in', '.page', '.build', '.md', '.svg', '.po', '.supp', ''}

# Names that must not appear (makers, products, trademarks of network technologies), as SHA-256 of the word in
# lower case, so that this list does not name them either.
FORBIDDEN_WORDS = set(Path(__file__).with_name('forbidden.txt').read_text().split())
FORBIDDEN_PATTERNS = [re.compile(p) for p in (r'\bissue[ -]#?\d', r'/work' r'/', r'\bfarm-[a-z]', r'\bTODO\b|\bFIXME\b|\bXXX\b')]


def walk(root):
  """Every file of the project, relative; not what builds leave, nor the wrong projects of the lints."""
  for folder, folders, files in os.walk(root):
    here = Path(folder).relative_to(root)
    folders[:] = sorted(f for f in folders if not f.startswith('build') and f not in ('.git', '.cache', '__pycache__')
                        and (here / f) != Path('tests/lint/bad'))
    for name in sorted(files):
      if name != 'expected.txt' and name != '.git':
        yield here / name


def read(root, path):
  return (root / path).read_text(encoding='utf-8', errors='replace')


def outside(include):
  """The outside library that an include belongs to, None for the C library, GLib and our own."""
  first = re.split(r'[/.-]', include)[0]
  return 'json-glib' if include.startswith('json-glib/') else first if first in LIBRARIES else None


# Folders of broken and odd files that the tests read.
def is_corpus(path):
  return 'corpus' in path.parts


def layers(root, build):
  found = []
  for path in walk(root):
    if path.suffix not in ('.c', '.h') or path.parts[0] != 'src' or len(path.parts) < 3:
      continue
    layer = path.parts[1]
    if layer not in LAYERS:
      found.append(f'{path}: src/{layer} is not in the list of layers')
      continue
    for include in INCLUDE.findall(read(root, path)):
      head = include.split('/')[0]
      other = head if head in LAYERS and '/' in include else outside(include)
      if other and other != layer and other not in LAYERS[layer]:
        found.append(f'{path}: src/{layer} may not include <{include}>')
  return found


def headers(root, build):
  flags = subprocess.run(['pkg-config', '--cflags', 'gtk4', 'json-glib-1.0', 'pangocairo', 'gio-unix-2.0'],
                         check=True, capture_output=True, text=True).stdout
  command = shlex.split(os.environ.get('CC', 'cc')) + ['-std=gnu11', '-fsyntax-only', '-Werror', '-x', 'c',
    f'-I{root}', f'-I{root / "src"}', f'-I{build}', f'-I{build / "src"}', f'-I{build / "src/ui"}',
    f'-I{root / "tests/lib"}', '-DGETTEXT_PACKAGE="rigwright"'] + shlex.split(flags)

  def alone(path):
    run = subprocess.run(command + ['-include', str(root / path), '/dev/null'], capture_output=True, text=True)
    lines = [line for line in run.stderr.splitlines() if 'error' in line] or run.stderr.splitlines()
    return None if run.returncode == 0 else f'{path}: does not compile alone: {lines[0] if lines else "?"}'

  paths = [p for p in walk(root) if p.suffix == '.h' and p.parts[0] in ('src', 'tests')]
  with ThreadPoolExecutor(2) as pool:
    return [line for line in pool.map(alone, paths) if line]


def licence(root, build):
  found = []
  for path in walk(root):
    if path.suffix in NO_LICENCE or path.name == 'LICENSE' or is_corpus(path):
      continue
    # A long manual page or a page of the help may start with its XML head and root element.
    head = '\n'.join(read(root, path).splitlines()[:4])
    if 'SPDX-License-Identifier: MIT' not in head:
      found.append(f'{path}: no "SPDX-License-Identifier: MIT" in its first lines')
  return found


def words(root, build):
  found = []
  for path in walk(root):
    if path.suffix not in TEXT | {'.rig', '.json', '.txt'} or path.name == 'forbidden.txt' or is_corpus(path):
      continue
    text = read(root, path)
    for number, line in enumerate(text.splitlines(), 1):
      for word in re.findall(r'[a-z0-9]+(?:-[a-z0-9]+)*', line.lower()):
        if hashlib.sha256(word.encode()).hexdigest() in FORBIDDEN_WORDS:
          found.append(f'{path}:{number}: a forbidden name')
      for pattern in FORBIDDEN_PATTERNS:
        if pattern.search(line) and path.name != 'sources.py':
          found.append(f'{path}:{number}: {pattern.search(line).group(0)!r} has no place here')
  return found


def space(root, build):
  found = []
  for path in walk(root):
    if path.suffix not in TEXT or path.name == 'LICENSE' or is_corpus(path):
      continue
    data = (root / path).read_bytes()
    if data and not data.endswith(b'\n'):
      found.append(f'{path}: no newline at the end')
    for number, line in enumerate(data.split(b'\n'), 1):
      if line.endswith((b' ', b'\t', b'\r')):
        found.append(f'{path}:{number}: white space at the end of the line')
      if b'\t' in line:
        found.append(f'{path}:{number}: a tab')
  return found


def length(root, build):
  """Over 600 lines is two ideas, most likely: listed, a complaint from 900 on."""
  found = []
  for path in walk(root):
    if path.suffix in ('.c', '.h', '.py', '.sh'):
      lines = read(root, path).count('\n')
      if lines > 900:
        found.append(f'{path}: {lines} lines; look for the second idea')
      elif lines > 600:
        print(f'# {path}: {lines} lines')
  return found


CHECKS = {'layers': layers, 'headers': headers, 'licence': licence, 'words': words, 'space': space, 'length': length}
