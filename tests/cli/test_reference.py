# SPDX-License-Identifier: MIT
"""Every rule over random rigs, against the plain second working-out in reference.py."""
import json
import tempfile
import unittest
from collections import Counter
from pathlib import Path

import random_rig
import reference
import tap
from cli import check

RIGS = 1500


def key(code, devices, ports, cables):
  return json.dumps([code, devices, ports, cables])


def key_of(code, devices, ports, cables):
  """Which of several shortest ways joins the planes is not said by the rules, nor which of several rows is meant."""
  if code == 'planes-joined':
    return key(code, None, ports, len(cables))
  return key(code, len(devices) if code == 'deep-tree' else devices, ports, cables)


def said(report):
  """What the program finds by the rules that the reference knows; the others have their fixtures."""
  known = ['loop', 'loop-held', *reference.RULES]
  return Counter(key_of(finding['code'], finding['devices'], finding['ports'], finding['cables'])
                 for finding in report['findings'] if finding['code'] in known)


def worked_out(rig):
  """What the reference finds, and the closing cables of loops of which it leaves the way round open."""
  keys, open_cables = Counter(), set()
  for code, devices, ports, cables in reference.findings(rig):
    if code is None:
      open_cables.add(cables[0])
    else:
      keys[key_of(code, devices, ports, cables)] += 1
  return keys, open_cables


def without(keys, open_cables):
  """A cable that closes one loop by several links and another by one is left out as a whole."""
  def is_open(text):
    code, devices, ports, cables = json.loads(text)
    return code in ('loop', 'loop-held') and cables[0] in open_cables
  return Counter({text: n for text, n in keys.items() if not is_open(text)})


class Reference(unittest.TestCase):
  @classmethod
  def setUpClass(cls):
    with tempfile.TemporaryDirectory() as folder:
      cls.rigs = [random_rig.make(seed) for seed in range(RIGS)]
      paths = [Path(folder) / f'{seed}.rig' for seed in range(RIGS)]
      for path, rig in zip(paths, cls.rigs):
        path.write_text(json.dumps(rig))
      cls.reports = check(*paths)[1]

  def test_the_same_findings(self):
    left_open = 0
    for seed, (rig, report) in enumerate(zip(self.rigs, self.reports)):
      should, open_cables = worked_out(rig)
      left_open += len(open_cables)
      should, found = without(should, open_cables), without(said(report), open_cables)
      with self.subTest(seed=seed):
        self.assertEqual(found - should, Counter(), f'only the program: {json.dumps(rig)}')
        self.assertEqual(should - found, Counter(), f'only the reference: {json.dumps(rig)}')
    self.assertLess(left_open, RIGS / 10)

  def test_every_rule_fires_and_keeps_silent(self):
    for code in ['loop', 'loop-held', *reference.RULES]:
      n = sum(code in [finding['code'] for finding in report['findings']] for report in self.reports)
      with self.subTest(code=code):
        self.assertGreater(n, 5)
        self.assertLess(n, RIGS)


if __name__ == '__main__':
  tap.main()
