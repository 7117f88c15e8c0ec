# SPDX-License-Identifier: MIT
"""What facts says of random rigs, against the second working-out in reference.py and against NetworkX."""
import json
import random
import unittest
from collections import Counter

import networkx
import random_rig
import reference
import reference_clock
import tap
from cli import facts
from reference_patch import payload
from reference_traffic import CHANNELS, HEADERS, Traffic, failures
from reference_tree import Tree

RIGS = 500
ASKED = 200


def is_bridging(node):
  return node[0] != 'interface'


class Nets:
  """The networks that facts names: those that a cable joins, as graphs of NetworkX with the cable as key."""

  def __init__(self, p):
    self.p, self.tree = p, Tree(p)
    self.numbers = [number for number, network in enumerate(p.networks) if any(link[1] in network for link in p.links)]

  def graph(self, number):
    graph = networkx.MultiGraph()
    graph.add_nodes_from(self.p.networks[number])
    graph.add_edges_from((a, b, (cable, a, b)) for cable, a, b in self.p.links if a in self.p.networks[number])
    return graph

  def pieces_without(self, graph, nodes, cable):
    left = graph.copy()
    left.remove_nodes_from(nodes)
    left.remove_edges_from([edge for edge in graph.edges(keys=True) if edge[2][0] == cable])
    return networkx.number_connected_components(left) if len(left) else 0

  def loops(self, graph):
    """E − V + C of what forwards."""
    bridging = graph.subgraph(filter(is_bridging, graph))
    return bridging.number_of_edges() - len(bridging) + networkx.number_connected_components(bridging) if len(bridging) else 0

  def planes(self, network):
    chain = ['chain'] * any(node[0] == 'through' and not self.p.forwards(node[1]) for node in network)
    return chain + [side for side in reference.PLANES if any(node[0] == 'interface' and node[2] == side
                                                             and self.p.mode(node[1]) == 'redundant' for node in network)]

  def depth(self, bridge):
    return 1 + self.depth(self.tree.above[bridge]) if bridge in self.tree.above else 0

  def tree_of(self, network, cables):
    bridges = [device for device in self.p.devices if device in self.tree.bridges and device in {node[1] for node in network}]
    if not bridges:
      return None
    blocked = [end for cable in cables for end in (self.p.cables[cable]['from'], self.p.cables[cable]['to'])
               if tuple(end) in self.tree.blocked]
    return {'root': self.tree.root[bridges[0]], 'blocked': blocked, 'depth': max(map(self.depth, bridges))}

  def leader(self, number):
    """Of the system's clock domain, and where nobody leads there of the next."""
    domain = self.p.rig.get('system', {}).get('clock_domain', 0)
    elections = reference_clock.elections(self.p)
    groups = sorted((group for group in elections if group[0] == number), key=lambda group: (group[1] != domain, group[1]))
    return next((elections[group][0] for group in groups if elections[group]), None)

  def tell(self, number):
    """A network as facts has it, but for its name and its loops' being held open."""
    network, graph = self.p.networks[number], self.graph(number)
    cables = [cable for cable in self.p.cables if any(key[0] == cable for _, _, key in graph.edges(keys=True))]
    devices = self.p.devices_of({number})
    return {
      'vlans': sorted({node[2] for node in network if node[0] == 'vlan'}),
      'devices': devices, 'cables': cables, 'planes': self.planes(network), 'loops': self.loops(graph),
      'tree': self.tree_of(network, cables), 'clock_leader': self.leader(number),
      'cut_cables': [cable for cable in cables if self.pieces_without(graph, [], cable) > 1],
      'cut_devices': [device for device in devices
                      if self.pieces_without(graph, [node for node in network if node[1] == device], None) > 1],
    }


def storms(p):
  """By network: whether a loop is not held open; None where which way round is meant is left open."""
  found = {}
  for number, network in enumerate(p.networks):
    for held, _, cables in reference.loops(p, [network]):
      found[number] = None if held is None else found.get(number, False) is not None and (found.get(number) or not held)
  return found


def nodes_of(way, start):
  return [start] + [other for _, _, other in way]


