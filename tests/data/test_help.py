# SPDX-License-Identifier: MIT
"""The help's page on the command line has a section for each command, and names no option that it has not got."""
import os
import subprocess
import unittest
import xml.etree.ElementTree as tree
from pathlib import Path

import tap

CLI = os.environ['RIGWRIGHT_CLI']
PAGE = Path(os.environ['RIGWRIGHT_DATADIR']).parent / 'help/C/command-line.page'
MALLARD = '{http://projectmallard.org/1.0/}'


def output(*words):
  return subprocess.run([CLI, *words], capture_output=True, text=True, check=True).stdout


def commands():
  listed = output('--help').split('Commands:\n')[1].split('\n\n')[0]
  return [line.split()[0] for line in listed.splitlines()]


def usages():
  """What the page's sections say to type, by the command, in the page's order."""
  found = []
  for section in tree.parse(PAGE).getroot().iter(f'{MALLARD}section'):
    screen = section.find(f'{MALLARD}screen')
    if screen is not None:
      found.append((section.get('id'), screen.text))
  return found


class Help(unittest.TestCase):
  def test_every_command(self):
    self.assertEqual([command for command, _ in usages()], commands())

  def test_options_exist(self):
    """No option stands in the page that the command has not got."""
    for command, usage in usages():
      known = output(command, '--help')
      for option in (word.strip('[]') for word in usage.split() if word.strip('[').startswith('--')):
        self.assertIn(option, known, command)


if __name__ == '__main__':
  tap.main()
