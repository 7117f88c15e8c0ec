# SPDX-License-Identifier: MIT
"""The rules on the patch, worked out a second time; see reference.py.

How findings are bundled is told by few of these rules, so that each is worked out as the set of all its subjects:
rows, channels, devices.
"""
from reference_clock import leaders

# Bytes of samples in one packet: ST 2110-10:2022 6.3.
LIMIT = 1440


def rows(p):
  """(id, device, send, device, receive)"""
  return [(row['id'], *row['from'], *row['to']) for row in p.rig.get('patch', [])]


def inside(p):
  """(id, device, kind, number, kind, number)"""
  return [(row['id'], row['device'], *row['from'], *row['to']) for row in p.rig.get('inside', [])]


def has(p, device, count, number):
  return 1 <= number <= p.part(device).get(count, 0)


def twice(slots):
  """By slot, the rows of those that are taken more than once."""
  taken = {}
  for slot, row in slots:
    taken.setdefault(slot, []).append(row)
  return {(slot, tuple(some)) for slot, some in taken.items() if len(some) > 1}


def slot_taken(p):
  """A slot that is not there cannot be taken: of that tells no-channel."""
  slots = [((b, 'receive', receive), row) for row, _, _, b, receive in rows(p)]
  slots += [((device, to, number), row) for row, device, _, _, to, number in inside(p) if to != 'local']
  return twice((slot, row) for slot, row in slots if has(p, slot[0], COUNTS[slot[1]], slot[2]))


COUNTS = {'receive': 'receives', 'strip': 'strips', 'bus': 'buses', 'send': 'sends'}


def no_channel(p):
  """(row, device, side, number); a console's own sockets have no side of their own."""
  named = [(row, end[0], side, end[1], COUNTS[side]) for row, *ends in rows(p)
           for end, side in ((ends[:2], 'send'), (ends[2:], 'receive'))]
  for row, device, kind, number, to_kind, to_number in inside(p):
    named.append((row, device, kind, number, COUNTS.get(kind, 'local_inputs')))
    named.append((row, device, to_kind, to_number, COUNTS.get(to_kind, 'local_outputs')))
  return {(row, device) if side == 'local' else (row, device, side, number)
          for row, device, side, number, count in named if not has(p, device, count, number)}


def share(p, a, b):
  return bool({p.network_of[node] for node in p.hosts(a)} & {p.network_of[node] for node in p.hosts(b)})


def no_path(p):
  return {row for row, a, _, b, _ in rows(p) if a != b and not share(p, a, b)}


def half_patched(p):
  fed = {(b, receive) for _, _, _, b, receive in rows(p)}
  left = {(a, send) for _, a, send, _, _ in rows(p)}
  heard = {(device, number) for _, device, kind, number, to, _ in inside(p) if (kind, to) == ('receive', 'strip')}
  sent = {(device, number) for _, device, kind, _, to, number in inside(p) if (kind, to) == ('bus', 'send')}
  found = {(row, b, 'receive', receive) for row, _, _, b, receive in rows(p) if (b, receive) not in heard}
  found |= {(row, a, 'send', send) for row, a, send, _, _ in rows(p) if (a, send) not in sent}
  found |= {(row, device, 'receive', number) for row, device, kind, number, _, _ in inside(p)
            if kind == 'receive' and (device, number) not in fed}
  found |= {(row, device, 'send', number) for row, device, _, _, to, number in inside(p)
            if to == 'send' and (device, number) not in left}
  return {what for what in found if p.kind(what[1]) == 'controller' and has(p, what[1], COUNTS[what[2]], what[3])}


def sends(p):
  """((device, number), channel) of all sends about which something is written."""
  return [((channel['device'], channel['number']), channel) for channel in p.rig.get('channels', [])
          if channel['side'] == 'send']


def not_patched(p):
  left = {(a, send) for _, a, send, _, _ in rows(p)}
  return {send for send, channel in sends(p) if channel.get('name') and send not in left}


