#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Counts the test cases of a Meson run and prints "N passed, N failed" as its last line.

usage: count.py FOLDER_OF_MESON_LOGS EXIT_CODE_OF_MESON_TEST

Cases come from testlog.junit.xml. A skipped case counts as failed: nothing may be left out silently. That file says
nothing of a program that crashed after some good cases, so programs that testlog.json calls bad count as one failure
where no case of theirs does. So does a run of no cases, and one that Meson called failed for whatever reason.
"""
import json
import sys
import xml.etree.ElementTree as tree
from pathlib import Path


def count_cases(path):
  """How many cases passed, and (program, case, fate) of each other one."""
  passed, bad = 0, []
  for suite in tree.parse(path).getroot().iter('testsuite'):
    for case in suite.iter('testcase'):
      fates = [child.tag for child in case if child.tag in ('failure', 'error', 'skipped')]
      if fates:
        # A program without cases of its own is a case of the suite that is named for the project.
        program = suite.get('name').partition('.')[2] or case.get('name')
        bad.append((program, case.get('name'), fates[0]))
      else:
        passed += 1
  return passed, bad


def bad_programs(path):
  for line in path.read_text().splitlines():
    program = json.loads(line)
    if program['result'] not in ('OK', 'EXPECTEDFAIL'):
      yield program['name'], program['result']


def count(folder, code):
  try:
    passed, bad = count_cases(folder / 'testlog.junit.xml')
    for name, result in bad_programs(folder / 'testlog.json'):
      if not any(program == name for program, _, _ in bad):
        bad.append((name, 'the program', result))
  except (OSError, ValueError, tree.ParseError) as error:
    return 0, [(str(folder), 'its logs', error)]
  if not bad and code != 0:
    bad.append(('meson test', 'its exit code', code))
  if not bad and passed == 0:
    bad.append(('meson test', 'cases', 'none ran'))
  return passed, bad


def main():
  passed, bad = count(Path(sys.argv[1]), int(sys.argv[2]))
  for program, case, fate in bad:
    print(f'not passed: {program}: {case}: {fate}')
  print(f'{passed} passed, {len(bad)} failed')
  return 1 if bad else 0


if __name__ == '__main__':
  sys.exit(main())
