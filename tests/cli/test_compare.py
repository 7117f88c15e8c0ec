# SPDX-License-Identifier: MIT
"""rigwright-cli compare: against a comparison of the two files' JSON worked out here, and words as they are read."""
import copy
import json
import os
import random
import tempfile
import unittest

import tap
from cli import FIXTURES, TOP, read, run

FESTIVAL = TOP / 'data' / 'examples' / 'festival-60.rig'
CHAIN = FIXTURES / 'loop' / 'good-chain-of-three.rig'
SMALL = FIXTURES.parents[1] / 'data' / 'examples' / 'small-chain.rig'
LISTS = {'parts': 'part', 'devices': 'device', 'cables': 'cable', 'patch': 'patch', 'inside': 'inside', 'channels': 'channel'}


def key_of(name, item):
  if name == 'channels':
    return f'channel/{item["device"]}/{item["side"]}/{item["number"]}'
  return item['id']


def items_of(rig):
  """All items of a rig by (type, id)."""
  items = {('show', 'show'): rig.get('show', {}), ('system', 'system'): rig.get('system', {})}
  for name, kind in LISTS.items():
    items.update({(kind, key_of(name, item)): item for item in rig.get(name, [])})
  return items


def expected(old, new):
  """What compare has to say, as {(kind, type, id): fields}, where no item changes its place among the others."""
  before, after = items_of(old), items_of(new)
  changes = {}
  for item in before.keys() | after.keys():
    a, b = before.get(item), after.get(item)
    kind = 'added' if a is None else 'removed' if b is None else 'changed'
    names = (a or {}).keys() | (b or {}).keys()
    fields = {name: [(a or {}).get(name), (b or {}).get(name)] for name in names
              if a is None or b is None or (a.get(name) or None) != (b.get(name) or None)}
    if a is None or b is None or fields:
      changes[kind, *item] = fields
  return changes


class Compare(unittest.TestCase):
  def setUp(self):
    self.folder = tempfile.TemporaryDirectory()
    self.addCleanup(self.folder.cleanup)

  def write(self, name, rig):
    path = os.path.join(self.folder.name, name)
    with open(path, 'w', encoding='utf-8') as file:
      json.dump(rig, file)
    return path

  def compare(self, old, new, *options):
    done = run('compare', *options, self.write('old.rig', old), self.write('new.rig', new))
    self.assertEqual(done.stderr, b'')
    return done.returncode, done.stdout.decode()

  def changes(self, old, new):
    status, text = self.compare(old, new, '--json')
    report = read(text.encode())
    self.assertEqual(list(report), ['changes'])
    for change in report['changes']:
      self.assertEqual(list(change), ['kind', 'type', 'id', 'message', 'fields'])
      self.assertTrue(change['message'])
    self.assertEqual(status, 1 if report['changes'] else 0)
    return report['changes']

  def words(self, change, source=CHAIN):
    old = json.loads(source.read_text())
    new = copy.deepcopy(old)
    change(new)
    status, text = self.compare(old, new)
    self.assertEqual(status, 1)
    return text.splitlines()


def mutate(rig, rng):
  """One to eight edits that leave every other item where it stands."""
  for _ in range(rng.randint(1, 8)):
    edit = rng.randrange(9)
    cable, device = rng.choice(rig['cables']), rng.choice(rig['devices'])
    if edit == 0:
      cable['length_m'] = rng.choice([1, 2.5, 20, 50, 90])
    elif edit == 1:
      cable['label'] = f'L-{rng.randint(1, 99)}'
    elif edit == 2:
      device['name'] = f'名前 {rng.randint(1, 99)}'
    elif edit == 3:
      device['at'] = [5 * rng.randint(0, 200), 5 * rng.randint(0, 200)]
    elif edit == 4:
      rig['cables'].remove(cable)
    elif edit == 5:
      rig['patch'].pop(rng.randrange(len(rig['patch'])))
    elif edit == 6:
      new = copy.deepcopy(cable)
      new['id'] = f'new-{rng.randint(1, 10**9)}'
      rig['cables'].append(new)
    elif edit == 7:
      rig['show']['revision'] = rng.choice('ABCDEF')
    else:
      device['location'] = rng.choice(['Roof', 'Cellar', 'Yard'])


