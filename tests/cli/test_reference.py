# SPDX-License-Identifier: MIT
"""Every rule over random rigs, against the plain second working-out in reference.py."""
import json
import tempfile
import unittest
from collections import Counter
from pathlib import Path

import random_rig
import reference
import reference_patch
import reference_traffic
import tap
from cli import check

RIGS = 1500
TRAFFIC_RIGS = 500 # these take longer


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


def worked_out(picture):
  """What the reference finds, and the closing cables of loops of which it leaves the way round open."""
  keys, open_cables = Counter(), set()
  for code, devices, ports, cables in reference.findings(picture):
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


def of_code(report, code):
  return [finding for finding in report['findings'] if finding['code'] == code]


class Reference(unittest.TestCase):
  @classmethod
  def setUpClass(cls):
    with tempfile.TemporaryDirectory() as folder:
      cls.rigs = [random_rig.make(seed) for seed in range(RIGS)]
      paths = [Path(folder) / f'{seed}.rig' for seed in range(RIGS)]
      for path, rig in zip(paths, cls.rigs):
        path.write_text(json.dumps(rig))
      cls.reports = check(*paths)[1]
    cls.pictures = [reference.Picture(rig) for rig in cls.rigs]

  def each(self, rigs=RIGS):
    return list(zip(range(rigs), self.rigs, self.reports, self.pictures))

  def same(self, seed, rig, said, should):
    with self.subTest(seed=seed):
      self.assertEqual(said - should, type(said)(), f'only the program: {json.dumps(rig)}')
      self.assertEqual(should - said, type(said)(), f'only the reference: {json.dumps(rig)}')

  def test_the_same_findings(self):
    left_open = 0
    for seed, rig, report, picture in self.each():
      should, open_cables = worked_out(picture)
      left_open += len(open_cables)
      self.same(seed, rig, without(said(report), open_cables), without(should, open_cables))
    self.assertLess(left_open, RIGS / 10)

  def test_the_same_of_the_patch(self):
    for code, rule in reference_patch.RULES.items():
      for seed, rig, report, picture in self.each():
        told = [reference_patch.told(code, finding) for finding in of_code(report, code)]
        self.same(seed, rig, Counter(subject for some in told for subject in some), Counter(rule(picture)))

  def test_the_same_of_the_traffic(self):
    for seed, rig, report, picture in self.each(TRAFFIC_RIGS):
      traffic = reference_traffic.Traffic(picture)
      for code, rule in reference_traffic.RULES.items():
        told = [reference_traffic.told(traffic, code, finding) for finding in of_code(report, code)]
        self.same(seed, rig, Counter(told), Counter(rule(traffic)))

  def test_every_rule_fires_and_keeps_silent(self):
    for code in ['loop', 'loop-held', *reference.RULES, *reference_patch.RULES, *reference_traffic.RULES]:
      rigs = TRAFFIC_RIGS if code in reference_traffic.RULES else RIGS
      n = sum(bool(of_code(report, code)) for report in self.reports[:rigs])
      with self.subTest(code=code):
        self.assertGreater(n, 5)
        self.assertLess(n, rigs)


if __name__ == '__main__':
  tap.main()
