# SPDX-License-Identifier: MIT
"""The last line of tests/run.sh tells the truth: nothing that failed, was left out or never ran counts as passed."""
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

import tap

COUNT = Path(__file__).parent.parent / 'count.py'
PASS = '<testcase name="a" classname="x"/>'


def count(cases, code=0):
  """Exit status and last line for a Meson log that holds @cases, or for no log where that is None."""
  with tempfile.TemporaryDirectory() as folder:
    path = Path(folder) / 'testlog.junit.xml'
    if cases is not None:
      path.write_text(f'<?xml version="1.0"?><testsuites><testsuite name="x">{cases}</testsuite></testsuites>')
    done = subprocess.run([sys.executable, COUNT, path, str(code)], capture_output=True, text=True)
    return done.returncode, done.stdout.splitlines()[-1]


class Count(unittest.TestCase):
  def test_passed(self):
    self.assertEqual(count(PASS + PASS), (0, '2 passed, 0 failed'))

  def test_failure(self):
    self.assertEqual(count(PASS + '<testcase name="b"><failure/></testcase>', 1), (1, '1 passed, 1 failed'))

  def test_error(self):
    self.assertEqual(count('<testcase name="b"><error message="timeout"/></testcase>', 1), (1, '0 passed, 1 failed'))

  def test_skipped(self):
    self.assertEqual(count(PASS + '<testcase name="b"><skipped/></testcase>'), (1, '1 passed, 1 failed'))

  def test_hidden_failure(self):
    self.assertEqual(count(PASS, 1), (1, '1 passed, 1 failed'))

  def test_nothing_ran(self):
    self.assertEqual(count(''), (1, '0 passed, 1 failed'))

  def test_no_log(self):
    self.assertEqual(count(None), (1, '0 passed, 1 failed'))


if __name__ == '__main__':
  tap.main()
