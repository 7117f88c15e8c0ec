# SPDX-License-Identifier: MIT
"""Small rigs by chance in which everything goes wrong that may: the same seed gives the same rig."""
import random


def ports(*names_and_sides):
  return [{'name': name, 'side': side} for name, side in names_and_sides]


BOTH = ports(('P', 'primary'), ('S', 'secondary'))
PARTS = [
  {'id': 'desk', 'name': 'Desk', 'kind': 'controller', 'ports': BOTH},
  {'id': 'rack', 'name': 'Rack', 'kind': 'rack', 'ports': BOTH, 'sends': 8, 'preamps': 8},
  {'id': 'outs', 'name': 'Output rack', 'kind': 'rack', 'ports': BOTH + ports(('A', 'aux')), 'receives': 8},
  {'id': 'speaker', 'name': 'Speaker', 'kind': 'endpoint', 'ports': BOTH[:1]},
  {'id': 'laptop', 'name': 'Laptop', 'kind': 'endpoint', 'ports': BOTH[:1] + ports(('A', 'aux'))},
  {'id': 'plain', 'name': 'Plain switch', 'kind': 'switch', 'ports': ports(*[(str(n), 'network') for n in range(5)])},
  {'id': 'tree', 'name': 'Switch with spanning tree', 'kind': 'switch', 'spanning_tree': True,
   'ports': ports(*[(str(n), 'network') for n in range(6)])},
  {'id': 'fibre', 'name': 'Converter', 'kind': 'converter', 'ports': ports(('1', 'network'), ('2', 'network'))},
  {'id': 'three', 'name': 'Converter with three ports', 'kind': 'converter',
   'ports': ports(('1', 'network'), ('2', 'network'), ('3', 'network'))},
]
BY_ID = {part['id']: part for part in PARTS}


def device(rng, number, kinds, vlans):
  part = rng.choice(kinds)
  made = {'id': f'd{number}', 'part': part, 'name': f'Device {number}', 'at': [number * 10, 0]}
  if part not in ('plain', 'tree', 'fibre', 'three'):
    made['mode'] = rng.choice(['chain', 'chain', 'redundant', 'single'])
  if rng.random() < .5:
    made['unit_id'] = rng.choice([0, 1, 1, 2, 3, 4, 5, 100, -7])
  if rng.random() < (.8 if part == 'desk' else .1):
    made['controller_id'] = rng.choice([1, 1, 1, 2, 9, 10, 0])
  if vlans and part in ('plain', 'tree'):
    made['port_vlans'] = {port['name']: rng.choice([1, 10, 20, [10], [10, 20], [20, 30]])
                          for port in BY_ID[part]['ports'] if rng.random() < .7}
  return made


def cables(rng, devices, n, shared):
  every = [[made['id'], port['name']] for made in devices for port in BY_ID[made['part']]['ports']]
  free, made = list(every), []
  for number in range(n):
    choice = every if rng.random() < shared else free
    if len(choice) < 2:
      break
    ends = rng.sample(choice, 2)
    made.append({'id': f'c{number}', 'from': ends[0], 'to': ends[1]})
    free = [end for end in free if end not in ends]
  return made


def make(seed):
  rng = random.Random(seed)
  kinds = rng.sample(sorted(BY_ID), rng.randint(2, len(BY_ID)))
  vlans = rng.random() < .5
  devices = [device(rng, number, kinds, vlans) for number in range(rng.randint(1, 9))]
  return {
    'rigwright': 1,
    'system': {'unit_id_max': rng.choice([1, 2, 4, 99]), 'controller_id_max': 9},
    'parts': PARTS,
    'devices': devices,
    'cables': cables(rng, devices, rng.randint(0, 16), rng.choice([0, 0, .3])),
  }
