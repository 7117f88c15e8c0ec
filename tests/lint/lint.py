#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Lint checks as tests: lint.py CHECK SOURCE_ROOT BUILD_ROOT

Each check is a function of a source root and a build root that gives a list of complaints. It runs twice:
on the project, where it must find nothing, and on the small wrong project in tests/lint/bad/CHECK, where it
must find every fault that expected.txt there lists: a check that cannot fail is no check.
"""
import sys
from pathlib import Path

import data_files
import gettext_files
import sources

CHECKS = {**sources.CHECKS, **gettext_files.CHECKS, **data_files.CHECKS}


def report(number, good, name, lines):
  for line in lines:
    print('#', line)
  print(f'{"ok" if good else "not ok"} {number} {name}')
  return good


def main():
  name, root, build = sys.argv[1], Path(sys.argv[2]), Path(sys.argv[3])
  check = CHECKS[name]
  print('1..2')
  found = check(root, build)
  clean = report(1, not found, f'{name}: the project', found)
  bad = root / 'tests/lint/bad' / name
  caught = check(bad, bad)
  expected = (bad / 'expected.txt').read_text().splitlines()
  missed = [f'not found: {part}' for part in expected if not any(part in line for line in caught)]
  if not expected:
    missed.append('expected.txt is empty')
  return 0 if report(2, not missed, f'{name}: the faults', missed) and clean else 1


if __name__ == '__main__':
  sys.exit(main())
