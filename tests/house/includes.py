#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds the #include lines of src/ and include/ against the table of who may see whom."""
import os
import re
import sys

SEES = {'base': '', 'model': 'base', 'read': 'base model', 'physics': 'base',
        'answers': 'base model physics', 'present': 'base answers', 'draw': 'base answers present',
        'ask': 'base model read answers present draw', 'paper': 'base present',
        'cli': 'base read ask paper', 'page': 'base ask'}
root, faults, seen = sys.argv[1], [], 0
# What other stages see of base without its being public stands beside base's code.
homes = {name: 'base' for name in os.listdir(os.path.join(root, 'src/base')) if name.endswith('.h')}
for stage in os.listdir(os.path.join(root, 'include/mensur')):
    for header in os.listdir(os.path.join(root, 'include/mensur', stage)):
        homes[header] = stage
for stage, may in SEES.items():
    for folder in ('src', 'include/mensur'):
        place = os.path.join(root, folder, stage)
        for name in sorted(os.listdir(place)) if os.path.isdir(place) else []:
            if not name.endswith(('.c', '.h')):
                continue
            for header in re.findall(r'^#include "([^"]+)"', open(os.path.join(place, name)).read(), re.M):
                seen += 1
                home = homes.get(header, stage)
                if home not in may.split() + [stage] or '/' in header:
                    faults.append('%s/%s/%s must not include %s' % (folder, stage, name, header))
print('\n'.join(faults) if faults else '%d includes, all allowed' % seen)
sys.exit(1 if faults or seen < 100 else 0)
