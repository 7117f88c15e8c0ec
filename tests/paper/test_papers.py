# SPDX-License-Identifier: MIT
"""Reads back what `rigwright-cli papers` writes: the PDF by poppler, the tables by Python's own CSV reader."""
import collections
import copy
import csv
import json
import math
import os
import re
import subprocess
import tempfile
import unittest
from pathlib import Path

import gi
gi.require_version('Poppler', '0.18')
from gi.repository import Poppler  # noqa: E402

import tap  # noqa: E402

PROGRAM = os.environ['RIGWRIGHT_CLI']
EXAMPLES = Path(os.environ['RIGWRIGHT_DATADIR']) / 'examples'
FESTIVAL = EXAMPLES / 'festival-60.rig'
CHAIN = EXAMPLES / 'small-chain.rig'
MM = 72 / 25.4
SECTIONS = ['cover', 'plan', 'equipment', 'network', 'cables', 'pull', 'ports', 'lines', 'cards', 'labels', 'proving', 'findings',
            'revisions']
TITLES = ['Cover', 'Cable plan', 'Equipment', 'IDs and network settings', 'Cable schedule', 'Pull list', 'Switch ports', 'Line lists',
          'Setup cards', 'Labels', 'Proving sheet', 'Findings', 'Revisions']


def papers(*words):
  return subprocess.run([PROGRAM, 'papers', *map(str, words)], capture_output=True, text=True, timeout=200)


def bare(text):
  """Without white space: long texts go over several lines."""
  return re.sub(r'\s+', '', text)


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


class Rows(Case):
  """Each row of each table stands in the pages of its section as often as the tables of this section say it: what is said of one device
  is said of its like too, but nothing is lost at the end of a page and nothing comes twice."""
  HOMES = {'Cover': {'summary'}, 'Equipment': {'equipment', 'places'}, 'IDs and network settings': {'network', 'system'},
           'Cable schedule': {'cables'}, 'Pull list': {'pull', 'pull-cables', 'transceivers', 'switches'}, 'Switch ports': {'ports'},
           'Line lists': {'inputs-by-rack', 'outputs-by-rack', 'inputs-by-console', 'outputs-by-console'}, 'Setup cards': {'cards'},
           'Labels': {'labels'}, 'Findings': {'findings'}, 'Revisions': {'revisions', 'changes'},
           'Proving sheet': {'proving-before', 'proving-links', 'proving-ids', 'proving-clock', 'proving-reach', 'proving-patch',
                             'proving-inputs', 'proving-outputs', 'proving-failures'}}
  BESIDE = {'findings', 'cards'}  # numbers stand in balloons, drawn last; a card says its device once, on top

  def rows(self, stem):
    path = self.folder / 'csv' / f'{stem}.csv'
    if not path.exists():
      return []
    with open(path, newline='', encoding='utf-8') as file:
      return [one_line(' '.join(row[1:] if stem in self.BESIDE else row)) for row in list(csv.reader(file, strict=True))[1:]]

  def compare(self, rig, *words):
    document = self.pdf(rig, *words)
    self.tables(rig, *words)
    starts = outline(document) + [('', document.get_n_pages() + 1, 0)]
    written = {path.stem for path in (self.folder / 'csv').iterdir()}
    self.assertEqual(written - set().union(*self.HOMES.values()), set())
    compared = set()
    for (title, first, _), (_, after, _) in zip(starts, starts[1:]):
      text = one_line(raw_text(self.folder / 'papers.pdf', first, after - 1))
      rows = [row for stem in sorted(self.HOMES.get(title, set()) & written) for row in self.rows(stem)]
      compared |= self.HOMES.get(title, set()) & written
      for row in set(rows):
        with self.subTest(section=title, row=row):
          self.assertEqual(times(row, text), sum(times(row, other) for other in rows))
    self.assertEqual(compared, written)
    return written

  def test_festival(self):
    self.assertEqual(self.compare(FESTIVAL), set().union(*self.HOMES.values()) - {'changes'})

  def test_small_rigs_upright_and_without_colour(self):
    for name in ('small-chain', 'redundant'):
      self.compare(EXAMPLES / f'{name}.rig', '--portrait', '--mono')

  def test_rig_with_faults(self):
    self.compare(EXAMPLES / 'trip-controller-id-clash.rig', '--paper', 'a3')


