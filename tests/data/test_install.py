# SPDX-License-Identifier: MIT
"""Installed into an empty folder, everything is where the desktop and the programs look for it."""
import os
import subprocess
import tempfile
import unittest
import xml.etree.ElementTree as tree
from pathlib import Path

import tap

BUILD = os.environ['RIGWRIGHT_BUILD_ROOT']
SOURCE = Path(os.environ['RIGWRIGHT_DATADIR']).parent
APP = 'org.rigwright.Rigwright'
EXPECTED = [
  'bin/rigwright',
  'bin/rigwright-cli',
  f'share/applications/{APP}.desktop',
  f'share/metainfo/{APP}.metainfo.xml',
  f'share/mime/packages/{APP}.xml',
  f'share/icons/hicolor/scalable/apps/{APP}.svg',
  f'share/icons/hicolor/symbolic/apps/{APP}-symbolic.svg',
  'share/locale/de/LC_MESSAGES/rigwright.mo',
  'share/man/man1/rigwright-cli.1',
  'share/rigwright/catalogue/parts.rig',
]


class Install(unittest.TestCase):
  @classmethod
  def setUpClass(cls):
    cls.folder = tempfile.TemporaryDirectory()
    done = subprocess.run(['meson', 'install', '-C', BUILD, '--no-rebuild', '--quiet', '--destdir', cls.folder.name],
                          capture_output=True, text=True, env=dict(os.environ, LC_ALL='C.UTF-8'))
    assert done.returncode == 0, done.stdout + done.stderr
    cls.prefix = next(path.parent for path in Path(cls.folder.name).glob('**/bin'))

  @classmethod
  def tearDownClass(cls):
    cls.folder.cleanup()

  def test_files(self):
    missing = [name for name in EXPECTED if not (self.prefix / name).is_file()]
    self.assertEqual(missing, [])

  def test_examples_and_pages(self):
    """Each is installed, byte for byte."""
    for source, target in (('data/examples', 'share/rigwright/examples'), ('help/C', 'share/help/C/rigwright')):
      names = sorted(path.name for path in (SOURCE / source).iterdir())
      self.assertGreater(len(names), 0)
      for name in names:
        self.assertEqual((SOURCE / source / name).read_bytes(), (self.prefix / target / name).read_bytes())

  def test_desktop_entry(self):
    """What it starts, and the icon that it names, are installed; its words are translated."""
    text = (self.prefix / f'share/applications/{APP}.desktop').read_text()
    fields = dict(line.split('=', 1) for line in text.splitlines() if '=' in line)
    self.assertTrue((self.prefix / 'bin' / fields['Exec'].split()[0]).is_file())
    self.assertTrue((self.prefix / f'share/icons/hicolor/scalable/apps/{fields["Icon"]}.svg').is_file())
    self.assertEqual(fields['GenericName[de]'], 'Planer für Tonanlagen')

  def test_metainfo(self):
    """The programs that it provides, and the desktop entry that launches it, are there."""
    root = tree.parse(self.prefix / f'share/metainfo/{APP}.metainfo.xml').getroot()
    for binary in root.iter('binary'):
      self.assertTrue((self.prefix / 'bin' / binary.text).is_file(), binary.text)
    self.assertTrue((self.prefix / 'share/applications' / root.find('launchable').text).is_file())

  def test_runs(self):
    """The installed program checks an installed example."""
    done = subprocess.run([self.prefix / 'bin/rigwright-cli', 'check', self.prefix / 'share/rigwright/examples/small-chain.rig'],
                          capture_output=True, text=True)
    self.assertEqual((done.returncode, done.stderr), (0, ''))


if __name__ == '__main__':
  tap.main()
