#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The question layer, asked as the page asks it, gives the program's bytes, messages and exit code
for the same words, each question of questions.json: same_bytes.py MENSUR ASK_WORDS QUESTIONS."""
import json
import os
import subprocess
import sys
import tempfile

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


with open(sys.argv[3], encoding='utf-8') as file:
    questions = json.load(file)
for words in questions:
    same(words)
print('1..%d' % number)
sys.exit(1 if bad else 0)
