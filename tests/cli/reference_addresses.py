# SPDX-License-Identifier: MIT
"""The rules on addresses, worked out a second time with the library's own idea of an address; see reference.py."""
import ipaddress

from reference_cables import once

LOCAL = ipaddress.ip_network('169.254.0.0/16')
RESERVED = [ipaddress.ip_network('169.254.0.0/24'), ipaddress.ip_network('169.254.255.0/24')]


def read(text):
  """(interface, whether a prefix was written), or None where the text is no address."""
  try:
    return ipaddress.IPv4Interface(text.strip()), '/' in text
  except ValueError:
    return None


def side_of(p, node):
  return node[2] if node[0] == 'interface' and p.mode(node[1]) == 'redundant' else 'primary'


def uses(p):
  """By network: (device, side, text) in file order."""
  found = {}
  for device in p.devices:
    for node in p.hosts(device):
      text = p.devices[device].get('addresses', {}).get(side_of(p, node))
      if text:
        found.setdefault(p.network_of[node], []).append((device, side_of(p, node), text))
  return found.values()


def subjects(p, uses):
  return once(use[0] for use in uses), [[use[0], p.ports(use[0], use[1])[0]] for use in uses], []


def address_clash(p):
  for network in uses(p):
    hosts = [read(text)[0].ip for _, _, text in network if read(text)]
    for host in once(hosts):
      same = [use for use in network if read(use[2]) and read(use[2])[0].ip == host]
      if len(same) > 1:
        yield subjects(p, same)


def address_subnet(p):
  for network in uses(p):
    yield from (subjects(p, [use]) for use in network if not read(use[2]))
    subnets = [read(use[2])[0].network if read(use[2]) and read(use[2])[1] else None for use in network]
    known = [subnet for subnet in subnets if subnet]
    if len(set(known)) > 1:
      usual = max(known, key=known.count)
      yield subjects(p, [use for use, subnet in zip(network, subnets) if subnet not in (None, usual)])


def planes_overlap(p):
  for system in p.systems:
    own = [(device, side, read(text)[0].network) for device in p.devices_of(system) if p.mode(device) == 'redundant'
           and not p.forwards(device) for side, text in sorted(p.devices[device].get('addresses', {}).items())
           if text and read(text) and p.ports(device, side)]
    both = [use for use in own if any(use[1] != other[1] and use[2].overlaps(other[2]) for other in own)]
    if both:
      yield subjects(p, both)


def address_link_local(p):
  for device in p.devices:
    for side in ('primary', 'secondary'):
      text = p.devices[device].get('addresses', {}).get(side)
      if text and read(text) and read(text)[0].ip in LOCAL:
        yield [device], [[device, port] for port in p.ports(device, side)], []


RULES = {
  'address-clash': address_clash,
  'address-subnet': address_subnet,
  'planes-overlap': planes_overlap,
  'address-link-local': address_link_local,
}
