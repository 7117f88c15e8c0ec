# SPDX-License-Identifier: MIT
"""The line lists: every particular of a line on the paper of whoever needs it, on wide and on narrow paper."""
import json

import tap
from papers_case import FESTIVAL, YIELDING, Case, name, one_line, pages, printed, raw_text, times, words


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

  def test_who_switches_phantom_power_is_warned(self):
    for sort in ([], ['--paper', 'a5', '--portrait']):
      found = 0
      for page in pages(self.pdf(FESTIVAL, '--only', 'lines', *sort)):
        lines = page.get_text().splitlines()
        for title in {'Inputs, by rack', 'Inputs, by console'} & set(lines):
          self.assertIn('Phantom power: mute first', one_line(page.get_text()), title)
          found += 1
      self.assertEqual(found, 2)


if __name__ == '__main__':
  tap.main()
