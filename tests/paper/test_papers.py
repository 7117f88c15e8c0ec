# SPDX-License-Identifier: MIT
"""Reads back what `rigwright-cli papers` writes: the PDF by poppler, the tables by Python's own CSV reader."""
import collections
import csv
import json
import math
import re
import subprocess
import tempfile
from pathlib import Path

import gi
gi.require_version('Poppler', '0.18')
from gi.repository import Poppler  # noqa: E402

import tap  # noqa: E402
from papers_case import (  # noqa: E402
  CHAIN, EXAMPLES, FESTIVAL, MM, PROGRAM, TITLES, YIELDING,
  Case, bare, name, outline, pages, papers, printed, raw_text, times, words)


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

  def rows(self, stem, text):
    """As they are printed in @text: with as few columns that yielded as will do."""
    cells = [row[1:] if stem in self.BESIDE else row for row in self.cells(stem)]
    forms = [[printed(stem, row, n) for row in cells] for n in range(len(YIELDING.get(stem, [])) + 1)]
    return next((rows for rows in forms if all(times(row, text) for row in rows)), forms[0])

  def compare(self, rig, *choices):
    document = self.pdf(rig, *choices)
    self.tables(rig, *choices)
    starts = outline(document) + [('', document.get_n_pages() + 1, 0)]
    written = {path.stem for path in (self.folder / 'csv').iterdir()}
    self.assertEqual(written - set().union(*self.HOMES.values()), set())
    compared = set()
    for (title, first, _), (_, after, _) in zip(starts, starts[1:]):
      text = words(raw_text(self.folder / 'papers.pdf', first, after - 1))
      rows = [row for stem in sorted(self.HOMES.get(title, set()) & written) for row in self.rows(stem, text)]
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

  def test_no_word_is_broken_on_narrow_paper(self):
    self.tables(FESTIVAL)
    for sort in (['--portrait'], ['--paper', 'a5', '--portrait']):
      document = self.pdf(FESTIVAL, *sort)
      there = set(words(raw_text(self.folder / 'papers.pdf', 1, document.get_n_pages())).replace('-', ' ').split())
      for stem in set().union(*self.HOMES.values()) - {'changes', 'labels'}:
        said = {word for row in self.cells(stem) for _, cell in row for word in cell.replace('-', ' ').split()}
        with self.subTest(table=stem, paper=sort):
          self.assertEqual(said - there - {'—'}, set())

  def test_notes_of_cables_are_with_whoever_lays_them(self):
    rig = json.loads(FESTIVAL.read_text(encoding='utf-8'))
    for at, cable in enumerate(rig['cables']):
      cable['notes'] = f'Note {at}: goes under the ramp' if at % 2 == 0 else ''
    notes = {cable['label']: cable['notes'] for cable in rig['cables']}
    for sort in ([], ['--paper', 'a5', '--portrait']):
      self.compare(self.rig(rig), '--only', 'cables,pull', *sort)
    for rows in map(self.tables(self.rig(rig), '--only', 'cables,pull').get, ('cables', 'pull-cables')):
      self.assertEqual({row['Label']: row['Notes'] for row in rows}, notes)

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

  def test_cards_tell_the_smallest_safe_latency(self):
    """Of the delays that `facts` tells: the longest to each device, in whole packet times, and more than a tenth away."""
    data = json.loads(FESTIVAL.read_text())
    done = subprocess.run([PROGRAM, 'facts', '--json', FESTIVAL], capture_output=True, text=True, check=True, timeout=60)
    worst = collections.defaultdict(float)
    for path in json.loads(done.stdout)['paths']:
      worst[path['to']] = max(worst[path['to']], path['delay_ns'] / 1e3)
    told = {row['Device']: row['To'] for row in self.tables(FESTIVAL)['cards'] if row['What'] == 'Receive latency'}
    self.assertGreater(len(worst), 5)
    for device in data['devices']:
      delay = worst.get(device['id'])
      if delay is None:
        self.assertNotIn('smallest', told.get(name(device), ''))
        continue
      safe = math.ceil(delay / 125) * 125
      safe += 125 if delay > safe * 0.9 else 0
      self.assertRegex(told[name(device)], rf'^\d+ µs \(smallest safe {safe} µs: what .+ sends takes up to {delay:.0f} µs\)$')

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


if __name__ == '__main__':
  tap.main()
