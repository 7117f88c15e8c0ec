# SPDX-License-Identifier: MIT
"""Small rigs by chance in which everything goes wrong that may: the same seed gives the same rig."""
import random


def ports(*names_and_sides, **more):
  return [{'name': name, 'side': side, **more} for name, side in names_and_sides]


BOTH = ports(('P', 'primary'), ('S', 'secondary'))
PARTS = [
  {'id': 'desk', 'name': 'Desk', 'kind': 'controller', 'ports': BOTH, 'sends': 6, 'receives': 12, 'strips': 8, 'buses': 6,
   'local_inputs': 2, 'local_outputs': 2, 'fabric_ns': 900},
  {'id': 'rack', 'name': 'Rack', 'kind': 'rack', 'ports': BOTH, 'sends': 12, 'receives': 2, 'preamps': 8, 'fabric_ns': 0},
  {'id': 'outs', 'name': 'Output rack', 'kind': 'rack', 'ports': BOTH + ports(('A', 'aux'), speed_mbps=100), 'receives': 8},
  {'id': 'speaker', 'name': 'Speaker', 'kind': 'endpoint', 'ports': BOTH[:1], 'receives': 1},
  {'id': 'laptop', 'name': 'Laptop', 'kind': 'endpoint', 'ports': BOTH[:1] + ports(('A', 'aux')), 'sends': 4, 'receives': 4},
  {'id': 'plain', 'name': 'Plain switch', 'kind': 'switch', 'ports': ports(*[(str(n), 'network') for n in range(5)])},
  {'id': 'tree', 'name': 'Switch with spanning tree', 'kind': 'switch', 'spanning_tree': True,
   'ports': ports(*[(str(n), 'network') for n in range(4)]) + ports(('4', 'network'), speed_mbps=100)
            + ports(('5', 'network'), medium='cage', speed_mbps=10000)},
  {'id': 'snoop', 'name': 'Switch that snoops', 'kind': 'switch', 'spanning_tree': True, 'snooping': True, 'fabric_ns': 5000,
   'ports': ports(*[(str(n), 'network') for n in range(6)])},
  {'id': 'fibre', 'name': 'Converter', 'kind': 'converter',
   'ports': ports(('1', 'network')) + ports(('2', 'network'), medium='multimode')},
  {'id': 'three', 'name': 'Converter with three ports', 'kind': 'converter',
   'ports': ports(('1', 'network'), ('2', 'network'), ('3', 'network'))},
]
BY_ID = {part['id']: part for part in PARTS}


SWITCHES = ('plain', 'tree', 'snoop')
SOURCES = ['condenser', 'dynamic', 'ribbon', 'di-active', 'di-passive', 'line', 'radio']
FORWARDING = SWITCHES + ('fibre', 'three')
GRADES = ['cat5', 'cat5e', 'cat6', 'cat6a', 'om1', 'om2', 'om3', 'om4', 'om5', 'os2']


def clock(rng):
  made = {}
  for name, values in (('priority1', [10, 128]), ('class', [6, 248, 255]), ('accuracy', [32, 254]),
                       ('variance', [1, 65535]), ('priority2', [1, 128]),
                       ('identity', ['00000000000000fe', '00000000000000FF', '']), ('domain', [0, 1]),
                       ('reference', [True, False])):
    if rng.random() < .2:
      made[name] = rng.choice(values)
  return made


def address(rng):
  return rng.choice([f'10.0.{rng.randrange(2)}.{rng.randrange(1, 6)}/24'] * 6
                    + ['10.0.0.3/16', '10.0.0.3', '169.254.7.7/16', '169.254.255.1', '10.0.0.256/24', '', 'ask Ines'])


def device(rng, number, kinds, vlans):
  part = rng.choice(kinds)
  made = {'id': f'd{number}', 'part': part, 'name': f'Device {number}', 'at': [number * 10, 0]}
  if part not in FORWARDING:
    made['mode'] = rng.choice(['chain', 'chain', 'redundant', 'single'])
  if rng.random() < .5:
    made['unit_id'] = rng.choice([0, 1, 1, 2, 3, 4, 5, 100, -7])
  if rng.random() < (.8 if part == 'desk' else .1):
    made['controller_id'] = rng.choice([1, 1, 1, 2, 9, 10, 0])
  if rng.random() < .5:
    made['clock'] = clock(rng)
  if rng.random() < .4 and part not in FORWARDING:
    made['addresses'] = {side: address(rng) for side in ('primary', 'secondary') if rng.random() < .8}
  if part in ('tree', 'snoop') and rng.random() < .5:
    made['mac'] = rng.choice(['00:00:00:00:00:02', '00-00-00-00-00-01', 'not an address'])
  if part in ('tree', 'snoop') and rng.random() < .3:
    made['bridge_priority'] = rng.choice([0, 4096, 61440])
  if vlans and part in SWITCHES:
    made['port_vlans'] = {port['name']: rng.choice([1, 10, 20, [10], [10, 20], [20, 30]])
                          for port in BY_ID[part]['ports'] if rng.random() < .7}
  return made


def body(rng):
  """What a cable is made of, as often odd as not."""
  made = {}
  if rng.random() < .2:
    made['medium'] = rng.choice(['copper', 'multimode', 'singlemode'])
  if rng.random() < .3:
    made['grade'] = rng.choice(GRADES)
  if rng.random() < .5:
    made['conductor'] = rng.choice(['solid', 'stranded'])
  if rng.random() < .9:
    made['length_m'] = rng.choice([0, 5, 34, 56, 84.5, 85, 100, 100.5, 276, 551, 6000])
  if rng.random() < .9:
    made['label'] = rng.choice([f'N{rng.randrange(40)}', ' N1 ', ''])
  return made