class Festival(Case):
  @classmethod
  def setUpClass(cls):
    cls.kept = tempfile.TemporaryDirectory()
    cls.path = Path(cls.kept.name) / 'festival.pdf'
    done = papers(FESTIVAL, '--output', cls.path)
    assert (done.returncode, done.stderr) == (0, ''), done
    cls.document = Poppler.Document.new_from_file(cls.path.as_uri(), None)
    cls.data = json.loads(FESTIVAL.read_text())

  @classmethod
  def tearDownClass(cls):
    cls.kept.cleanup()

  def section(self, title):
    starts = outline(self.document)
    at = [line[0] for line in starts].index(title)
    end = starts[at + 1][1] if at + 1 < len(starts) else self.document.get_n_pages() + 1
    return pages(self.document)[starts[at][1] - 1:end - 1]

  def text(self, title):
    """In the order in which it was drawn, which is that of reading: a row after the other, a cell after the other."""
    found = self.section(title)
    return bare(raw_text(self.path, found[0].get_index() + 1, found[-1].get_index() + 1))

  def test_outline_names_every_section_on_a_page_of_its_own(self):
    lines = outline(self.document)
    self.assertEqual([line[0] for line in lines], TITLES)
    starts = [line[1] for line in lines]
    self.assertEqual(starts, sorted(set(starts)))
    self.assertEqual(dict((line[0], line[2]) for line in lines)['Setup cards'], len(self.data['devices']))

  def test_contents_tell_the_sheets_of_the_outline(self):
    text = self.text('Cover')
    for title, page, _ in outline(self.document)[1:]:
      self.assertIn(bare(f'{title}{page}'), text)

  def test_sizes_in_mm(self):
    labels = {page.get_index() for page in self.section('Labels')}
    for page in pages(self.document):
      size = (210, 297) if page.get_index() in labels else (297, 210)
      for got, right in zip(page.get_size(), size):
        self.assertAlmostEqual(got / MM, right, delta=0.01)

  def test_every_sheet_says_which_it_is(self):
    n = self.document.get_n_pages()
    labels = {page.get_index() for page in self.section('Labels')}
    for page in pages(self.document):
      if page.get_index() not in labels:
        self.assertIn(f'{page.get_index() + 1} of {n}', page.get_text())

  def test_fonts_are_embedded(self):
    done = subprocess.run(['pdffonts', self.path], capture_output=True, text=True, check=True, timeout=60)
    fonts = done.stdout.splitlines()[2:]
    self.assertTrue(fonts)
    for font in fonts:
      self.assertRegex(font, r' yes +yes +yes +\d+ +\d+$')

  def test_every_link_leads_somewhere(self):
    kinds = collections.Counter()
    for page in pages(self.document):
      for mapping in page.get_link_mapping():
        action = mapping.action  # held: it owns what it points to
        dest = action.goto_dest.dest
        found = self.document.find_dest(dest.named_dest) if dest.named_dest else dest
        self.assertIsNotNone(found, dest.named_dest)
        self.assertTrue(1 <= found.page_num <= self.document.get_n_pages())
        width, height = page.get_size()
        area = mapping.area
        self.assertTrue(-1 <= area.x1 < area.x2 <= width + 1 and -1 <= area.y1 < area.y2 <= height + 1)
        kinds[re.sub(r'-?\d+$', '', dest.named_dest or 'page')] += 1
    self.assertGreaterEqual(kinds['tiled-cable'], len(self.data['cables']))
    self.assertGreaterEqual(kinds['card'], 2 * len(self.data['devices']))
    self.assertGreaterEqual(kinds['row'], 50)

  def test_cable_rows_stand_once(self):
    text = self.text('Cable schedule')
    for at, cable in enumerate(self.data['cables'], 1):
      self.assertEqual(text.count(cable['label']), 1, cable['label'])
      self.assertIn(bare(f'{at}{cable["label"]}'), text)

  def test_links_of_the_proving_sheet_stand_once(self):
    text = self.text('Proving sheet')
    for cable in self.data['cables']:
      self.assertEqual(text.count(bare(cable['label'] + ': ')), 1, cable['label'])
    for words in ('Mutealloutputs', 'ribbonmicrophone', 'competent', 'qualifiedriggers', 'Localrulescomefirst', 'Signature'):
      self.assertIn(words, text)

  def test_every_device_has_a_card_with_its_cables(self):
    text = self.text('Setup cards')
    parts = {part['id']: part for part in self.data['parts']}
    for device in self.data['devices']:
      heading = bare(f'{name(device)} ({parts[device["part"]]["name"]}, {device["location"]})')
      self.assertEqual(text.count(heading), 1, heading)
    for cable in self.data['cables']:
      self.assertEqual(text.count(bare(f'cable {cable["label"]} to')), 2, cable['label'])

  def test_labels_for_both_ends_and_each_device(self):
    text = self.text('Labels')
    self.assertEqual(text.count('Here:'), 2 * len(self.data['cables']))
    for cable in self.data['cables']:
      self.assertEqual(len(re.findall(re.escape(cable['label']) + 'Here:', text)), 2)

  def test_a_label_without_an_address_has_no_gap(self):
    page = self.section('Labels')[-1]  # the last device, a converter
    height = page.get_size()[1]
    part, place = [height - page.find_text(words)[0].y1 for words in ('Fibre converter, single-mode', 'Broadcast truck')]
    first = self.section('Labels')[0]
    here, far = [height - first.find_text(words)[0].y1 for words in ('Here: Stage left 1, Net 1', 'Far: Stage left A, 13')]
    self.assertAlmostEqual(place - part, far - here, delta=0.1)

  def test_only_what_has_a_cable_has_a_box_for_its_link(self):
    page = self.section('Switch ports')[0]
    width, height = page.get_size()
    subprocess.run(['pdftoppm', '-gray', '-r', '72', '-f', str(page.get_index() + 1), '-singlefile', self.path,
                    Path(self.kept.name) / 'ports'], check=True, timeout=60)
    head, pixels = (Path(self.kept.name) / 'ports.pgm').read_bytes().split(b'\n255\n', 1)
    across = int(head.split()[-2])
    column = page.find_text('Link')[0]
    for words, inked in (('free', False), ('AL01', True), ('AT1', True)):
      for found in page.find_text(words):
        middle = height - (found.y1 + found.y2) / 2
        box = [pixels[y * across + x] for y in range(int(middle - 3), int(middle + 4)) for x in range(int(column.x1), int(column.x2))]
        self.assertEqual(min(box) < 200, inked, words)

  def test_no_list_touches_a_centring_mark(self):
    """The marks go 5 mm into the frame (ISO 5457), which is 20 mm from the left and 10 mm from the other edges."""
    labels = {page.get_index() for page in self.section('Labels') + self.section('Cable plan')}
    for page in pages(self.document):
      found, boxes = page.get_text_layout()
      for box in boxes if page.get_index() not in labels else []:
        x, y = box.x1 / MM, (box.y1 + box.y2) / 2 / MM
        if 20 < x < 287 and 10 < y < 170:
          self.assertGreater(x, 20 + 5 + 1.5)
          self.assertLess(box.x2 / MM, 287 - 5 - 1.5)
          self.assertGreater(box.y1 / MM, 10 + 5 + 1)

  def test_match_lines_lead_back(self):
    sheets = {}
    for page in self.section('Cable plan'):
      sheets[page.get_index() + 1] = {int(n) for n in re.findall(r'continued on sheet (\d+)', page.get_text())}
    self.assertGreater(len(sheets), 4)
    self.assertTrue(all(others for sheet, others in sheets.items() if sheet != min(sheets)))
    for sheet, others in sheets.items():
      for other in others:
        self.assertIn(sheet, sheets[other])

  def test_no_device_is_cut(self):
    plan = self.section('Cable plan')
    for device in self.data['devices']:
      shown = [page for page in plan[1:] if bare(name(device)) in bare(page.get_text())]
      self.assertGreaterEqual(len(shown), 1, name(device))

  def test_lettering_of_the_plan_can_be_read(self):
    """The least lettering is 1.8 mm at 1:1; tiles never go under 0.7 of that."""
    for page in self.section('Cable plan')[1:]:
      sizes = [attribute.font_size for attribute in page.get_text_attributes()]
      self.assertGreaterEqual(min(sizes) / MM, 2.55 * 0.7 - 0.05)

  def test_findings_are_the_checks(self):
    text = self.text('Findings')
    done = subprocess.run([PROGRAM, 'check', '--json', FESTIVAL], capture_output=True, text=True, timeout=60)
    found = json.loads(done.stdout)['findings']
    self.assertTrue(found)
    for finding in found:
      for word in bare(finding['message']).split('…')[0:1]:
        self.assertIn(word[:14], text)


