# SPDX-License-Identifier: MIT
"""rigwright-cli check: what it prints, where, and how it ends."""
import copy
import json
import os
import subprocess
import tempfile
import unittest

import tap
from cli import FINDING_MEMBERS, FIXTURES, MEMBERS, PROGRAM, check, codes, read, run

RING = FIXTURES / 'loop' / 'bad-ring-of-three.rig'
CHAIN = FIXTURES / 'loop' / 'good-chain-of-three.rig'
LOOSE = FIXTURES / 'not-cabled' / 'bad-two-left-over.rig'


class Folder(unittest.TestCase):
  """A folder of its own for each case."""

  def setUp(self):
    self.folder = tempfile.TemporaryDirectory()
    self.addCleanup(self.folder.cleanup)

  def write(self, name, content):
    path = os.path.join(os.fsencode(self.folder.name), os.fsencode(name))
    with open(path, 'wb') as file:
      file.write(content if isinstance(content, bytes) else json.dumps(content).encode())
    return path


class Fixtures(unittest.TestCase):
  def test_every_fixture_as_worked_out_by_hand(self):
    rigs = sorted(FIXTURES.glob('*/*.rig'))
    self.assertGreater(len(rigs), 60)
    for rig in rigs:
      with self.subTest(rig=f'{rig.parent.name}/{rig.name}'):
        expected = json.loads(rig.with_suffix('.json').read_text())
        status, report = check(rig.name, cwd=rig.parent)
        self.assertEqual(list(report), MEMBERS)
        for finding in report['findings']:
          self.assertEqual(list(finding), FINDING_MEMBERS)
          self.assertTrue(finding.pop('why') and finding.pop('remedy'))
        for finding in expected['findings']:
          finding.pop('fixes', None)
        self.assertEqual(report, expected)
        self.assertEqual(status, 1 if expected['errors'] else 0)


class SmallChain(Folder):
  """A console with controller ID 1 and two racks with IDs 1 and 2, in chain mode; then one mistake each."""

  def verdict(self, change=lambda rig: None):
    rig = copy.deepcopy(json.loads(CHAIN.read_text()))
    change(rig)
    return check(self.write('chain.rig', rig))

  def test_is_correct(self):
    status, report = self.verdict()
    self.assertEqual((status, codes(report)), (0, []))

  def test_third_cable_closes_a_loop(self):
    def close(rig):
      rig['cables'].append({'id': 'c3', 'from': ['right', 'Secondary'], 'to': ['foh', 'Primary'], 'length_m': 5})
    status, report = self.verdict(close)
    self.assertEqual((status, codes(report)), (1, ['loop']))
    self.assertEqual(set(report['findings'][0]['devices']), {'foh', 'left', 'right'})
    self.assertEqual(report['findings'][0]['cables'][0], 'c3')
    for name in ('FOH desk', 'Stage left', 'Stage right'):
      self.assertIn(name, report['findings'][0]['message'])

  def test_one_rack_redundant_is_mixed_modes(self):
    status, report = self.verdict(lambda rig: rig['devices'][1].update(mode='redundant'))
    self.assertEqual(status, 1)
    self.assertEqual(codes(report)[0], 'mixed-modes')
    self.assertEqual(report['findings'][0]['devices'], ['left'])

  def test_both_racks_with_id_1_clash(self):
    status, report = self.verdict(lambda rig: rig['devices'][2].update(unit_id=1))
    self.assertEqual((status, codes(report)), (1, ['unit-id-clash']))
    self.assertEqual(report['findings'][0]['devices'], ['left', 'right'])

  def test_controller_id_off_is_no_controller_1(self):
    status, report = self.verdict(lambda rig: rig['devices'][0].pop('controller_id'))
    self.assertEqual((status, codes(report)), (1, ['no-controller-1']))


