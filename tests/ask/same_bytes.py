#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The question layer, asked as the page asks it, gives the program's bytes, messages and exit code
for the same words: same_bytes.py MENSUR ASK_WORDS."""
import os
import subprocess
import sys
import tempfile

NAMES = ['heron', 'kestrel', 'wren', 'swift', 'bittern', 'warbler', 'nightjar', 'dipper']
MEDIA = [[], ['--format', 'csv'], ['--format', 'json'], ['--working'], ['--format', 'json', '--working'],
         ['--inches', '--force-unit', 'lbf', '--a4', '415', '--fifths', 'equal', '--steps', 'just']]
ASKED = [
    ['compare', 'kestrel', 'heron', 'wren'],
    ['compare', 'kestrel', 'neck=150', 'heron', 'stop=-3', 'strings=viola steel'],
    ['change', 'kestrel', 'neck=+6', 'stop=-3'],
    ['neck', 'kestrel', '--like', 'heron'],
    ['neck', 'kestrel', 'stop=218', '--like', 'heron', '--like-with', 'neck=152'],
    ['neck', 'kestrel', '--ratio', '2:2.9..2:3.1', '--string-length', '373..376'],
    ['stop', 'wren', '--string-length', '368..376', '--left-reach', '..560'],
    ['restring', 'kestrel', 'neck=150', '--like', 'heron', '--belly-force', '..95', '--margin', '2',
     '--packet', 'A4=55@370'],
    ['reach', 'kestrel', 'neck=150', 'wren', '--player', 'small'],
    ['fingers', 'kestrel', 'neck=150', 'heron'],
]
WRITTEN = [
    ['lengths', 'kestrel', 'neck=150', '--output', 'x.svg'],
    ['lengths', 'kestrel', 'heron', '--output', 'x.svg'],
    ['tension', 'kestrel', '--output', 'x.svg'],
    ['fingers', 'kestrel', '--output', 'x.svg'],
    ['compare', 'kestrel', 'heron', '--output', 'x.svg'],
    ['change', 'kestrel', 'neck=150', '--output', 'x.svg'],
    ['neck', 'kestrel', '--like', 'heron', '--output', 'x.svg'],
    ['sheet', 'kestrel', 'heron', '--output', 'x.svg'],
    ['dossier', 'kestrel', '--like', 'heron', '--output', 'x.html'],
    ['dossier', 'kestrel', 'neck=150', 'heron', '--output', 'x.html'],
]
REFUSED = [
    ['check', 'x'], ['neck', 'kestrel'], ['lengths', 'kestrell', 'nobody'], ['compare', 'heron'],
    ['reach', 'kestrel'], ['reach', 'kestrel', '--player', 'smal'], ['change', 'kestrel', 'bridge=30'],
    ['tension', 'kestrel', 'bridge=30'], ['restring'], ['restring', 'kestrel', '--from', 'nylon'],
    ['neck', 'kestrel', '--like', 'nobody'], ['change', 'kestrel', 'strings=nylon'],
    ['change', 'dipper', 'neck=+3'], ['lengths', '--output', 'x.svg'], ['sheet', '--output', 'x.pdf'],
]
program, layer = map(os.path.abspath, sys.argv[1:3])
number = bad = 0


def run(command, words, folder):
    env = {key: value for key, value in os.environ.items() if key != 'MENSUR_SHOP'}
    done = subprocess.run([command] + words, capture_output=True, cwd=folder, env=env, timeout=120)
    return [done.returncode, done.stdout, done.stderr]


def same(words):
    global number, bad
    with tempfile.TemporaryDirectory() as folder:
        told, asked = run(program, words, folder), run(layer, words, folder)
        for name in os.listdir(folder):
            with open(os.path.join(folder, name), 'rb') as file:
                told[1] += file.read()
    number += 1
    bad += told != asked
    print('%sok %d - %s' % ('' if told == asked else 'not ', number, ' '.join(words)))
    if told != asked:
        print('# exit codes %d and %d, %d and %d bytes, %r and %r' % (
            told[0], asked[0], len(told[1]), len(asked[1]), told[2][-200:], asked[2][-200:]))


for name in NAMES:
    for command in ('lengths', 'tension', 'fingers'):
        for medium in MEDIA:
            same([command, name] + medium)
for words in ASKED:
    for medium in MEDIA:
        same(words + medium)
for words in WRITTEN + REFUSED + [['--help'], ['--version'], ['restring', '--help'], ['check']]:
    same(words)
print('1..%d' % number)
sys.exit(1 if bad else 0)
