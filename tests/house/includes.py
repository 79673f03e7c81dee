#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds the #include lines of src/ and include/ against the table of who may see whom."""
import os
import re
import sys

SEES = {'base': '', 'model': 'base', 'read': 'base model', 'physics': 'base',
        'answers': 'base model physics', 'present': 'base answers', 'draw': 'base answers present',
        'ask': 'base model read answers present draw', 'paper': 'base present',
        'cli': 'base read ask paper', 'page': 'base read present ask'}
# The headers in src that other stages may include; each other one is for its own stage alone. The
# public headers, in include/mensur, include public ones alone.
SHARED = {'base': 'bytes nearest out_of_line quantity texts utf8',
          'model': 'bands field instrument note plausible setting stock stock_index string_spec usual',
          'read': 'batch measure shop_files', 'answers': 'ask cautions figures learning map ranking result_use scale sources state view working',
          'present': 'answer_kind document dossier json lettering letters markup present shown sink tell', 'draw': 'drawing pages sheet template tiles',
          'ask': 'found row_batch settings', 'paper': 'paper'}
root, faults, seen = sys.argv[1], [], 0


def headers_in(*place):
    folder = os.path.join(root, *place)
    return [name for name in os.listdir(folder) if name.endswith('.h')] if os.path.isdir(folder) else []


public, homes = set(), {}
for stage in SEES:
    own = headers_in('src', stage)
    homes.update((name + '.h', stage) for name in SHARED.get(stage, '').split())
    faults += ['src/%s has no %s.h to share' % (stage, name)
               for name in SHARED.get(stage, '').split() if name + '.h' not in own]
for stage in SEES:
    for name in headers_in('include/mensur', stage):
        public.add(name)
        if name in homes:
            faults.append('%s is public and stands in src/%s too' % (name, homes[name]))
        homes[name] = stage
for stage, may in SEES.items():
    for folder in ('src', 'include/mensur'):
        place = os.path.join(root, folder, stage)
        for name in sorted(os.listdir(place)) if os.path.isdir(place) else []:
            if not name.endswith(('.c', '.h')):
                continue
            for header in re.findall(r'^#include "([^"]+)"', open(os.path.join(place, name)).read(), re.M):
                seen += 1
                own = header in headers_in('src', stage)
                home = stage if own else homes.get(header)
                if (home not in may.split() + [stage] or folder != 'src' and header not in public):
                    faults.append('%s/%s/%s must not include %s' % (folder, stage, name, header))
print('\n'.join(faults) if faults else '%d includes, all allowed' % seen)
sys.exit(1 if faults or seen < 100 else 0)
