#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds `mensur check --usual` against medians and spreads of its own: learn.py MENSUR FAMILIES. The shops are
made here from a fixed seed; each measurement is scaled to the median stop by the powers of docs/formats.md, which
stand here once more; FAMILIES, the project's families.csv, says what fewer than five instruments leave open. The
written file is then read by the program, which must take from it the very values that were computed here."""
import csv
import io
import json
import math
import os
import random
import statistics
import subprocess
import sys
import tempfile

MENSUR, FAMILIES = sys.argv[1], sys.argv[2]
POWER = {'back_arch': 0.45, 'overstand': 0.5, 'board': 0.6, 'board_nut': 0.6, 'nut': 0.3, 'arch': 0.45, 'edge': 0.8,
         'projection': 1, 'saddle': 1, 'behind_nut': 1, 'hollow': 1, 'clearance_low': 0.7, 'clearance_high': 0.7,
         'heel': 0.5, 'spacing_bridge': 0.75, 'spacing_nut': 0.75, 'spacing_tail': 0.75, 'foot_spacing': 0.9}
number = failed = 0


def report(good, what, more=''):
    global number, failed
    number += 1
    failed += not good
    print('%sok %d - %s%s' % ('' if good else 'not ', number, what, '' if good else ' # ' + more[:600]))


def run(*words, code=0, out=None):
    env = {key: value for key, value in os.environ.items() if not key.startswith('MENSUR_')}
    done = subprocess.run([MENSUR] + list(words), stdout=out or subprocess.PIPE, stderr=subprocess.PIPE, env=env,
                          timeout=300)
    if done.returncode != code:
        report(False, ' '.join(words), '%d %s' % (done.returncode, done.stderr.decode()))
    return (done.stdout or b'').decode(), done.stderr.decode()


def rows_of(text):
    return {row['name']: row for row in csv.DictReader(io.StringIO(text, newline=''))}


def shop_of(folder, rows):
    columns = list(dict.fromkeys(key for row in rows for key in row))
    os.makedirs(folder, exist_ok=True)
    with open(os.path.join(folder, 'instruments.csv'), 'w', newline='', encoding='utf-8') as file:
        writer = csv.DictWriter(file, columns)
        writer.writeheader()
        writer.writerows(rows)
    return folder


def spread(values):
    middle = statistics.median(values)
    robust = 1.4826 * statistics.median([abs(value - middle) for value in values])
    return robust if len(values) >= 10 and robust > 0 else statistics.stdev(values)


def neck_at(semitones, heel, neck, stop, reference):
    """The neck at the reference stop: neck = heel + p (neck + rest), and the rest goes with the stop."""
    p = 1 - 2 ** (-semitones / 12)
    size = reference / stop
    rest = (neck - heel(stop)) / p - neck
    return (heel(reference) + p * rest * size) / (1 - p)


def wanted(family, instruments, lengths, like=None):
    """The row that a family's instruments teach; `lengths` holds the length of each string that is not stated."""
    own = {key: float(family[key]) for key in family
           if family[key] and key not in ('name', 'held', 'positions', 'like', 'small_family', 'source')}
    rows = [{key: float(row[key]) for key in row if row[key] != '' and key not in ('name', 'family', 'price')}
            | {'string': float(row.get('string_length') or lengths.get(row['name']) or 'nan')} for row in instruments]
    stop = statistics.median([row['stop'] for row in rows])
    size = stop / own['stop']
    out = {'stop': stop}

    def learn(key, values, power, before, spread_before):
        if len(values) >= 5:
            out[key], out[key + '_spread'] = statistics.median(values), spread(values)
        else:
            out[key] = None if before is None else before * size ** power
            out[key + '_spread'] = None if spread_before is None else spread_before * size ** 0.5

    for key, power in POWER.items():
        values = [row[key] * (stop / row['stop']) ** power for row in rows if key in row]
        learn(key, values, power, own.get(key), own.get(key + '_spread'))
    if 'neck_semitones' in own:
        necks = [neck_at(own['neck_semitones'], lambda at: out['heel'] * (at / stop) ** 0.5, row['neck'], row['stop'],
                         stop) for row in rows if 'neck' in row]
    else:
        necks = [row['neck'] / row['stop'] * stop for row in rows if 'neck' in row]
    learn('neck', necks, 1, own.get('neck'), own.get('neck_spread'))
    over = [(row['bridge'] - row['projection']) * stop / row['stop'] for row in rows
            if 'bridge' in row and 'projection' in row]
    bridges = [row['bridge'] * stop / row['stop'] for row in rows if 'bridge' in row]
    learn('bridge', over, 1, own['bridge'] - own['projection'], own.get('bridge_spread'))
    if sum('projection' in row for row in rows) < 5 <= len(bridges):
        out['projection'] = statistics.median(bridges) - out['bridge']
    out['bridge'] += out['projection']
    for key, share in (('board_length', 'board_share'), ('afterlength', 'afterlength_share')):
        parts = [row[key] / row['string'] for row in rows if key in row and not math.isnan(row['string'])]
        out[share] = statistics.median(parts) if len(parts) >= 5 else own.get(share)
        out[key + '_spread'] = spread(parts) / out[share] if len(parts) >= 5 else own.get(key + '_spread')
    return out


