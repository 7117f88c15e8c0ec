#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""storm.py NET-VERDICT: does a pair of real bridges do what the net says of the same rig?

One broadcast frame into two bridges, joined by one cable or two, with spanning tree off or on. Where the
net says storm, the frame must go round and round; elsewhere it must cross once. Bounded: the cables are
taken down within a second.
"""
import contextlib
import os
import socket
import struct
import sys
import time

import kernel

# IEEE 802 local experimental EtherType 1.
ETHERTYPE = 0x88B5
# A storm makes tens of thousands a second; far fewer reach a busy listener, but more than any calm net gives.
STORM = 20


def rig(cables, tree):
  switch = "switch %s stp" if tree else "switch %s"
  return ";".join([switch % "A", switch % "B"] + [f"A.p{i}-B.p{i}" for i in range(1, cables + 1)])


def build(space, cables, tree):
  lines = []
  for i in range(2):
    lines += [f"link add br{i} address 02:00:00:00:00:0{i + 1} type bridge stp_state {int(tree)} "
              "forward_delay 200 hello_time 100 mcast_snooping 0",
              f"link add h{i} type veth peer name p{i}", f"link set p{i} master br{i}",
              f"link set p{i} up", f"link set h{i} up"]
  for k in range(cables):
    lines += [f"link add a{k} type veth peer name b{k}", f"link set a{k} master br0",
              f"link set b{k} master br1", f"link set a{k} up", f"link set b{k} up"]
  space.ip(lines + ["link set br0 up", "link set br1 up"])
  # Twice the forward delay, and some for the other host's port.
  time.sleep(6 if tree else 0.3)


def send_and_count():
  """Sends one broadcast at one host and says how often the other hears it in a while."""
  receiver = socket.socket(socket.AF_PACKET, socket.SOCK_RAW, socket.htons(ETHERTYPE))
  receiver.bind(("h1", ETHERTYPE))
  receiver.settimeout(0.1)
  sender = socket.socket(socket.AF_PACKET, socket.SOCK_RAW, 0)
  sender.bind(("h0", 0))
  sender.send(b"\xff" * 6 + b"\x02\0\0\0\0\x99" + struct.pack("!H", ETHERTYPE)
              + b"one frame".ljust(46, b"\0"))
  heard, end = 0, time.monotonic() + 0.8
  while time.monotonic() < end and heard < STORM:
    with contextlib.suppress(TimeoutError):
      heard += len(receiver.recv(2048)) > 0
  return heard


def measure(cables, tree):
  """In a process of its own, since there is no way back out of a namespace."""
  with kernel.namespace("rwstorm") as space:
    build(space, cables, tree)
    reader, writer = os.pipe()
    child = os.fork()
    if child == 0:
      try:
        space.enter()
        os.write(writer, str(send_and_count()).encode())
      finally:
        os._exit(0)
    os.close(writer)
    os.waitpid(child, 0)
    space.ip([f"link set a{k} down" for k in range(cables)])
    with os.fdopen(reader) as answer:
      return int(answer.read())


def main(program):
  cases = [(1, False), (2, False), (2, True)]
  tap = kernel.Tap(len(cases))
  for cables, tree in cases:
    said = any(words[0] == "network" and words[-1] == "yes"
               for words in kernel.verdict(program, rig(cables, tree)))
    heard = measure(cables, tree)
    tap.check(heard == (STORM if said else 1),
              f"{cables} cables, spanning tree {'on' if tree else 'off'}: {'storm' if said else 'calm'}",
              f"the frame came {heard} times")
  return tap.failed > 0


sys.exit(main(sys.argv[1]))