class Tables(Case):
  def test_rows_of_the_festival(self):
    data = json.loads(FESTIVAL.read_text())
    tables = self.tables(FESTIVAL)
    self.assertEqual([row['Label'] for row in tables['cables']], [cable['label'] for cable in data['cables']])
    self.assertEqual([float(row['Length, m']) for row in tables['cables']], [cable['length_m'] for cable in data['cables']])
    self.assertEqual([row['Device'] for row in tables['network']], [name(device) for device in data['devices']])
    self.assertEqual(sum(int(row['Count']) for row in tables['equipment']), len(data['devices']))
    self.assertEqual(len(tables['labels']), 2 * len(data['cables']) + len(data['devices']))
    parts = {part['id']: part for part in data['parts']}
    watts = sum(parts[device['part']].get('watts', 0) for device in data['devices'])
    self.assertEqual(float(tables['places'][-1]['Power, W']), watts)
    consoles = {device['id'] for device in data['devices'] if parts[device['part']]['kind'] == 'controller'}
    ends = {tuple(row['from']) for row in data['patch'] if row['from'][0] not in consoles}
    self.assertEqual(len(tables['proving-inputs']), len(ends))
    for row in tables['proving-inputs']:
      self.assertFalse(row['Check'].endswith(':'), row)

  def test_clocks_name_networks_as_the_drawing_does(self):
    checks = [row['Check'].split(',')[0] for row in self.tables(FESTIVAL)['proving-clock']]
    self.assertEqual(checks, ['Primary network', 'Secondary network'])

  def test_the_pull_list_serves_all_and_counts_alike(self):
    tables = self.tables(FESTIVAL)
    taken = collections.Counter()
    for row in tables['pull-cables']:
      self.assertGreaterEqual(float(row['Take, m']), float(row['Needed, m']))
      self.assertAlmostEqual(float(row['Take, m']) - float(row['Needed, m']), float(row['Left over, m']))
      taken[row['Medium'], row['Take, m']] += 1
    self.assertEqual(taken, {(row['Medium'], row['Length, m']): int(row['For the plan']) for row in tables['pull']})
    for row in tables['pull']:
      self.assertEqual(int(row['Spares']), math.ceil(int(row['For the plan']) / 10))

  def test_a_small_stock_joins_and_leaves(self):
    rig = json.loads(CHAIN.read_text())
    for cable, length in zip(rig['cables'], [45, 70]):
      cable['length_m'] = length
    rig['cables'] = rig['cables'][:2]
    rows = self.tables(self.rig(rig), '--only', 'pull', '--stock', 'copper:30x1,50x2')['pull-cables']
    self.assertEqual([row['Take, m'] for row in rows], ['50', '50 + 30, joined'])
    rows = self.tables(self.rig(rig), '--only', 'pull', '--stock', 'copper:50x1')['pull-cables']
    self.assertEqual([row['Take, m'] for row in rows], ['50', 'to be made or bought'])

  def test_a_stock_in_feet(self):
    """100 ft = 30.48 m, 150 ft = 45.72 m; without a stock, lengths that are sold by the foot (common practice)."""
    rig = json.loads(CHAIN.read_text())
    rig['cables'] = rig['cables'][:1]
    rig['cables'][0]['length_m'] = 30
    rows = self.tables(self.rig(rig), '--only', 'pull', '--stock', 'copper:25,100 ftx1,150ft')['pull-cables']
    self.assertEqual([row['Take, m'] for row in rows], ['30.48'])
    rows = self.tables(self.rig(rig), '--only', 'pull', '--units', 'ft')['pull-cables']
    self.assertEqual([row['Take'] for row in rows], ['100′'])

  def test_names_that_need_quotes(self):
    rig = json.loads(CHAIN.read_text())
    odd = ['He said "up", then left', 'line one\nline two', 'a,b;c\td', 'Grüße, 名前, مرحبا', "=cmd|' /C calc'!A0"]
    for device, text in zip(rig['devices'], odd):
      device['name'] = text
    rows = self.tables(self.rig(rig), '--only', 'network')['network']
    self.assertEqual([row['Device'] for row in rows][:len(odd)], odd[:len(rig['devices'])])


