#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""How sure the answers are, against the uncertainties package (python3-uncertainties), which carries
exact derivatives through its own arithmetic: reference_spread.py MENSUR; exit 77 where it is missing.
The side view is worked out here in another way: the board's top as the tangent from a point to a
circle. The package's arithmetic is its own; the propagation law is JCGM 100:2008's first order. Every
second instrument leaves measurements out: they are the family's, scaled to its stop, with their spread."""
import csv
import json
import os
import random
import subprocess
import sys
import tempfile

try:
    from uncertainties import ufloat, umath
except ImportError:
    print('python3-uncertainties is missing: skipped')
    sys.exit(77)

COUNT = 60
FIELDS = ['body_straight', 'stop', 'neck', 'overstand', 'board', 'board_nut', 'nut', 'arch', 'projection', 'bridge',
          'saddle']
USUAL = {  # a viola, mm: the middle, how far either side of it, the greatest ± (all invented)
    'body_straight': (405, 12, 1.5), 'stop': (217, 8, 1), 'neck': (147, 6, 1), 'overstand': (7, 1, 0.4),
    'board': (9.2, 1, 0.3), 'board_nut': (6.4, 0.8, 0.3), 'nut': (0.5, 0.2, 0.1), 'arch': (13.4, 2, 0.6),
    'projection': (28, 2, 0.5), 'bridge': (34.5, 1.5, 0.4), 'saddle': (4.4, 1, 0.3)}


# Of what an instrument leaves out: the power of stop / reference stop. A bridge stands over the projection.
POWERS = {'overstand': 0.5, 'board': 0.6, 'board_nut': 0.6, 'nut': 0.3, 'arch': 0.45, 'projection': 1, 'bridge': 1,
          'saddle': 1}
LEFT_OUT = [['overstand'], ['board', 'board_nut'], ['nut'], ['arch'], ['bridge'], ['projection', 'bridge'], ['saddle']]


def draw(rng, whole):
    """Measurements as they are written, a third of them without ±, and some left out unless it is whole."""
    cells = {}
    for field in FIELDS:
        middle, off, most = USUAL[field]
        value = round(middle + rng.uniform(-off, off), 2)
        spread = round(rng.uniform(0.05, most), 2) if rng.random() < 0.67 else 0
        cells[field] = (value, spread)
    if not whole:
        cells['stop'] = (max(cells['stop'][0], 212), 0.5)
        for fields in rng.sample(LEFT_OUT, 3):
            for field in fields:
                cells[field] = None
    return cells


def values_of(cells, viola):
    """What the figures follow from, and what each is uncertain by, by field."""
    own = {field: ufloat(*cell) for field, cell in cells.items() if cell}
    size = own['stop'] / viola['stop']
    values, uncertain = dict(own), dict(own)
    for field in FIELDS:
        if field not in own:
            off = uncertain[field] = ufloat(0, viola[field + '_spread'] * size.n ** 0.5)
            usual = viola['bridge'] - viola['projection'] if field == 'bridge' else viola[field]
            values[field] = usual * size ** POWERS[field] + off
    if 'bridge' not in own:
        values['bridge'] = values['projection'] + values['bridge']
    return values, uncertain


def figures(v):
    """The wished figures, in mm and degrees, of values that carry how sure they are."""
    rise = v['arch'] + v['projection'] - v['overstand']
    fall = umath.atan2(v['board'] - v['board_nut'], v['neck'])
    q = v['board'] * umath.cos(fall)
    top = umath.atan2(rise, v['stop']) - umath.asin(q / umath.sqrt(rise * rise + v['stop'] * v['stop']))
    neck = top - fall
    high = v['board_nut'] + v['nut']
    nut_x = -v['neck'] * umath.cos(neck) - high * umath.sin(neck)
    nut_y = v['overstand'] - v['neck'] * umath.sin(neck) + high * umath.cos(neck)
    run, climb = v['stop'] - nut_x, v['arch'] + v['bridge'] - nut_y
    length = umath.sqrt(run * run + climb * climb)
    front = umath.atan2(climb, run)
    back = umath.atan2(v['arch'] + v['bridge'] - v['saddle'], v['body_straight'] - v['stop'])
    return {
        'string_length_mm': length,
        'stop_per_2_neck': 2 * v['stop'] / v['neck'],
        'body_at_semitones': 12 * umath.log(length / (length - v['neck'])) / umath.log(2),
        'neck_slope_deg': umath.degrees(neck),
        'break_angle_deg': 180 - umath.degrees(front + back),
        'down_factor': umath.sin(front) + umath.sin(back),
        'left_reach_mm': v['body_straight'] - nut_x,
        'bow_reach_mm': v['body_straight'] - v['stop'],
    }


