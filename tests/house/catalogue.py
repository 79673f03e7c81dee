#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds strings/ against the published check values: the wire strengths against the rows of ASTM
A228, densities and moduli against the handbooks' rows; and every row has its source."""
import csv
import os
import re
import sys

root = sys.argv[1]
KSI = 6.894757  # MPa, as the check values convert
faults, checked = [], 0


def rows(*path):
    with open(os.path.join(root, *path), encoding='utf-8', newline='') as file:
        return list(csv.DictReader(file))


def near(what, got, want, tolerance):
    global checked
    checked += 1
    if abs(got - want) > tolerance:
        faults.append('%s: %g, published %g (allowed %g)' % (what, got, want, tolerance))


published = rows('shared', 'published', 'check-values.csv')
wires = {round(float(row['diameter']), 4): row for row in rows('strings', 'wire_strength.csv')}
for row in published:
    found = re.match(r'd=[\d.]+ in = ([\d.]+) mm$', row['inputs'])
    limits = re.match(r'(\d+)-(\d+) \(= \d+-\d+\)$', row['expected'])
    if row['quantity'] == 'music wire tensile strength min-max' and found and limits:
        wire = wires.pop(round(float(found[1]), 4))
        near('wire %s mm, least' % found[1], float(wire['strength_low']), int(limits[1]) * KSI, 7)
        near('wire %s mm, most' % found[1], float(wire['strength_high']), int(limits[2]) * KSI, 7)
if wires:
    faults.append('wire rows without a published one: %s' % sorted(wires))

materials = {row['name']: row for row in rows('strings', 'materials.csv')}
# name: density in kg/m3 and modulus in GPa as published, with what the sources differ by
HANDBOOK = {'aluminium': (2700, 70), 'copper': (8920, 110), 'tungsten': (19300, None),
            'nickel': (8908, 210), 'silver': (10490, None), 'steel': (7850, 206)}
for name, (density, modulus) in HANDBOOK.items():
    near(name + ' density', float(materials[name]['density']), density, 0.01 * density)
    if modulus is not None:
        # published moduli of one metal differ by a tenth
        near(name + ' modulus', float(materials[name]['modulus']), modulus, 0.1 * modulus)

for file in sorted(os.listdir(os.path.join(root, 'strings'))):
    for number, row in enumerate(rows('strings', file), 2):
        checked += 1
        if not row['source'].strip():
            faults.append('strings/%s:%d has no source' % (file, number))
print('\n'.join(faults) if faults else '%d values held against the published ones' % checked)
sys.exit(1 if faults or checked < 100 else 0)
