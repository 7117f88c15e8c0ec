# SPDX-License-Identifier: MIT
"""Streams, the links they load, delays, and what single failures cost, worked out a second time; see reference.py.

Every stream is followed frame by frame, every failure is tried, and the way of a frame is searched anew each time.
"""
import reference_patch
from reference_cables import medium, speeds
from reference_tree import Tree

# Bytes: IEEE 802.3; RFC 791, RFC 768, RFC 3550 (facts A1, A2, D1).
GAP, PREAMBLE, HEADERS, TAG = 12, 8, 14 + 20 + 8 + 12 + 4, 4
FULL_FRAME = 1518
CHANNELS = 8


class Traffic:
  def __init__(self, p):
    self.p = p
    self.blocked = Tree(p).blocked
    self.active = self.find_active()
    self.at = {}
    for cable, a, b in self.active:
      self.at.setdefault(a, []).append((cable, b))
      self.at.setdefault(b, []).append((cable, a))
    self.streams = self.find_streams()
    self.loads = {}    # (cable, direction): [(bytes of a frame with its tag, seconds of a packet)]
    for stream in self.streams:
      self.route(stream)

  def is_open(self, end):
    return tuple(end) not in self.blocked

  def find_active(self):
    """The links on which frames go on: not blocked, and in storms those that closed no loop."""
    joined, active = {}, []
    for cable, a, b in self.p.links:
      ends = [self.p.cables[cable][end] for end in ('from', 'to')]
      parts = [joined.get(node, {node}) for node in (a, b)]
      if all(map(self.is_open, ends)) and a not in parts[1]:
        active.append((cable, a, b))
        joined.update(dict.fromkeys(parts[0] | parts[1], parts[0] | parts[1]))
    return active

  def find_streams(self):
    """(talker, listeners, number of channels): sends that go to the same devices share streams."""
    p, wanted = self.p, {}
    for _, a, send, b, receive in reference_patch.rows(p):
      if a != b and reference_patch.has(p, a, 'sends', send) and reference_patch.has(p, b, 'receives', receive):
        wanted.setdefault((a, send), set()).add(b)
    groups, multicast = {}, p.rig.get('system', {}).get('multicast', True)
    for (a, send), listeners in wanted.items():
      for some in [tuple(p.in_order(listeners))] if multicast else [(b,) for b in listeners]:
        groups.setdefault((a, some), set()).add(send)
    streams = []
    for (a, listeners), sends in groups.items():
      most = min(CHANNELS, reference_patch.LIMIT // reference_patch.payload(p, a, 1))
      left = len(sends) if most else 0
      while left > 0:
        streams.append((a, listeners, min(left, most)))
        left -= most
    return streams

  def packet_s(self, talker):
    return reference_patch.samples(self.p, talker) / reference_patch.own(self.p, talker, 'sample_rate_hz', 48000)

  def wants(self, node, listeners):
    network = self.p.networks[self.p.network_of[node]]
    return ((node[1] in listeners and node == self.host_in(node[1], network))
            or (node[0] != 'interface' and self.p.devices[node[1]].get('querier', False)))

  def picky(self, node, queried):
    return (queried and self.p.kind(node[1]) == 'switch' and self.p.part(node[1]).get('snooping', False))

  def beyond(self, node, came_from):
    """All nodes to which frames get from here, but by the way they came."""
    found = [node]
    for _, other in self.at.get(node, []):
      if other != came_from:
        found += self.beyond(other, node)
    return found

  def way(self, start, goal, came_from=None):
    """[(cable, node, node)…] from start to goal, or None."""
    if start == goal:
      return []
    for cable, other in self.at.get(start, []):
      rest = self.way(other, goal, start) if other != came_from else None
      if rest is not None:
        return [(cable, start, other)] + rest
    return None

  def direction(self, cable, node):
    """0 where the node is at the cable's first end."""
    return next(direction for direction, end in enumerate(('from', 'to'))
                if any(self.p.hears(self.p.cables[cable][end], tag) == node for tag in self.p.tags))

  def tag(self, cable, node, other):
    ends = [self.p.cables[cable][end] for end in ('from', 'to')]
    if self.direction(cable, node):
      ends.reverse()
    return next(tag for tag in self.p.tags if [self.p.hears(end, tag) for end in ends] == [node, other])

  def put(self, cable, direction, tag, stream):
    talker, _, n = stream
    frame = HEADERS + reference_patch.payload(self.p, talker, n) + (TAG if tag else 0)
    self.loads.setdefault((cable, direction), []).append((frame, self.packet_s(talker)))

  def step(self, cable, node, other, stream):
    self.put(cable, self.direction(cable, node), self.tag(cable, node, other), stream)

  def host_in(self, device, network):
    """Where both its planes are joined, which is an error, the device is sent to at its primary."""
    return next((node for node in self.p.hosts(device) if node in network), None)

  def route(self, stream):
    """By every network of the talker's in which somebody listens."""
    talker, listeners, _ = stream
    for start in self.p.hosts(talker):
      network = self.p.networks[self.p.network_of[start]]
      goals = [node for node in (self.host_in(listener, network) for listener in listeners) if node]
      if len(listeners) == 1:
        for goal in goals:
          for link in self.way(start, goal) or []:
            self.step(*link, stream)
      elif goals:
        queried = any(node[0] != 'interface' and self.p.devices[node[1]].get('querier', False) for node in network)
        self.spread(stream, start, None, queried)

  def spread(self, stream, node, came_from, queried):
    picky = self.picky(node, queried)
    for cable, other in self.at.get(node, []):
      if other != came_from and not (picky and not any(self.wants(far, stream[1]) for far in self.beyond(other, node))):
        self.step(cable, node, other, stream)
        if other[0] != 'interface':
          self.spread(stream, other, node, queried)
    if not picky:
      self.spread_held(stream, node)

  def spread_held(self, stream, node):
    """What is flooded also goes into a link that is held open at its far end."""
    for cable, a, b in self.p.links:
      ends = [self.p.cables[cable][end] for end in ('from', 'to')]
      for direction, near in enumerate((a, b)):
        if near == node and self.is_open(ends[direction]) and not self.is_open(ends[1 - direction]):
          tag = next(tag for tag in self.p.tags if [self.p.hears(end, tag) for end in ends] == [a, b])
          self.put(cable, direction, tag, stream)

  def mbps(self, cable, direction):
    return sum((frame + PREAMBLE + GAP) * 8 / packet_s / 1e6 for frame, packet_s in self.loads.get((cable, direction), []))

  def percent(self, cable, direction):
    return self.mbps(cable, direction) * 100 / min(speeds(self.p, self.p.cables[cable]))

  def hops(self, start, way):
    return sum(node[0] != 'interface' for node in [start] + [other for _, _, other in way])

  def delay_ns(self, talker, start, way, own=None):
    """Of a frame whose stream is among the loads; own = bytes of one whose stream is not."""
    total = self.packet_s(talker) * 1e9
    total += sum(self.p.part(node[1]).get('fabric_ns', 2000) for node in [start] + [other for _, _, other in way]
                 if node[0] != 'interface')
    for cable, node, other in way:
      rate = min(speeds(self.p, self.p.cables[cable]))
      frames = [frame for frame, _ in self.loads.get((cable, self.direction(cable, node)), [])]
      frames += [own + (TAG if self.tag(cable, node, other) else 0)] if own else []
      # A full-size frame is on the port; the others go before it, each with a gap after it; then itself.
      waits = FULL_FRAME + PREAMBLE + GAP + sum(frame + PREAMBLE + GAP for frame in frames) - GAP
      total += waits * 8 * 1e3 / rate
      total += self.p.cables[cable].get('length_m', 0) * (5.4 if medium(self.p.cables[cable]) == 'copper' else 4.9)
    return total

  def ways(self, a, b):
    """(network, start, way) in each network in which the one hears the other."""
    for start in self.p.hosts(a):
      goal = self.host_in(b, self.p.networks[self.p.network_of[start]])
      way = self.way(start, goal) if goal else None
      if way is not None:
        yield self.p.network_of[start], start, way

  def pairs(self):
    """Talkers and listeners that have a stream, in file order."""
    found = {(talker, listener) for talker, listeners, _ in self.streams for listener in listeners}
    return sorted(found, key=lambda pair: [self.p.order[device] for device in pair])


def link_full(t):
  ceiling = t.p.rig.get('system', {}).get('link_ceiling_percent', 75)
  return {(cable, t.p.cables[cable][('from', 'to')[direction]][0], 'error' if t.percent(cable, direction) > 100 else 'warning')
          for cable, direction in t.loads if t.percent(cable, direction) > ceiling}


def late(t):
  """(listener, severity, the longest delay in ns)"""
  worst = {}
  for a, b in t.pairs():
    for _, start, way in t.ways(a, b):
      worst[b] = max(worst.get(b, 0), t.delay_ns(a, start, way))
  allowed = {b: reference_patch.own(t.p, b, 'receive_latency_us', 1000) * 1e3 for b in worst}
  return {(b, 'error' if ns > allowed[b] else 'warning') for b, ns in worst.items() if ns > .9 * allowed[b]}


def latency_uneven(t):
  """For each network of which no other holds all receivers too: those that wait otherwise than most of them; where
  two settings are as frequent, that of the first device is taken as what is usual."""
  waits = {b: reference_patch.own(t.p, b, 'receive_latency_us', 1000) for _, b in t.pairs()}
  networks = {frozenset(b for b in waits if t.host_in(b, network)) for network in t.p.networks}
  odd = []
  for receivers in networks:
    settings = [waits[b] for b in t.p.in_order(receivers)]
    if len(set(settings)) > 1 and not any(receivers < other for other in networks):
      odd.append(frozenset(b for b in receivers if waits[b] != max(settings, key=settings.count)))
  return odd


def joined(p, links, a, b):
  """Whether frames get from one of these nodes to one of those, in the end."""
  reached, grown = set(a), True
  while grown:
    more = {node for _, *ends in links for node in ends if (ends[0] in reached) != (ends[1] in reached)} - reached
    reached |= more
    grown = bool(more)
  return bool(reached & set(b))


def survives(p, links, gone):
  """Rows and devices that have a way."""
  hosts = {device: [] if device == gone else p.hosts(device) for device in p.devices}
  alive = [link for link in links if gone not in (link[0], link[1][1], link[2][1])]
  consoles = [node for device in p.devices if p.kind(device) == 'controller' for node in hosts[device]]
  pairs = {(a, b) for _, a, _, b, _ in reference_patch.rows(p)}
  heard = {pair for pair in pairs if joined(p, alive, hosts[pair[0]], hosts[pair[1]])}
  rows = {row for row, a, _, b, _ in reference_patch.rows(p) if (a, b) in heard}
  devices = {device for device in p.devices if p.kind(device) in ('rack', 'endpoint')
             and joined(p, alive, hosts[device], consoles)}
  return rows, devices


def failures(p):
  """By cable and device: the rows lost and the devices cut off from every console by its failure."""
  rows, devices = survives(p, p.links, None)
  ends = {row: (a, b) for row, a, _, b, _ in reference_patch.rows(p)}
  lost = {}
  for gone in [*p.devices, *p.cables]:
    rows_left, devices_left = survives(p, p.links, gone)
    lost[gone] = ({row for row in rows - rows_left if gone not in ends[row]}, devices - devices_left - {gone})
  return lost


def single_point(t):
  """What is named, as what it costs, worst first: at most five, and only what costs two lines or four devices."""
  costs = [(len(rows), len(devices)) for rows, devices in failures(t.p).values()]
  named = sorted((cost for cost in costs if cost[0] >= 2 or cost[1] >= 4), reverse=True)[:5]
  return [tuple(named)] if named else []


RULES = {'link-full': link_full, 'late': late, 'latency-uneven': latency_uneven, 'single-point': single_point}


def told(t, code, finding):
  """One of the program's findings, in the terms of the rules above."""
  devices, cables = finding['devices'], finding['cables']
  if code == 'link-full':
    return cables[0], devices[0], finding['severity']
  if code == 'late':
    return devices[0], finding['severity']
  if code == 'latency-uneven':
    return frozenset(devices)
  lost = failures(t.p)
  return tuple(sorted(((len(lost[gone][0]), len(lost[gone][1])) for gone in devices + cables), reverse=True))
