# SPDX-License-Identifier: MIT
"""What the tests of papers and plans share: runs `rigwright-cli papers` and reads back what it writes."""
import csv
import json
import os
import re
import subprocess
import tempfile
import unittest
from pathlib import Path

import gi
gi.require_version('Poppler', '0.18')
from gi.repository import Poppler  # noqa: E402

PROGRAM = os.environ['RIGWRIGHT_CLI']
EXAMPLES = Path(os.environ['RIGWRIGHT_DATADIR']) / 'examples'
FESTIVAL = EXAMPLES / 'festival-60.rig'
CHAIN = EXAMPLES / 'small-chain.rig'
MM = 72 / 25.4
SECTIONS = ['cover', 'plan', 'equipment', 'network', 'cables', 'pull', 'ports', 'lines', 'cards', 'labels', 'proving', 'findings',
            'revisions']
TITLES = ['Cover', 'Cable plan', 'Equipment', 'IDs and network settings', 'Cable schedule', 'Pull list', 'Switch ports', 'Line lists',
          'Setup cards', 'Labels', 'Proving sheet', 'Findings', 'Revisions']


# In which order the columns of a table give up their place where the paper is too narrow for all of them.
YIELDING = {'equipment': ['Rack units, U', 'Power, W', 'Place'],
            'network': ['Part', 'Hardware address', 'Clock priorities 1 / 2', 'Place', 'Secondary address', 'Primary address', 'Port mode'],
            'cables': ['Notes', 'Jacket', 'Grade', 'Medium', 'Plane', 'Length, m'],
            'pull-cables': ['Notes'],
            'inputs-by-rack': ['Notes', 'Goes to', 'Gain, dB', 'Stand', 'Source', 'Phantom'],
            'outputs-by-rack': ['Notes', 'Comes from'],
            'inputs-by-console': ['Notes', 'Fed by', 'Comes from', 'High-pass, Hz', 'Gain, dB', 'Source', 'Phantom'],
            'outputs-by-console': ['Notes', 'Leaves by', 'Goes to'],
            'findings': ['Why it matters', 'What to do']}


def papers(*words):
  return subprocess.run([PROGRAM, 'papers', *map(str, words)], capture_output=True, text=True, timeout=200)


def findings(rig):
  done = subprocess.run([PROGRAM, 'check', '--json', rig], capture_output=True, text=True, timeout=200)
  return json.loads(done.stdout)['findings']


def bare(text):
  """Without white space: long texts go over several lines."""
  return re.sub(r'\s+', '', text)


def words(text):
  """On one line, as if it had not been wrapped, behind a hyphen either."""
  return one_line(text).replace('- ', '-')


def printed(stem, row, n):
  """What is read of a @row (head, cell) of table @stem of which @n columns yielded: the others' cells, then what they say."""
  yielded = YIELDING.get(stem, [])[:n]
  beneath = [f'{head}: {cell}' for head, cell in row if head in yielded and cell not in ('', '—')]
  return words(' '.join([cell for head, cell in row if head not in yielded] + beneath))


def name(device):
  return device.get('name') or device['id']


class Case(unittest.TestCase):
  def setUp(self):
    folder = tempfile.TemporaryDirectory()
    self.addCleanup(folder.cleanup)
    self.folder = Path(folder.name)

  def rig(self, rig):
    path = self.folder / 'test.rig'
    path.write_text(json.dumps(rig), encoding='utf-8')
    return path

  def pdf(self, rig, *words):
    path = self.folder / 'papers.pdf'
    done = papers(rig, '--output', path, *words)
    self.assertEqual((done.returncode, done.stdout, done.stderr), (0, '', ''))
    return Poppler.Document.new_from_file(path.as_uri(), None)

  def cells(self, stem):
    """The rows of a table that is written already, as pairs of head and cell: two columns may have one head."""
    with open(self.folder / 'csv' / f'{stem}.csv', newline='', encoding='utf-8') as file:
      head, *rows = csv.reader(file, strict=True)
    return [list(zip(head, row)) for row in rows]

  def tables(self, rig, *words):
    done = papers(rig, '--csv', self.folder / 'csv', *words)
    self.assertEqual((done.returncode, done.stdout, done.stderr), (0, '', ''))
    read = {}
    for path in sorted((self.folder / 'csv').iterdir()):
      data = path.read_bytes()
      self.assertTrue(data.endswith(b'\r\n'), path)
      with open(path, newline='', encoding='utf-8') as file:
        read[path.stem] = list(csv.DictReader(file, strict=True))
    return read


def pages(document):
  return [document.get_page(i) for i in range(document.get_n_pages())]


def text_of(document):
  return bare(''.join(page.get_text() for page in pages(document)))


def outline(document):
  """Title and page number, from 1, of the sections; and how many lines each has below it."""
  lines = []
  entry = Poppler.IndexIter.new(document)
  while entry is not None:
    action = entry.get_action()  # held: it owns what it points to
    child = entry.get_child()
    below = 0
    while child is not None:
      below += 1
      if not child.next():
        break
    lines.append((action.any.title, action.goto_dest.dest.page_num, below))
    if not entry.next():
      break
  return lines


def raw_text(path, first, last):
  """In the order in which it was drawn, which is that of reading."""
  done = subprocess.run(['pdftotext', '-raw', '-f', str(first), '-l', str(last), path, '-'], capture_output=True, text=True, check=True,
                        timeout=60)
  return done.stdout


def one_line(text):
  return ' '.join(text.split())


def times(row, text):
  """How often @row stands in @text, from a word's begin to a word's end."""
  return len(re.findall(rf'(?<!\S)(?={re.escape(row)}(?!\S))', text))