def write_shop(folder, instruments):
    with open(folder + '/instruments.csv', 'w') as out:
        out.write('name,family,' + ','.join(FIELDS) + '\n')
        for i, cells in enumerate(instruments):
            texts = ['' if not cell else '%g ± %g' % cell if cell[1] else '%g' % cell[0] for cell in cells.values()]
            out.write('bird %d,viola,%s\n' % (i, ','.join(texts)))


def faults_of(name, cells, answer, viola):
    wanted = figures(values_of(cells, viola)[0])
    for key, figure in wanted.items():
        # The derivatives here are GSL's, by differences: nine digits are good, twelve seldom.
        for what, got, want, tolerance in (('', answer[key], figure.n, 1e-12),
                                           (' ±', answer['plus_minus'][key], figure.s, 1e-8)):
            if abs(got - want) > tolerance * max(abs(want), 1e-9):
                yield '%s: %s%s is %.15g, not %.15g' % (name, key, what, got, want)


def shares_fault(name, cells, answer, viola):
    """Of the length, the parts that the three weightiest measurements have in its variance."""
    values, uncertain = values_of(cells, viola)
    length = figures(values)['string_length_mm']
    parts = {field: length.error_components().get(value, 0) ** 2 / length.s ** 2 for field, value in uncertain.items()}
    weightiest = sorted(parts, key=parts.get, reverse=True)[:3]
    mattering = [entry for entry in answer['matters_most'] if entry['of'] == 'string_length_mm']
    if any(entry['assumed'] == bool(cells[entry['field']]) for entry in mattering):
        return '%s: what is assumed of %s' % (name, mattering)
    told = [(entry['field'], entry['share']) for entry in mattering]
    if [field for field, _ in told] != weightiest[:len(told)]:
        return '%s: %s matter most, not %s' % (name, told, weightiest)
    if any(abs(share - parts[field]) > 1e-7 for field, share in told):
        return '%s: the shares are %s, not %s' % (name, told, parts)
    return None


def main(mensur):
    rng = random.Random(1971)
    instruments = [draw(rng, i % 2 == 0) for i in range(COUNT)]
    shared = os.path.join(os.path.dirname(os.path.abspath(__file__)), '../../shared/families.csv')
    with open(shared, newline='') as families:
        row = next(row for row in csv.DictReader(families) if row['name'] == 'viola')
    viola = {key: float(cell) for key, cell in row.items() if key.split('_spread')[0] in FIELDS and cell}
    with tempfile.TemporaryDirectory() as folder:
        write_shop(folder, instruments)
        out = subprocess.run([mensur, 'lengths', '--shop', folder, '--format', 'json'], capture_output=True,
                             check=True).stdout
    answers = json.loads(out)['answers']
    faults = [] if len(answers) == COUNT else ['%d answers, not %d' % (len(answers), COUNT)]
    for cells, answer in zip(instruments, answers):
        faults += faults_of(answer['instrument'], cells, answer, viola)
        fault = shares_fault(answer['instrument'], cells, answer, viola)
        faults += [fault] if fault else []
    for fault in faults[:20]:
        print(fault)
    print('%d instruments, %d figures each with its ±, and what matters most: %d faults' % (
        len(answers), len(figures(values_of(instruments[0], viola)[0])), len(faults)))
    return 1 if faults else 0


sys.exit(main(sys.argv[1]))
