#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds strings/ against published values: the wire strengths against the rows of ASTM A228,
densities and moduli against the handbooks' rows, the tensions of the full-size sets against the
published ranges (gut against ranges of our own); the sets are what build_sets.py builds; and every row
has its source."""
import csv
import math
import os
import re
import statistics
import subprocess
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

# The tension of a string from its row, by the textbook's law alone, on the length of its family.
LENGTH = {'violin': 0.328, 'viola': 0.375, 'cello': 0.690}  # m; common practice, no source
PITCH = {'E5': 660, 'A4': 440, 'D4': 880 / 3, 'G3': 1760 / 9, 'C3': 3520 / 27,
         'A3': 220, 'D3': 440 / 3, 'G2': 880 / 9, 'C2': 1760 / 27}  # Hz, pure fifths from 440
# N: proposals of our own, plain and wound gut at A4 = 440 Hz; no source
GUT = {('violin', 'E5'): (52, 68), ('violin', 'A4'): (46, 58), ('violin', 'D4'): (40, 52),
       ('violin', 'G3'): (36, 48), ('viola', 'A4'): (55, 68), ('viola', 'D4'): (44, 56),
       ('viola', 'G3'): (42, 54), ('viola', 'C3'): (42, 54), ('cello', 'A3'): (110, 140),
       ('cello', 'D3'): (100, 130), ('cello', 'G2'): (98, 125), ('cello', 'C2'): (100, 130)}


def tension(row, length, pitch):
    core = float(row['core_diameter'] or row['diameter']) / 1000
    section = float(materials[row['material']]['density']) * core ** 2
    inner = core
    for wrap in ('wrap1', 'wrap2', 'wrap3'):
        if row[wrap + '_thickness']:
            outer = inner + 2 * float(row[wrap + '_thickness']) / 1000
            full = math.pi / 4 if row[wrap + '_shape'] == 'round' else 1
            metal = float(materials[row[wrap + '_material']]['density'])
            section += full * metal * (outer ** 2 - inner ** 2)
            inner = outer
    slack = 4 * length ** 2 * pitch ** 2 * math.pi / 4 * section
    if row['density_state'] != 'slack':
        return slack
    # it thins as it stretches: T (1 + T/EA) = slack, by bisection
    stiff = float(materials[row['material']]['modulus']) * 1e9 * math.pi / 4 * core ** 2
    low, high = 0, slack
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if middle * (1 + middle / stiff) < slack else (low, middle)
    return low


ranges = {(row['family'], row['note']): row for row in rows('shared', 'published', 'tension-ranges.csv')}
behind = {}
for family, length in LENGTH.items():
    for row in rows('strings', family + '.csv'):
        material = row['set'][len(family) + 1:]
        if material not in ('steel', 'synthetic', 'gut', 'gut plain'):
            continue
        checked += 1
        got = tension(row, length, PITCH[row['note']])
        published_row = ranges[family, row['note'][0]]
        low, high = (GUT[family, row['note']] if material.startswith('gut') else
                     (float(published_row['tension_least']), float(published_row['tension_greatest'])))
        if not low <= got <= high:
            faults.append('%s: %.1f N, outside %g to %g' % (row['name'], got, low, high))
        if not material.startswith('gut'):
            behind.setdefault((family, row['note']), []).append(got)
for (family, note), got in behind.items():
    row = ranges[family, note[0]]
    low, high = float(row['tension_first_quartile']), float(row['tension_third_quartile'])
    if int(row['rows']) >= 6:
        checked += 1
        if len(got) < 2 or not low <= statistics.median(got) <= high:
            faults.append('%s %s: median of %s N outside the quartiles %g to %g' %
                          (family, note, ['%.1f' % each for each in got], low, high))
if len(behind) != 12:
    faults.append('%d notes of full-size sets, 12 wanted' % len(behind))

built = subprocess.run([sys.executable, os.path.join(root, 'strings', 'build_sets.py'),
                        os.path.join(root, 'strings'), '--check'], capture_output=True, text=True)
if built.returncode != 0:
    faults.append((built.stdout + built.stderr).strip())

for file in sorted(name for name in os.listdir(os.path.join(root, 'strings'))
                   if name.endswith('.csv')):
    for number, row in enumerate(rows('strings', file), 2):
        checked += 1
        if not row['source'].strip():
            faults.append('strings/%s:%d has no source' % (file, number))
print('\n'.join(faults) if faults else '%d values held against the published ones' % checked)
sys.exit(1 if faults or checked < 100 else 0)
