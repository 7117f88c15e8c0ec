# SPDX-License-Identifier: MIT
"""Runs the unittest cases of a script and tells of them in TAP, as the other test programs do."""
import sys
import traceback
import unittest


class TapResult(unittest.TestResult):
  """A skipped case counts as failed: nothing may be left out silently."""

  def startTest(self, test):
    super().startTest(test)
    self.faults = []

  def stopTest(self, test):
    print(f'{"not ok" if self.faults else "ok"} {self.testsRun} {test.id().removeprefix("__main__.")}')
    for line in ''.join(self.faults).splitlines():
      print('#', line)
    sys.stdout.flush()
    super().stopTest(test)

  def addFailure(self, test, err):
    super().addFailure(test, err)
    self.faults += traceback.format_exception(*err)

  addError = addFailure

  def addSubTest(self, test, subtest, err):
    super().addSubTest(test, subtest, err)
    if err is not None:
      self.faults += [f'{subtest.id()}\n', *traceback.format_exception(*err)]

  def addSkip(self, test, reason):
    self.addFailure(test, (AssertionError, AssertionError(f'skipped: {reason}'), None))


def main():
  suite = unittest.defaultTestLoader.loadTestsFromModule(sys.modules['__main__'])
  print(f'1..{suite.countTestCases()}')
  result = TapResult()
  suite.run(result)
  sys.exit(0 if result.wasSuccessful() else 1)
