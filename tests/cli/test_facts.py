# SPDX-License-Identifier: MIT
"""rigwright-cli facts: the computed network, as JSON and as text."""
import json
import os
import unittest

import tap
from cli import FIXTURES, TOP, facts, run

EXAMPLES = TOP / 'data' / 'examples'
RING = FIXTURES / 'loop' / 'bad-ring-of-three.rig'


class Shape(unittest.TestCase):
  def test_members_in_order(self):
    told = facts(EXAMPLES / 'festival-60.rig')
    self.assertEqual(list(told), ['networks', 'paths', 'links', 'failures'])
    for network in told['networks']:
      self.assertEqual(list(network), ['id', 'vlans', 'devices', 'cables', 'planes', 'loops', 'storm', 'tree',
                                       'clock_leader', 'cut_cables', 'cut_devices'])
    for path in told['paths']:
      self.assertEqual(list(path), ['network', 'from', 'to', 'hops', 'cables', 'delay_ns'])
    for link in told['links']:
      self.assertEqual(list(link), ['cable', 'from', 'to', 'mbps', 'percent'])
    for failure in told['failures']:
      self.assertEqual(list(failure)[1:], ['rows_lost', 'devices_lost'])
      self.assertIn(list(failure)[0], ['device', 'cable'])

  def test_arrays_in_file_order(self):
    rig = json.loads((EXAMPLES / 'festival-60.rig').read_text())
    order = {item['id']: place for place, item in enumerate(rig['devices'] + rig['cables'])}
    told = facts(EXAMPLES / 'festival-60.rig')
    lists = [network[name] for network in told['networks'] for name in ('devices', 'cables', 'cut_cables', 'cut_devices')]
    lists += [[list(failure.values())[0] for failure in told['failures']], [link['cable'] for link in told['links']]]
    for ids in lists:
      self.assertEqual(ids, sorted(ids, key=order.get))

  def test_list_names_what_is_counted(self):
    counted = facts(EXAMPLES / 'festival-60.rig')['failures']
    named = facts('--list', EXAMPLES / 'festival-60.rig')['failures']
    self.assertEqual(len(counted), len(named))
    self.assertTrue(any(failure['rows_lost'] for failure in counted))
    for count, name in zip(counted, named):
      self.assertEqual((count['rows_lost'], count['devices_lost']), (len(name['rows_lost']), len(name['devices_lost'])))


class Values(unittest.TestCase):
  def test_chain_by_hand(self):
    """A console and two racks in a row: the console's cable cuts off both racks, the other the last one."""
    told = facts(EXAMPLES / 'small-chain.rig')
    network, = told['networks']
    self.assertEqual((network['planes'], network['loops'], network['storm'], network['tree']), (['chain'], 0, False, None))
    self.assertEqual(network['cut_cables'], network['cables'])
    self.assertEqual(len(network['cut_devices']), 1)
    lost = {list(failure.values())[0]: failure['devices_lost'] for failure in told['failures']}
    self.assertEqual([lost[cable] for cable in network['cables']], [2, 1])

  def test_ring_storms_and_has_no_cut(self):
    network, = facts(RING)['networks']
    self.assertEqual((network['loops'], network['storm'], network['cut_cables']), (1, True, []))

  def test_any_path(self):
    rig = json.loads((EXAMPLES / 'small-chain.rig').read_text())
    first, last = rig['devices'][0]['id'], rig['devices'][-1]['id']
    path, = facts('--from', first, '--to', last, EXAMPLES / 'small-chain.rig')['paths']
    self.assertEqual((path['from'], path['to'], path['hops']), (first, last, 3))
    self.assertEqual(path['cables'], [cable['id'] for cable in rig['cables']])
    self.assertGreater(path['delay_ns'], 125000)

  def test_a_stream_alone_on_its_way(self):
    """8 channels of 24 bits at 48 kHz in 125 µs packets take 14.208 Mb/s (sizes of RFC 791, 768, 3550, IEEE 802.3)."""
    links = facts(EXAMPLES / 'small-chain.rig')['links']
    self.assertIn(14.208, [link['mbps'] for link in links])
    for link in links:
      self.assertAlmostEqual(link['percent'], link['mbps'] / 10)