def differing(row, want):
    """The cells that are not what is wanted, to 1e-9 of a mm or of themselves."""
    apart = []
    for key, value in want.items():
        cell = row.get(key, '')
        if value is None or cell == '':
            if (value is None) != (cell == ''):
                apart.append('%s: %r, not %r' % (key, cell, value))
        elif abs(float(cell) - value) > 1e-9 * max(1.0, abs(value)):
            apart.append('%s: %s, not %.12g' % (key, cell, value))
    return apart


def make(name, family, stop, neck, sizes, often):
    """An instrument near the usual one of its size, with some measurements left out."""
    row = {'name': name, 'family': family, 'price': '1,%d' % random.randint(100, 999), 'stop': '%.1f' % stop,
           'neck': '%.1f' % (neck * stop * random.gauss(1, 0.006))}
    for key, (middle, share) in sizes.items():
        row[key] = '%.2f' % (middle * random.gauss(1, share)) if random.random() < often else ''
    if row.get('projection') and row.get('bridge'):
        row['bridge'] = '%.2f' % (float(row['projection']) + (sizes['bridge'][0] - sizes['projection'][0])
                                  * random.gauss(1, 0.05))
    return row


VIOLIN = {'back_arch': (10.3, 0.04), 'overstand': (6.2, 0.05), 'board': (8.5, 0.03), 'board_nut': (6.8, 0.03),
          'nut': (0.42, 0.05), 'arch': (11.8, 0.03), 'edge': (3.9, 0.02), 'projection': (27.2, 0.008),
          'bridge': (33.1, 0.01), 'saddle': (4.4, 0.08), 'clearance_low': (5.3, 0.03), 'clearance_high': (3.3, 0.03),
          'spacing_bridge': (33.9, 0.01), 'spacing_nut': (16.4, 0.01), 'board_length': (270.5, 0.004),
          'afterlength': (55.6, 0.01), 'string_length': (328.3, 0.003), 'foot_spacing': (31.2, 0.02)}
VIOLA = {'back_arch': (12.9, 0.04), 'overstand': (7.9, 0.02), 'board': (9.7, 0.03), 'nut': (0.52, 0.05),
         'arch': (13.2, 0.03), 'projection': (31.8, 0.008), 'bridge': (38.1, 0.01), 'saddle': (5.3, 0.08),
         'board_length': (301.0, 0.004)}
random.seed(20)
with open(FAMILIES, newline='', encoding='utf-8') as file:
    known = {row['name']: row for row in csv.DictReader(file)}
forty = [make('violin %d' % i, 'violin', random.gauss(194.6, 0.8), 0.669, VIOLIN, 0.8) for i in range(22)] + \
        [make('viola, %d "b"' % i, 'viola', random.gauss(221, 2.5), 0.671, VIOLA, 0.7) for i in range(18)]
for i, row in enumerate([row for row in forty if row['family'] == 'viola'][:4]):
    row['heel'] = '%d' % (23 + i)  # fewer than five say it
random.shuffle(forty)


def lengths_of(folder):
    return {answer['instrument']: answer['string_length_mm']
            for answer in json.loads(run('lengths', '--shop', folder, '--format', 'json')[0])['answers']}


