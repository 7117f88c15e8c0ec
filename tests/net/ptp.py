#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""ptp.py RIGWRIGHT-CLI: do real clocks elect the leader that the program names?

Three instances of linuxptp's ptp4l on one bridge, each in a namespace of its own, for each attribute that
can decide (IEEE 1588-2008 9.3.4); in one case the leader is killed and the others elect anew.
"""
import contextlib
import json
import os
import subprocess
import sys
import tempfile
import time

import kernel

LIMIT_S = 25
# priority1, class, accuracy, variance, priority2 of three clocks; None = the default of IEEE 1588-2008 Annex J.
CASES = {
  "priority 1": [(127, 248), (None, 200), (None, 248)],
  "class": [(None, 220, 0x20), (None, 200), (None, 248, 0x20)],
  "accuracy": [(None, None, 0x22, 1), (None, None, 0x25), (None, None, 0x21)],
  "variance": [(None, None, None, 300, 1), (None, None, None, 200), (None, None, None, 300)],
  "priority 2": [(), (None, None, None, None, 100), (None, None, None, None, 127)],
  "identity": [(), (), ()],
}
NAMES = ["priority1", "class", "accuracy", "variance", "priority2"]
OPTIONS = ["priority1", "clockClass", "clockAccuracy", "offsetScaledLogVariance", "priority2"]
DEFAULTS = [128, 248, 254, 65535, 128]


def identity(index):
  """That which the address 02:00:00:00:00:0N gives: EUI-64 with FFFE in the middle."""
  return f"020000fffe00000{index}"


def values(clock):
  padded = list(clock) + [None] * (5 - len(clock))
  return [default if value is None else value for value, default in zip(padded, DEFAULTS)]


def rig(clocks):
  """The same as a rig: computers on a switch."""
  ports = [{"name": str(i), "side": "network"} for i in range(8)]
  devices = [{"id": "s1", "part": "switch"}]
  for index, clock in clocks.items():
    devices.append({"id": f"c{index}", "part": "computer",
                    "clock": {**dict(zip(NAMES, values(clock))), "identity": identity(index)}})
  cables = [{"id": f"k{i}", "from": [device["id"], "P"], "to": ["s1", str(i)]} for i, device in enumerate(devices[1:])]
  parts = [{"id": "computer", "kind": "endpoint", "ports": [{"name": "P", "side": "primary"}]},
           {"id": "switch", "kind": "switch", "ports": ports}]
  return {"rigwright": 1, "parts": parts, "devices": devices, "cables": cables}


def named_leader(program, clocks):
  text = json.dumps(rig(clocks))
  told = json.loads(kernel.run(program, "facts", "--json", "-", text=text))
  return told["networks"][0]["clock_leader"]


class Clock:
  def __init__(self, index, clock, space, folder):
    self.index, self.space, self.folder = index, space, folder
    self.socket = f"{folder}/{index}.sock"
    config = [f"{option} {value}" for option, value in zip(OPTIONS, values(clock))]
    config += ["time_stamping software", "free_running 1", "logAnnounceInterval -2", f"uds_address {self.socket}"]
    path = f"{folder}/{index}.conf"
    with open(path, "w", encoding="ascii") as file:
      file.write("\n".join(["[global]"] + config) + "\n")
    self.process = subprocess.Popen(["ip", "netns", "exec", space.name, "ptp4l", "-2", "-S", "-i", "eth0", "-f", path, "-q"],
                                    stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)

  def grandmaster(self):
    """Identity of the clock that this one follows, or None while it does not say."""
    asked = subprocess.run(["pmc", "-u", "-b", "0", "-s", self.socket, "-i", f"{self.folder}/pmc{self.index}",
                            "GET PARENT_DATA_SET"], capture_output=True, text=True, check=False)
    for line in asked.stdout.splitlines():
      if "grandmasterIdentity" in line:
        return line.split()[1].replace(".", "")
    return None

  def stop(self):
    self.process.terminate()
    self.process.wait()


def elected(clocks):
  """The leader that all name for two seconds on end."""
  end, since, last = time.monotonic() + LIMIT_S, time.monotonic(), None
  while time.monotonic() < end:
    named = [clock.grandmaster() for clock in clocks]
    if named != last:
      since, last = time.monotonic(), named
    if None not in named and len(set(named)) == 1 and time.monotonic() - since > 2.5:
      return named[0]
    time.sleep(0.2)
  return f"no agreement: {last}"


@contextlib.contextmanager
def running(clocks):
  with contextlib.ExitStack() as stack:
    folder = stack.enter_context(tempfile.TemporaryDirectory())
    middle = stack.enter_context(kernel.namespace("rwptp"))
    middle.ip(["link add br0 type bridge mcast_snooping 0", "link set br0 up"])
    started = []
    for index, clock in clocks.items():
      space = stack.enter_context(kernel.namespace(f"rwptp{index}x"))
      space.ip([f"link add eth0 address 02:00:00:00:00:0{index} type veth peer name p{index} netns {middle.name}",
                "link set eth0 up", "link set lo up"])
      middle.ip([f"link set p{index} master br0", f"link set p{index} up"])
      started.append(Clock(index, clock, space, folder))
      stack.callback(started[-1].stop)
    yield started


def name_of(leader):
  return next((f"c{i}" for i in range(1, 4) if identity(i) == leader), leader)


def main(program):
  tap = kernel.Tap(len(CASES) + 1)
  for name, three in CASES.items():
    clocks = dict(enumerate(three, 1))
    said = named_leader(program, clocks)
    with running(clocks) as started:
      real = name_of(elected(started))
      tap.check(real == said, f"decided by {name}", f"real clocks: {real}; the program: {said}")
      if name != "priority 2":
        continue
      index = int(real[1:])
      started[index - 1].stop()
      left = [clock for clock in started if clock.index != index]
      del clocks[index]
      real, said = name_of(elected(left)), named_leader(program, clocks)
      tap.check(real == said, "when the leader fails", f"real clocks: {real}; the program: {said}")
  return tap.failed


if __name__ == "__main__":
  os.environ["PATH"] += os.pathsep + "/usr/sbin"
  sys.exit(1 if main(sys.argv[1]) else 0)
