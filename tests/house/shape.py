#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Prints how many lines, files and functions each folder of src and include holds; fails on what is
plainly out of hand: a function of more than 80 lines, a file of more than 800."""
import os
import sys

sys.dont_write_bytecode = True
from source import sources, tags_of

FUNCTION_MOST, FILE_MOST = 80, 800

root = sys.argv[1]
lengths = {}
for path in sources(root):
    with open(os.path.join(root, path), encoding='utf-8') as file:
        lengths[path] = sum(1 for _ in file)
functions = [tag for tag in tags_of(root, lengths) if tag.kind == 'function']
faults = ['%s: %d lines, at most %d' % (path, length, FILE_MOST)
          for path, length in lengths.items() if length > FILE_MOST]
faults += ['%s:%d: %s has %d lines, at most %d' % (f.path, f.line, f.name, f.length, FUNCTION_MOST)
           for f in functions if f.length > FUNCTION_MOST]

print('%-24s %6s %6s %10s %13s %17s' % (
    'folder', 'lines', 'files', 'functions', 'longest file', 'longest function'))
for folder in sorted({os.path.dirname(path) for path in lengths}) + ['']:
    files = [length for path, length in lengths.items() if folder in ('', os.path.dirname(path))]
    here = [f.length for f in functions if folder in ('', os.path.dirname(f.path))]
    print('%-24s %6d %6d %10d %13d %17d' % (folder or 'all', sum(files), len(files), len(here),
                                            max(files), max(here, default=0)))
for fault in faults:
    print(fault)
sys.exit(1 if faults or len(functions) < 500 else 0)
