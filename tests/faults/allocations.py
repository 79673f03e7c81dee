#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Makes each allocation of the program fail in turn: allocations.py MENSUR SHIM [every].
First with all later ones of the program, as where memory is used up; then alone, also those of the
libraries. Each run must end with exit code 5 and the reason, and leave no output file; or, where it
does not need that memory, with the whole answer. The reading of the shop, which all commands share, is
tested once; of longer runs only some allocations are tested, unless `every` is given (some minutes)."""
import os
import shutil
import signal
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
# Where a library that draws has no memory, it may go on with another font and not say so; and its threads
# do not ask for memory in the same order twice.
PICTURE = ['compare', 'kestrel', 'heron', '--output', 'OUT.pdf']
# The output's place is OUT.
ONCE = [
    ['lengths', '--format', 'csv', '--output', 'OUT', '--shop', 'LONG'], ['find', 'stop=195..', '--shop', 'LONG'],
    ['tension', '--format', 'json', '--output', 'OUT'], ['compare', 'kestrel', 'heron', '--output', 'OUT.svg'],
    ['neck', 'kestrel', '--string-length', '368..376'], ['check', '--shop', 'OUT'], ['start', 'OUT'],
    ['dossier', 'kestrel', '--output', 'OUT.html'], PICTURE,
]
mensur, shim = sys.argv[1:3]
every = sys.argv[3:] == ['every']
faults = []
number = 0


def run(command, at, folder, once=False):
    """The run, whether an allocation failed, and every file that it wrote."""
    mark, place = os.path.join(folder, 'mark'), os.path.join(folder, 'place')
    if os.path.exists(mark):
        os.remove(mark)
    shutil.rmtree(place, ignore_errors=True)
    os.mkdir(place)
    out = os.path.join(place, 'out')
    env = dict(os.environ, LD_PRELOAD=shim, MENSUR_FAIL_AT=str(at), MENSUR_FAIL_MARK=mark)
    env.pop('MENSUR_SHOP', None)
    if once:
        env['MENSUR_FAIL_ONCE'] = 'yes'
    words = [word.replace('OUT', out) for word in command] if once else command + ['--output', out]
    try:
        done = subprocess.run([mensur] + words, env=env, capture_output=True, text=True, timeout=60)
    except subprocess.TimeoutExpired as late:
        done = subprocess.CompletedProcess(late.args, -signal.SIGALRM, '', 'does not end')
    # that which counts branches, where they are counted, has allocations of its own
    done.stderr = ''.join(line for line in done.stderr.splitlines(True) if not line.startswith('LLVM Profile'))
    written = {}
    for above, _, names in os.walk(place):
        for name in names:
            path = os.path.join(above, name)
            written[path] = open(path, 'rb').read()
    return done, os.path.exists(mark), written


def complain(command, at, what, done):
    faults.append('%s, allocation %d: %s (exit code %d) %s' % (
        ' '.join(command), at, what, done.returncode, done.stderr.strip()[-200:]))


def allocations(command, folder, once):
    """The number of allocations, found by bisection."""
    low, high = 0, 1
    while run(command, high, folder, once)[1]:
        low, high = high, high * 2
    while high - low > 1:
        middle = (low + high) // 2
        if run(command, middle, folder, once)[1]:
            low = middle
        else:
            high = middle
    return low


def go_through(command, first, folder, once=False):
    whole, _, files = run(command, 0, folder, once)
    last = allocations(command, folder, once)
    step = 1 if every else max(1, (last - first) // RUNS_MOST + 1)
    tried = without = 0
    for at in list(range(first, last, step)) + [last]:
        done, reached, written = run(command, at, folder, once)
        tried += 1
        if not reached:
            if command != PICTURE:
                complain(command, at, 'was not reached again', done)
        elif command == PICTURE and done.returncode == 0 and list(written) == list(files):
            without += 1
        elif (done.returncode, done.stdout, done.stderr, written) == \
                (whole.returncode, whole.stdout, whole.stderr, files):
            without += 1
        elif done.returncode != 5:
            complain(command, at, 'does not end as it should', done)
        elif 'memory' not in done.stderr and command != PICTURE or 'mensur' not in done.stderr:
            complain(command, at, 'does not say why', done)
        elif written:
            complain(command, at, 'leaves a file', done)
    return last, tried, without


def tell(command, before, counts):
    global number
    number += 1
    print('%sok %d - %s: %d allocations, %d of them failed in turn, %d of which it did without' % (
        'not ' if len(faults) > before else '', number, ' '.join(command), *counts))
    for fault in faults[before:before + 5]:
        print('# ' + fault)


kept = tempfile.TemporaryDirectory()
COMMANDS[-1].append(kept.name)
with open(os.path.join(kept.name, 'instruments.csv'), 'w', encoding='utf-8') as file:
    file.write('name,family,stop,neck,board_length,nut\n')
    file.writelines('v%d,violin,19%d,130,270,0.4\n' % (i, i) for i in range(5))
    file.write('w,viola,8.6,150,,\nx,,200,130,,\n')

long = os.path.join(kept.name, 'long')
os.mkdir(long)
with open(os.path.join(long, 'instruments.csv'), 'w', encoding='utf-8') as file:
    file.write('name,family,stop,neck\n')
    file.writelines('bird %d,violin,%d,130\n' % (i, 190 + i % 9) for i in range(400))

print('1..%d' % (len(COMMANDS) + len(ONCE)))
shared = 1
for command in COMMANDS:
    before = len(faults)
    with tempfile.TemporaryDirectory() as folder:
        counts = go_through(command, shared, folder)
    if shared == 1:
        shared = counts[0] * 3 // 4
    tell([word for word in command if word != kept.name], before, counts)
for command in ONCE:
    before = len(faults)
    with tempfile.TemporaryDirectory() as folder:
        counts = go_through([word.replace('LONG', long) for word in command], 1, folder, True)
    tell(['alone:'] + command, before, counts)
sys.exit(1 if faults else 0)
