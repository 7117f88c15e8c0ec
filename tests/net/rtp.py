#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""rtp.py RIGWRIGHT-CLI: do real RTP packets take what the program says a stream takes?

GStreamer's payloaders (RFC 3190, RFC 3551) send every number of channels at every packet time over a pair of
Ethernet interfaces, and its frames are measured as they come in. A frame as captured lacks the check sequence (4
bytes), preamble and start delimiter (8) and the gap (12, IEEE 802.3). How long a packet lasts is read from the
RTP time stamps. GStreamer itself makes of a packet time so many samples, and splits what does not fit.
"""
import collections
import json
import os
import socket
import subprocess
import sys
import time

import kernel

# GStreamer rounds packet times down to whole samples: nanoseconds, a little more than they are.
PACKET_TIMES = {125: 125001, 250: 250001, 333: 333334, 1000: 1000001, 4000: 4000001}
RATES = [44100, 48000, 96000]
# AES67 7.2: 44.1 kHz keeps the number of samples that 48 kHz has.
STRETCHED = {44100: 48000 / 44100}
FORMATS = {16: "S16BE", 24: "S24BE"}
CHANNELS = range(1, 9)
N_PACKETS = 12
NOT_CAPTURED = 4 + 8 + 12
# 1440 bytes of samples (ST 2110-10:2022 6.3) and the header of RTP, the most that one packet may hold.
MTU = 1440 + 12
FIRST_PORT = 20000
HEADERS = 14 + 20 + 8

Packet = collections.namedtuple("Packet", "sequence stamp payload frame")


def chain(port, rate, bits, channels, packet_ns):
  """One source of sound for gst-launch: channels without places in a room, as fast as they can be sent."""
  caps = f"audio/x-raw,format={FORMATS[bits]},rate={rate},channels={channels}"
  if channels > 2:
    caps += ",channel-mask=(bitmask)0x0"
  samples = round(rate * packet_ns / 1e9 * N_PACKETS)
  return (f"audiotestsrc num-buffers=1 samplesperbuffer={samples} ! {caps} ! rtpL{bits}pay mtu={MTU} seqnum-offset=0 "
          f"min-ptime={packet_ns} max-ptime={packet_ns} ! udpsink host=239.192.1.1 port={port} auto-multicast=false "
          "sync=false async=false").split()


def open_ear():
  ear = socket.socket(socket.AF_PACKET, socket.SOCK_RAW, socket.htons(0x0800))
  ear.bind(("there", 0x0800))
  ear.setsockopt(socket.SOL_SOCKET, 33, 1 << 24)  # SO_RCVBUFFORCE
  ear.setblocking(False)
  return ear


def heard(ear):
  """By UDP port: the packets by their number."""
  packets = collections.defaultdict(list)
  while True:
    try:
      frame = ear.recv(4000)
    except BlockingIOError:
      return {port: sorted(some) for port, some in packets.items()}
    assert frame[14] == 0x45 and frame[23] == 17, "neither IPv4 without options nor UDP"
    rtp = frame[HEADERS:]
    assert rtp[0] == 0x80, "RTP with more than its twelve bytes"
    packets[int.from_bytes(frame[36:38], "big")].append(Packet(
      int.from_bytes(rtp[2:4], "big"), int.from_bytes(rtp[4:8], "big"), len(rtp) - 12, len(frame)))


def measure(ear, packet_time):
  """By (rate, bits, channels): bytes of samples and samples of a packet, and what it takes of the wire in Mb/s."""
  formats = [(rate, bits, channels) for rate in RATES for bits in FORMATS for channels in CHANNELS]
  launch = ["gst-launch-1.0", "-q"]
  for port, (rate, bits, channels) in enumerate(formats, FIRST_PORT):
    launch += chain(port, rate, bits, channels, round(PACKET_TIMES[packet_time] * STRETCHED.get(rate, 1)))
  kernel.run(*launch)
  time.sleep(0.3)
  packets, found = heard(ear), {}
  for port, (rate, bits, channels) in enumerate(formats, FIRST_PORT):
    some = packets.get(port, [])
    sequences = [packet.sequence - some[0].sequence & 0xffff for packet in some]
    whole = {(later.stamp - packet.stamp & 0xffffffff, packet.payload, packet.frame)
             for packet, later in zip(some, some[1:])}
    assert len(some) >= N_PACKETS and sequences == list(range(len(some))) and len(whole) == 1, \
      f"{rate} Hz, {bits} bits, {channels} channels, {packet_time} µs: {some}"
    samples, payload, frame = whole.pop()
    found[rate, bits, channels] = samples, payload, (frame + NOT_CAPTURED) * 8 * rate / samples / 1e6
  return found


def rig(packet_time):
  """A pair of computers for each format, the one patched to the other."""
  parts = [{"id": "computer", "kind": "endpoint", "ports": [{"name": "P", "side": "primary"}], "sends": 8, "receives": 8}]
  devices, cables, patch = [], [], []
  for rate in RATES:
    for bits in FORMATS:
      for channels in CHANNELS:
        name = f"{rate}-{bits}-{channels}"
        devices += [{"id": f"{side}-{name}", "part": "computer", "sample_rate_hz": rate, "word_bits": bits} for side in "ab"]
        cables.append({"id": f"k-{name}", "from": [f"a-{name}", "P"], "to": [f"b-{name}", "P"]})
        patch += [{"id": f"r-{name}-{n}", "from": [f"a-{name}", n], "to": [f"b-{name}", n]} for n in range(1, channels + 1)]
  return {"rigwright": 1, "system": {"packet_time_us": packet_time}, "parts": parts, "devices": devices,
          "cables": cables, "patch": patch}


def said(program, packet_time):
  """By (rate, bits, channels): Mb/s from the one computer to the other."""
  facts = json.loads(kernel.run(program, "facts", "--json", "-", text=json.dumps(rig(packet_time))))
  return {tuple(int(word) for word in link["cable"].split("-")[1:]): link["mbps"] for link in facts["links"]
          if link["from"].startswith("a-")}


def expected(real, packet_samples, key):
  """What the streams take into which so many channels must be split: GStreamer sends as many as fit at a time."""
  rate, bits, channels = key
  fitting = [n for n in CHANNELS if real[rate, bits, n][0] == packet_samples]
  if not fitting:
    return 0
  most = max(fitting)
  alone = [most] * (channels // most) + [channels % most] * (channels % most > 0)
  return sum(real[rate, bits, n][2] for n in alone)


def compare(real, mbps):
  """What is wrong, and of how many formats all channels fit one packet."""
  wrong, whole = [], 0
  for key in real:
    rate, bits, channels = key
    samples = real[rate, bits, 1][0]
    whole += real[key][0] == samples
    if real[key][0] == samples and real[key][1] != samples * channels * bits // 8:
      wrong.append(f"{key}: {real[key][1]} bytes of samples")
    if abs(mbps[key] - expected(real, samples, key)) > 1e-6 * mbps[key] + 1e-6:
      wrong.append(f"{key}: {expected(real, samples, key)} Mb/s, not {mbps[key]}")
  return wrong, whole


def main(program):
  tap = kernel.Tap(len(PACKET_TIMES) + 1)
  split = 0
  with kernel.namespace("rwrtp") as space:
    space.ip(["link add here type veth peer name there", "addr add 10.77.1.1/24 dev here", "link set here up",
              "link set there up", "route add 224.0.0.0/4 dev here"])
    space.enter()
    ear = open_ear()
    for packet_time in PACKET_TIMES:
      real = measure(ear, packet_time)
      wrong, whole = compare(real, said(program, packet_time))
      split += len(real) - whole
      tap.check(not wrong, f"{packet_time} µs: {len(real)} formats, {whole} in one packet", "; ".join(wrong))
  tap.check(split > 20, "some formats do not fit one packet", f"{split} do not")
  return tap.failed > 0


if __name__ == "__main__":
  sys.exit(main(sys.argv[1]))
