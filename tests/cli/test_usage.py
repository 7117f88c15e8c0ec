# SPDX-License-Identifier: MIT
"""The program's own options, the help of each command, and that the manual page tells of the same."""
import re
import subprocess
import unittest

import tap
from cli import TOP, run

MANUAL = TOP / 'data' / 'man' / 'rigwright-cli.1'


def help_of(*words):
  done = run(*words, '--help')
  assert (done.returncode, done.stderr) == (0, b''), done
  return done.stdout.decode()


def options_in(text):
  return set(re.findall(r'(?<![\w-])--[a-z][a-z-]*', text))


def commands():
  listed = help_of().split('Commands:\n')[1].split('\n\n')[0]
  return [line.split()[0] for line in listed.splitlines()]


def manual_text():
  done = subprocess.run(['man', '-l', '--nj', '--nh', MANUAL], capture_output=True, check=True, timeout=60,
                        env={'PATH': '/usr/bin:/bin', 'LC_ALL': 'C.UTF-8', 'MANWIDTH': '100', 'MAN_KEEP_FORMATTING': ''})
  return re.sub('.\b', '', done.stdout.decode())


def manual_sections():
  """The manual's source by section; a command's part of COMMANDS is a section of its own."""
  sections = {}
  name = ''
  for line in MANUAL.read_text().replace('\\-', '-').splitlines():
    if line.startswith('.SH'):
      name = line.removeprefix('.SH ')
    elif line.startswith('.SS'):
      name = line.split()[1]
    sections[name] = sections.get(name, '') + line + '\n'
  return sections


class Usage(unittest.TestCase):
  def test_version(self):
    done = run('--version')
    self.assertEqual((done.returncode, done.stderr), (0, b''))
    version = re.search(r"version: '([0-9.]+)'", (TOP / 'meson.build').read_text()).group(1)
    self.assertEqual(done.stdout.decode(), f'rigwright-cli {version}\n')

  def test_help_lists_the_commands(self):
    self.assertIn('check', commands())

  def test_each_command_has_help(self):
    for command in commands():
      text = help_of(command)
      self.assertIn(f'rigwright-cli {command} [OPTION', text)
      self.assertIn('--help', options_in(text))

  def test_no_command_is_wrong_usage(self):
    done = run()
    self.assertEqual((done.returncode, done.stdout), (2, b''))
    self.assertTrue(done.stderr.startswith(b'rigwright-cli: no command was named'))

  def test_an_unknown_command_is_wrong_usage(self):
    done = run('chekc')
    self.assertEqual((done.returncode, done.stdout), (2, b''))
    self.assertIn('“chekc”', done.stderr.decode())

  def test_an_unknown_option_is_wrong_usage(self):
    done = run('--chekc')
    self.assertEqual((done.returncode, done.stdout), (2, b''))
    self.assertTrue(done.stderr.startswith(b'rigwright-cli: '))
    self.assertEqual(done.stderr.count(b'\n'), 1)


class Manual(unittest.TestCase):
  def test_reads_without_warnings(self):
    done = subprocess.run(['man', '--warnings', '-E', 'UTF-8', '-l', '-Tutf8', '-Z', MANUAL], capture_output=True,
                          timeout=60, env={'PATH': '/usr/bin:/bin', 'LC_ALL': 'C.UTF-8', 'MANROFFSEQ': ''})
    self.assertEqual((done.returncode, done.stderr), (0, b''))
    self.assertGreater(len(done.stdout), 1000)

  def test_a_broken_page_would_be_noticed(self):
    done = subprocess.run(['man', '--warnings', '-E', 'UTF-8', '-l', '-Tutf8', '-Z', '-'], capture_output=True, timeout=60,
                          input=b'.TH X 1\n.SH NAME\nx \\- y\n.NOSUCHMACRO z\n',
                          env={'PATH': '/usr/bin:/bin', 'LC_ALL': 'C.UTF-8', 'MANROFFSEQ': ''})
    self.assertIn(b'NOSUCHMACRO', done.stderr)

  def test_has_every_command_and_no_other(self):
    self.assertEqual([name for name in manual_sections() if name.islower()], commands())

  def test_has_every_option_and_no_other(self):
    sections = manual_sections()
    self.assertEqual(options_in(sections['OPTIONS']), options_in(help_of().split('Commands:')[0]))
    for command in commands():
      self.assertEqual(options_in(sections[command]) | {'--help'}, options_in(help_of(command)), command)

  def test_tells_the_exit_statuses(self):
    text = manual_text()
    section = text[text.index('EXIT STATUS'):]
    for status in ('0', '1', '2'):
      self.assertRegex(section, rf'(?m)^ +{status}\b')


if __name__ == '__main__':
  tap.main()
