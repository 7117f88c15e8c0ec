# SPDX-License-Identifier: MIT
"""Reads back what `rigwright-cli draw` writes: PDF by poppler, SVG by libxml2, PNG by its own bytes."""
import json
import os
import resource
import signal
import struct
import subprocess

import gi
gi.require_version('Poppler', '0.18')
from gi.repository import Poppler  # noqa: E402

import papers_case  # noqa: E402
import tap  # noqa: E402
from papers_case import EXAMPLES, MM, PROGRAM, bare, name as device_name  # noqa: E402

RIGS = ['small-chain', 'redundant', 'festival-60', 'trip-loop', 'trip-not-cabled']

# Paper sizes in mm, portrait: ISO 216, ASME Y14.1.
PAPERS = {'a5': (148, 210), 'a4': (210, 297), 'a3': (297, 420), 'a2': (420, 594), 'a1': (594, 841), 'a0': (841, 1189),
          'letter': (215.9, 279.4), 'legal': (215.9, 355.6), 'tabloid': (279.4, 431.8), 'ansi-c': (431.8, 558.8),
          'ansi-d': (558.8, 863.6), 'ansi-e': (863.6, 1117.6)}


def draw(rig, output, *options, **more):
  return subprocess.run([PROGRAM, 'draw', str(rig), '--output', str(output), *options], capture_output=True, text=True,
                        timeout=100, **more)


def findings(rig):
  done = subprocess.run([PROGRAM, 'check', '--json', str(rig)], capture_output=True, text=True, timeout=60)
  return json.loads(done.stdout)['findings']


def run(*words):
  return subprocess.run([str(word) for word in words], capture_output=True, text=True, check=True, timeout=60).stdout


class Case(papers_case.Case):
  def draw(self, rig, name, *options, **more):
    path = self.folder / name
    done = draw(rig, path, *options, **more)
    self.assertEqual((done.returncode, done.stdout, done.stderr), (0, '', ''))
    return path

  def write_rig(self, name, rig):
    path = self.folder / name
    path.write_text(json.dumps(rig))
    return path


class Lens(Case):
  def first_page(self, *options):
    pdf = self.draw(EXAMPLES / 'redundant.rig', 'lens.pdf', *options)
    return bare(run('pdftotext', '-f', 1, '-l', 1, pdf, '-'))

  def test_legend_names_the_lens(self):
    self.assertIn('Legend:Planes', self.first_page('--lens', 'planes'))
    self.assertIn('Secondarynetwork,', self.first_page('--lens', 'planes', '--mono'))
    self.assertNotIn('Legend:', self.first_page('--lens', 'wiring'))

  def test_hops_from(self):
    device = json.loads((EXAMPLES / 'redundant.rig').read_text())['devices'][-1]
    self.assertIn(bare('Legend: Hops from ' + device_name(device)),
                  self.first_page('--lens', 'hops', '--from', device['id']))
    self.assertIn(bare('Legend: Hops from ' + device_name(device)),
                  self.first_page('--lens', 'hops', '--from', device_name(device)))

  def test_load(self):
    page = self.first_page('--lens', 'load')
    self.assertIn('Legend:Load:planningfigures', page)
    self.assertRegex(page, r'[0-9.]+%')

  def test_failure(self):
    pdf = self.draw(EXAMPLES / 'festival-60.rig', 'failure.pdf', '--lens', 'failure', '--fail', 'al01', '--fail', 'net-foh-b')
    first, rest = (bare(run('pdftotext', '-f', a, '-l', b, pdf, '-')) for a, b in ((1, 1), (2, 4)))
    self.assertIn('Legend:Failure:', first)
    self.assertIn('Whatthefailurecosts', rest)
    self.assertIn('FOHB', rest)

  def test_fail_needs_its_lens(self):
    for options, said in ((('--fail', 'c1'), '--lens failure'), (('--lens', 'failure', '--fail', 'nobody'), 'nobody')):
      done = draw(EXAMPLES / 'festival-60.rig', self.folder / 'x.pdf', *options)
      self.assertEqual(done.returncode, 2)
      self.assertIn(said, done.stderr)

  def test_wrong_words(self):
    for options, said in ((('--lens', 'rose'), 'wiring, planes, hops, load, failure'), (('--from', 'nobody'), 'nobody')):
      done = draw(EXAMPLES / 'redundant.rig', self.folder / 'x.pdf', *options)
      self.assertEqual(done.returncode, 2)
      self.assertIn(said, done.stderr)
      self.assertFalse((self.folder / 'x.pdf').exists())