def phantom_harm(p):
  return {(send, 'note' if channel.get('source') == 'di-passive' and send[1] <= p.part(send[0]).get('preamps', 0) else 'warning')
          for send, channel in sends(p) if channel.get('phantom')
          and (channel.get('source') in ('ribbon', 'line', 'radio', 'di-passive') or send[1] > p.part(send[0]).get('preamps', 0))}


def phantom_missing(p):
  return {send for send, channel in sends(p)
          if channel.get('source') in ('condenser', 'di-active') and not channel.get('phantom')}


def users(p):
  """By rack: the consoles to which its preamps are patched."""
  found = {device: set() for device in p.devices if p.kind(device) == 'rack'}
  for _, a, send, b, _ in rows(p):
    if a in found and 1 <= send <= p.part(a).get('preamps', 0) and p.kind(b) == 'controller':
      found[a].add(b)
  return found


def gain(p, compensates, is_wrong):
  return {(rack, *p.in_order(consoles)) for rack, consoles in users(p).items()
          if p.devices[rack].get('gain_compensation', False) == compensates and is_wrong(len(consoles))}


def own(p, device, name, default):
  """A value of the device's own, or else the system's."""
  return p.devices[device].get(name, p.rig.get('system', {}).get(name, default))


def clash(p, name, default):
  return {row for row, a, _, b, _ in rows(p) if own(p, a, name, default) != own(p, b, name, default)}


def samples(p, talker):
  """Of one channel in a packet: AES67 7.2; 44.1 kHz and its multiples have as many as 48 kHz and its own."""
  rate, time = own(p, talker, 'sample_rate_hz', 48000), p.rig.get('system', {}).get('packet_time_us', 125)
  return round({44100: 48000, 88200: 96000, 176400: 192000}.get(rate, rate) * {333: 1000 / 3}.get(time, time) / 1e6)


def payload(p, talker, n):
  return samples(p, talker) * n * own(p, talker, 'word_bits', 24) // 8


def stream_too_big(p):
  return {row for row, a, _, _, _ in rows(p) if payload(p, a, 1) > LIMIT}


def clock_split(p):
  """A device without a cable follows nobody yet."""
  leader = {device: follows if p.has_audio_cable(device) else None for device, follows in leaders(p).items()}
  return {row for row, a, _, b, _ in rows(p) if None not in (leader[a], leader[b]) and leader[a] != leader[b]}


RULES = {
  'slot-taken': slot_taken,
  'no-channel': no_channel,
  'no-path': no_path,
  'half-patched': half_patched,
  'not-patched': not_patched,
  'phantom-harm': phantom_harm,
  'phantom-missing': phantom_missing,
  'gain-shared': lambda p: gain(p, False, lambda n: n > 1),
  'compensation-idle': lambda p: gain(p, True, lambda n: n == 1),
  'rate-clash': lambda p: clash(p, 'sample_rate_hz', 48000),
  'width-clash': lambda p: clash(p, 'word_bits', 24),
  'stream-too-big': stream_too_big,
  'clock-split': clock_split,
}


def told(code, finding):
  """The subjects of one of the program's findings, in the terms of the rules above."""
  numbers, devices, some = finding['channels'], finding['devices'], finding['rows']
  if code == 'slot-taken':
    return {(tuple(numbers[0]), tuple(some))}
  if code == 'no-channel':
    assert not numbers or len(numbers) == len(some)
    return {(row, *number) for row, number in zip(some, numbers)} if numbers else {(row, devices[0]) for row in some}
  if code == 'half-patched':
    assert len(numbers) == len(some)
    return {(row, *number) for row, number in zip(some, numbers)}
  if code in ('not-patched', 'phantom-missing'):
    return {(device, number) for device, _, number in numbers}
  if code == 'phantom-harm':
    return {((device, number), finding['severity']) for device, _, number in numbers}
  if code in ('gain-shared', 'compensation-idle'):
    return {tuple(devices)}
  return set(some)
