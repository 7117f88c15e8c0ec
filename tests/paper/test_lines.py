# SPDX-License-Identifier: MIT
"""The line lists: every particular of a line on the paper of whoever needs it, on wide and on narrow paper."""
import json
import re

import tap
from papers_case import FESTIVAL, YIELDING, Case, findings, name, one_line, printed, raw_text, times, words


class Particulars(Case):
  def full(self):
    """The festival, where all is known of each line."""
    rig = json.loads(FESTIVAL.read_text(encoding='utf-8'))
    for at, channel in enumerate(rig['channels']):
      channel['notes'] = f'Note {at}: keep the spare one warm until the break'
      if channel['side'] == 'send':
        channel.update(gain_db=at + 0.5, high_pass_hz=20 + at, stand=f'tall boom {at}')
    part = next(part for part in rig['parts'] if part['kind'] == 'controller' and part.get('local_inputs'))
    desk = next(device['id'] for device in rig['devices'] if device['part'] == part['id'])
    rig['inside'].append({'id': 'own', 'device': desk, 'from': ['local', 3], 'to': ['strip', part['strips']]})
    rig['channels'].append({'device': desk, 'side': 'strip', 'number': part['strips'], 'name': 'Talkback', 'phantom': True,
                            'source': 'condenser', 'gain_db': 31, 'high_pass_hz': 150, 'stand': 'gooseneck', 'notes': 'On the desk'})
    return rig

  def test_each_list_has_what_its_reader_needs(self):
    rig = self.full()
    names = {device['id']: name(device) for device in rig['devices']}
    tables = self.tables(self.rig(rig), '--only', 'lines')
    sends = {(names[c['device']], str(c['number'])): c for c in rig['channels'] if c['side'] == 'send'}
    known = [row for row in tables['inputs-by-rack'] if (row['Device'], row['Input']) in sends]
    self.assertEqual(len(known), len(sends))
    for row in known:
      channel = sends[row['Device'], row['Input']]
      self.assertEqual((float(row['Gain, dB']), row['Stand'], row['Notes']), (channel['gain_db'], channel['stand'], channel['notes']))
      self.assertEqual(row['Phantom'] == 'on', channel.get('phantom', False))
    fed = [row for row in tables['inputs-by-console'] if tuple(row['Comes from'].split(' · ')) in sends]
    self.assertGreater(len(fed), len(sends))
    for row in fed:
      channel = sends[tuple(row['Comes from'].split(' · '))]
      self.assertEqual((float(row['Gain, dB']), float(row['High-pass, Hz']), row['Notes'], row['Phantom'] == 'on'),
                       (channel['gain_db'], channel['high_pass_hz'], channel['notes'], channel.get('phantom', False)))
    buses = {(names[c['device']], str(c['number'])): c['notes'] for c in rig['channels'] if c['side'] == 'bus'}
    for row in tables['outputs-by-console']:
      self.assertEqual(row['Notes'], buses.get((row['Console'], row['Bus']), ''))
    noted = [row['Notes'] for row in tables['outputs-by-rack'] if row['Notes']]
    self.assertEqual(set(noted), set(buses.values()))

  def test_a_consoles_own_socket_is_known_at_both_ends(self):
    tables = self.tables(self.rig(self.full()), '--only', 'lines')
    row, = [row for row in tables['inputs-by-rack'] if row['Name'] == 'Talkback']
    self.assertEqual((row['Input'], row['Source'], row['Phantom'], row['Gain, dB'], row['Stand'], row['Goes to'], row['Notes']),
                     ('3', 'Condenser microphone', 'on', '31', 'gooseneck', 'strip 48', 'On the desk'))
    row, = [row for row in tables['inputs-by-console'] if row['Name'] == 'Talkback']
    self.assertEqual((row['Source'], row['Phantom'], row['Gain, dB'], row['High-pass, Hz'], row['Notes']),
                     ('Condenser microphone', 'on', '31', '150', 'On the desk'))

  def test_nothing_is_lost_or_broken_on_any_paper(self):
    rig = self.full()
    for device in rig['devices']:
      device['name'] = name(device) + ' Beleuchterbrücke'
    for channel in rig['channels']:
      channel['name'] = channel['name'] + ' Ersatzmikrofon'
    path = self.rig(rig)
    tables = self.tables(path, '--only', 'lines')
    for sort in ([], ['--portrait'], ['--paper', 'a5'], ['--paper', 'a5', '--portrait']):
      n_pages = self.pdf(path, '--only', 'lines', *sort).get_n_pages()
      text = words(raw_text(self.folder / 'papers.pdf', 1, n_pages))
      for stem in tables:
        rows = self.cells(stem)
        found = [n for n in range(len(YIELDING[stem]) + 1) if all(times(printed(stem, row, n), text) >= 1 for row in rows)]
        with self.subTest(list=stem, paper=sort):
          self.assertNotEqual(found, [])
          if stem.startswith('inputs'):
            self.assertEqual(found == [0], not sort)

  def test_each_sheet_that_orders_phantom_power_warns(self):
    """Sheets go to different people: whoever holds one has the caution, once."""
    orders = {'lines': (r'Inputs, by .*(?<!\S)on(?!\S)', 'Phantom power: mute first'), 'cards': ('phantom on', 'Switch phantom power only'),
              'proving': ('phantom on', 'Switch phantom power only')}
    for section, (order, caution) in orders.items():
      for sort in ([], ['--paper', 'a5'], ['--paper', 'a5', '--portrait']):
        n_pages = self.pdf(FESTIVAL, '--only', section, *sort).get_n_pages()
        n_orders = 0
        for page in range(1, n_pages + 1):
          text = one_line(raw_text(self.folder / 'papers.pdf', page, page))
          ordered = re.search(order, text) is not None
          n_orders += ordered
          with self.subTest(section=section, paper=sort, page=page):
            self.assertLessEqual(text.count(caution), 1)
            self.assertLessEqual(ordered, text.count(caution))
            if section == 'lines':
              self.assertEqual(ordered, text.count(caution))
        self.assertGreater(n_orders, 1, (section, sort))

  def test_lists_without_phantom_power_have_no_caution(self):
    rig = json.loads(FESTIVAL.read_text(encoding='utf-8'))
    for channel in rig['channels']:
      channel.pop('phantom', None)
    for bare_rig in (rig, {'rigwright': 1}):
      self.pdf(self.rig(bare_rig), '--only', 'lines')
      self.assertNotIn('Phantom power:', one_line(raw_text(self.folder / 'papers.pdf', 1, 99)))

  def test_a_row_says_what_the_rule_has_against_phantom_power(self):
    rig = json.loads(FESTIVAL.read_text(encoding='utf-8'))
    sources = ['condenser', 'dynamic', 'ribbon', 'di-active', 'di-passive', 'line', 'radio', None]
    rack = next(c['device'] for c in rig['channels'] if c.get('phantom'))
    patched = sorted({row['from'][1] for row in rig['patch'] if row['from'][0] == rack})[:len(sources)]
    self.assertEqual(len(patched), len(sources))
    rig['channels'] = [{'device': rack, 'side': 'send', 'number': number, 'name': f'Line {number}', 'phantom': True,
                        **({'source': source} if source else {})} for number, source in zip(patched, sources)]
    path = self.rig(rig)
    found = {number for finding in findings(path) if finding['code'] == 'phantom-harm' for _, _, number in finding['channels']}
    self.assertEqual(len(found), 4)
    tables = self.tables(path, '--only', 'lines,cards,proving')
    told = {stem: {int(re.search(r'Line (\d+)', text)[1]) for text in map(' '.join, map(dict.values, tables[stem])) if 'on – check: ' in text}
            for stem in ('inputs-by-rack', 'inputs-by-console', 'cards', 'proving-inputs')}
    self.assertEqual(told, dict.fromkeys(told, found))
    row, = [row for row in tables['inputs-by-rack'] if row['Source'] == 'Ribbon microphone']
    self.assertEqual(row['Phantom'], 'on – check: Ribbon microphone')


if __name__ == '__main__':
  tap.main()
