#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs the cases of a file and holds output, errors and exit code against what stands there.

    run_cases.py MENSUR FILE...

A .txt file holds cases; a .md file is a document whose ```console blocks are cases.

    == what the case shows
    $ mensur lengths nobody
    2> mensur: there is no instrument "nobody"; there are: ...
    ? 2

`$ ` runs a command in a shell, in a fresh folder for each case (for all blocks of a document); a
line that ends with a backslash goes on.  Then stands what it prints: lines as they are on standard
output, after `2> ` on standard error, after `? ` the exit code (0 where not said).  A line [...]
stands for any lines; ... inside a line for any text; {w} names nothing.  Reports in the Test
Anything Protocol.  With MENSUR_WRAPPER set, that command runs before mensur (valgrind, say).
"""
import os
import re
import subprocess
import sys
import tempfile


def parse(lines):
    """[(title, [(command, stdout, stderr, code)])] of a file of cases."""
    cases = []
    for line in lines:
        if line.startswith('== '):
            cases.append((line[3:], []))
        elif line.startswith('# ') or not cases:
            continue
        else:
            add_line(cases[-1][1], line)
    return cases


def add_line(steps, line):
    if steps and steps[-1][0].endswith('\\'):
        steps[-1][0] = steps[-1][0][:-1] + line
    elif line.startswith('$ '):
        steps.append([line[2:], [], [], 0])
    elif not steps:
        if line.strip():
            raise SystemExit('no command before: ' + line)
    elif line.startswith('2> ') or line == '2>':
        steps[-1][2].append(line[3:])
    elif line.startswith('? '):
        steps[-1][3] = int(line[2:])
    else:
        steps[-1][1].append(line)


def parse_document(lines):
    """The console blocks of a document, as one case each; they share a folder."""
    cases, inside = [], False
    for number, line in enumerate(lines, 1):
        if line.strip().startswith('```'):
            if not inside and line.strip() == '```console':
                cases.append(('line %d' % number, []))
                inside = True
            else:
                inside = False
        elif inside:
            add_line(cases[-1][1], line)
    return cases


def trim(lines):
    while lines and not lines[-1].strip():
        lines = lines[:-1]
    return lines


def pattern(lines):
    out = []
    for line in trim(lines):
        if line == '[...]':
            out.append(r'(?:[^\n]*\n)*?')
        else:
            out.append(r'.*?'.join(re.escape(part) for part in line.split('...')) + r'\n')
    return ''.join(out)


def agrees(want, got):
    got = '\n'.join(trim(got.split('\n')))
    return re.fullmatch(pattern(want), got + '\n' if got else '', re.S if '[...]' in want else 0)


def run(step, folder, environment):
    command, out, err, code = step
    done = subprocess.run(['bash', '-c', command], cwd=folder, env=environment, timeout=300,
                          stdout=subprocess.PIPE, stderr=subprocess.PIPE, stdin=subprocess.DEVNULL)
    stdout = done.stdout.decode('utf-8', 'replace')
    stderr = done.stderr.decode('utf-8', 'replace')
    faults = []
    if done.returncode != code:
        faults.append('exit code %d, wanted %d' % (done.returncode, code))
    for name, want, got in (('output', out, stdout), ('errors', err, stderr)):
        if not agrees(want, got):
            faults.append('%s:\n%s\nwanted:\n%s' % (name, got, '\n'.join(want)))
    return ['$ ' + command] + faults if faults else []


def environment_for(program, scratch):
    bin_folder = os.path.join(scratch, 'bin')
    os.makedirs(bin_folder)
    with open(os.path.join(bin_folder, 'mensur'), 'w') as shim:
        shim.write('#!/bin/sh\nexec %s %s "$@"\n' % (os.environ.get('MENSUR_WRAPPER', ''), program))
    os.chmod(os.path.join(bin_folder, 'mensur'), 0o755)
    environment = dict(os.environ, LC_ALL='C.UTF-8', NO_COLOR='1',
                       PATH=bin_folder + os.pathsep + os.environ['PATH'])
    environment.pop('MENSUR_SHOP', None)
    return environment


def cases_of(path):
    with open(path, encoding='utf-8') as file:
        lines = file.read().split('\n')
    if path.endswith('.md'):
        return parse_document(lines), True
    return parse(lines), False


def main():
    program, paths = os.path.abspath(sys.argv[1]), sys.argv[2:]
    number, failed = 0, 0
    with tempfile.TemporaryDirectory() as scratch:
        environment = environment_for(program, scratch)
        for path in paths:
            cases, share = cases_of(path)
            folder = tempfile.mkdtemp(dir=scratch)
            for title, steps in cases:
                number += 1
                folder = folder if share else tempfile.mkdtemp(dir=scratch)
                faults = sum((run(step, folder, environment) for step in steps), [])
                name = '%s: %s' % (os.path.basename(path), title.replace('#', ''))
                print('%sok %d - %s' % ('not ' if faults else '', number, name))
                if faults:
                    failed += 1
                    print('\n'.join('# ' + line for fault in faults for line in fault.split('\n')))
    print('1..%d' % number)
    return 1 if failed else 0


sys.exit(main())
