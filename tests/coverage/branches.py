#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Compares the branches that no test takes with the exceptions: branches.py BUILD EXCEPTIONS.
A branch is a condition and its outcome; a switch has one condition for each case and one for no
matching case. An exception is a line of five parts between ' :: ': file, function, condition (the
n-th of the same text in a function ends with ' #n'), outcome, reason. It fails where a branch is
neither taken nor an exception, and where an exception is taken or no longer exists."""
import collections
import json
import os
import re
import subprocess
import sys

STAGES = ['base', 'read', 'physics', 'answers']
build, exceptions_path = sys.argv[1:3]
root = os.getcwd()


def stage_of(path):
    """Branches of a file named from the root; embed.c runs during the build and is left out."""
    found = re.match(r'(?:src|include/mensur)/(\w+)/', path)
    return found[1] if found and found[1] in STAGES else None


def objects():
    with open(os.path.join(build, 'compile_commands.json'), encoding='utf-8') as file:
        outputs = [entry['output'] for entry in json.load(file)]
    return [os.path.join(build, output) for output in outputs
            if re.match(r'src/\w+/libmensur-(%s)\.a\.p/' % '|'.join(STAGES), output)]


def exported():
    paths = objects()
    command = ['llvm-cov', 'export', '-instr-profile', os.path.join(build, 'tests.profdata'), paths[0]]
    for path in paths[1:]:
        command += ['-object', path]
    return json.loads(subprocess.run(command, capture_output=True, check=True).stdout)['data'][0]


lines_of = {}


def text_between(path, line, column, end_line, end_column):
    """Text of a condition on one line; columns count bytes."""
    if path not in lines_of:
        with open(path, 'rb') as file:
            lines_of[path] = file.read().split(b'\n')
    part = lines_of[path][line - 1:end_line]
    part[-1] = part[-1][:end_column - 1]
    part[0] = part[0][column - 1:]
    return ' '.join(b' '.join(part).decode('utf-8').split())


def gather():
    """How often each outcome was taken: {(file, function): {place: [true, false]}}. A function in a
    header counts once for all files that include it; a macro's conditions count once for each use."""
    found = collections.defaultdict(lambda: collections.defaultdict(lambda: [0, 0]))
    for function in exported()['functions']:
        names = [os.path.relpath(os.path.join(root, name), root) for name in function['filenames']]
        for *place, true, false, own, _, _ in function.get('branches', []):
            if stage_of(names[own]):
                counts = found[names[own], function['name'].split(':')[-1]][(*place, own)]
                counts[0] += true
                counts[1] += false
    return found


def outcomes():
    """Each branch's name and how often it was taken."""
    for (path, function), places in sorted(gather().items()):
        seen = collections.Counter()
        for place in sorted(places):
            text = text_between(path, *place[:4])
            if text in ('true', 'false', '0', '1'):
                continue  # not a condition
            seen[text] += 1
            name = text if seen[text] == 1 else '%s #%d' % (text, seen[text])
            for outcome, count in zip(('true', 'false'), places[place]):
                yield (path, function, name, outcome), count, place[0]


def excepted():
    reasons = {}
    with open(exceptions_path, encoding='utf-8') as file:
        for number, line in enumerate(file, 1):
            parts = line.rstrip('\n').split(' :: ')
            if line.strip() == '' or line.startswith('#'):
                continue
            if len(parts) != 5 or tuple(parts[:4]) in reasons or parts[4].strip() == '':
                sys.exit('%s:%d: not "file :: function :: condition :: outcome :: reason", or a second '
                         'time' % (exceptions_path, number))
            reasons[tuple(parts[:4])] = parts[4]
    return reasons


reasons = excepted()
totals = {stage: collections.Counter() for stage in STAGES}
stands, faults = set(), []
for branch, count, line in outcomes():
    kind = 'taken' if count > 0 else 'excepted' if branch in reasons else 'missing'
    totals[stage_of(branch[0])][kind] += 1
    if kind == 'missing':
        faults.append('%s  (missing, line %d)' % (' :: '.join(branch), line))
    if kind == 'excepted':
        stands.add(branch)
faults += ['%s  (an exception that is taken or gone)' % ' :: '.join(branch)
           for branch in reasons if branch not in stands]
print(''.join(fault + '\n' for fault in faults), end='')
print('%-8s %9s %9s %9s %9s' % ('stage', 'branches', 'taken', 'excepted', 'missing'))
for stage, total in totals.items():
    print('%-8s %9d %9d %9d %9d' % (stage, sum(total.values()), total['taken'], total['excepted'],
                                    total['missing']))
held = sum(total['taken'] + total['excepted'] for total in totals.values())
if held == 0:
    faults.append('no branches were found')
print('%d passed, %d failed' % (held, len(faults)))
sys.exit(1 if faults else 0)
