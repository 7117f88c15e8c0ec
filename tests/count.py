#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Counts the test cases of a Meson run and prints "N passed, N failed" as its last line.

usage: count.py JUNIT_FILE EXIT_CODE_OF_MESON_TEST

A skipped case counts as failed: nothing may be left out silently. So does a run of no cases, and a run
that Meson called failed although each case that it wrote down passed (a crash after the last one).
"""
import sys
import xml.etree.ElementTree as tree


def count(path, code):
  passed, bad = 0, []
  try:
    cases = tree.parse(path).getroot().iter('testcase')
  except (OSError, tree.ParseError) as error:
    return 0, [f'{path}: {error}']
  for case in cases:
    fate = [child.tag for child in case if child.tag in ('failure', 'error', 'skipped')]
    if fate:
      bad.append(f'{case.get("classname")}: {case.get("name")}: {fate[0]}')
    else:
      passed += 1
  if not bad and code != 0:
    bad.append(f'meson test ended with {code}')
  if not bad and passed == 0:
    bad.append('no test ran')
  return passed, bad


def main():
  passed, bad = count(sys.argv[1], int(sys.argv[2]))
  for line in bad:
    print('not passed:', line)
  print(f'{passed} passed, {len(bad)} failed')
  return 1 if bad else 0


if __name__ == '__main__':
  sys.exit(main())