class Units(Case):
  def test_feet_and_inches(self):
    rig = json.loads((EXAMPLES / 'redundant.rig').read_text())
    metres = next(c['length_m'] for c in rig['cables'] if c.get('length_m'))
    inches = round(metres / 0.0254)  # the international inch is 25.4 mm exactly (1959; NIST SP 811)
    said = bare('′ '.join([str(inches // 12), f'{inches % 12}″']) if inches % 12 else f'{inches // 12}′')
    pdf = self.draw(EXAMPLES / 'redundant.rig', 'feet.pdf', '--units', 'ft')
    text = bare(run('pdftotext', pdf, '-'))
    self.assertGreaterEqual(text.count(said), 2)  # on the drawing and in the list
    self.assertNotIn('Length,m', text)

  def test_no_such_units(self):
    done = draw(EXAMPLES / 'redundant.rig', self.folder / 'x.pdf', '--units', 'yd')
    self.assertEqual(done.returncode, 2)
    self.assertIn('m or ft', done.stderr)


class Pdf(Case):
  def test_text(self):
    for name in RIGS:
      with self.subTest(rig=name):
        source = EXAMPLES / f'{name}.rig'
        rig = json.loads(source.read_text())
        pdf = self.draw(source, f'{name}.pdf')
        first, rest = (bare(run('pdftotext', '-f', a, '-l', b, pdf, '-')) for a, b in ((1, 1), (2, 99)))
        for device in rig['devices']:
          self.assertIn(bare(device_name(device)), first)
        for cable in rig.get('cables', []):
          self.assertIn(bare(cable.get('label', cable['id'])), rest)
        for finding in findings(source):
          self.assertIn(bare(finding['message']), rest)
          self.assertIn(bare(finding['remedy']), rest)
        self.assertIn(bare(rig['show']['title']), first)
        self.assertIn(bare('it does not certify an installation.'), first)
        self.assertIn(bare('it does not certify an installation.'), rest)

  def test_pages_have_the_papers_size(self):
    for paper, (w, h) in PAPERS.items():
      for upright in (False, True):
        pdf = self.draw(EXAMPLES / 'redundant.rig', 'p.pdf', '--paper', paper, *(['--portrait'] if upright else []))
        document = Poppler.Document.new_from_file(pdf.as_uri(), None)
        for i in range(document.get_n_pages()):
          size = [side / MM for side in document.get_page(i).get_size()]
          for found, wanted in zip(size, (w, h) if upright else (h, w)):
            self.assertAlmostEqual(found, wanted, delta=0.01)

  def test_fonts_are_embedded(self):
    lines = run('pdffonts', self.draw(EXAMPLES / 'festival-60.rig', 'f.pdf')).splitlines()[2:]
    self.assertGreaterEqual(len(lines), 2)
    for line in lines:
      embedded, subset, unicode = line.split()[-5:-2]
      self.assertEqual((embedded, subset, unicode), ('yes', 'yes', 'yes'), line)
      self.assertIn('DejaVu', line)

  def test_says_what_it_is(self):
    source = EXAMPLES / 'small-chain.rig'
    show = json.loads(source.read_text())['show']
    environment = dict(os.environ, SOURCE_DATE_EPOCH='1900000000')
    document = Poppler.Document.new_from_file(self.draw(source, 'd.pdf', env=environment).as_uri(), None)
    self.assertEqual(document.get_title(), show['title'])
    self.assertEqual(document.get_author(), show['drawn_by'])
    self.assertEqual(document.get_subject(), 'Cable plan')
    self.assertRegex(document.get_creator(), r'^Rigwright \d')
    self.assertEqual(document.get_creation_date(), 1900000000)

  def outline(self, document):
    found = []
    walk = Poppler.IndexIter.new(document)
    while walk is not None:
      action = walk.get_action()  # held: it owns what it points to
      found.append((action.any.title, action.goto_dest.dest.page_num))
      if not walk.next():
        break
    return found

  def test_outline(self):
    for name in RIGS:
      with self.subTest(rig=name):
        document = Poppler.Document.new_from_file(self.draw(EXAMPLES / f'{name}.rig', f'{name}.pdf').as_uri(), None)
        outline = self.outline(document)
        self.assertEqual([title for title, page in outline], ['Drawing', 'Cable list', 'Findings'])
        for title, page in outline[1:]:
          self.assertIn(title, document.get_page(page - 1).get_text().splitlines()[:80])
        self.assertEqual(outline[0][1], 1)

  def links(self, document):
    """Names of the places that the links of the lists lead to."""
    found = []
    for i in range(1, document.get_n_pages()):
      page = document.get_page(i)
      for mapping in page.get_link_mapping():
        action = mapping.action  # held: it owns what it points to
        found.append(action.goto_dest.dest.named_dest)
    return found

  def test_rows_lead_to_the_drawing(self):
    source = EXAMPLES / 'redundant.rig'
    rig = json.loads(source.read_text())
    document = Poppler.Document.new_from_file(self.draw(source, 'l.pdf').as_uri(), None)
    first = document.get_page(0)
    links = self.links(document)
    for index, cable in enumerate(rig['cables']):
      place = document.find_dest(f'cable-{index}')
      self.assertEqual(place.page_num, 1)
      self.assertIn(f'cable-{index}', links)
      labels = first.find_text(cable['label'] + ' ')
      self.assertTrue(labels, cable['label'])
      # The place is a little above and left of the label (30 mm at the most): both are then in sight.
      self.assertTrue(any(abs(place.left - label.x1) < 40 * MM and abs(place.top - label.y2) < 40 * MM for label in labels),
                      (cable, place.left, place.top, [(label.x1, label.y2) for label in labels]))

  def test_findings_lead_to_their_balloons(self):
    source = EXAMPLES / 'trip-loop.rig'
    document = Poppler.Document.new_from_file(self.draw(source, 'l.pdf').as_uri(), None)
    links = self.links(document)
    for index in range(len(findings(source))):
      self.assertIn(f'finding-{index}', links)
      self.assertEqual(document.find_dest(f'finding-{index}').page_num, 1)

  def test_very_long_names(self):
    rig = json.loads((EXAMPLES / 'small-chain.rig').read_text())
    long = 'Monitor position at the far end of the second stage, behind the curtain, ' * 3
    for device in rig['devices']:
      device['name'] = long + device['id']
    for cable in rig['cables']:
      cable['label'] = 'W' * 90 + cable['id']
    rig['show'] = {'title': long, 'venue': long, 'drawn_by': long, 'revision': long, 'date': long}
    source = self.write_rig('long.rig', rig)
    for options, least in (([], 90), (['--paper', 'a5', '--portrait'], 20)):
      pdf = self.draw(source, 'long.pdf', *options)
      text = bare(run('pdftotext', '-f', 2, '-l', 99, pdf, '-'))
      document = Poppler.Document.new_from_file(pdf.as_uri(), None)
      for i in range(document.get_n_pages()):
        page = document.get_page(i)
        width, height = page.get_size()
        ok, boxes = page.get_text_layout()
        for box in boxes:
          # Inside the border with the grid reference: 15 mm from the left, 5 mm from the other edges.
          self.assertTrue(15 * MM <= box.x1 <= box.x2 <= width - 5 * MM and 4 * MM <= box.y1 <= box.y2 <= height - 4 * MM,
                          (i, box.x1, box.y1, box.x2, box.y2))
      self.assertGreaterEqual(text.count('W'), least * len(rig['cables']))

  def test_empty_rig(self):
    source = self.write_rig('empty.rig', {'rigwright': 1})
    text = run('pdftotext', self.draw(source, 'e.pdf'), '-')
    for words in ('There are no devices in this rig.', 'There are no cables in this rig.', 'empty', '1 of 2'):
      self.assertIn(words, text)
    self.assertNotIn('Untitled rig', text)


class Others(Case):
  def test_svg_is_well_formed_and_true_to_size(self):
    for name in RIGS:
      svg = self.draw(EXAMPLES / f'{name}.rig', f'{name}.svg', '--paper', 'a4')
      run('xmllint', '--noout', '--nonet', svg)
      self.assertRegex(svg.read_text()[:400], r'width="297mm" height="210mm"')

  def png(self, path):
    data = path.read_bytes()
    self.assertEqual(data[:8], b'\x89PNG\r\n\x1a\n')
    width, height = struct.unpack('>II', data[16:24])
    at = data.index(b'pHYs')
    return width, height, struct.unpack('>IIB', data[at + 4:at + 13])

  def test_png_is_paper_times_dpi(self):
    for paper, dpi in (('a4', 36), ('a4', 150), ('letter', 96), ('a2', 72.5), ('a5', 1200)):
      w, h = PAPERS[paper]
      path = self.draw(EXAMPLES / 'small-chain.rig', 'p.png', '--paper', paper, '--dpi', str(dpi))
      width, height, pixel = self.png(path)
      self.assertEqual((width, height), (round(h / 25.4 * dpi), round(w / 25.4 * dpi)))
      self.assertEqual(pixel, (round(dpi / 0.0254), round(dpi / 0.0254), 1))
      # libpng checks the sums of all chunks
      self.assertIn(f'{width}x{height}', run('identify', path))

  def test_same_rig_same_bytes(self):
    environment = dict(os.environ, SOURCE_DATE_EPOCH='1700000000')
    for kind in ('pdf', 'png', 'svg'):
      one, two = (self.draw(EXAMPLES / 'redundant.rig', f'{n}.{kind}', env=environment).read_bytes() for n in 'ab')
      self.assertEqual(one, two, kind)

  def test_mono_has_no_colour(self):
    path = self.draw(EXAMPLES / 'trip-loop.rig', 'm.png', '--mono', '--dpi', '60')
    self.assertLess(self.saturation(path), 1e-6)
    self.assertGreater(self.saturation(self.draw(EXAMPLES / 'trip-loop.rig', 'c.png', '--dpi', '60')), 0.1)

  def saturation(self, path):
    return float(run('convert', path, '-colorspace', 'HSL', '-channel', 'G', '-separate', '-format', '%[fx:maxima]', 'info:'))


class Failures(Case):
  def refuse(self, rig, output, *options, **more):
    done = draw(rig, output, *options, **more)
    self.assertEqual((done.returncode, done.stdout), (2, ''))
    self.assertRegex(done.stderr, r'^rigwright-cli: .+\n$')
    return done.stderr

  def test_wrong_words(self):
    rig = EXAMPLES / 'small-chain.rig'
    for options, word in ((['--paper', 'a9'], 'a9'), (['--scale', '2:'], '2:'), (['--scale', 'big'], 'big'), (['--scale', '0'], '0'),
                          (['--dpi', '20'], '20'), (['--dpi', 'nan'], 'nan'), (['--scale', '50:1'], 'scale')):
      self.assertIn(word, self.refuse(rig, self.folder / 'x.png', *options))
    self.assertIn('.pdf', self.refuse(rig, self.folder / 'x.gif'))
    self.assertIn('--output', subprocess.run([PROGRAM, 'draw', rig], capture_output=True, text=True).stderr)
    self.assertEqual(os.listdir(self.folder), [])

  def test_unreadable_rig(self):
    message = self.refuse(self.folder / 'none.rig', self.folder / 'x.pdf')
    self.assertIn('none.rig', message)
    self.assertEqual(os.listdir(self.folder), [])

  def test_folder_that_is_not_there(self):
    path = self.folder / 'none' / 'x.pdf'
    self.assertTrue(self.refuse(EXAMPLES / 'small-chain.rig', path).startswith(f'rigwright-cli: {path}: '))

  def test_no_room_leaves_the_old_file(self):
    def limit():
      signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
      resource.setrlimit(resource.RLIMIT_FSIZE, (2000, 2000))

    for kind in ('pdf', 'png', 'svg'):
      path = self.folder / f'x.{kind}'
      path.write_bytes(b'old')
      self.refuse(EXAMPLES / 'festival-60.rig', path, preexec_fn=limit)
      self.assertEqual(path.read_bytes(), b'old')
      path.unlink()
      self.refuse(EXAMPLES / 'festival-60.rig', path, preexec_fn=limit)
      self.assertEqual(os.listdir(self.folder), [])


if __name__ == '__main__':
  tap.main()