with tempfile.TemporaryDirectory() as scratch:
    mine = shop_of(os.path.join(scratch, 'mine'), forty)
    written = os.path.join(mine, 'families.csv')
    before = open(os.path.join(mine, 'instruments.csv'), 'rb').read()
    text, said = run('check', '--usual', '--shop', mine)
    rows, strings = rows_of(text), lengths_of(mine)
    report(said == '' and list(rows) == list(known), 'every family has its row, in its order', said + str(list(rows)))
    targets = {}
    for family in ('violin', 'viola'):
        of = [row for row in forty if row['family'] == family]
        targets[family] = wanted(known[family], of, strings)
        apart = differing(rows[family], targets[family])
        report(not apart, '%s: medians and spreads of %d instruments' % (family, len(of)), '; '.join(apart))
        report(rows[family]['source'] == "the shop's own: %d instruments; the rest: %s" % (len(of), known[family]['source']),
               family + ': the source says it', rows[family]['source'])
    for family in known:
        if family not in targets:
            apart = ['%s %s' % (key, rows[family].get(key, '')) for key in known[family]
                     if rows[family].get(key, '') != known[family][key] and
                     not (known[family][key] and float(rows[family][key]) == float(known[family][key]))]
            report(not apart, family + ': its row stays as it was', '; '.join(apart))
    objects = json.loads(run('check', '--usual', '--shop', mine, '--format', 'json')[0])['answers']
    apart = [answer['family'] for answer in objects
             if {key: '' if cell is None else str(cell) for key, cell in answer['row'].items() if not isinstance(cell, float)}
             != {key: rows[answer['family']][key] for key, cell in answer['row'].items() if not isinstance(cell, float)}
             or any(abs(cell - float(rows[answer['family']][key])) > 1e-12 * abs(cell)
                    for key, cell in answer['row'].items() if isinstance(cell, float))]
    counts = {answer['family']: (answer['instruments'], answer['learnt']) for answer in objects}
    report(not apart and counts['violin'] == (22, True) and counts['cello'] == (0, False),
           'the same as objects', '%s %s' % (apart, counts))

    run('check', '--usual', '--shop', mine, '--output', written)
    same = open(written, encoding='utf-8', newline='').read() == text
    with open(written, 'wb') as out:  # as a shell's `>` does it: emptied before the program starts
        run('check', '--usual', '--shop', mine, out=out)
    report(same and open(written, encoding='utf-8', newline='').read() == text,
           '--output and the shell write the same bytes into the shop')
    checked = json.loads(run('check', '--shop', mine, '--format', 'json')[0])['answers']
    report(not any(a['warnings'] for a in checked),
           'the shop is clean with it', str([a['warnings'] for a in checked]))
    report(open(os.path.join(mine, 'instruments.csv'), 'rb').read() == before, 'its instruments are untouched')
    again = rows_of(run('check', '--usual', '--shop', mine)[0])
    # Where a string was not measured, its length follows from heights that are assumed, which are others now.
    free = ('board_share', 'board_length_spread')
    apart = [cell for family in targets for cell in differing(again[family], {
        key: value for key, value in targets[family].items() if key not in free})]
    apart += [key for key in free if abs(float(again['viola'][key]) / targets['viola'][key] - 1) > 0.01]
    report(not apart and again['violin']['source'] == rows['violin']['source'],
           'learnt once more the same', '; '.join(apart) + again['violin']['source'])

    for family, stop in (('violin', 193.0), ('viola', 226.5)):
        target, size = targets[family], stop / targets[family]['stop']
        bare = shop_of(os.path.join(scratch, 'bare ' + family), [{'name': 'plan', 'family': family, 'stop': stop}])
        with open(os.path.join(bare, 'families.csv'), 'w', newline='', encoding='utf-8') as file:
            file.write(text)
        answer = json.loads(run('lengths', 'plan', '--shop', bare, '--format', 'json')[0])['answers'][0]
        apart, seen = [], 0
        for part in answer['assumed']:
            power = {'neck': 1, 'bridge': 1, **POWER}.get(part['field'])
            if power is not None:
                seen += 1
                value = target[part['field']] * size ** power
                apart += ['%s %.12g not %.12g' % (part['field'], part['value'], value)] * \
                    (abs(part['value'] - value) > 1e-9 * value)
        share = answer['string_length_mm'] * (target['afterlength_share'] or 1 / 6)
        apart += ['afterlength %r' % answer['afterlength_mm']] * (abs(answer['afterlength_mm'] - share) > 1e-9 * share)
        report(not apart and seen >= 8, family + ': a bare stop takes the written values, scaled',
               '%d; %s' % (seen, '; '.join(apart)))

    # Basses, whose neck has a rule of its own; bridges without a projection; a family that is like another.
    basses = [{'name': 'bass %d' % i, 'family': 'bass', 'stop': '%.1f' % (590 + 5 * i), 'neck': '%.1f' % (440 + 2 * i),
               'heel': '%d' % (48 + i % 3), 'bridge': '%.1f' % (156 + i)} for i in range(7)]
    fives = [{'name': 'five %d' % i, 'family': 'five-string viola', 'stop': str(212 + i), 'neck': str(142 + i)}
             for i in range(6)]
    fewer = shop_of(os.path.join(scratch, 'fewer'), basses + fives)
    rows = rows_of(run('check', '--usual', '--shop', fewer)[0])
    apart = differing(rows['bass'], wanted(known['bass'], basses, {}))
    report(not apart, 'bass: the neck by its own rule, the projection behind the bridge', '; '.join(apart))
    five = rows['five-string viola']
    blank = [key for key in POWER if known['five-string viola'].get(key, '') == '' and five.get(key, '') != '']
    report(not blank and float(five['stop']) == 214.5 and abs(
        float(five['neck']) - 214.5 * statistics.median([(142 + i) / (212 + i) for i in range(6)])) < 1e-9 and
           five['like'] == 'viola', 'five-string viola: what is the viola\'s stays the viola\'s', str(five))

    # Violas so small that the violin's values would rule at their stop.
    small = shop_of(os.path.join(scratch, 'small'),
                    [{'name': 's%d' % i, 'family': 'viola', 'stop': str(198 + i), 'neck': '132', 'nut': '0.45'}
                     for i in range(5)])
    text, said = run('check', '--usual', '--shop', small)
    viola = rows_of(text)['viola']
    report(viola['small_family'] == viola['small_to'] == viola['own_from'] == '' and 'own_from' in said and
           float(viola['stop']) == 200, 'small violas rule themselves', said + str(viola))
    one = known['viola']
    report(abs(float(viola['projection']) - 27.0 * 200 / 195) < 1e-9 and one['projection'] == '32',
           'with what the family said at that stop', viola['projection'])
print('1..%d' % number)
sys.exit(1 if failed else 0)