class Refusals(unittest.TestCase):
  def test_wrong_usage(self):
    chain = EXAMPLES / 'small-chain.rig'
    for args in [[], [chain, chain], ['--from', 'x', chain], ['--from', 'nobody', '--to', 'nobody', chain], ['/no/such.rig']]:
      with self.subTest(args=args):
        done = run('facts', *args)
        self.assertEqual((done.returncode, done.stdout), (2, b''))
        self.assertTrue(done.stderr.startswith(b'rigwright-cli: '))
        self.assertEqual(done.stderr.count(b'\n'), 1)

  def test_one_device_is_no_path(self):
    done = run('facts', '--from', 'desk', '--to', 'desk', EXAMPLES / 'small-chain.rig')
    self.assertEqual((done.returncode, done.stdout), (2, b''))
    self.assertIn('“FOH desk”'.encode(), done.stderr)

  def test_a_slip_is_told_with_its_option(self):
    for args in (['--from', 'desk', '--to', 'tesk'], ['--from', 'tesk', '--to', 'desk']):
      done = run('facts', *args, EXAMPLES / 'small-chain.rig')
      self.assertEqual((done.returncode, done.stdout), (2, b''))
      self.assertIn(f'{args[args.index("tesk") - 1]}: there is no device with the ID or name “tesk”', done.stderr.decode())

  def test_text_names_things_as_the_drawing_does(self):
    done = run('facts', EXAMPLES / 'small-chain.rig')
    rig = json.loads((EXAMPLES / 'small-chain.rig').read_text())
    self.assertEqual((done.returncode, done.stderr), (0, b''))
    for name in [cable['label'] for cable in rig['cables']] + [rig['devices'][0]['name']]:
      self.assertIn(name, done.stdout.decode())

  def test_each_receiver_is_told_its_smallest_safe_latency(self):
    """The next whole number of packet times of 125 µs, of the longest way to it: 143.4 and 142.5 µs, as the paths tell."""
    lines = run('facts', EXAMPLES / 'small-chain.rig').stdout.decode().splitlines()
    longest = {}
    for path in facts(EXAMPLES / 'small-chain.rig')['paths']:
      longest[path['to']] = max(longest.get(path['to'], 0), path['delay_ns'] / 1e3)
    self.assertEqual(sorted(longest), ['desk', 'left'])
    self.assertIn(f'FOH desk: set 1000 µs, smallest safe 250 µs (Stage left: up to {longest["desk"]:.1f} µs)', lines)
    self.assertIn(f'Stage left: set 1000 µs, smallest safe 250 µs (FOH desk: up to {longest["left"]:.1f} µs)', lines)

  def test_paths_and_losses_in_words(self):
    rig = json.loads((EXAMPLES / 'small-chain.rig').read_text())
    for unit, length in [("m", "95 m"), ('ft', '311′ 8″')]:
      done = run('facts', '--list', '--units', unit, '--from', 'desk', '--to', 'right', EXAMPLES / 'small-chain.rig')
      lines = done.stdout.decode().splitlines()
      path, = [line for line in lines if line.startswith('FOH desk → Stage right')]
      self.assertTrue(path.endswith(f'{length}, {rig["cables"][0]["label"]} → {rig["cables"][1]["label"]}'), path)
      self.assertIn('  devices: Stage left, Stage right', lines)

  def test_nothing_is_said_to_be_none(self):
    done = run('facts', '-', input=b'{"rigwright": 1}')
    self.assertEqual(done.returncode, 0)
    sections = done.stdout.decode().rstrip().split('\n\n')
    self.assertEqual([section.splitlines()[1:] for section in sections], [['none']] * 5)


class AskedPath(unittest.TestCase):
  """What is told of one path: that alone."""

  def text(self, start, end, *more):
    done = run('facts', '--from', start, '--to', end, *more, EXAMPLES / 'festival-60.rig')
    self.assertEqual((done.returncode, done.stderr), (0, b''))
    return done.stdout.decode().splitlines()

  def test_alone(self):
    heading, *paths = self.text('foh-desk', 'left-1')
    self.assertTrue(heading.startswith('Paths'))
    self.assertEqual([path.split(':')[0] for path in paths],
                     ['FOH desk → Stage left 1 (net-1)', 'FOH desk → Stage left 1 (net-3)'])

  def test_failures_only_where_asked_for(self):
    self.assertIn('  devices: Pod drums, Pod bass', self.text('foh-desk', 'left-1', '--list'))

  def test_no_way_is_said(self):
    """To a laptop without its cable; and to a switch, at which no audio begins or ends."""
    rig = json.loads((EXAMPLES / 'festival-60.rig').read_text())
    rig['cables'] = [cable for cable in rig['cables'] if cable['from'][0] != 'laptop']
    for to, why in (('laptop', 'no network joins them'), ('net-foh-a', 'no network audio begins or ends at FOH A')):
      ask = ('facts', '--from', 'foh-desk', '--to', to, '-')
      done = run(*ask, input=json.dumps(rig).encode())
      name, = (device['name'] for device in rig['devices'] if device['id'] == to)
      self.assertEqual((done.returncode, done.stdout.decode()), (0, f'There is no way from FOH desk to {name}: {why}.\n'))
      self.assertEqual(facts(*ask[1:], input=json.dumps(rig).encode())['paths'], [])

  def test_names_are_as_good_as_ids(self):
    self.assertEqual(self.text(' foh DESK', 'Stage left 1'), self.text('foh-desk', 'left-1'))
    rig = (EXAMPLES / 'festival-60.rig').read_text().replace('"FOH rack"', '"Bühne"').encode()
    done = run('facts', '--from', 'Bühne', '--to', 'foh-desk', '-', input=rig, env=os.environ | {'LC_ALL': 'C'})
    self.assertEqual(done.stderr, b'')
    self.assertIn('Bühne → FOH desk', done.stdout.decode())

  def test_an_id_comes_before_a_name(self):
    rig = (EXAMPLES / 'festival-60.rig').read_text().replace('"Guest desk"', '"foh-desk"').encode()
    path = facts('--from', 'foh-desk', '--to', 'left-1', '-', input=rig)['paths'][0]
    self.assertEqual(path['from'], 'foh-desk')

  def test_one_name_of_several_lists_their_ids(self):
    rig = (EXAMPLES / 'festival-60.rig').read_text().replace('"FOH rack"', '"Guest desk"').encode()
    done = run('facts', '--from', 'Guest desk', '--to', 'foh-desk', '-', input=rig)
    self.assertEqual((done.returncode, done.stdout), (2, b''))
    self.assertIn('--from: several are called “Guest desk”: take one of the IDs guest-desk, foh-rack', done.stderr.decode())


if __name__ == '__main__':
  tap.main()