class FactsReference(unittest.TestCase):
  @classmethod
  def setUpClass(cls):
    cls.rigs = [random_rig.make(seed) for seed in range(RIGS)]
    cls.told = [facts('--list', '-', input=json.dumps(rig).encode()) for rig in cls.rigs]
    cls.pictures = [reference.Picture(rig) for rig in cls.rigs]
    cls.traffic = [Traffic(p) for p in cls.pictures]

  def each(self, check):
    """What CHECK counts over all rigs."""
    seen = Counter()
    for seed, (told, p, traffic) in enumerate(zip(self.told, self.pictures, self.traffic)):
      with self.subTest(seed=seed, rig=json.dumps(self.rigs[seed])):
        check(told, p, traffic, seen)
    return seen

  def check_networks(self, told, p, _, seen):
    nets, storm = Nets(p), storms(p)
    self.assertEqual(len(told['networks']), len(nets.numbers))
    should = {number: nets.tell(number) for number in nets.numbers}
    for network in told['networks']:
      number = next(number for number in should if all(should[number][name] == network[name] for name in ('devices', 'cables', 'vlans')))
      self.assertEqual({name: network[name] for name in should[number]}, should[number])
      if storm.get(number, False) is not None:
        self.assertEqual(network['storm'], storm.get(number, False))
      seen.update(name for name in network if network[name])
      seen.update(['blocked'] if network['tree'] and network['tree']['blocked'] else [])

  def test_networks(self):
    seen = self.each(self.check_networks)
    for name in ['vlans', 'planes', 'loops', 'storm', 'tree', 'blocked', 'clock_leader', 'cut_cables', 'cut_devices']:
      self.assertGreater(seen[name], RIGS / 20, name)

  def check_paths(self, told, _, traffic, seen):
    should = [(a, b, *way) for a, b in traffic.pairs() for way in traffic.ways(a, b)]
    self.assertEqual([(path['from'], path['to']) for path in told['paths']], [(a, b) for a, b, *_ in should])
    forest = networkx.Graph((a, b, {'cable': cable}) for cable, a, b in traffic.active)
    for path, (talker, _, _, start, way) in zip(told['paths'], should):
      nodes = networkx.shortest_path(forest, start, nodes_of(way, start)[-1])
      self.assertEqual(path['cables'], [forest.edges[pair]['cable'] for pair in zip(nodes, nodes[1:])])
      self.assertEqual(path['hops'], sum(map(is_bridging, nodes)))
      self.assertAlmostEqual(path['delay_ns'], traffic.delay_ns(talker, start, way), delta=.11)
      seen['long'] += len(nodes) > 2

  def test_paths(self):
    """On the forest of what is not blocked there is one way, which NetworkX finds too."""
    self.assertGreater(self.each(self.check_paths)['long'], RIGS / 5)

  def check_asked(self, rng, rig, p, traffic, seen):
    """From any device to any other; where nothing is patched, for the largest stream that there could be."""
    hosts = [device for device in p.devices if p.hosts(device)]
    if len(hosts) < 2:
      return
    a, b = rng.sample(hosts, 2)
    own = None if (a, b) in traffic.pairs() else HEADERS + payload(p, a, CHANNELS)
    told = facts('--from', a, '--to', b, '-', input=json.dumps(rig).encode())['paths']
    should = list(traffic.ways(a, b))
    self.assertEqual([path['cables'] for path in told], [[cable for cable, _, _ in way] for _, _, way in should])
    for path, (_, start, way) in zip(told, should):
      self.assertAlmostEqual(path['delay_ns'], traffic.delay_ns(a, start, way, own), delta=.11)
      seen[own is None] += 1

  def test_asked_paths(self):
    rng, seen = random.Random(1), Counter()
    for rig, p, traffic in list(zip(self.rigs, self.pictures, self.traffic))[:ASKED]:
      with self.subTest(rig=json.dumps(rig)):
        self.check_asked(rng, rig, p, traffic, seen)
    self.assertGreater(min(seen[False], seen[True]), 5)

  def check_loads(self, told, p, traffic, seen):
    self.assertEqual([link['cable'] for link in told['links']],
                     [cable for cable in p.cables if p.carries(p.cables[cable]) for _ in range(2)])
    for i, link in enumerate(told['links']):
      self.assertAlmostEqual(link['mbps'], traffic.mbps(link['cable'], i % 2), 5)
      self.assertAlmostEqual(link['percent'], traffic.percent(link['cable'], i % 2), 5)
      seen['loaded'] += link['mbps'] > 0

  def test_loads(self):
    self.assertGreater(self.each(self.check_loads)['loaded'], RIGS / 2)

  def check_failures(self, told, p, _, seen):
    lost = failures(p)
    self.assertEqual([failure.get('device', failure.get('cable')) for failure in told['failures']],
                     [*p.devices, *(cable for cable in p.cables if p.is_audio(p.cables[cable]))])
    for failure in told['failures']:
      rows, devices = lost[failure.get('device', failure.get('cable'))]
      self.assertEqual((set(failure['rows_lost']), set(failure['devices_lost'])), (rows, devices))
      seen.update(['rows'] * bool(rows) + ['devices'] * bool(devices))

  def test_failures(self):
    seen = self.each(self.check_failures)
    self.assertGreater(min(seen['rows'], seen['devices']), RIGS / 10)


if __name__ == '__main__':
  tap.main()
