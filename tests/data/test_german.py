# SPDX-License-Identifier: MIT
"""The command line speaks German where the locale is German, in the terminal only: what programs read stays."""
import json
import os
import subprocess
import tempfile
import unittest
from pathlib import Path

import tap

CLI = os.environ['RIGWRIGHT_CLI']
EXAMPLES = Path(os.environ['RIGWRIGHT_DATADIR']) / 'examples'


def make_locale(folder):
  """gettext takes no notice of LANGUAGE in the C locale, and a bare machine has no other: one is made."""
  subprocess.run(['localedef', '-i', 'de_DE', '-f', 'UTF-8', f'{folder}/de_DE.UTF-8'], check=True, capture_output=True)


class German(unittest.TestCase):
  @classmethod
  def setUpClass(cls):
    cls.folder = tempfile.TemporaryDirectory()
    make_locale(cls.folder.name)

  @classmethod
  def tearDownClass(cls):
    cls.folder.cleanup()

  def run_cli(self, *words, locale='de_DE.UTF-8'):
    env = dict(os.environ, LC_ALL=locale, LOCPATH=self.folder.name)
    env.pop('LANGUAGE', None)
    return subprocess.run([CLI, *map(str, words)], capture_output=True, text=True, env=env, timeout=60)

  def test_finding(self):
    done = self.run_cli('check', EXAMPLES / 'trip-loop.rig')
    self.assertEqual(done.returncode, 1, done.stderr)
    self.assertIn('Kabel N03 schließt eine Schleife', done.stdout)
    self.assertIn('Abhilfe: ', done.stdout)
    self.assertIn('1 Fehler', done.stdout)
    self.assertNotIn('closes a loop', done.stdout)

  def test_english(self):
    """The same in the C locale is English: the test above sees a translation, not chance."""
    done = self.run_cli('check', EXAMPLES / 'trip-loop.rig', locale='C.UTF-8')
    self.assertIn('Cable N03 closes a loop', done.stdout)

  def test_error(self):
    done = self.run_cli('check', EXAMPLES / 'no-such.rig')
    self.assertEqual(done.returncode, 2)
    self.assertIn('lässt sich nicht lesen', done.stderr)

  def test_help(self):
    done = self.run_cli('--help')
    self.assertIn('Die Ergebnisse von Rigwright ohne Fenster', done.stdout)

  def test_json_words(self):
    done = self.run_cli('check', '--json', EXAMPLES / 'trip-loop.rig')
    finding = json.loads(done.stdout)['findings'][0]
    self.assertEqual((finding['code'], finding['severity']), ('loop', 'error'))
    self.assertIn('schließt eine Schleife', finding['message'])

  def test_papers(self):
    """cairo 1.16 reads the places of links as the locale writes numbers: a point in them spoilt the whole document."""
    for command in (['papers'], ['draw']):
      path = Path(self.folder.name) / 'german.pdf'
      path.unlink(missing_ok=True)
      done = self.run_cli(*command, EXAMPLES / 'festival-60.rig', '--output', path)
      self.assertEqual((done.returncode, done.stdout, done.stderr), (0, '', ''))
      self.assertTrue(path.read_bytes().startswith(b'%PDF'))

  def test_numbers(self):
    """A decimal comma must not get into what is read again: lengths and places in JSON stay as they are."""
    english = json.loads(self.run_cli('check', '--json', EXAMPLES / 'festival-60.rig', locale='C.UTF-8').stdout)
    german = json.loads(self.run_cli('check', '--json', EXAMPLES / 'festival-60.rig').stdout)
    for finding in english['findings'] + german['findings']:
      for field in ('message', 'why', 'remedy'):
        del finding[field]
    self.assertEqual(english, german)


if __name__ == '__main__':
  tap.main()
