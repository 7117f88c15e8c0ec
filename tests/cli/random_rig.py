# SPDX-License-Identifier: MIT
"""Small rigs by chance in which everything goes wrong that may: the same seed gives the same rig."""
import random


def ports(*names_and_sides, **more):
  return [{'name': name, 'side': side, **more} for name, side in names_and_sides]


BOTH = ports(('P', 'primary'), ('S', 'secondary'))
PARTS = [
  {'id': 'desk', 'name': 'Desk', 'kind': 'controller', 'ports': BOTH},
  {'id': 'rack', 'name': 'Rack', 'kind': 'rack', 'ports': BOTH, 'sends': 8, 'preamps': 8},
  {'id': 'outs', 'name': 'Output rack', 'kind': 'rack', 'ports': BOTH + ports(('A', 'aux'), speed_mbps=100), 'receives': 8},
  {'id': 'speaker', 'name': 'Speaker', 'kind': 'endpoint', 'ports': BOTH[:1]},
  {'id': 'laptop', 'name': 'Laptop', 'kind': 'endpoint', 'ports': BOTH[:1] + ports(('A', 'aux'))},
  {'id': 'plain', 'name': 'Plain switch', 'kind': 'switch', 'ports': ports(*[(str(n), 'network') for n in range(5)])},
  {'id': 'tree', 'name': 'Switch with spanning tree', 'kind': 'switch', 'spanning_tree': True,
   'ports': ports(*[(str(n), 'network') for n in range(4)]) + ports(('4', 'network'), speed_mbps=100)
            + ports(('5', 'network'), medium='cage', speed_mbps=10000)},
  {'id': 'fibre', 'name': 'Converter', 'kind': 'converter',
   'ports': ports(('1', 'network')) + ports(('2', 'network'), medium='multimode')},
  {'id': 'three', 'name': 'Converter with three ports', 'kind': 'converter',
   'ports': ports(('1', 'network'), ('2', 'network'), ('3', 'network'))},
]
BY_ID = {part['id']: part for part in PARTS}


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
  if part not in ('plain', 'tree', 'fibre', 'three'):
    made['mode'] = rng.choice(['chain', 'chain', 'redundant', 'single'])
  if rng.random() < .5:
    made['unit_id'] = rng.choice([0, 1, 1, 2, 3, 4, 5, 100, -7])
  if rng.random() < (.8 if part == 'desk' else .1):
    made['controller_id'] = rng.choice([1, 1, 1, 2, 9, 10, 0])
  if rng.random() < .5:
    made['clock'] = clock(rng)
  if rng.random() < .4 and part not in ('plain', 'tree', 'fibre', 'three'):
    made['addresses'] = {side: address(rng) for side in ('primary', 'secondary') if rng.random() < .8}
  if part == 'tree' and rng.random() < .5:
    made['mac'] = rng.choice(['00:00:00:00:00:02', '00-00-00-00-00-01', 'not an address'])
  if part == 'tree' and rng.random() < .3:
    made['bridge_priority'] = rng.choice([0, 4096, 61440])
  if vlans and part in ('plain', 'tree'):
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


def make(seed):
  rng = random.Random(seed)
  kinds = rng.sample(sorted(BY_ID), rng.randint(2, len(BY_ID)))
  vlans = rng.random() < .5
  devices = [device(rng, number, kinds, vlans) for number in range(rng.randint(1, 9))]
  wires = cables(rng, devices, rng.randint(0, 16), rng.choice([0, 0, .3]))
  if seed % 40 == 39:
    devices, wires = row(rng)
  return {
    'rigwright': 1,
    'system': {'unit_id_max': rng.choice([1, 2, 4, 99]), 'controller_id_max': 9},
    'parts': PARTS,
    'devices': devices,
    'cables': wires,
  }
