# SPDX-License-Identifier: MIT
"""What a person chooses of the papers, and rigs that are revised or odd."""
import copy
import json
import math
import re
import subprocess

import gi
gi.require_version('Poppler', '0.18')
from gi.repository import Poppler  # noqa: E402

import tap  # noqa: E402
from papers_case import (  # noqa: E402
  CHAIN, EXAMPLES, FESTIVAL, MM, PROGRAM, SECTIONS, TITLES,
  Case, bare, name, outline, pages, papers, text_of)


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
      begins = '7.Linecheckoftheinputs' in text and 'inputs,continued' not in text
      self.assertEqual('Mutealloutputs' in text, begins or 'phantomon' in text)

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
