# SPDX-License-Identifier: MIT
"""Runs the real program and reads back what it says."""
import json
import os
import subprocess
from pathlib import Path

PROGRAM = os.environ['RIGWRIGHT_CLI']
TOP = Path(__file__).resolve().parents[2]
FIXTURES = TOP / 'tests' / 'rules'
MEMBERS = ['rig', 'errors', 'warnings', 'notes', 'findings']
FINDING_MEMBERS = ['code', 'severity', 'message', 'why', 'remedy', 'devices', 'ports', 'cables', 'rows', 'channels']


def run(*args, **more):
  more.setdefault('stdout', subprocess.PIPE)
  return subprocess.run([PROGRAM, *args], stderr=subprocess.PIPE, timeout=60, **more)


def strict(pairs):
  """Refuses a name given twice, which json would let pass."""
  names = [name for name, value in pairs]
  assert len(names) == len(set(names)), f'a name twice in {names}'
  return dict(pairs)


def read(data):
  return json.loads(data.decode('utf-8'), object_pairs_hook=strict)


def check(*args, **more):
  """The exit status and the JSON of check --json."""
  done = run('check', '--json', *args, **more)
  assert done.stderr == b'', done.stderr
  return done.returncode, read(done.stdout)


def facts(*args, **more):
  """The JSON of facts --json."""
  done = run('facts', '--json', *args, **more)
  assert done.stderr == b'' and done.returncode == 0, done.stderr
  return read(done.stdout)


def codes(report):
  return [finding['code'] for finding in report['findings']]