class Random(Compare):
  def test_as_worked_out_here(self):
    festival = json.loads(FESTIVAL.read_text())
    rng = random.Random(5)
    sizes = set()
    for case in range(60):
      old = copy.deepcopy(festival)
      mutate(old, rng)
      new = copy.deepcopy(old)
      mutate(new, rng)
      with self.subTest(case=case):
        found = {(c['kind'], c['type'], c['id']): c['fields'] for c in self.changes(old, new)}
        self.assertEqual(found, expected(old, new))
        sizes.add(len(found))
    self.assertGreater(len(sizes), 4)

  def test_nothing_between_a_rig_and_itself(self):
    for path in sorted((TOP / 'data' / 'examples').glob('*.rig')):
      done = run('compare', path, path)
      self.assertEqual((done.returncode, done.stdout, done.stderr), (0, b'', b''), path)
      done = run('compare', '--json', path, path)
      self.assertEqual((done.returncode, read(done.stdout)), (0, {'changes': []}), path)


class Stored(Compare):
  """A stored state is one line, and in JSON the counts of what is in it."""

  def test_one_line(self):
    old = json.loads(CHAIN.read_text())
    state = {name: copy.deepcopy(old[name]) for name in LISTS if name in old}
    new = copy.deepcopy(old)
    new['revisions'] = [{'id': 'r', 'letter': 'B', 'state': state}]
    self.assertEqual(self.compare(old, new), (1, 'Issued revision B added\n'))
    counts = {name: len(state.get(name, [])) for name in LISTS}
    self.assertEqual(self.changes(old, new), [
      {'kind': 'added', 'type': 'revision', 'id': 'r', 'message': 'Issued revision B added',
       'fields': {'id': [None, 'r'], 'letter': [None, 'B'], 'state': [None, counts]}}])

  def test_changes_inside(self):
    old = json.loads(CHAIN.read_text())
    old['sets'] = [{'id': 's', 'name': 'Act one', 'state': {name: copy.deepcopy(old[name]) for name in ('parts', 'devices')}}]
    new = copy.deepcopy(old)
    for device in new['sets'][0]['state']['devices'][:2]:
      device['name'] = 'Other'
    self.assertEqual(self.compare(old, new), (1, 'Patch set Act one: Stored state: 2 changes\n'))


class Words(Compare):
  def test_a_length(self):
    old = json.loads(CHAIN.read_text())
    old['cables'][0].update(label='N-04', length_m=20)
    new = copy.deepcopy(old)
    new['cables'][0]['length_m'] = 50
    self.assertEqual(self.compare(old, new), (1, 'Cable N-04 now 50 m, was 20 m\n'))
    self.assertEqual(self.changes(old, new)[0]['fields'], {'length_m': [20, 50]})

  def test_a_length_in_feet(self):
    """20 m = 65 ft 7 in, 50 m = 164 ft 1 in, to the nearest inch."""
    old = json.loads(CHAIN.read_text())
    old['cables'][0].update(label='N-04', length_m=20)
    new = copy.deepcopy(old)
    new['cables'][0]['length_m'] = 50
    self.assertEqual(self.compare(old, new, '--units', 'ft'), (1, 'Cable N-04 now 164′ 1″, was 65′ 7″\n'))

  def test_several_fields_of_one_cable(self):
    def change(rig):
      rig['cables'][0].update(grade='cat6a', length_m=12.5, colour='BU')
    old = json.loads(CHAIN.read_text())
    title = old['cables'][0].get('label', old['cables'][0]['id'])
    old_length = old['cables'][0].get('length_m', 0)
    line, = self.words(change)
    self.assertEqual(line, f'Cable {title}: Grade now Cat 6A, was not given; Length now 12.5 m, was {old_length:g} m; '
                     'Jacket colour now “BU”, was not given')

  def test_words_of_the_table_and_the_old_name(self):
    def change(rig):
      rig['devices'][1].update(mode='redundant', name='Left wing', clock={'priority1': 100})
    self.assertEqual(self.words(change), ['Device Stage left: Name now “Left wing”, was “Stage left”; Port mode now Redundant, '
                                          'was Chain; Clock: Priority 1 now 100, was 128'])

  def test_ends_by_the_names_of_devices(self):
    line, = self.words(lambda rig: rig['cables'][0].update({'from': ['right', 'Secondary']}))
    self.assertIn('From now Stage right, port Secondary, was ', line)

  def test_a_number_apart_from_a_name_that_ends_in_one(self):
    old = json.loads(SMALL.read_text())
    next(device for device in old['devices'] if device['id'] == 'left')['name'] = 'Rack 1'
    new = copy.deepcopy(old)
    row = next(row for row in new['patch'] if row['from'] == ['left', 1])
    row['from'] = ['left', 20]
    line = self.compare(old, new)[1]
    self.assertIn(f'Patch row Rack 1, send 1 → FOH desk, receive {row["to"][1]}', line)
    self.assertIn('now Rack 1, send 20, was Rack 1, send 1\n', line)

  def test_an_id_that_is_off(self):
    line, = self.words(lambda rig: rig['devices'][0].pop('controller_id'))
    self.assertEqual(line, 'Device FOH desk: Controller ID now not given, was 1')

  def test_order(self):
    lines = self.words(lambda rig: rig['cables'].reverse())
    self.assertEqual(len(lines), 1)
    self.assertIn('Order now ', lines[0])

  def test_added_and_removed(self):
    def change(rig):
      rig['cables'].pop(0)
      rig['channels'] = [{'device': 'foh', 'side': 'strip', 'number': 3, 'name': 'Kick'}]
    lines = self.words(change)
    self.assertTrue(lines[0].startswith('Cable ') and lines[0].endswith(' removed'), lines)
    self.assertEqual(lines[1], 'Strip 3 of FOH desk added')

  def test_members_that_are_not_known(self):
    line, = self.words(lambda rig: rig['devices'][0].update(paint='green'))
    self.assertEqual(line, 'Device FOH desk: members that this program does not know changed')

  def test_defaults_that_are_written_out_are_no_change(self):
    old = json.loads(CHAIN.read_text())
    new = copy.deepcopy(old)
    new['devices'][1].update(mode='chain', notes='', querier=False)
    new['system'] = {'sample_rate_hz': 48000}
    self.assertEqual(self.compare(old, new), (0, ''))

  def test_a_long_note_is_shortened(self):
    line, = self.words(lambda rig: rig['show'].update(notes='word\n' * 100))
    self.assertLess(len(line), 140)
    self.assertIn('…”', line)


