# SPDX-License-Identifier: MIT
"""How long the whole pack takes, and how much memory: the demo of about 60 devices, and that rig side by side with itself
until it has about 1,000. Medians; processor time of the program alone; ratios to the demo in the same run."""
import copy
import json
import os
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

ROUNDS = 3


def times(rig, n):
  """The rig @n times, a sheet further to the right and down each time."""
  whole = {**rig, 'devices': [], 'cables': [], 'patch': [], 'inside': [], 'channels': []}
  for i in range(n):
    def own(name, i=i):
      return f'{name}.{i}'
    for item in copy.deepcopy(rig['devices']):
      item['id'] = own(item['id'])
      item['name'] = f'{item["name"]} {i}'
      item['at'] = [item['at'][0] + 650 * (i % 4), item['at'][1] + 450 * (i // 4)]
      whole['devices'].append(item)
    for kind in ('cables', 'patch'):
      for item in copy.deepcopy(rig[kind]):
        item.update({'id': own(item['id']), 'from': [own(item['from'][0]), item['from'][1]], 'to': [own(item['to'][0]), item['to'][1]]})
        item.pop('bends', None)
        whole[kind].append(item)
    for item in copy.deepcopy(rig['inside']):
      item.update({'id': own(item['id']), 'device': own(item['device'])})
      whole['inside'].append(item)
    for item in copy.deepcopy(rig['channels']):
      item['device'] = own(item['device'])
      whole['channels'].append(item)
  return whole


def run(program, rig, output):
  """Seconds of processor time and peak memory in MiB of one run."""
  child = subprocess.Popen([program, 'papers', rig, '--output', output])
  _, status, used = os.wait4(child.pid, 0)
  child.returncode = os.waitstatus_to_exitcode(status)
  assert child.returncode == 0
  return used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def main():
  program, demo = sys.argv[1:]
  rig = json.loads(Path(demo).read_text())
  first = None
  with tempfile.TemporaryDirectory() as folder:
    output = Path(folder) / 'papers.pdf'
    for n in (1, 4, 17):
      path = Path(folder) / 'bench.rig'
      path.write_text(json.dumps(times(rig, n)))
      runs = [run(program, path, output) for _ in range(ROUNDS)]
      seconds, memory = statistics.median(r[0] for r in runs), max(r[1] for r in runs)
      devices = n * len(rig['devices'])
      first = first or (seconds / devices, memory)
      print(f'{devices:5} devices: {seconds:7.2f} s, {seconds / devices / first[0]:.2f} of the demo’s time a device; '
            f'peak {memory:.0f} MiB; {output.stat().st_size / 1e6:.1f} MB')


if __name__ == '__main__':
  main()
