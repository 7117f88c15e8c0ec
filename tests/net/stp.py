#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""stp.py NET-VERDICT [SEED]: do real bridges block the ports that the net says, on graphs of chance?

One namespace with a bridge for each box of many small rigs: switches with spanning tree, and without it
switches, converters and chain devices, which pass its frames on. All blocked ports, roots and root path
costs must be equal. Kernel costs have 16 bits, so that speeds start at 1 Gb/s.
"""
import random
import sys
import time

import kernel

N_GRAPHS, N_BOXES = 40, 8
SPEEDS = [1000, 2500, 10000, 40000]
FORWARD_DELAY_S, LIMIT_S = 2, 90
# Words of the rig's text for boxes without spanning tree, with their ports' names.
DULL = [("switch", [f"p{i}" for i in range(1, 9)]), ("converter", ["p1", "p2"]),
        ("rack", ["primary", "secondary"])]


class Box:
  def __init__(self, rand, graph, index, serial):
    self.name, self.bridge = f"G{graph}B{index}", f"b{serial}"
    self.tree = rand.random() < 0.75
    self.kind, names = ("switch", DULL[0][1]) if self.tree else rand.choice(DULL)
    self.free = list(names)
    self.names = names
    self.speed = rand.choice(SPEEDS)
    self.priority = rand.choice([32768, 32768, 4096, 61440])
    self.given = rand.random() < 0.5
    # Those that the file gives no address come last, by their place in it.
    head = [2, rand.randrange(256), rand.randrange(256)] if self.given else [6, 0, 0]
    self.mac = ":".join(f"{byte:02x}" for byte in head + [0, serial >> 8, serial & 255])
    self.cluster = self  # of boxes without spanning tree that are cabled together

  def head(self):
    return self if self.cluster is self else self.cluster.head()

  def text(self):
    words = [self.kind, self.name, f"speed={self.speed}"]
    if self.kind == "switch":
      words += [f"bridge_priority={self.priority}"] + (["stp"] if self.tree else []) \
        + ([f"mac={self.mac}"] if self.given else [])
    return " ".join(words)


class Cable:
  def __init__(self, serial, ends):
    self.ends = ends  # (box, port) twice
    self.links = [f"l{serial}a", f"l{serial}b"]
    self.cost = 20000000 // min(box.speed for box, port in ends)

  def text(self):
    return "-".join(f"{box.name}.{port}" for box, port in self.ends)


def may_join(a, b):
  """A ring of boxes that only pass frames on would be a storm."""
  return a.tree or b.tree or a.head() is not b.head()


def draw_graph(rand, boxes, serial):
  cables = []
  for _ in range(rand.randrange(2, 2 * len(boxes) + 2)):
    a, b = rand.choice(boxes), rand.choice(boxes)
    if len(a.free) < 1 + (a is b) or not b.free or not may_join(a, b) or (a is b and not a.tree):
      continue
    ends = [(box, box.free.pop(rand.randrange(len(box.free)))) for box in (a, b)]
    if not a.tree and not b.tree:
      a.head().cluster = b.head()
    cables.append(Cable(serial + len(cables), ends))
  return cables


def draw(rand):
  boxes, cables = [], []
  for graph in range(N_GRAPHS):
    mine = [Box(rand, graph, i, len(boxes) + i + 1) for i in range(rand.randrange(2, N_BOXES + 1))]
    boxes += mine
    cables += draw_graph(rand, mine, len(cables))
  return boxes, cables


def build(space, boxes, cables):
  lines = [f"link add {box.bridge} address {box.mac} type bridge stp_state {int(box.tree)} "
           f"priority {box.priority} forward_delay {FORWARD_DELAY_S * 100} hello_time 100 max_age 4000 mcast_snooping 0" for box in boxes]
  lines += [f"link add {cable.links[0]} type veth peer name {cable.links[1]}" for cable in cables]
  plugs = [(box, box.names.index(port), link, cable.cost)
           for cable in cables for (box, port), link in zip(cable.ends, cable.links)]
  # A bridge numbers its ports as they come, the net by their place in the part.
  for box, _, link, cost in sorted(plugs, key=lambda plug: plug[1]):
    lines += [f"link set {link} master {box.bridge}",
              f"link set {link} type bridge_slave cost {cost} priority 32"]
  lines += [f"link set {link} up" for _, _, link, _ in plugs] + [f"link set {box.bridge} up" for box in boxes]
  space.ip(lines)


def settle(space):
  """Waits until no port has changed for twice the forward delay; all links then."""
  began = since = time.monotonic()
  last = None
  while time.monotonic() - began < LIMIT_S:
    links = space.links()
    ports = {link["ifname"]: link["linkinfo"]["info_slave_data"] for link in links
             if "info_slave_data" in link.get("linkinfo", {})}
    now = {name: (port["state"], port["root_id"], port["designated_port"], port["designated_cost"])
           for name, port in ports.items()}
    if now != last:
      last, since = now, time.monotonic()
    moving = any(port["state"] in ("listening", "learning") for port in ports.values())
    if not moving and time.monotonic() - since > 2 * FORWARD_DELAY_S + 1.5:
      return links, ports
    time.sleep(0.25)
  raise RuntimeError(f"the bridges did not settle in {LIMIT_S} s")


def compare(program, boxes, cables):
  with kernel.namespace("rwstp") as space:
    build(space, boxes, cables)
    links, ports = settle(space)
  rig = "\n".join(thing.text() for thing in boxes + cables)
  words = kernel.verdict(program, rig)
  said = {(device, port) for what, device, port in (line for line in words if line[0] == "blocked")}
  end_of = {link: (box.name, port) for cable in cables for (box, port), link in zip(cable.ends, cable.links)}
  seen = {end_of[name] for name, port in ports.items() if port["state"] == "blocking"}
  data = {link["ifname"]: link["linkinfo"]["info_data"] for link in links
          if link.get("linkinfo", {}).get("info_kind") == "bridge"}
  cost_seen = {box.name: data[box.bridge]["root_path_cost"] for box in boxes if box.tree}
  cost_said = {line[1]: int(line[3]) for line in words if line[0] == "root"}
  return said, seen, cost_said, cost_seen, rig


def main(program, seed):
  print(f"# seed {seed}")
  boxes, cables = draw(random.Random(seed))
  tap = kernel.Tap(3)
  said, seen, cost_said, cost_seen, rig = compare(program, boxes, cables)
  tap.check(said == seen, f"{len(seen)} blocked ports of {len(boxes)} boxes and {len(cables)} cables",
            f"only said: {sorted(said - seen)}, only seen: {sorted(seen - said)}\n# "
            + rig.replace("\n", "\n# "))
  tap.check(cost_said == cost_seen, "root path costs", f"{sorted(cost_said.items() ^ cost_seen.items())}")
  tap.check(len(seen) >= N_GRAPHS, "there was something to block", f"{len(seen)} ports")
  return tap.failed > 0


sys.exit(main(sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else random.randrange(1 << 30)))