class Statuses(Folder):
  def test_warnings_alone_end_with_0(self):
    status, report = check(LOOSE)
    self.assertEqual((status, report['errors'], report['warnings']), (0, 0, 1))

  def test_one_rig_with_errors_among_several_ends_with_1(self):
    status, reports = check(CHAIN, RING, LOOSE)
    self.assertEqual(status, 1)
    self.assertEqual([report['rig'] for report in reports], [str(CHAIN), str(RING), str(LOOSE)])

  def test_a_rig_that_is_not_there(self):
    done = run('check', '--json', 'none.rig', cwd=self.folder.name)
    self.assertEqual((done.returncode, done.stdout), (2, b''))
    self.assertEqual(done.stderr, b'rigwright-cli: none.rig: cannot be read: No such file or directory\n')

  def test_a_rig_that_is_refused_names_file_and_place(self):
    rig = json.loads(CHAIN.read_text())
    rig['devices'][1]['part'] = 'no-such-part'
    done = run('check', self.write('refused.rig', rig))
    self.assertEqual((done.returncode, done.stdout), (2, b''))
    self.assertTrue(done.stderr.startswith(b'rigwright-cli: ' + os.fsencode(self.folder.name) + b'/refused.rig: '))
    self.assertIn(b'devices[1].part', done.stderr)
    self.assertEqual(done.stderr.count(b'\n'), 1)

  def test_the_others_are_still_reported(self):
    bad = self.write('bad.rig', b'{')
    done = run('check', '--json', CHAIN, bad, RING)
    reports = read(done.stdout)
    self.assertEqual(done.returncode, 2)
    self.assertEqual(list(reports[1]), ['rig', 'error'])
    self.assertEqual(reports[1]['rig'], os.fsdecode(bad))
    self.assertEqual(done.stderr.decode(), f'rigwright-cli: {reports[1]["error"]}\n')
    self.assertEqual([codes(reports[0]), codes(reports[2])], [[], ['loop']])

  def test_the_others_are_still_reported_as_text(self):
    done = run('check', self.write('bad.rig', b'{'), RING)
    self.assertEqual(done.returncode, 2)
    self.assertIn(b'error: loop', done.stdout)

  def test_no_rig_is_wrong_usage(self):
    for words in (['check'], ['check', '--json']):
      done = run(*words)
      self.assertEqual((done.returncode, done.stdout), (2, b''))
      self.assertTrue(done.stderr.startswith(b'rigwright-cli: check: no rig was named'))

  def test_an_unknown_option_is_wrong_usage(self):
    done = run('check', '--jsn', RING)
    self.assertEqual((done.returncode, done.stdout), (2, b''))
    self.assertTrue(done.stderr.startswith(b'rigwright-cli: check: '))
    self.assertIn(b'--jsn', done.stderr)


class Input(Folder):
  def test_dash_is_standard_input(self):
    with open(RING, 'rb') as file:
      status, report = check('-', stdin=file)
    self.assertEqual((status, report['rig'], codes(report)), (1, '-', ['loop']))

  def test_errors_in_standard_input_say_so(self):
    done = run('check', '-', input=b'{"rigwright": 2}')
    self.assertEqual((done.returncode, done.stdout), (2, b''))
    self.assertTrue(done.stderr.startswith(b'rigwright-cli: standard input: '))

  def test_closed_standard_input_is_an_error(self):
    done = run('check', '-', preexec_fn=lambda: os.close(0))
    self.assertEqual(done.returncode, 2)
    self.assertIn(b'standard input: cannot be read', done.stderr)

  def test_options_may_follow_rigs(self):
    done = run('check', RING, '--json')
    self.assertEqual(codes(read(done.stdout)), ['loop'])

  def test_a_rig_whose_name_begins_with_a_dash(self):
    self.write('-x.rig', CHAIN.read_bytes())
    done = run('check', '--', '-x.rig', cwd=self.folder.name)
    self.assertEqual((done.returncode, done.stderr), (0, b''))
    self.assertTrue(done.stdout.startswith(b'-x.rig: '))

  def test_a_file_name_that_is_no_utf8_still_gives_utf8(self):
    status, report = check(self.write(b'\xff.rig', RING.read_bytes()))
    self.assertEqual((status, codes(report)), (1, ['loop']))
    done = run('check', '--json', self.write(b'\xfe.rig', b'['), RING)
    self.assertEqual((done.returncode, list(read(done.stdout)[0])), (2, ['rig', 'error']))


