#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Makes each allocation of the program fail in turn: allocations.py MENSUR SHIM [every].
Each run must end with exit code 5 and the reason, and leave no output file; or, where it does not
need that memory, with the whole answer. The reading of the shop, which all commands share, is tested
once; of longer runs only some allocations are tested, unless `every` is given (some minutes)."""
import os
import subprocess
import sys
import tempfile

RUNS_MOST = 50
COMMANDS = [
    ['check'], ['lengths', '--format', 'csv'], ['tension', 'kestrel'],
    ['fingers', 'swift', '--format', 'json'], ['compare', 'kestrel', 'heron'],
    ['change', 'heron', 'stop=-3', '--format', 'json'],
    ['neck', 'kestrel', '--string-length', '368..376', '--format', 'csv'],
    ['restring', 'kestrel', '--from', 'viola gut'],
    ['check', '--usual', '--shop'],  # a shop of its own
]
mensur, shim = sys.argv[1:3]
every = sys.argv[3:] == ['every']
faults = []
number = 0


def run(command, at, folder):
    mark, out = os.path.join(folder, 'mark'), os.path.join(folder, 'out')
    for path in (mark, out):
        if os.path.exists(path):
            os.remove(path)
    env = dict(os.environ, LD_PRELOAD=shim, MENSUR_FAIL_AT=str(at), MENSUR_FAIL_MARK=mark)
    env.pop('MENSUR_SHOP', None)
    done = subprocess.run([mensur] + command + ['--output', out], env=env, capture_output=True,
                          text=True, timeout=60)
    written = open(out, 'rb').read() if os.path.exists(out) else None
    return done, os.path.exists(mark), written, os.listdir(folder)


def complain(command, at, what, done):
    faults.append('%s, allocation %d: %s (exit code %d) %s' % (
        ' '.join(command), at, what, done.returncode, done.stderr.strip()[-200:]))


def allocations(command, folder):
    """The number of allocations, found by bisection."""
    low, high = 0, 1
    while run(command, high, folder)[1]:
        low, high = high, high * 2
    while high - low > 1:
        middle = (low + high) // 2
        if run(command, middle, folder)[1]:
            low = middle
        else:
            high = middle
    return low


def go_through(command, first, folder, whole):
    last = allocations(command, folder)
    step = 1 if every else max(1, (last - first) // RUNS_MOST + 1)
    tried = without = 0
    for at in list(range(first, last, step)) + [last]:
        done, reached, written, left = run(command, at, folder)
        tried += 1
        if not reached:
            complain(command, at, 'was not reached again', done)
        elif done.returncode == 0 and written == whole:
            without += 1
        elif done.returncode != 5:
            complain(command, at, 'does not end as it should', done)
        elif 'memory' not in done.stderr:
            complain(command, at, 'does not say why', done)
        elif [name for name in left if name.startswith('out')]:
            complain(command, at, 'leaves a file', done)
    return last, tried, without


kept = tempfile.TemporaryDirectory()
COMMANDS[-1].append(kept.name)
with open(os.path.join(kept.name, 'instruments.csv'), 'w', encoding='utf-8') as file:
    file.write('name,family,stop,neck,board_length,nut\n')
    file.writelines('v%d,violin,19%d,130,270,0.4\n' % (i, i) for i in range(5))
    file.write('w,viola,8.6,150,,\nx,,200,130,,\n')

print('1..%d' % len(COMMANDS))
shared = 1
for command in COMMANDS:
    before = len(faults)
    with tempfile.TemporaryDirectory() as folder:
        plain, _, whole, _ = run(command, 0, folder)
        if plain.returncode == 2:
            number += 1
            print('ok %d - %s # SKIP not a command of this program' % (number, ' '.join(command)))
            continue
        last, tried, without = go_through(command, shared, folder, whole)
    if shared == 1:
        shared = last * 3 // 4
    number += 1
    print('%sok %d - %s: %d allocations, %d of them failed in turn, %d of which it did without' % (
        'not ' if len(faults) > before else '', number, ' '.join(word for word in command if word != kept.name), last, tried, without))
    for fault in faults[before:before + 5]:
        print('# ' + fault)
sys.exit(1 if faults else 0)
