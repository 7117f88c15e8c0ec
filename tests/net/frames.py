#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""frames.py NET-VERDICT [SEED]: do frames take the cables that the net says?

Graphs of chance of real bridges with spanning tree, three hosts on each. Once the tree stands and every bridge has
learned where the hosts are, one frame goes from each host to each other, and every end of every cable counts those
that come in: they must be those of the path, one each.
"""
import os
import random
import socket
import struct
import sys
import time

import kernel

N_GRAPHS, N_SWITCHES, N_HOSTS, N_CABLES = 6, 6, 3, 9
# IEEE 802 local experimental EtherType 2.
ETHERTYPE = 0x88B6
FORWARD_DELAY_S = 2


class Graph:
  def __init__(self, rand, serial):
    self.serial = serial
    self.switches = [f"G{serial}S{i}" for i in range(N_SWITCHES)]
    self.hosts = [f"G{serial}H{i}" for i in range(N_HOSTS)]
    self.priority = {switch: rand.choice([4096, 32768, 32768]) for switch in self.switches}
    pairs = [(rand.choice(self.switches[:i]), self.switches[i]) for i in range(1, N_SWITCHES)]
    pairs += [tuple(rand.sample(self.switches, 2)) for _ in range(N_CABLES - len(pairs))]
    self.pairs = pairs + list(zip(self.hosts, rand.sample(self.switches, N_HOSTS)))
    self.port = dict.fromkeys(self.switches, 0)
    self.cables = []  # (name, [(box, port), (box, port)])
    for k, pair in enumerate(self.pairs):
      self.cables.append((f"k{serial}x{k}", [(box, self.next_port(box)) for box in pair]))

  def next_port(self, box):
    if box not in self.port:
      return "primary"
    self.port[box] += 1
    return f"p{self.port[box]}"

  def mac(self, box):
    kind, boxes = (1, self.switches) if box in self.port else (2, self.hosts)
    return f"02:00:00:{kind:02x}:{self.serial:02x}:{boxes.index(box) + 1:02x}"

  def text(self):
    lines = [f"switch {s} ports={N_CABLES + N_HOSTS} stp bridge_priority={self.priority[s]} mac={self.mac(s)}" for s in self.switches]
    lines += [f"computer {host}" for host in self.hosts]
    lines += ["-".join(f"{box}.{port}" for box, port in ends) + f" id={name}" for name, ends in self.cables]
    return ";".join(lines)

  def build(self):
    """Costs are all alike, as the speeds are."""
    lines = [f"link add {s} address {self.mac(s)} type bridge stp_state 1 priority {self.priority[s]} "
             f"forward_delay {FORWARD_DELAY_S * 100} hello_time 100 mcast_snooping 0" for s in self.switches]
    for name, ends in self.cables:
      far = [name + end for end in "ab"]
      host = ends[0][0] in self.hosts
      lines.append(f"link add {far[0]} {'address ' + self.mac(ends[0][0]) if host else ''} type veth peer name {far[1]}")
      for link, (box, _) in zip(far, ends):
        if box in self.port:
          lines += [f"link set {link} master {box}", f"link set {link} type bridge_slave cost 20"]
    lines += [f"link set {name + end} up" for name, _ in self.cables for end in "ab"]
    return lines + [f"link set {s} up" for s in self.switches]

  def host_link(self, host):
    return next(name + "a" for name, ends in self.cables if ends[0][0] == host)


class Ears:
  """One on every end of every cable, for frames that come in."""

  def __init__(self, graphs):
    self.sockets = {}
    for link in [name + end for graph in graphs for name, _ in graph.cables for end in "ab"]:
      ear = socket.socket(socket.AF_PACKET, socket.SOCK_RAW, socket.htons(3))
      ear.bind((link, 3))
      ear.setblocking(False)
      self.sockets[link] = ear

  def heard(self):
    time.sleep(0.25)
    counts = {}
    for link, ear in self.sockets.items():
      while True:
        try:
          frame, sender = ear.recvfrom(2000)
        except BlockingIOError:
          break
        if sender[2] != socket.PACKET_OUTGOING and frame[12:14] == struct.pack("!H", ETHERTYPE):
          counts[link[:-1]] = counts.get(link[:-1], 0) + 1
    return counts


def send(link, target, source):
  with socket.socket(socket.AF_PACKET, socket.SOCK_RAW, 0) as out:
    out.bind((link, 0))
    out.send(bytes.fromhex((target + source).replace(":", "")) + struct.pack("!H", ETHERTYPE) + bytes(46))


def compare(graph, said, ears):
  """What is wrong, or nothing."""
  wrong = []
  for host in graph.hosts:
    send(graph.host_link(host), "ff:ff:ff:ff:ff:ff", graph.mac(host))
  ears.heard()
  for a in graph.hosts:
    for b in graph.hosts:
      if a == b:
        continue
      send(graph.host_link(a), graph.mac(b), graph.mac(a))
      expected = dict.fromkeys(said.get((a, b), []), 1)
      real = ears.heard()
      if not expected or real != expected:
        wrong.append(f"{a} to {b}: {sorted(real.items())}, not {sorted(expected)}")
  return wrong


def main(program, seed):
  rand = random.Random(seed)
  graphs = [Graph(rand, serial) for serial in range(N_GRAPHS)]
  print(f"# seed {seed}")
  tap = kernel.Tap(N_GRAPHS)
  with kernel.namespace("rwframes") as space:
    space.ip([line for graph in graphs for line in graph.build()])
    # Listening and learning, and a while for a tree that settles in steps.
    time.sleep(4 * FORWARD_DELAY_S + 6)
    said = [{(words[1], words[2]): words[3:] for words in kernel.verdict(program, graph.text()) if words[0] == "path"}
            for graph in graphs]
    space.enter()
    ears = Ears(graphs)
    for graph, paths in zip(graphs, said):
      wrong = compare(graph, paths, ears)
      tap.check(not wrong, f"graph {graph.serial}", "; ".join(wrong))
  return tap.failed


if __name__ == "__main__":
  sys.exit(1 if main(sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else os.getpid()) else 0)
