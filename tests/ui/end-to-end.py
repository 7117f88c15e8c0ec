#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""A mouse and a keyboard on a virtual display draw a rig, close a ring, mend it, save and export it.

end-to-end.py RIGWRIGHT-PROGRAM, under with-display.sh. Speaks TAP. Where things are on the screen the
program itself reports (RIGWRIGHT_TEST_REPORT); what it wrote is read back with poppler and as JSON."""
import json
import os
import struct
import subprocess
import sys
import tempfile
import time
from pathlib import Path

PATIENCE_S = 60
STEP_S = 0.05  # the toolkit merges motion that comes faster


class Screen:
  def __init__(self, program, folder):
    self.report = folder / 'report.json'
    self.log = open(folder / 'log', 'w')
    self.program = subprocess.Popen([program], stdout=self.log, stderr=self.log,
                                    env=dict(os.environ, RIGWRIGHT_TEST_REPORT=str(self.report)))

  def end(self):
    self.program.terminate()
    self.program.wait(10)

  def state(self):
    """The last whole line of the report; None before the first."""
    if not self.report.exists():
      return None
    lines = self.report.read_text(encoding='utf-8').split('\n')[:-1]
    return json.loads(lines[-1]) if lines else None

  def wait(self, what, condition):
    end = time.monotonic() + PATIENCE_S
    while time.monotonic() < end:
      if self.program.poll() is not None:
        raise AssertionError(f'the program ended while waiting for {what}')
      state = self.state()
      if state and condition(state):
        return state
      time.sleep(0.1)
    raise AssertionError(f'no {what}; the last report: {json.dumps(self.state())[:2000]}')

  def do(self, *words):
    subprocess.run(['xdotool', *[str(w) for w in words]], check=True)
    time.sleep(STEP_S)

  def key(self, *names):
    for name in names:
      self.do('key', name)
      time.sleep(0.2)

  def move(self, x, y):
    self.do('mousemove', round(x), round(y))

  def click(self, x, y):
    self.move(x, y)
    self.do('click', 1)

  def drag(self, start, end, let_go=True):
    self.move(*start)
    self.do('mousedown', 1)
    for i in range(1, 13):
      self.move(start[0] + (end[0] - start[0]) * i / 12, start[1] + (end[1] - start[1]) * i / 12)
    self.move(end[0] + 1, end[1])
    self.move(*end)
    if let_go:
      self.do('mouseup', 1)

  def type_path(self, path):
    time.sleep(1.5)  # the file chooser reports nothing: it has to be there
    self.key('ctrl+a')
    self.do('type', '--delay', 20, str(path))
    time.sleep(0.3)
    self.key('Return')


def codes(state):
  return [f['code'] for f in state['findings']]


def shelf_place(state, part):
  for row in state['shelf']:
    if row['part'] == part and row['shown']:
      return row['x'], row['y']
  raise AssertionError(f'{part} is not on the shelf')


def port_place(state, device, port):
  for p in state['ports']:
    if p['device'] == device and p['port'] == port:
      return p['x'], p['y']
  raise AssertionError(f'no port {port} at {device}')


def put(screen, part, dx, dy):
  """Drags @part from the shelf to a place relative to the middle of the sheet; gives its id."""
  before = screen.wait('the shelf', lambda s: s['shelf'])
  canvas = before['canvas']
  screen.drag(shelf_place(before, part), (canvas['x'] + dx, canvas['y'] + dy))
  after = screen.wait(f'a {part} on the sheet', lambda s: len(s['devices']) == len(before['devices']) + 1)
  return after['devices'][-1]['id']


def cable(screen, start, end):
  before = screen.state()
  screen.drag(port_place(before, *start), port_place(before, *end))
  screen.wait('another cable', lambda s: len(s['cables']) == len(before['cables']) + 1)


def place_and_cable(screen, kept):
  screen.wait('the window', lambda s: s['canvas']['shown'] and s['canvas']['width'] > 300 and s['shelf'])
  kept['ids'] = [put(screen, 'console-32', -200, 60), put(screen, 'rack-16x8', 0, 60)]
  cable(screen, (kept['ids'][0], 'Net 2'), (kept['ids'][1], 'Net 1'))


def close_ring(screen, kept):
  kept['ids'].append(put(screen, 'rack-16x8', 200, 60))
  desk, left, right = kept['ids']
  cable(screen, (left, 'Net 2'), (right, 'Net 1'))
  state = screen.state()
  assert 'loop' not in codes(state), codes(state)
  screen.drag(port_place(state, right, 'Net 2'), port_place(state, desk, 'Net 1'), let_go=False)
  state = screen.wait('a verdict while the cable is in the air', lambda s: 'loop' in s['verdict'])
  assert 'loop' not in codes(state), 'the finding came before the button was let go'
  screen.do('mouseup', 1)
  state = screen.wait('the finding of the loop', lambda s: 'loop' in codes(s))
  assert len(state['cables']) == 3


def read_and_mend(screen, kept):
  state = screen.state()
  place = codes(state).index('loop')
  for _ in range(place + 1):
    screen.key('F8')
  state = screen.wait('the finding opened', lambda s: s['finding'] == place and s['fixes'])
  message = state['findings'][place]['message']
  names = {d['id']: d['name'] for d in state['devices']}
  for device in kept['ids']:
    assert names[device] in message, f'{names[device]} is not in “{message}”'
  fix = state['fixes'][0]
  assert fix['shown'], 'the quick fix is out of sight'
  screen.click(fix['x'], fix['y'])
  screen.wait('the loop mended', lambda s: 'loop' not in codes(s) and len(s['cables']) == 2)
  screen.key('ctrl+z')
  screen.wait('the loop again after undo', lambda s: 'loop' in codes(s))
  screen.key('ctrl+shift+z')
  screen.wait('the loop mended again', lambda s: 'loop' not in codes(s))


def save(screen, kept):
  path = kept['folder'] / 'drawn.rig'
  screen.move(300, 300)
  screen.key('ctrl+s')
  screen.type_path(path)
  screen.wait('a saved rig', lambda s: not s['dirty'] and s['path'] == str(path))
  rig = json.loads(path.read_text(encoding='utf-8'))
  assert [d['id'] for d in rig['devices']] == kept['ids']
  assert len(rig['cables']) == 2


def wait_file(path):
  end = time.monotonic() + PATIENCE_S
  while not path.exists() and time.monotonic() < end:
    time.sleep(0.1)
  assert path.exists(), f'{path} was not written'


def export(screen, kept, name, *format_keys):
  path = kept['folder'] / name
  screen.move(300, 300)
  screen.key('ctrl+e')
  time.sleep(1.5)
  screen.key(*format_keys, 'alt+e')
  screen.type_path(path)
  wait_file(path)
  time.sleep(0.5)
  return path


def export_pdf(screen, kept):
  path = export(screen, kept, 'plan.pdf')
  info = subprocess.run(['pdfinfo', path], check=True, capture_output=True, text=True).stdout
  pages = int(next(line.split()[1] for line in info.splitlines() if line.startswith('Pages:')))
  assert pages >= 2, info
  text = subprocess.run(['pdftotext', '-layout', path, '-'], check=True, capture_output=True, text=True).stdout
  for device in screen.state()['devices']:
    assert device['name'] in text, f'{device["name"]} is not in the PDF'


def export_png(screen, kept):
  path = export(screen, kept, 'plan.png', 'space', 'Down', 'Return')
  data = path.read_bytes()
  assert data[:8] == b'\x89PNG\r\n\x1a\n'
  width, height = struct.unpack('>II', data[16:24])
  assert width > 1000 and height > 600, (width, height)


STEPS = [place_and_cable, close_ring, read_and_mend, save, export_pdf, export_png]


def main():
  print(f'1..{len(STEPS)}')
  failed = 0
  with tempfile.TemporaryDirectory() as name:
    kept = {'folder': Path(name)}
    screen = Screen(sys.argv[1], kept['folder'])
    try:
      for number, step in enumerate(STEPS, 1):
        try:
          if failed:
            raise AssertionError('a step before failed')
          step(screen, kept)
          print(f'ok {number} {step.__name__}', flush=True)
        except (AssertionError, subprocess.CalledProcessError) as error:
          failed += 1
          print(f'not ok {number} {step.__name__}\n# {error}', flush=True)
          if failed == 1 and 'RIGWRIGHT_TEST_SHOT' in os.environ:
            subprocess.run(['import', '-window', 'root', os.environ['RIGWRIGHT_TEST_SHOT']])
    finally:
      screen.end()
      log = (kept['folder'] / 'log').read_text(encoding='utf-8')
      for line in log.splitlines():
        print(f'# {line}')
      if any(word in log for word in ('CRITICAL', 'WARNING')):
        failed += 1
  return 1 if failed else 0


if __name__ == '__main__':
  sys.exit(main())
