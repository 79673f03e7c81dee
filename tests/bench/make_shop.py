#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Writes a shop of so many invented instruments into a folder: make_shop.py FOLDER ROWS
or a shop whose strings.csv holds so many strings for each note: make_shop.py FOLDER --strings COUNT
or one of an instrument of so many notes (16 at most) with so many strings for each, their tensions
evenly graded over a range of logs: make_shop.py FOLDER --graded NOTES COUNT RANGE"""
import math
import os
import random
import sys


def tenths(value):
    return '%d.%d' % divmod(value, 10) if value % 10 else '%d' % (value // 10)


def instruments(path, count):
    random.seed(count)
    kinds = [('violin', 'violin synthetic', 3550, 1950, 1300), ('viola', 'viola synthetic', 4050, 2180, 1480),
             ('viola', 'viola gut', 4000, 2150, 1450), ('cello', 'cello steel', 7550, 4000, 2800)]
    with open(path, 'w') as out:
        out.write('name,family,strings,body,stop,neck,overstand,projection,note\n')
        for i in range(count):
            family, strings, body, stop, neck = kinds[i % 4]
            out.write('bird %d,%s,%s,%s,%s,%s,,,%s\n' % (
                i, family, strings, tenths(body + random.randint(-60, 60)),
                tenths(stop + random.randint(-40, 40)), tenths(neck + random.randint(-30, 30)),
                'invented' if i % 3 else ''))


def strings(path, count):
    random.seed(count)
    with open(path, 'w') as out:
        out.write('name,note,set,material,construction,linear_density,core_diameter,modulus,strength,'
                  'made_for_low,made_for_high,source\n')
        for note, density in (('C3', 6.0), ('G3', 2.9), ('D4', 1.35), ('A4', 0.62), ('E5', 0.38)):
            for i in range(count):
                low = random.randint(340, 375)
                out.write('%s %d,%s,set %d,steel,wound,%.5f,0.25,190,2200,%d,%d,invented\n' % (
                    note, i, note, i, density * random.uniform(0.8, 1.25), low, low + 20))
    with open(os.path.join(os.path.dirname(path), 'instruments.csv'), 'w') as out:
        out.write('name,family,tuning,strings,body,stop,neck\nfinch,viola,five-string,set 1,400,215,145\n')


def graded(path, count, strings_each, log_range):
    notes = ['%s%d' % (letter, octave) for octave in (2, 3, 4, 5) for letter in 'CDGA'][:count]
    above_c = {'C': 0, 'D': 2, 'G': 7, 'A': 9}
    with open(os.path.join(path, 'strings.csv'), 'w') as out:
        out.write('name,note,set,material,construction,linear_density,made_for_low,made_for_high,source\n')
        for note in notes:
            frequency = 440 * 2 ** ((above_c[note[0]] - 9) / 12 + int(note[1]) - 4)
            for i in range(strings_each):
                tension = 48 * math.exp(log_range * (i / strings_each - 0.5))
                out.write('%s %d,%s,set %d,steel,wound,%.8f,353.9,373.9,invented\n' % (
                    note, i, note, i, 1e3 * tension / (2 * 0.3639 * frequency) ** 2))
    with open(os.path.join(path, 'tunings.csv'), 'w') as out:
        out.write('name,notes\ngraded,%s\n' % ' '.join(notes))
    with open(os.path.join(path, 'instruments.csv'), 'w') as out:
        out.write('name,family,tuning,strings,body,stop,neck\nfinch,viola,graded,set %d,400,215,145\n' % (strings_each // 2))


folder = sys.argv[1]
os.makedirs(folder, exist_ok=True)
if sys.argv[2] == '--strings':
    strings(os.path.join(folder, 'strings.csv'), int(sys.argv[3]))
elif sys.argv[2] == '--graded':
    graded(folder, int(sys.argv[3]), int(sys.argv[4]), float(sys.argv[5]))
else:
    instruments(os.path.join(folder, 'instruments.csv'), int(sys.argv[2]))
