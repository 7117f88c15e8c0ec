# SPDX-License-Identifier: MIT
"""What the rules say, worked out a second time, in the plainest way and apart from the program.

findings(Picture(rig)) takes a rig file as read by json and gives a list of (code, devices, ports, cables). Nothing
here is fast: nodes are tuples, networks are sets that grow until nothing is added.
"""
from collections import deque

import reference_addresses
import reference_cables
import reference_clock
import reference_tree

PLANES = ('primary', 'secondary')


class Picture:
  """Which node of which device hears which cable, by tag; networks; systems."""

  def __init__(self, rig):
    self.rig = rig
    self.parts = {part['id']: part for part in rig['parts']}
    self.devices = {device['id']: device for device in rig['devices']}
    self.order = {device: place for place, device in enumerate(self.devices)}
    self.cables = {cable['id']: cable for cable in rig['cables']}
    self.tags = sorted({0} | {vlan for device in rig['devices'] for port in device.get('port_vlans', {}).values()
                              if isinstance(port, list) for vlan in port})
    self.in_port = {}
    for cable in rig['cables']:
      for end in (cable['from'], cable['to']):
        self.in_port.setdefault(tuple(end), []).append(cable['id'])
    self.links = [link for cable in rig['cables'] for link in self.links_of(cable)]
    self.networks = self.find_networks()
    self.network_of = {node: number for number, network in enumerate(self.networks) for node in network}
    self.systems = self.find_systems()

  def part(self, device):
    return self.parts[self.devices[device]['part']]

  def kind(self, device):
    return self.part(device)['kind']

  def forwards(self, device):
    return self.kind(device) in ('switch', 'converter')

  def ports(self, device, side=None):
    return [port['name'] for port in self.part(device)['ports'] if side in (None, port['side'])]

  def side(self, end):
    return next(port['side'] for port in self.part(end[0])['ports'] if port['name'] == end[1])

  def mode(self, device):
    return self.devices[device].get('mode', 'chain') if self.ports(device, 'secondary') else 'single'

  def is_audio(self, cable):
    return 'aux' not in (self.side(cable['from']), self.side(cable['to']))

  def has_audio_cable(self, device):
    return any(device in (cable['from'][0], cable['to'][0]) and self.is_audio(cable) for cable in self.rig['cables'])

  def carries(self, cable):
    return self.is_audio(cable) and all(self.in_port[tuple(end)][0] == cable['id'] for end in (cable['from'], cable['to']))

  def hears(self, end, tag):
    """The node that a frame with this tag (0 = none) gets to through this port; None = it is dropped."""
    device, port = end
    if self.kind(device) == 'switch':
      member = self.devices[device].get('port_vlans', {}).get(port, 1)
      if isinstance(member, list):
        return ('vlan', device, tag) if tag in member else None
      return ('vlan', device, member) if tag == 0 else None
    if self.kind(device) == 'converter' or self.mode(device) == 'chain':
      return ('through', device, tag)
    if tag != 0 or (self.mode(device) == 'single' and self.side(end) == 'secondary'):
      return None
    return ('interface', device, self.side(end))

  def links_of(self, cable):
    if not self.carries(cable):
      return []
    pairs = [(self.hears(cable['from'], tag), self.hears(cable['to'], tag)) for tag in self.tags]
    return [(cable['id'], *pair) for pair in pairs if None not in pair]

  def hosts(self, device):
    if self.forwards(device):
      return []
    if self.mode(device) == 'chain':
      return [('through', device, 0)]
    sides = PLANES if self.mode(device) == 'redundant' else PLANES[:1]
    return [('interface', device, side) for side in sides if self.ports(device, side)]

  def find_networks(self):
    nodes = {node: None for link in self.links for node in link[1:]}
    nodes.update({node: None for device in self.devices for node in self.hosts(device)})
    networks, left = [], list(nodes)
    while left:
      network, grown = {left[0]}, True
      while grown:
        more = {node for _, a, b in self.links for node in (a, b) if (a in network) != (b in network)} - network
        network |= more
        grown = bool(more)
      left = [node for node in left if node not in network]
      networks.append(network)
    alive = [network for network in networks if any(self.speaks(node) for node in network)]
    reached = {node[1] for network in alive for node in network}
    # Converters that nothing reaches at all would pass on what is plugged in next: untagged frames.
    alive += [network for network in networks
              if network not in alive and all(node[2] == 0 and node[1] not in reached for node in network)]
    self.links = [link for link in self.links if any(link[1] in network for network in alive)]
    return alive

  def speaks(self, node):
    """Whether frames begin here; elsewhere a device only passes on the tags that reach it."""
    return node[0] != 'through' or (node[2] == 0 and not self.forwards(node[1]))

  def find_systems(self):
    systems = [{number} for number in range(len(self.networks))]
    for device in self.devices:
      if not self.forwards(device) and self.mode(device) == 'redundant':
        tied = {self.network_of[node] for node in self.hosts(device)}
        touched = [system for system in systems if system & tied]
        systems = [system for system in systems if not system & tied] + [set().union(*touched)]
    return systems

  def in_order(self, devices):
    return sorted(set(devices), key=self.order.get)

  def devices_of(self, system):
    return self.in_order(node[1] for number in system for node in self.networks[number])


