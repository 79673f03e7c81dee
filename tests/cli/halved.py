#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A long file is answered by two cores at once: halved.py MENSUR. Whatever is wrong with it, and
wherever, the answer, what is said and the exit code are those of a single core."""
import os
import resource
import subprocess
import sys
import tempfile
import threading

ROWS = 24000  # a good megabyte, the least that is halved
HEAD = 'name,family,strings,body,stop,neck,bridge,note'


def row(i):
    return ['bird %d' % i, 'viola', 'viola gut', '%.1f' % (395 + i % 170 / 10), '%.1f' % (212 + i % 60 / 10),
            '%.1f' % (144 + i % 50 / 10), '', 'invented %d' % i]


def table(changes=None, head=HEAD, separator=',', end='\n'):
    lines = [head.replace(',', separator)]
    for i in range(ROWS):
        cells = row(i)
        for column, text in (changes or {}).get(i, {}).items():
            cells[column] = text
        lines.append(separator.join(cells))
    return end.join(lines) + end


LATE, LATER = ROWS * 3 // 4, ROWS - 7
FILES = {
    'nothing wrong': (table(), 0),
    'semicolons, decimal commas, both line ends': (
        table({5: {4: '213,5'}}, separator=';', end='\r\n'), 0),
    'quotes in the first half': (table({9: {7: '"two\nlines, and ""more"""'}}), 0),
    'quotes in the second': (table({LATE: {0: '"=bird, the ""last"""', 7: '"two\nlines"'}}), 0),
    'inch marks': (table({9: {4: '8-3/4"'}, LATE: {4: '8 3/4"'}}), 0),
    'how sure one is': (table({9: {4: '213 +- 0.5'}, LATE: {4: '214 +- 0.3'}}), 0),
    'a name in both': (table({LATER: {0: 'bird 3'}}), 3),
    'a name twice in the second': (table({LATER: {0: 'bird %d' % LATE}}), 3),
    'a wrong cell in the second': (table({LATE: {4: 'x'}, LATER: {5: '-1'}}), 3),
    'an unknown family in the first': (table({7: {1: 'viloa'}}), 3),
    'no answer in the second': (table({LATE: {6: '25'}, LATER: {6: '26'}}), 4),
    'an unknown column': (table(head=HEAD.replace('note', 'colour of it')), 0),
    'letters of Windows-1252': (table({LATE: {7: 'für'}}).encode('windows-1252'), 0),
    'a NUL byte in the second': (table({LATE: {7: 'a\0b'}}), 3),
    'an open quote in the second': (table({LATE: {7: '"open'}}), 3),
}
CORES = sorted(os.sched_getaffinity(0))


class Threads:
    """The most threads that a process had, looked at over and over while it runs."""

    def __init__(self, process):
        self.most, self.status = 0, '/proc/%d/status' % process.pid
        self.over = threading.Event()
        self.watch = threading.Thread(target=self.look)
        self.watch.start()

    def look(self):
        while not self.over.wait(0.002):
            try:
                with open(self.status) as file:
                    count = [int(line.split()[1]) for line in file if line.startswith('Threads:')]
                self.most = max([self.most] + count)
            except OSError:
                return

    def stop(self):
        self.over.set()
        self.watch.join()
        return self.most


def run(mensur, command, shop, cores, longest_file=resource.RLIM_INFINITY):
    def hold():
        os.sched_setaffinity(0, cores)
        resource.setrlimit(resource.RLIMIT_FSIZE, (longest_file, longest_file))

    process = subprocess.Popen([mensur] + command + ['--shop', shop, '--format', 'csv'], stdout=subprocess.PIPE,
                               stderr=subprocess.PIPE, preexec_fn=hold)
    threads = Threads(process)
    out, err = process.communicate(timeout=300)
    return (process.returncode, out, err), threads.stop()


def compare(mensur, name, command, code, shop):
    """What is wrong, or None."""
    alone, threads = run(mensur, command, shop, CORES[:1])
    if threads > 1:
        return 'a single core was given %d threads' % threads
    both, threads = run(mensur, command, shop, CORES[:2])
    if name == 'nothing wrong' and threads < 2:
        return 'two cores were given no second thread'
    if alone[0] != code:
        return 'exit code %d, expected %d: %s' % (alone[0], code, alone[2][-300:])
    if alone != both:
        return 'one core and two differ: exit %d and %d, %d and %d bytes, %s and %s' % (
            alone[0], both[0], len(alone[1]), len(both[1]), alone[2][-200:], both[2][-200:])
    if name == 'nothing wrong' and run(mensur, command, shop, CORES[:2], 200000)[0] != alone:
        return 'without room for the answer to wait in, another one is given'
    if code == 0 and len(alone[1].splitlines()) <= ROWS:
        return 'only %d lines' % len(alone[1].splitlines())
    return None


def main(mensur):
    if len(CORES) < 2:
        print('1..0 # SKIP one core alone')
        return 0
    cases = [(name, ['lengths'], text, code) for name, (text, code) in FILES.items()]
    cases += [('nothing wrong', [command, '--every'], FILES['nothing wrong'][0], 0)
              for command in ('tension', 'fingers')]
    print('1..%d' % len(cases))
    wrong = 0
    for number, (name, command, text, code) in enumerate(cases, 1):
        with tempfile.TemporaryDirectory() as shop:
            with open(os.path.join(shop, 'instruments.csv'), 'wb') as file:
                file.write(text if isinstance(text, bytes) else text.encode())
            fault = compare(mensur, name, command, code, shop)
        wrong += fault is not None
        print('%s %d - %s: %s' % ('ok' if fault is None else 'not ok', number, ' '.join(command), name))
        if fault:
            print('# ' + fault)
    return 1 if wrong else 0


sys.exit(main(sys.argv[1]))
