#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Files of a shop that are changed while they are read: changing.py MENSUR SHIM.
Before each reading of a piece of the file, one after the other, it is changed. The answer is that of
the file as it was, or as it became; or the exit code is 5, with the reason and no file."""
import os
import subprocess
import sys
import tempfile

mensur, shim = [os.path.abspath(path) for path in sys.argv[1:3]]
HEAD = 'name,family,stop,neck,strings,note\n'
ROWS = 900  # more than two pieces of 64 KiB


def rows(count, more=0):
    return ['bird %04d,violin,%d,130,own,%s\n' % (i, 190 + i % 9 + more, 'x' * 120) for i in range(count)]


def strings(density):
    return 'name,note,set,linear_density\n' + ''.join(
        '%s%d,%s,own,%s\n' % (note, 0, note, density) for note in ('E5', 'A4', 'D4', 'G3'))


INSTRUMENTS, STRINGS = 'instruments.csv', 'strings.csv'
OLD = {INSTRUMENTS: HEAD + ''.join(rows(ROWS)), STRINGS: strings('0.5')}
# What the file becomes, and how.
CHANGES = {
    'grows': (INSTRUMENTS, HEAD + ''.join(rows(ROWS + 40)), 'tail -n 40 NEW >> PATH'),
    'grows by half a row': (INSTRUMENTS, None, 'printf "half,vio" >> PATH'),
    'shrinks': (INSTRUMENTS, HEAD + ''.join(rows(ROWS // 3)), 'truncate -s "$(stat -c %s NEW)" PATH'),
    'is emptied': (INSTRUMENTS, None, ': > PATH'),
    'is written anew in place': (INSTRUMENTS, HEAD + ''.join(rows(ROWS, 1)), 'cat NEW > PATH'),
    'is replaced': (INSTRUMENTS, HEAD + ''.join(rows(ROWS - 300, 2)), 'cp NEW PATH.x && mv PATH.x PATH'),
    'is taken away': (INSTRUMENTS, None, 'rm PATH'),
    'has other strings': (STRINGS, strings('0.6'), 'cat NEW > PATH'),
    'has replaced strings': (STRINGS, strings('0.6'), 'cp NEW PATH.x && mv PATH.x PATH'),
}
COMMANDS = [
    ['lengths', '--format', 'csv'], ['tension', '--every', '--format', 'json', '--output', 'OUT'], ['check'],
    ['find', 'stop=192..', '--top', '20'], ['find', '--like', 'bird 0800', '--output', 'OUT'],
    ['compare', 'bird 0001', 'bird 0890', '--format', 'csv'], ['map', '--output', 'OUT.svg'], ['check', '--usual'],
]


def make(folder, files):
    for name, text in files.items():
        with open(os.path.join(folder, name), 'w', encoding='utf-8') as out:
            out.write(text)


def ask(command, at=0, change=None):
    """The answer; None for what is changed at that reading, if it was reached."""
    with tempfile.TemporaryDirectory() as place:
        shop, out, new, mark = [os.path.join(place, name) for name in ('shop', 'out', 'new', 'mark')]
        os.mkdir(shop)
        os.mkdir(out)
        make(shop, OLD)
        env = {key: value for key, value in os.environ.items() if key != 'MENSUR_SHOP'}
        name = INSTRUMENTS
        if change:
            name, text, how = CHANGES[change]
            make(place, {'new': text or ''})
            if at == 0:
                make(shop, {name: text})
            else:
                how = how.replace('NEW', new).replace('PATH', os.path.join(shop, name))
                env.update(LD_PRELOAD=shim, MENSUR_CHANGE_AT=str(at), MENSUR_CHANGE_OF='/' + name,
                           MENSUR_CHANGE='%s && : > %s' % (how, mark))
        done = subprocess.run([mensur] + [word.replace('OUT', os.path.join(out, 'out')) for word in command] +
                              ['--shop', 'shop'], env=env, capture_output=True, timeout=60, cwd=place)
        files = {name: open(os.path.join(out, name), 'rb').read() for name in os.listdir(out)}
        return (done.returncode, done.stdout, files, done.stderr), os.path.exists(mark)


number = bad = 0
for command in COMMANDS:
    before = ask(command)[0]
    if before[0] not in (0, 1):
        sys.exit('%s: %s' % (command, before))
    for change, (_, text, _) in CHANGES.items():
        after = ask(command, 0, change)[0] if text else before
        wrong, refused, answered, at = [], 0, 0, 1
        while at < 40:
            answer, reached = ask(command, at, change)
            if not reached:
                break
            if answer[:3] in (before[:3], after[:3]):
                answered += 1
            elif answer[0] == 5 and answer[1] == b'' and answer[2] == {} and b'was changed after' in answer[3]:
                refused += 1
            else:
                wrong.append('reading %d: exit code %d, %d bytes, %d files, %s' % (
                    at, answer[0], len(answer[1]), len(answer[2]), answer[3][-200:]))
            at += 1
        number += 1
        # strings are in one piece: they are read, and their end is seen
        wrong += [] if at > 2 else ['only %d readings were reached' % (at - 1)]
        bad += bool(wrong)
        print('%sok %d - %s, and the file %s: %d answers, %d refusals' % (
            'not ' if wrong else '', number, ' '.join(command), change, answered, refused))
        for line in wrong[:4]:
            print('# ' + line)
print('1..%d' % number)
sys.exit(1 if bad else 0)
