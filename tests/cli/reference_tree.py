# SPDX-License-Identifier: MIT
"""Spanning tree and the rules on it, worked out a second time; see reference.py."""
from reference_cables import once, speeds

NO_ADDRESS = 1 << 48


def address(text):
  digits = [c for c in (text or '') if c not in ':-. ']
  try:
    return int(''.join(digits), 16) if len(digits) == 12 else NO_ADDRESS
  except ValueError:
    return NO_ADDRESS


class Tree:
  """IEEE 802.1D-2004 clause 17 by sheer repetition; what is no bridge is part of the segments in between."""

  def __init__(self, p):
    self.p = p
    self.bridges = [device for device in p.devices if p.part(device).get('spanning_tree') and p.kind(device) == 'switch']
    self.id = {device: (p.devices[device].get('bridge_priority', 32768), address(p.devices[device].get('mac')),
                        p.order[device]) for device in self.bridges}
    self.attached = self.attach()
    self.root, self.cost = {}, {}
    for bridge in sorted(self.bridges, key=self.id.get):
      if bridge not in self.root:
        self.settle(bridge)
    self.designated = {segment: min((a for a in self.attached if a[2] == segment), key=self.rank)
                       for segment in {a[2] for a in self.attached}}
    self.root_port = {bridge: min((a for a in self.attached if a[0] == bridge), key=self.root_rank)
                      for bridge in self.bridges if self.root[bridge] != bridge}
    self.above = {bridge: self.designated[a[2]][0] for bridge, a in self.root_port.items()}
    self.blocked = {(a[0], a[1]) for a in self.attached
                    if self.designated[a[2]] != a and self.root_port.get(a[0]) != a}

  def attach(self):
    """(bridge, port, segment, place of the port, cost) of all ports in the tree."""
    p = self.p
    through = [device for device in p.devices if device not in self.bridges
               and (p.forwards(device) or p.mode(device) == 'chain')]
    cables = [cable for cable in p.cables.values() if p.carries(cable)]
    segment = {cable['id']: cable['id'] for cable in cables}
    for device in through:
      touching = [segment[cable['id']] for cable in cables if device in (cable['from'][0], cable['to'][0])]
      for name in segment:
        if segment[name] in touching:
          segment[name] = touching[0]
    return [(end[0], end[1], segment[cable['id']], p.ports(end[0]).index(end[1]),
             20000000 // min(speeds(p, cable)))
            for cable in cables for end in (cable['from'], cable['to']) if end[0] in self.bridges]

  def settle(self, root):
    self.root[root], self.cost[root] = root, 0
    changed = True
    while changed:
      changed = False
      for bridge, _, segment, _, cost in self.attached:
        reached = [self.cost[a[0]] + cost for a in self.attached if a[2] == segment and self.root.get(a[0]) == root]
        if reached and min(reached) < self.cost.get(bridge, 1 << 60):
          self.root[bridge], self.cost[bridge], changed = root, min(reached), True

  def rank(self, attachment):
    return self.cost[attachment[0]], self.id[attachment[0]], attachment[3]

  def root_rank(self, attachment):
    best = self.designated[attachment[2]]
    return self.cost[best[0]] + attachment[4], self.id[best[0]], best[3], attachment[3]

  def way_to(self, a, b):
    """The bridges on the way in the tree from a to b."""
    up, down = [a], [b]
    while up[-1] in self.above:
      up.append(self.above[up[-1]])
    while down[-1] not in up:
      down.append(self.above[down[-1]])
    return up[:up.index(down[-1])] + down[::-1]


def deep_tree(p):
  tree = Tree(p)
  for root in tree.bridges:
    inside = [bridge for bridge in tree.bridges if tree.root[bridge] == root]
    ways = [tree.way_to(a, b) for a in inside for b in inside if tree.root[root] == root]
    if ways and max(map(len, ways)) > 7:
      yield max(ways, key=len), [], []


def tree_cuts_vlan(p):
  blocked = Tree(p).blocked
  for network in p.networks:
    links = [link for link in p.links if link[1] in network]
    shut = {cable: [tuple(end) for end in (p.cables[cable]['from'], p.cables[cable]['to']) if tuple(end) in blocked]
            for cable, _, _ in links}
    part = {node: node for node in network}
    for cable, a, b in links:
      if not shut[cable]:
        part = {node: part[b] if head == part[a] else head for node, head in part.items()}
    cutting = once(cable for cable, a, b in links if part[a] != part[b])
    if cutting:
      ends = [list(shut[cable][0]) for cable in cutting]
      yield once(end[0] for end in ends), ends, cutting


def no_tree(p):
  cables = [cable for cable in p.cables.values() if p.carries(cable)
            and all(p.forwards(cable[end][0]) for end in ('from', 'to'))]

  def reached(start, without):
    found, grown = {start}, True
    while grown:
      more = {d for cable in cables if cable is not without for d in (cable['from'][0], cable['to'][0])
              if (cable['from'][0] in found) != (cable['to'][0] in found)} - found
      found |= more
      grown = bool(more)
    return found

  boxes, seen = [device for device in p.devices if p.forwards(device)], set()
  for box in boxes:
    if box in seen:
      continue
    ring = set.intersection(reached(box, None), *(reached(box, cable) for cable in cables))
    seen |= ring
    switches = p.in_order(device for device in ring if p.kind(device) == 'switch')
    plain = [device for device in switches if not p.part(device).get('spanning_tree')]
    if len(switches) > 1 and plain:
      yield plain, [], []


RULES = {'deep-tree': deep_tree, 'tree-cuts-vlan': tree_cuts_vlan, 'no-tree': no_tree}