def shortest(links, starts, goals):
  """The cables of a way with the fewest links, met first breadth first in the order of the links; and its nodes."""
  came, queue = {start: None for start in starts}, deque(starts)
  while queue:
    node = queue.popleft()
    if node in goals:
      cables, nodes = [], [node]
      while came[node] is not None:
        cable, node = came[node]
        cables.insert(0, cable)
        nodes.insert(0, node)
      return cables, nodes
    for cable, a, b in links:
      for here, there in ((a, b), (b, a)):
        if here == node and there not in came:
          came[there] = (cable, node)
          queue.append(there)
  return None


def once(names):
  return list(dict.fromkeys(names))


def loops(p, networks=None):
  """(held, devices, cables) of each network (or of these) and closing cable. Where a cable closes by several links, which way round
  is the shortest is not said: devices and cables beyond the first are then None."""
  bridging = [link for link in p.links if 'interface' not in (link[1][0], link[2][0])]
  joined = {node: {node} for link in bridging for node in link[1:]}
  for network in networks or p.networks:
    for cable in p.cables:
      closing = []
      for link in bridging:
        if link[0] == cable and link[1] in network:
          if link[2] in joined[link[1]]:
            closing.append(link)
          else:
            both = joined[link[1]] | joined[link[2]]
            joined.update({node: both for node in both})
      if len(closing) > 1:
        yield None, None, [cable]
      elif closing:
        before = [link for link in bridging if list(p.cables).index(link[0]) < list(p.cables).index(cable)]
        way = shortest(before, [closing[0][1]], {closing[0][2]})
        if way is None: # only another link of the same cable joins its ends
          yield None, None, [cable]
          continue
        devices = once(node[1] for node in way[1])
        yield is_held(p, devices), devices, [cable, *way[0]]


def is_held(p, devices):
  switches = [device for device in devices if p.kind(device) == 'switch']
  through = all(p.kind(device) == 'converter' and len(p.ports(device, 'network')) == 2
                for device in devices if device not in switches)
  return bool(switches) and through and all(p.part(device).get('spanning_tree', False) for device in switches)


def mixed_modes(p):
  for system in p.systems:
    groups = [[device for device in p.devices_of(system) if not p.forwards(device) and p.mode(device) == mode
               and p.has_audio_cable(device)] for mode in ('redundant', 'chain')]
    if all(groups):
      yield min(groups, key=len), [], []


def planes_joined(p):
  for network in p.networks:
    planes = [[node for node in network if node[0] == 'interface' and node[2] == side and p.mode(node[1]) == 'redundant']
              for side in PLANES]
    if all(planes):
      yield None, [], shortest(p.links, planes[0], set(planes[1]))[0]


def clashes(p, field):
  used = {}
  for device in p.devices.values():
    if field in device:
      used.setdefault(device[field], []).append(device['id'])
  return [(devices, [], []) for devices in used.values() if len(devices) > 1]


