#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""igmp.py RIGWRIGHT-CLI [SEED]: does multicast take the links that the program says?

Graphs of chance of real bridges, with and without spanning tree, snooping (RFC 4541) and a querier, in which hosts
join groups by IGMP of the kernel's own. A few frames to each group, counted at every end of every cable: they must
come where facts says that the stream loads the link, once each, and nowhere else.
"""
import collections
import json
import os
import random
import socket
import struct
import sys
import time

import kernel

N_GRAPHS, N_FRAMES = 30, 3
FORWARD_DELAY_S = 2
PORT_NAMES = [f"p{i}" for i in range(1, 13)]
Cable = collections.namedtuple("Cable", "name ends")  # (box, port) twice
# A stream, and whose it is.
Stream = collections.namedtuple("Stream", "graph group talker listeners")


class Box:
  """A switch, a chain device (a bridge that hosts somebody), or a computer."""

  def __init__(self, rand, kind, serial, tangled):
    self.kind, self.serial, self.querier = kind, serial, False
    self.name = f"{kind[0]}{serial}"
    self.tree = kind == "switch" and (tangled or rand.random() < 0.3) and rand.random() < 0.8
    self.snooping = kind == "switch" and rand.random() < 0.7
    self.free = {"switch": PORT_NAMES, "rack": ["P", "S"], "computer": ["P"]}[kind][::-1]

  def mac(self):
    return f"02:00:00:00:{self.serial >> 8:02x}:{self.serial & 255:02x}"

  def part(self):
    return f"{self.kind}-{int(self.tree)}-{int(self.snooping)}"


class Graph:
  def __init__(self, rand, first, snooping_as):
    tangled = rand.random() < 0.5
    kinds = ["switch"] * rand.randint(3, 6) + ["rack"] * rand.randint(0, 2)
    self.boxes = [Box(rand, kind, first + i, tangled) for i, kind in enumerate(kinds)]
    for box in self.boxes:
      if snooping_as is not None and box.kind == "switch":
        box.snooping = snooping_as
    snooping = [box for box in self.boxes if box.snooping]
    self.querier = rand.choice(snooping) if snooping and rand.random() < 0.75 else None
    if self.querier:
      self.querier.querier = True
    self.cables = []
    self.join_all(rand)
    trees = [box for box in self.boxes if box.tree]
    for _ in range(rand.randint(1, 3) if tangled and len(trees) > 1 else 0):
      self.add_cable(*(rand.sample(trees, 2) if rand.random() < 0.9 else [trees[0], trees[0]]))
    hosts = [Box(rand, "computer", first + len(kinds) + i, tangled) for i in range(rand.randint(4, 6))]
    for host in hosts:
      self.boxes.append(host)
      self.add_cable(host, rand.choice([box for box in self.boxes if box.kind == "switch"]))
    self.speakers = [box for box in self.boxes if box.kind != "switch"]

  def join_all(self, rand):
    """Without a loop, so that only the cables between bridges with spanning tree, which come later, close any."""
    for i, box in enumerate(self.boxes[1:], 1):
      self.add_cable(box, rand.choice([other for other in self.boxes[:i] if other.free]))

  def add_cable(self, a, b):
    if len(a.free) > 1 and b.free or a.free and b.free and a is not b:
      name = f"k{self.boxes[0].serial}x{len(self.cables)}"
      self.cables.append(Cable(name, [(box, box.free.pop()) for box in (a, b)]))

  def streams(self, rand, number):
    """Two, to two listeners each: to one alone would not be multicast."""
    return [Stream(self, f"239.195.{number + 1}.{i}", talker,
                   rand.sample([box for box in self.speakers if box is not talker], 2))
            for i, talker in enumerate(rand.sample(self.speakers, 2), 1)]


def ports_of(box):
  side = {"switch": dict.fromkeys(PORT_NAMES, "network"), "rack": {"P": "primary", "S": "secondary"},
          "computer": {"P": "primary"}}
  return [{"name": name, "side": word} for name, word in side[box.kind].items()]


def rig(stream):
  kinds = {"switch": "switch", "rack": "rack", "computer": "endpoint"}
  parts = {box.part(): {"id": box.part(), "kind": kinds[box.kind], "ports": ports_of(box), "sends": 1, "receives": 1,
                        "spanning_tree": box.tree, "snooping": box.snooping} for box in stream.graph.boxes}
  devices = [{"id": box.name, "part": box.part(), **({"mac": box.mac()} if box.tree else {}),
              **({"querier": True} if box.querier else {})} for box in stream.graph.boxes]
  cables = [{"id": cable.name, "from": [cable.ends[0][0].name, cable.ends[0][1]],
             "to": [cable.ends[1][0].name, cable.ends[1][1]]} for cable in stream.graph.cables]
  patch = [{"id": f"r{i}", "from": [stream.talker.name, 1], "to": [listener.name, 1]}
           for i, listener in enumerate(stream.listeners)]
  return {"rigwright": 1, "parts": list(parts.values()), "devices": devices, "cables": cables, "patch": patch}


def said(program, stream):
  """The ends of cables by which frames come in."""
  told = json.loads(kernel.run(program, "facts", "--json", "-", text=json.dumps(rig(stream))))
  # Each cable is told of twice, first in the direction from its first end to its second.
  return {link["cable"] + "ba"[i % 2] for i, link in enumerate(told["links"]) if link["percent"] > 0}


def build(space, graphs):
  """A chain device is heard and speaks by its bridge's own interface; costs are all alike, as the speeds are. What
  was learned of the querier while trees were forming is forgotten 6 s later (by default, 255 s)."""
  lines, plugs = [], []
  for box in [box for graph in graphs for box in graph.boxes if box.kind != "computer"]:
    lines.append(f"link add {box.name} address {box.mac()} type bridge stp_state {int(box.tree)} "
                 f"forward_delay {FORWARD_DELAY_S * 100} hello_time 100 mcast_snooping {int(box.snooping)} "
                 f"mcast_querier {int(box.querier)} mcast_igmp_version {2 + box.serial % 2} "
                 "mcast_query_interval 200 mcast_querier_interval 600 mcast_query_response_interval 50 "
                 "mcast_startup_query_interval 50")
  for cable in [cable for graph in graphs for cable in graph.cables]:
    lines.append(f"link add {cable.name}a type veth peer name {cable.name}b")
    plugs += [(box, port, cable.name + end) for (box, port), end in zip(cable.ends, "ab")]
  # A bridge numbers its ports as they come, the program by their place in the part.
  for box, _, link in sorted(plugs, key=lambda plug: ports_of(plug[0]).index({"name": plug[1], "side": side_of(plug)})):
    if box.kind != "computer":
      lines += [f"link set {link} master {box.name}", f"link set {link} type bridge_slave cost 20"]
  for box, link in speaking(graphs).items():
    lines.append(f"addr add 10.{box.serial >> 8}.{box.serial & 255}.1/32 dev {link}")
  lines += [f"link set {link} up" for _, _, link in plugs]
  space.ip(lines + [f"link set {box.name} up" for graph in graphs for box in graph.boxes if box.kind != "computer"])


def side_of(plug):
  return next(port["side"] for port in ports_of(plug[0]) if port["name"] == plug[1])


def speaking(graphs):
  """By computer and chain device: the interface on which its host sits."""
  found = {box: box.name for graph in graphs for box in graph.boxes if box.kind == "rack"}
  found.update({box: cable.name + end for graph in graphs for cable in graph.cables
                for (box, _), end in zip(cable.ends, "ab") if box.kind == "computer"})
  return found


def udp(option, group, link):
  """A socket that does OPTION by that interface: struct ip_mreqn of ip(7)."""
  made = socket.socket(socket.AF_INET, socket.SOCK_DGRAM)
  made.setsockopt(socket.IPPROTO_IP, option,
                  struct.pack("4s4si", socket.inet_aton(group), bytes(4), socket.if_nametoindex(link)))
  return made


def open_ears(graphs):
  ears = {}
  for link in [cable.name + end for graph in graphs for cable in graph.cables for end in "ab"]:
    ears[link] = socket.socket(socket.AF_PACKET, socket.SOCK_RAW, socket.htons(3))
    ears[link].bind((link, 3))
    ears[link].setblocking(False)
  return ears


def heard(ears):
  """By group and end of a cable: frames that came in."""
  counts = collections.defaultdict(collections.Counter)
  for link, ear in ears.items():
    while True:
      try:
        frame, sender = ear.recvfrom(2000)
      except BlockingIOError:
        break
      if sender[2] != socket.PACKET_OUTGOING and frame[12:14] == b"\x08\0" and frame[23] == socket.IPPROTO_UDP:
        counts[socket.inet_ntoa(frame[30:34])][link] += 1
  return counts


def send(streams, links):
  for stream in streams:
    with udp(socket.IP_MULTICAST_IF, "0.0.0.0", links[stream.talker]) as out:
      out.setsockopt(socket.IPPROTO_IP, socket.IP_MULTICAST_LOOP, 0)
      for _ in range(N_FRAMES):
        out.sendto(bytes(64), (stream.group, 5004))
        time.sleep(0.005) # the kernel drops what comes faster than it is passed on
  time.sleep(0.3)


def measure(space, graphs, streams):
  """Trees settle, hosts join, and queries go round; then every stream sends."""
  build(space, graphs)
  space.enter()
  time.sleep(4 * FORWARD_DELAY_S + 4)
  links = speaking(graphs)
  members = [udp(socket.IP_ADD_MEMBERSHIP, stream.group, links[box]) for stream in streams for box in stream.listeners]
  time.sleep(7)
  ears = open_ears(graphs)
  send(streams, links)
  counts = heard(ears)
  for opened in members + list(ears.values()):
    opened.close()
  return counts


def main(program, seed):
  print(f"# seed {seed}")
  rand, first, graphs = random.Random(seed), 1, []
  for number in range(N_GRAPHS):
    graphs.append(Graph(rand, first, [None, None, False, True][number % 4]))
    first += len(graphs[-1].boxes)
  streams = [stream for number, graph in enumerate(graphs) for stream in graph.streams(rand, number)]
  tap = kernel.Tap(N_GRAPHS + 1)
  expected = {stream.group: dict.fromkeys(said(program, stream), N_FRAMES) for stream in streams}
  with kernel.namespace("rwigmp") as space:
    counts = measure(space, graphs, streams)
  spared = 0
  for number, graph in enumerate(graphs):
    mine = [stream for stream in streams if stream.graph is graph]
    wrong = [stream for stream in mine if counts[stream.group] != expected[stream.group] or not expected[stream.group]]
    spared += sum(len(expected[stream.group]) < len(graph.cables) for stream in mine)
    detail = [f"{stream.talker.name} to {[box.name for box in stream.listeners]}: "
              f"only real {sorted((counts[stream.group] - collections.Counter(expected[stream.group])).items())}, "
              f"only said {sorted((collections.Counter(expected[stream.group]) - counts[stream.group]).items())}, "
              f"{json.dumps(rig(stream))}" for stream in wrong]
    tap.check(not wrong, f"graph {number}: {len(graph.boxes)} boxes, {'a' if graph.querier else 'no'} querier",
              "\n# ".join(detail))
  tap.check(N_GRAPHS / 2 < spared < 2 * N_GRAPHS, "some streams are spared some links, some are not",
            f"{spared} of {len(streams)}")
  return tap.failed > 0


if __name__ == "__main__":
  sys.exit(main(sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else os.getpid()))