class Choices(Case):
  def test_each_section_alone(self):
    for section, title in zip(SECTIONS, TITLES):
      with self.subTest(section=section):
        document = self.pdf(FESTIVAL, '--only', section)
        self.assertEqual([line[0] for line in outline(document)], [title])
        for page in pages(document):
          for mapping in page.get_link_mapping():
            action = mapping.action  # held: it owns what it points to
            named = action.goto_dest.dest.named_dest
            self.assertIsNotNone(document.find_dest(named), named)

  def test_several_in_one_word_or_many(self):
    for words in (['--only', 'cables,cover'], ['--only', 'cover', '--only', 'cables']):
      self.assertEqual([line[0] for line in outline(self.pdf(CHAIN, *words))], ['Cover', 'Cable schedule'])

  def test_papers(self):
    for paper, size in {'a3': (420, 297), 'letter': (279.4, 215.9)}.items():
      for page in pages(self.pdf(CHAIN, '--paper', paper, '--only', 'plan,cables')):
        for got, right in zip(page.get_size(), size):
          self.assertAlmostEqual(got / MM, right, delta=0.01)
    size = self.pdf(CHAIN, '--portrait', '--only', 'cables').get_page(0).get_size()
    self.assertAlmostEqual(size[1] / MM, 297, delta=0.01)

  def test_a_caution_stands_on_the_sheet_of_its_list(self):
    document = self.pdf(EXAMPLES / 'redundant.rig', '--portrait', '--only', 'proving')
    for page in pages(document):
      text = bare(page.get_text())
      self.assertEqual('Mutealloutputs' in text, '7.Linecheckoftheinputs' in text and 'inputs,continued' not in text)

  def test_no_caution_stands_alone(self):
    rig = json.loads(FESTIVAL.read_text(encoding='utf-8'))
    plain = self.pdf(FESTIVAL, '--only', 'lines,cables,equipment,proving').get_n_pages()
    for device in rig['devices'][::2]:
      device['name'] = 'Longest name of any rack in the whole of the hall ' * 60
    rig['channels'][0]['name'] = 'W' * 3000
    for sort in ([], ['--paper', 'a5'], ['--paper', 'a5', '--portrait']):
      document = self.pdf(self.rig(rig), '--only', 'lines,cables,equipment,proving', *sort)
      cautions = 0
      for page in pages(document):
        text = bare(page.get_text())
        if re.search(r'Localrulescomefirst|Mutealloutputs|localfirerulescomefirst', text):
          cautions += 1
          self.assertRegex(text, 'Done|Good|Laid|Here|When', sort)
      self.assertGreater(cautions, 2)
      if not sort:
        self.assertLess(document.get_n_pages(), 6 * plain)

  def test_a_small_drawing_is_not_tiled(self):
    self.assertEqual(self.pdf(CHAIN, '--only', 'plan').get_n_pages(), 1)

  def test_a_scale_that_is_asked_for(self):
    for scale, factor in (('1:1', 1), ('0.5', 0.5)):
      plan = pages(self.pdf(FESTIVAL, '--only', 'plan', '--scale', scale))
      self.assertIn('AX2 · 180 m', ''.join(page.get_text() for page in plan[1:]))
      sizes = {round(a.font_size / MM, 2) for page in plan[1:] for a in page.get_text_attributes()}
      self.assertIn(round(2.55 * factor, 2), sizes)
    self.assertEqual(self.pdf(FESTIVAL, '--only', 'plan', '--scale', '1:10').get_n_pages(), 1)

  def test_a_lens_that_is_asked_for(self):
    self.assertIn('Legend:Planes', bare(self.pdf(FESTIVAL, '--only', 'plan', '--lens', 'planes').get_page(0).get_text()))

  def test_black_and_white_has_no_colour(self):
    self.pdf(FESTIVAL, '--mono', '--only', 'plan,findings,cards')
    subprocess.run(['pdftoppm', '-r', '30', self.folder / 'papers.pdf', self.folder / 'page'], check=True, timeout=100)
    for path in self.folder.glob('page*.ppm'):
      head, body = path.read_bytes().split(b'\n255\n', 1)
      self.assertEqual(body[0::3], body[1::3], path)
      self.assertEqual(body[0::3], body[2::3], path)

  def test_labels_lie_in_their_grid(self):
    grid = {'top': 20, 'left': 15, 'right': 5, 'bottom': 10, 'gap-x': 4, 'gap-y': 3}
    words = '5x2,first=4,' + ','.join(f'{key}={value}' for key, value in grid.items())
    document = self.pdf(FESTIVAL, '--only', 'labels', '--labels', words)
    data = json.loads(FESTIVAL.read_text())
    n = 2 * len(data['cables']) + len(data['devices'])
    self.assertEqual(document.get_n_pages(), math.ceil((n + 3) / 10))
    width, height = (210 - 15 - 5 - 4) / 2, (297 - 20 - 10 - 4 * 3) / 5
    for page in pages(document)[:3]:
      found, boxes = page.get_text_layout()
      self.assertTrue(found)
      for box in boxes:
        x, y = (box.x1 + box.x2) / 2 / MM, (box.y1 + box.y2) / 2 / MM
        column, row = (x - 15) // (width + 4), (y - 20) // (height + 3)
        self.assertTrue(0 <= column < 2 and 0 <= row < 5)
        self.assertLessEqual(x - 15 - column * (width + 4), width)
        self.assertLessEqual(y - 20 - row * (height + 3), height)
        if page.get_index() == 0:
          self.assertGreaterEqual(row * 2 + column, 3)

  def test_wrong_usage_says_what_would_be_right(self):
    for words, said in ((['--only', 'covers'], 'cover, plan'), (['--paper', 'a9'], 'a4'), (['--labels', '8'], '8x3'),
                        (['--labels', '8x3,tpo=2'], 'tpo=2'), (['--labels', '50x3,top=100,bottom=100'], 'too small'),
                        (['--labels', '2x2,first=9'], 'no label 9'), (['--stock', 'tin:5'], 'copper:5x20'), (['--spares', '-1'], '0 to 1000'),
                        (['--scale', 'big'], '1:2'), (['--scale', '500:1'], '500:1'),
                        (['--lens', 'failure'], 'wiring, planes, hops, load')):
      done = papers(CHAIN, '--output', self.folder / 'none.pdf', *words)
      self.assertEqual((done.returncode, done.stdout), (2, ''), words)
      self.assertTrue(done.stderr.startswith('rigwright-cli: papers: '), done.stderr)
      self.assertIn(said, done.stderr)
      self.assertFalse((self.folder / 'none.pdf').exists())
    self.assertEqual(papers(CHAIN).returncode, 2)
    self.assertEqual(papers('--output', self.folder / 'none.pdf').returncode, 2)

  def test_what_cannot_be_written_is_told(self):
    done = papers(CHAIN, '--output', self.folder / 'no' / 'where.pdf')
    self.assertEqual(done.returncode, 2)
    self.assertIn('where.pdf', done.stderr)
    (self.folder / 'file').write_text('')
    self.assertEqual(papers(CHAIN, '--csv', self.folder / 'file').returncode, 2)


