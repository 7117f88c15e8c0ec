# SPDX-License-Identifier: MIT
"""The rules on cables and links, worked out a second time; see reference.py."""

COPPER = ['cat5', 'cat5e', 'cat6', 'cat6a']
MULTIMODE = ['om1', 'om2', 'om3', 'om4', 'om5']
GRADES = {'copper': COPPER, 'multimode': MULTIMODE, 'singlemode': ['os2']}
USUAL = {'copper': 'cat5e', 'multimode': 'om3', 'singlemode': 'os2'}
# Metres by grade at 1 and 10 Gb/s; see the sources beside the figures in tests/net/test-net-reach.c.
REACH = {
  1000: {**dict.fromkeys(COPPER, 100), **dict.fromkeys(MULTIMODE, 550), 'om1': 275, 'os2': 5000},
  10000: {**dict.fromkeys(COPPER, 100), 'cat6': 55, 'om1': 33, 'om2': 82, 'om3': 300, 'om4': 400, 'os2': 10000},
  100: dict.fromkeys(COPPER, 100),
}


def medium(cable):
  return cable.get('medium', 'copper')


def grade(cable):
  return cable.get('grade', USUAL[medium(cable)])


def port(p, end):
  return next(port for port in p.part(end[0])['ports'] if port['name'] == end[1])


def speeds(p, cable):
  return [port(p, cable[end]).get('speed_mbps', 1000) for end in ('from', 'to')]


def ends(p, cable):
  return [cable['from'], cable['to']]


def once(names):
  return list(dict.fromkeys(names))


def too_long(p):
  for name, cable in p.cables.items():
    length = cable.get('length_m', 0)
    limit = REACH[min(speeds(p, cable))].get(grade(cable)) if grade(cable) in GRADES[medium(cable)] else None
    stranded = medium(cable) == 'copper' and cable.get('conductor') != 'solid' and length >= 85
    if stranded or (limit is not None and length > limit):
      yield [], [], [name]


def grade_low(p):
  for name, cable in p.cables.items():
    least = {10: 'cat5', 100: 'cat5', 1000: 'cat5e', 10000: 'cat6'}[min(speeds(p, cable))]
    if medium(cable) == 'copper' and grade(cable) in COPPER[:COPPER.index(least)]:
      yield [], [], [name]


def medium_mismatch(p):
  for name, cable in p.cables.items():
    wrong = [end for end in ends(p, cable) if port(p, end).get('medium', 'copper') not in ('cage', medium(cable))]
    if wrong or grade(cable) not in GRADES[medium(cable)]:
      yield once(end[0] for end in wrong), wrong, [name]


def speed_mismatch(p):
  for name, cable in p.cables.items():
    if len(set(speeds(p, cable))) > 1 and (medium(cable) != 'copper' or p.is_audio(cable)):
      yield once(end[0] for end in ends(p, cable)), ends(p, cable), [name]


def slow_link(p):
  for name, cable in p.cables.items():
    if p.is_audio(cable) and min(speeds(p, cable)) < 1000:
      yield once(end[0] for end in ends(p, cable)), ends(p, cable), [name]


def no_length(p):
  cables = [name for name, cable in p.cables.items() if not cable.get('length_m')]
  if cables:
    yield [], [], cables


def label_clash(p):
  labels = [cable.get('label', '').strip() for cable in p.cables.values()]
  for label in once(label for label in labels if label):
    cables = [name for name, own in zip(p.cables, labels) if own == label]
    if len(cables) > 1:
      yield [], [], cables


RULES = {
  'too-long': too_long,
  'grade-low': grade_low,
  'medium-mismatch': medium_mismatch,
  'speed-mismatch': speed_mismatch,
  'slow-link': slow_link,
  'no-length': no_length,
  'label-clash': label_clash,
}