class Revisions(Compare):
  def issued(self):
    rig = json.loads(CHAIN.read_text())
    rig['revisions'] = [{'id': 'revision', 'letter': 'A', 'date': '2031-06-01', 'by': 'Ada',
                         'state': {name: copy.deepcopy(rig[name]) for name in ('show', 'parts', 'devices', 'cables') if name in rig}}]
    return rig

  def test_a_rig_and_its_own_revision(self):
    rig = self.issued()
    done = run('compare', '--revision', 'A', self.write('rig.rig', rig))
    self.assertEqual((done.returncode, done.stdout, done.stderr), (0, b'', b''))
    rig['cables'][0]['length_m'] = 99
    done = run('compare', '--revision', 'A', self.write('rig.rig', rig))
    self.assertEqual((done.returncode, done.stderr), (1, b''))
    self.assertIn(b'now 99 m', done.stdout)

  def test_a_revision_that_is_not_there(self):
    path = self.write('rig.rig', self.issued())
    done = run('compare', '--revision', 'Q', path)
    self.assertEqual((done.returncode, done.stdout), (2, b''))
    self.assertIn('“Q” is neither a revision of it nor a file; its revisions: A', done.stderr.decode())
    self.assertEqual(run('compare', '--revision', 'A', path, path).returncode, 2)


class Usage(Compare):
  def test_two_rigs_have_to_be_named(self):
    for words in ([], [CHAIN], [CHAIN, CHAIN, CHAIN]):
      done = run('compare', *words)
      self.assertEqual((done.returncode, done.stdout), (2, b''))
      self.assertTrue(done.stderr.startswith(b'rigwright-cli: compare: name two rigs'))

  def test_a_rig_that_is_not_there(self):
    done = run('compare', CHAIN, 'none.rig', cwd=self.folder.name)
    self.assertEqual((done.returncode, done.stdout), (2, b''))
    self.assertEqual(done.stderr, b'rigwright-cli: none.rig: cannot be read: No such file or directory\n')

  def test_standard_input(self):
    with open(CHAIN, 'rb') as file:
      self.assertEqual(run('compare', '-', CHAIN, stdin=file).returncode, 0)


if __name__ == '__main__':
  tap.main()