class Revised(Case):
  """A rig that was issued once, and changed since."""
  def issued(self):
    rig = json.loads(FESTIVAL.read_text())
    state = {key: copy.deepcopy(value) for key, value in rig.items() if key != 'rigwright'}
    rig['revisions'] = [{'id': 'revision', 'letter': 'D', 'date': '2031-06-01', 'by': 'Ada Brook', 'what': 'For the venue', 'state': state}]
    return rig

  def test_issues_and_changes_stand_in_the_papers(self):
    rig = self.issued()
    self.assertNotIn('Changedsince', text_of(self.pdf(self.rig(rig), '--only', 'revisions')))
    rig['cables'][0]['length_m'] = 99
    text = text_of(self.pdf(self.rig(rig), '--only', 'revisions'))
    for words in ('2031-06-01', 'Ada Brook', 'For the venue', 'Changed since revision D', f'Cable {rig["cables"][0]["label"]} now 99 m'):
      self.assertEqual(text.count(bare(words)), 1, words)
    tables = self.tables(self.rig(rig), '--only', 'revisions')
    self.assertEqual([row['Revision'] for row in tables['revisions']], ['D'])
    self.assertEqual(len(tables['changes']), 1)

  def test_clouds_go_round_what_changed(self):
    rig = self.issued()
    rig['cables'][0]['length_m'] = 99
    words = 'Changed in the revision of the triangle'
    plain = self.pdf(self.rig(rig), '--only', 'plan', '--paper', 'a1')
    self.assertNotIn(bare(words), text_of(plain))
    for since in ('D', FESTIVAL):
      clouded = self.pdf(self.rig(rig), '--only', 'plan', '--paper', 'a1', '--since', since)
      self.assertIn(bare(words), text_of(clouded))
      # the letter that comes next, once
      self.assertEqual(len(re.findall(r'(?m)^E$', clouded.get_page(0).get_text())),
                       len(re.findall(r'(?m)^E$', plain.get_page(0).get_text())) + 1)
    done = papers(self.rig(rig), '--output', self.folder / 'x.pdf', '--since', 'Q')
    self.assertEqual(done.returncode, 2)
    self.assertIn('its revisions: D', done.stderr)

  def test_each_sheet_alone(self):
    whole = self.pdf(CHAIN)
    folder = self.folder / 'sheets'
    done = papers(CHAIN, '--sheets', folder)
    self.assertEqual((done.returncode, done.stdout, done.stderr), (0, '', ''))
    names = sorted(path.name for path in folder.iterdir())
    self.assertEqual(len(names), whole.get_n_pages())
    self.assertEqual(names[0], '01 Cover.pdf')
    for at, sheet in enumerate(names):
      alone = Poppler.Document.new_from_file((folder / sheet).as_uri(), None)
      self.assertEqual(alone.get_n_pages(), 1)
      self.assertEqual(tuple(alone.get_page(0).get_size()), tuple(whole.get_page(at).get_size()))
      self.assertEqual(sorted(alone.get_page(0).get_text().split()), sorted(whole.get_page(at).get_text().split()))
      self.assertEqual(alone.get_page(0).get_link_mapping(), [])