def cables(rng, devices, n, shared):
  every = [[made['id'], port['name']] for made in devices for port in BY_ID[made['part']]['ports']]
  free, made = list(every), []
  for number in range(n):
    choice = every if rng.random() < shared else free
    if len(choice) < 2:
      break
    ends = rng.sample(choice, 2)
    made.append({'id': f'c{number}', 'from': ends[0], 'to': ends[1], **body(rng)})
    free = [end for end in free if end not in ends]
  return made


def row(rng):
  """Switches with spanning tree one after the other, and now and then a link that makes it shorter."""
  devices = [device(rng, number, ['tree'], False) for number in range(rng.randint(7, 10))]
  made = [{'id': f'c{number}', 'from': [f'd{number}', '0'], 'to': [f'd{number + 1}', '1'], 'length_m': 5}
          for number in range(len(devices) - 1)]
  if rng.random() < .5:
    ends = rng.sample([made['id'] for made in devices], 2)
    made.append({'id': 'x', 'from': [ends[0], '2'], 'to': [ends[1], '3'], 'length_m': 5})
  return devices, made


def audio(rng, devices):
  """What bears on streams and on the patch, into devices that are made already."""
  for made in devices:
    part = made['part']
    if part in SWITCHES:
      if rng.random() < .3:
        made['querier'] = True
      continue
    for name, chance, values in (('sample_rate_hz', .1, [44100, 96000, 192000, 192000]), ('word_bits', .1, [16, 32]),
                                 ('receive_latency_us', .2, [100, 250, 333, 2000]), ('gain_compensation', .6, [True, False])):
      if rng.random() < chance:
        made[name] = rng.choice(values)


def channel_of(rng, device, count):
  """One that the part has, as a rule."""
  n = BY_ID[device['part']].get(count, 0)
  return rng.randint(1, n) if n and rng.random() < .97 else rng.choice([0, n + 1, 100])


def patch(rng, devices):
  talkers = [made for made in devices if BY_ID[made['part']].get('sends')]
  listeners = [made for made in devices if BY_ID[made['part']].get('receives')]
  made = []
  for _ in range(rng.choice([0, 4, 12, 30]) if talkers and listeners else 0):
    a = rng.choice(talkers)
    b = rng.choice([made for made in listeners if made['part'] == 'desk' or rng.random() < .4] or listeners)
    first, to = channel_of(rng, a, 'sends'), channel_of(rng, b, 'receives')
    room = min(BY_ID[a['part']]['sends'] - first, BY_ID[b['part']]['receives'] - to) + 1
    for step in range(min(rng.choice([1, 1, 2, 4, 9]), max(room, 1))):
      made.append({'id': f'r{len(made)}', 'from': [a['id'], first + step], 'to': [b['id'], to + step]})
  return made


def inside(rng, devices):
  kinds = [('receive', 'receives', 'strip', 'strips'), ('local', 'local_inputs', 'strip', 'strips'),
           ('bus', 'buses', 'send', 'sends'), ('bus', 'buses', 'local', 'local_outputs')]
  made = {}
  for device in devices:
    for _ in range(rng.randint(0, 12) if device['part'] == 'desk' else 0):
      kind, count, to_kind, to_count = rng.choice(kinds)
      row = {'device': device['id'], 'from': [kind, channel_of(rng, device, count)],
             'to': [to_kind, channel_of(rng, device, to_count)]}
      made.setdefault(str(row), {'id': f'i{len(made)}', **row})
  return list(made.values())


def channels(rng, devices):
  made = {}
  for device in devices:
    for _ in range(rng.randint(0, 6) if device['part'] in ('rack', 'laptop', 'desk') else 0):
      side, number = rng.choice(['send', 'send', 'send', 'strip', 'receive']), rng.randint(1, 12)
      row = {'device': device['id'], 'side': side, 'number': number}
      for name, values in (('name', ['Kick', 'Choir', '']), ('phantom', [True, False]), ('source', SOURCES)):
        if rng.random() < .6:
          row[name] = rng.choice(values)
      made[device['id'], side, number] = row
  return list(made.values())



def system(rng):
  return {name: rng.choice(values) for name, values in (
    ('sample_rate_hz', [48000, 48000, 96000]), ('word_bits', [24, 24, 16]), ('packet_time_us', [125, 125, 250, 333, 1000, 4000]),
    ('receive_latency_us', [1000, 250, 150, 6000]), ('link_ceiling_percent', [75, 1, 5]), ('multicast', [True, True, False]))}


def make(seed):
  rng = random.Random(seed)
  kinds = rng.sample(sorted(BY_ID), rng.randint(2, len(BY_ID)))
  vlans = rng.random() < .5
  devices = [device(rng, number, kinds, vlans) for number in range(rng.randint(1, 9))]
  wires = cables(rng, devices, rng.randint(0, 16), rng.choice([0, 0, .3]))
  if seed % 40 == 39:
    devices, wires = row(rng)
  audio(rng, devices)
  return {
    'rigwright': 1,
    'system': {**system(rng), 'unit_id_max': rng.choice([1, 2, 4, 99]), 'controller_id_max': 9},
    'parts': PARTS,
    'devices': devices,
    'cables': wires,
    'patch': patch(rng, devices),
    'inside': inside(rng, devices),
    'channels': channels(rng, devices),
  }