def no_controller_1(p):
  controllers = [device for device in p.devices if p.kind(device) == 'controller']
  racks = [device for device in p.devices if p.kind(device) == 'rack']
  if (controllers or racks) and not any(p.devices[device].get('controller_id') == 1 for device in controllers):
    yield controllers or racks, [], []


def id_range(p):
  system = p.rig.get('system', {})
  for name, device in p.devices.items():
    unit, controller = device.get('unit_id'), device.get('controller_id')
    if ((unit is not None and not 1 <= unit <= system.get('unit_id_max', 99))
        or (controller is not None and not 1 <= controller <= system.get('controller_id_max', 9))
        or (controller is not None and p.kind(name) != 'controller')):
      yield [name], [], []


def no_unit_id(p):
  for device in p.devices:
    if p.kind(device) == 'rack' and p.part(device).get('preamps', 0) > 0 and 'unit_id' not in p.devices[device]:
      yield [device], [], []


def port_shared(p):
  for (device, port), cables in p.in_port.items():
    if len(set(cables)) > 1:
      yield [device], [[device, port]], cables


def cut_off(p):
  controllers = [device for device in p.devices if p.kind(device) == 'controller']
  reached = {p.network_of[node] for device in controllers for node in p.hosts(device)}
  for system in p.systems:
    cut = [device for device in p.devices if p.kind(device) in ('rack', 'endpoint') and p.has_audio_cable(device)
           and system & {p.network_of[node] for node in p.hosts(device)}
           and not reached & {p.network_of[node] for node in p.hosts(device)}]
    if controllers and cut:
      yield cut, [], []


def not_cabled(p):
  loose = [device for device in p.devices if not p.forwards(device)
           and not any((device, port) in p.in_port for port in p.ports(device))]
  if loose:
    yield loose, [], []


def vlan_mismatch(p):
  for name, cable in p.cables.items():
    ends = [cable['from'], cable['to']]
    if not p.carries(cable) or any(p.kind(end[0]) != 'switch' for end in ends):
      continue
    links = [link for link in p.links if link[0] == name]
    if not links or any(a[2] != b[2] for _, a, b in links):
      yield once(end[0] for end in ends), ends, [name]


def dead_port(p):
  for device in p.devices:
    for port in p.ports(device, 'secondary'):
      cables = p.in_port.get((device, port))
      if p.mode(device) == 'single' and cables:
        yield [device], [[device, port]], cables


def no_second_path(p):
  for device in p.devices:
    if not p.forwards(device) and p.mode(device) == 'redundant':
      empty = [port for side in PLANES for port in p.ports(device, side) if (device, port) not in p.in_port]
      if len(empty) == 1:
        yield [device], [[device, empty[0]]], []


def too_many_units(p):
  for system in p.systems:
    units = [device for device in p.devices_of(system) if 'unit_id' in p.devices[device]]
    if len(units) > p.rig.get('system', {}).get('unit_id_max', 99):
      yield units, [], []


RULES = {
  'mixed-modes': mixed_modes,
  'planes-joined': planes_joined,
  'unit-id-clash': lambda p: clashes(p, 'unit_id'),
  'no-controller-1': no_controller_1,
  'controller-id-clash': lambda p: clashes(p, 'controller_id'),
  'id-range': id_range,
  'no-unit-id': no_unit_id,
  'port-shared': port_shared,
  'cut-off': cut_off,
  'not-cabled': not_cabled,
  'vlan-mismatch': vlan_mismatch,
  'dead-port': dead_port,
  'no-second-path': no_second_path,
  'too-many-units': too_many_units,
  **reference_addresses.RULES,
  **reference_cables.RULES,
  **reference_tree.RULES,
  **reference_clock.RULES,
}


def findings(p):
  found = [(('loop-held' if held else 'loop') if held is not None else None, devices, [], cables)
           for held, devices, cables in loops(p)]
  for code, rule in RULES.items():
    found += [(code, *subjects) for subjects in rule(p)]
  return found
