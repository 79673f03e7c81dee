#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""How long a question takes beside a program that does nothing, in one run, each in turn:
start.py MENSUR [OTHER...] [--runs N]. Milliseconds: median and quartiles."""
import os
import statistics
import sys
import time


def milliseconds(words):
    begun = time.perf_counter()
    child = os.posix_spawn(words[0], words, os.environ, file_actions=[
        (os.POSIX_SPAWN_OPEN, 1, '/dev/null', os.O_WRONLY, 0)])
    status = os.waitpid(child, 0)[1]
    if status != 0:
        raise SystemExit('%s: status %d' % (' '.join(words), status))
    return (time.perf_counter() - begun) * 1000


arguments = sys.argv[1:]
runs = 200
if '--runs' in arguments:
    at = arguments.index('--runs')
    runs = int(arguments[at + 1])
    del arguments[at:at + 2]
programs = {'true': ['/bin/true']}
for path in arguments:
    programs[path] = [os.path.abspath(path), 'compare', 'kestrel', 'heron']
times = {name: [] for name in programs}
for turn in range(runs + 5):
    for name, words in programs.items():
        took = milliseconds(words)
        if turn >= 5:  # the first fill the caches of files
            times[name].append(took)
base = statistics.median(times['true'])
for name, all_of in times.items():
    low, middle, high = statistics.quantiles(all_of, n=4)
    print('%-40s %6.2f  (%.2f to %.2f)  %+6.2f beside true' % (name, middle, low, high, middle - base))