class Output(Folder):
  def test_a_full_disk_is_an_error(self):
    for words in (['check', CHAIN], ['check', '--json', CHAIN], ['check', '--help'], ['--help'], ['--version']):
      with self.subTest(words=words), open('/dev/full', 'wb') as full:
        done = run(*words, stdout=full)
        self.assertEqual(done.returncode, 2)
        self.assertIn(b'standard output: cannot be written: No space left on device', done.stderr)

  def test_closed_standard_output_is_an_error(self):
    done = run('check', CHAIN, preexec_fn=lambda: os.close(1))
    self.assertEqual(done.returncode, 2)
    self.assertIn(b'standard output: cannot be written', done.stderr)

  def test_text_is_numbered_and_says_what_to_do(self):
    done = run('check', 'bad-ring-and-chord.rig', cwd=FIXTURES / 'loop')
    self.assertEqual((done.returncode, done.stderr), (1, b''))
    lines = done.stdout.decode().splitlines()
    self.assertEqual(lines[0], 'bad-ring-and-chord.rig: 2 errors, 0 warnings, 1 note')
    self.assertEqual([line for line in lines if line.endswith(': loop')], ['  1  error: loop', '  2  error: loop'])
    self.assertEqual(sum(line.startswith('     Remedy: ') for line in lines), 3)
    self.assertIn('     Cable N-05 closes a loop through North switch, East switch and South switch: '
                  'frames circle in it without end until the network stops', lines)

  def test_lengths_in_feet(self):
    """90 m = 295 ft 3 in; 85 m = 278 ft 10 in (a foot is 0.3048 m: international yard and pound agreement, 1959)."""
    rig = FIXTURES / 'too-long' / 'bad-85-m-not-known-to-be-solid.rig'
    self.assertIn('is 295′ 3″ long: from 278′ 10″ on', run('check', '--units', 'ft', rig).stdout.decode())
    self.assertEqual(run('check', '--json', '--units', 'ft', rig).stdout, run('check', '--json', rig).stdout)
    self.assertEqual(run('check', '--units', 'yd', rig).returncode, 2)

  def test_the_same_every_time(self):
    rigs = sorted(FIXTURES.glob('*/bad-*.rig'))
    once = run('check', '--json', *rigs)
    self.assertEqual(once.stdout, run('check', '--json', *rigs).stdout)
    self.assertEqual(once.returncode, 1)


def peak_of(*args):
  """The most memory that the program held at once, in the unit of the system; a sanitizer that keeps what was freed is told
  not to."""
  options = [os.environ.get('ASAN_OPTIONS', ''), 'quarantine_size_mb=0', 'thread_local_quarantine_size_kb=0']
  with open(os.devnull, 'wb') as nothing:
    process = subprocess.Popen([PROGRAM, *args], stdout=nothing, env={**os.environ, 'ASAN_OPTIONS': ':'.join(options)})
    return os.wait4(process.pid, 0)[2].ru_maxrss


class Memory(Folder):
  def test_json_takes_little_more_than_text(self):
    """What is written need not be held: the JSON of these findings is larger than all that the check needs."""
    part = {'id': 'rack', 'kind': 'rack', 'preamps': 8, 'sends': 8, 'ports': [{'name': 'P', 'side': 'primary'}]}
    parts = [part, {**part, 'id': 'desk', 'kind': 'controller'}]
    devices = [{'id': 'd', 'part': 'desk'}] + [{'id': f'r{i}', 'part': 'rack', 'name': f'Rack {i}'} for i in range(20000)]
    rig = self.write('many.rig', {'rigwright': 1, 'parts': parts, 'devices': devices})
    for command in 'check', 'facts':
      with self.subTest(command=command):
        self.assertLess(peak_of(command, '--json', rig), 1.15 * peak_of(command, rig))


if __name__ == '__main__':
  tap.main()
