# SPDX-License-Identifier: MIT
"""The election of clock leaders and the rules on it, worked out a second time; see reference.py."""


def rank(p, device):
  """IEEE 1588-2008 figure 27: the lower wins; the sixth is the identity, the last decides where none is given."""
  clock = p.devices[device].get('clock', {})
  identity = clock.get('identity') or ''
  return (clock.get('priority1', 128), clock.get('class', 248), clock.get('accuracy', 254), clock.get('variance', 65535),
          clock.get('priority2', 128), (identity == '', identity.lower()), p.order[device])


def domain(p, device):
  return p.devices[device].get('clock', {}).get('domain', p.rig.get('system', {}).get('clock_domain', 0))


def elections(p):
  """By network and domain: those who may lead, best first."""
  voters = {}
  for device in p.devices:
    for node in p.hosts(device):
      voters.setdefault((p.network_of[node], domain(p, device)), []).append(device)
  return {group: sorted({device for device in devices if rank(p, device)[1] != 255}, key=lambda device: rank(p, device))
          for group, devices in voters.items()}


def group_of(p, device):
  """Where the device takes its clock from: its primary network where that is cabled, else the other if that is."""
  networks = [p.network_of[node] for node in p.hosts(device)]
  cabled = [network for network in networks if any(link[1] in p.networks[network] for link in p.links)]
  return ((cabled or networks)[0], domain(p, device)) if networks else None


def leaders(p):
  """By device: the leader that it follows; None = nobody."""
  order = elections(p)
  found = {device: group_of(p, device) for device in p.devices}
  return {device: order[group][0] if group and order[group] else None for device, group in found.items()}


def followed(p):
  """The elections whose leader somebody else follows."""
  order, leader = elections(p), leaders(p)
  groups = {group_of(p, device) for device in p.devices if leader[device] not in (None, device)}
  return [order[group] for group in groups]


def clock_astray(p):
  for order in followed(p):
    if p.kind(order[0]) != 'controller' and not p.devices[order[0]].get('clock', {}).get('reference'):
      yield [order[0]], [], []


def clock_even(p):
  for order in followed(p):
    if len(order) > 1 and rank(p, order[0])[:5] == rank(p, order[1])[:5]:
      yield [order[0]], [], []


RULES = {'clock-astray': clock_astray, 'clock-even': clock_even}
