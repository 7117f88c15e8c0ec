# SPDX-License-Identifier: MIT
"""The last line of tests/run.sh tells the truth: nothing that failed, was left out or never ran counts as passed."""
import json
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

import tap

COUNT = Path(__file__).parent.parent / 'count.py'
PASS = '<testcase name="a" classname="x"/>'


def count(cases, code=0, result='OK', suite='p.p:net / x'):
  """Exit status and last line for Meson's logs of one program with @cases, or for no logs where that is None."""
  with tempfile.TemporaryDirectory() as folder:
    if cases is not None:
      Path(folder, 'testlog.junit.xml').write_text(
        f'<?xml version="1.0"?><testsuites><testsuite name="{suite}">{cases}</testsuite></testsuites>')
      Path(folder, 'testlog.json').write_text(json.dumps({'name': 'p:net / x', 'result': result}) + '\n')
    done = subprocess.run([sys.executable, COUNT, folder, str(code)], capture_output=True, text=True)
    return done.returncode, done.stdout.splitlines()[-1]


class Count(unittest.TestCase):
  def test_passed(self):
    self.assertEqual(count(PASS + PASS), (0, '2 passed, 0 failed'))

  def test_failure(self):
    self.assertEqual(count(PASS + '<testcase name="b"><failure/></testcase>', 1, 'FAIL'), (1, '1 passed, 1 failed'))

  def test_error(self):
    """A program that could not even start is a case of the project's own suite."""
    case = '<testcase name="p:net / x"><error message="timeout"/></testcase>'
    self.assertEqual(count(case, 1, 'TIMEOUT', suite='p'), (1, '0 passed, 1 failed'))

  def test_crash(self):
    """Meson's JUnit log holds only the good cases of a program that crashed."""
    self.assertEqual(count(PASS + PASS, 1, 'ERROR'), (1, '2 passed, 1 failed'))

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
