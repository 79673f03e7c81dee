#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""No stage but base reads or prints numbers with decimals by itself: printf and strtod trust the
locale."""
import os
import re
import sys

BANNED = re.compile(r'\b(strtod|strtof|strtold|atof|sscanf|fscanf)\s*\(|%[-+ #0]*(\*|\d+)?(\.(\*|\d+))?[lL]?[fFeEgGaA]\b')
root, faults, seen = sys.argv[1], [], 0
for folder, _, files in os.walk(os.path.join(root, 'src')):
    for name in sorted(files):
        path = os.path.join(folder, name)
        if name.endswith('.c') and os.path.relpath(path, root) != 'src/base/number.c':
            seen += 1
            for number, line in enumerate(open(path), 1):
                if BANNED.search(line):
                    faults.append('%s:%d: %s' % (os.path.relpath(path, root), number, line.strip()))
print('\n'.join(faults) if faults else '%d files leave numbers to base' % seen)
sys.exit(1 if faults or seen < 40 else 0)