class Odd(Case):
  def test_a_rig_without_a_title_has_its_files_name(self):
    rig = json.loads(CHAIN.read_text(encoding='utf-8'))
    for title in (None, ''):
      rig['show'] = {'title': title} if title is not None else {}
      path = self.rig(rig).rename(self.folder / 'Two halls, side by side.rig')
      document = self.pdf(path)
      self.assertEqual(document.get_title(), 'Two halls, side by side')
      for page in pages(document)[:3]:
        self.assertIn('Two halls, side by side', page.get_text())
    with open(path, encoding='utf-8') as file:
      done = subprocess.run([PROGRAM, 'papers', '-', '--output', self.folder / 'in.pdf'], stdin=file, check=False, timeout=60)
    self.assertEqual(done.returncode, 0)
    self.assertEqual(Poppler.Document.new_from_file((self.folder / 'in.pdf').as_uri(), None).get_title(), 'Untitled rig')

  def test_devices_as_far_apart_as_can_be(self):
    rig = json.loads(CHAIN.read_text(encoding='utf-8'))
    rig['devices'][0]['at'] = [-100000, -100000]
    rig['devices'][1]['at'] = [100000, 100000]
    self.assertLessEqual(self.pdf(self.rig(rig), '--only', 'plan').get_n_pages(), 201)

  def test_an_empty_rig(self):
    document = self.pdf(self.rig({'rigwright': 1}))
    text = text_of(document)
    for words in ('There are no devices in this rig.', 'There are no cables in this rig.', 'Nothing was found'):
      self.assertIn(bare(words), text)
    self.tables(self.rig({'rigwright': 1}))

  def test_accents_and_other_scripts(self):
    rig = json.loads(CHAIN.read_text())
    for device, text in zip(rig['devices'], ['Bühne Süd, Größe ½', 'Сцена левая', 'Ζωντανός ήχος']):
      device['name'] = text
    text = text_of(self.pdf(self.rig(rig)))
    for device in rig['devices'][:3]:
      self.assertIn(bare(name(device)), text)

  def test_scripts_without_a_font_here_and_right_to_left(self):
    rig = json.loads(CHAIN.read_text())
    for device, text in zip(rig['devices'], ['舞台左手の入出力ラック', 'المسرح الأيسر', '무대 오른쪽']):
      device['name'] = text
    self.assertGreater(self.pdf(self.rig(rig)).get_n_pages(), 5)

  def test_a_label_keeps_the_port_of_a_long_name(self):
    rig = json.loads((EXAMPLES / 'small-chain.rig').read_text())
    for device in rig['devices']:
      device['name'] = 'Monitor position left of the stage ' * 8
    document = self.pdf(self.rig(rig), '--only', 'labels')
    ends = [port for cable in rig['cables'] for _, port in (cable['from'], cable['to'])]
    for port in set(ends):
      # Each end stands on its own label and as the far end on the other's. What is cut away is still text, of no width.
      widths = [(found.x2 - found.x1) / MM for page in pages(document) for found in page.find_text(port)]
      self.assertEqual(len(widths), 2 * ends.count(port))
      self.assertGreater(min(widths), 2)

  def test_very_long_names_and_notes_never_leave_the_frame(self):
    rig = copy.deepcopy(json.loads(CHAIN.read_text()))
    for device in rig['devices']:
      device['name'] = 'Longest name of any rack in the whole of the hall ' * 6
      device['notes'] = 'A note that goes on. ' * 400
      device['location'] = 'Donaudampfschifffahrtsgesellschaftskapitänskajüte' * 3
    for cable in rig['cables']:
      cable['label'] = 'W' * 300
    rig['show'] = {'title': 'Title ' * 100, 'venue': 'Venue' * 60, 'revision': 'R' * 80, 'notes': 'Notes ' * 500}
    document = self.pdf(self.rig(rig))
    for page in pages(document):
      found, boxes = page.get_text_layout()
      width, height = page.get_size()
      for box in boxes if found else []:
        self.assertTrue(box.x1 >= 0 and box.x2 <= width + 0.5 and box.y1 >= -0.5 and box.y2 <= height + 0.5)


if __name__ == '__main__':
  tap.main()
