# SPDX-License-Identifier: MIT
"""Real Linux bridges in a network namespace, for the tests of the net.

Needs root and network namespaces; without them everything here fails, and so does the test.
"""
import contextlib
import ctypes
import json
import os
import subprocess

CLONE_NEWNET = 0x40000000


def run(*command, text=None):
  """Standard output of COMMAND; an error with all that it said where it fails."""
  done = subprocess.run(command, input=text, text=True, capture_output=True)
  if done.returncode != 0:
    raise RuntimeError(f"{' '.join(command)}: {done.stderr.strip()}")
  return done.stdout


def verdict(program, rig):
  """The lines of net-verdict on RIG, each split into words."""
  return [line.split() for line in run(program, text=rig).splitlines()]


class Namespace:
  def __init__(self, name):
    self.name = name

  def ip(self, lines):
    run("ip", "-n", self.name, "-batch", "-", text="\n".join(lines) + "\n")

  def links(self):
    return json.loads(run("ip", "-n", self.name, "-s", "-d", "-j", "link", "show"))

  def enter(self):
    """Puts this process into the namespace; os.setns() is not there before Python 3.12."""
    libc = ctypes.CDLL(None, use_errno=True)
    descriptor = os.open(f"/run/netns/{self.name}", os.O_RDONLY)
    if libc.setns(descriptor, CLONE_NEWNET) != 0:
      raise OSError(ctypes.get_errno(), "setns")
    os.close(descriptor)


@contextlib.contextmanager
def namespace(stem):
  name = f"{stem}{os.getpid()}"
  run("ip", "netns", "add", name)
  try:
    # Bridges would otherwise talk of their own accord.
    run("ip", "netns", "exec", name, "sh", "-c",
        "for i in all default; do echo 1 >/proc/sys/net/ipv6/conf/$i/disable_ipv6; done")
    yield Namespace(name)
  finally:
    subprocess.run(["ip", "netns", "del", name], check=False)


class Tap:
  """Test Anything Protocol, as meson reads it."""

  def __init__(self, n):
    self.at = self.failed = 0
    print(f"1..{n}", flush=True)

  def check(self, good, name, detail=""):
    self.at += 1
    self.failed += not good
    print(f"{'ok' if good else 'not ok'} {self.at} - {name}", flush=True)
    if detail and not good:
      print(f"# {detail}", flush=True)
