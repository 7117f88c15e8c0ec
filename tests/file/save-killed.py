#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Kills a save at each of its system calls in turn, then fails each in turn (strace's fault injection).

Whatever happens, the file holds the old rig or the new one, whole; a save that fails leaves the old one and
nothing beside it, and says why; one that succeeds has left the new one.
usage: save-killed.py SAVE_ONCE NEW_RIG OLD_RIG
"""
import os
import re
import subprocess
import sys
import tempfile

# Where these fail the C library or GLib ends the program: that is not what is tried here.
VITAL = {'mmap', 'munmap', 'brk', 'mremap', 'mprotect', 'madvise', 'futex'}


# A leak checker traces its own process, and strace does already; leaks are looked for where the same code runs freely.
ENVIRONMENT = dict(os.environ, ASAN_OPTIONS=os.environ.get('ASAN_OPTIONS', '') + ':detect_leaks=0')


def run(program, new, target, *options):
    command = ['strace', '-qq', *options, program, new, target]
    return subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True, timeout=60,
                          env=ENVIRONMENT)


def put(path, data):
    with open(path, 'wb') as file:
        file.write(data)


def get(path):
    with open(path, 'rb') as file:
        return file.read()


def list_calls(program, new, target, log):
    """The save's system calls in order, each as its name and how often that name came since the start."""
    run(program, new, target, '-o', log)
    seen, calls, marks = {}, [], 0
    for line in open(log, encoding='utf-8', errors='replace'):
        match = re.match(r'(\w+)\(', line)
        if not match:
            continue
        name = match[1]
        seen[name] = seen.get(name, 0) + 1
        if name == 'getppid':
            marks += 1
        elif marks == 1:
            calls.append((name, seen[name]))
    return calls


class Save:
    def __init__(self, program, new, old):
        self.program, self.new = program, new
        self.new_data, self.old_data = get(new), get(old)
        self.n = self.failed = 0

    def ok(self, good, name, why):
        self.n += 1
        self.failed += not good
        print(f'{"ok" if good else "not ok"} {self.n} {name}' + ('' if good else f' # {why}'))

    def attempt(self, folder, *options):
        target = os.path.join(folder, 'show.rig')
        for name in os.listdir(folder):
            os.unlink(os.path.join(folder, name))
        put(target, self.old_data)
        result = run(self.program, self.new, target, *options)
        held = get(target)
        return result, held == self.old_data, held == self.new_data, os.listdir(folder)

    def kill(self, folder, name, when, past_rename):
        result, old, new, _ = self.attempt(folder, '-o', '/dev/null', '-e', f'inject={name}:signal=KILL:when={when}')
        good = result.returncode == -9 and (new if past_rename else old)
        self.ok(good, f'killed at {name} {when}', f'{result} old {old} new {new}')

    def fail(self, folder, name, when, past_rename):
        result, old, new, left = self.attempt(folder, '-o', '/dev/null', '-e', f'inject={name}:error=EIO:when={when}')
        said = ('show.rig: saved, but ' if past_rename else 'show.rig: not saved: ') in result.stderr
        if result.returncode == 0:
            good = new
        else:
            good = result.returncode == 1 and said and (new if past_rename else old)
        self.ok(good and left == ['show.rig'], f'failed at {name} {when}', f'{result} old {old} new {new} left {left}')


def main(program, new, old):
    save = Save(program, new, old)
    with tempfile.TemporaryDirectory() as top:
        folder = os.path.join(top, 'rigs')
        os.mkdir(folder)
        target = os.path.join(folder, 'show.rig')
        put(target, save.old_data)
        calls = list_calls(program, new, target, os.path.join(top, 'log'))
        names = [name for name, _ in calls]
        save.ok(save.old_data != save.new_data and get(target) == save.new_data, 'saved when left alone', 'not saved')
        save.ok(names.count('fsync') == 2 and 'rename' in names and names.index('rename') > names.index('fsync'),
                'file, then name, then folder reach the disk in this order', ' '.join(names))
        past_rename = False
        for name, when in calls:
            save.kill(folder, name, when, past_rename)
            if name not in VITAL:
                save.fail(folder, name, when, past_rename)
            past_rename = past_rename or name == 'rename'
    print(f'1..{save.n}')
    return 1 if save.failed else 0


sys.exit(main(*sys.argv[1:]))
