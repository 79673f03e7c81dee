#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds `mensur find` against a ranking of its own: find.py MENSUR. Order and distance are computed here, from
what lengths and tension say, and for instruments whose measurements are all given from those alone; wishes
are met by the rows of lengths that a filter here lets through; the owner's cells come back as they were; and one
thread gives the bytes of eight."""
import csv
import io
import json
import math
import os
import random
import subprocess
import sys
import tempfile

MENSUR = sys.argv[1]
TAU = {'string_length_mm': 2.0, 'left_reach_mm': 5.0, 'bow_reach_mm': 5.0, 'body_at_semitones': 0.2}
ROWS = 400
LONG = 50000
number = 0


def report(good, what, more=''):
    global number
    number += 1
    print('%sok %d - %s%s' % ('' if good else 'not ', number, what, '' if good else ' # ' + more[:400]))


def run(*words, threads=None, code=0):
    env = {key: value for key, value in os.environ.items() if not key.startswith('MENSUR_')}
    if threads:
        env['MENSUR_THREADS'] = str(threads)
    done = subprocess.run([MENSUR] + list(words), capture_output=True, env=env, timeout=300)
    if code is not None and done.returncode != code:
        report(False, ' '.join(words), '%d %s' % (done.returncode, done.stderr.decode()))
    return done.stdout.decode()


def table(text):
    return list(csv.DictReader(io.StringIO(text, newline='')))


def value(text):
    return float(text) if text else math.nan


def geometry(row):
    """String length, left and bow reach, note at the body of a side view that is given in full, mm: the belly's
    upper edge is the origin, x toward the lower end. The board's top goes from the overstand and its own
    thickness to the projection at the bridge; the neck has that slope less the board's taper."""
    get = {key: float(row[key]) for key in ('stop', 'neck', 'overstand', 'board', 'board_nut', 'nut', 'arch',
                                            'projection', 'bridge', 'body_straight')}
    taper = math.atan((get['board'] - get['board_nut']) / get['neck'])
    rise = get['arch'] + get['projection'] - get['overstand']
    slope = math.atan2(rise, get['stop']) - math.asin(get['board'] * math.cos(taper) / math.hypot(rise, get['stop']))
    theta = slope - taper
    high = get['board_nut'] + get['nut']
    x = -get['neck'] * math.cos(theta) - high * math.sin(theta)
    y = get['overstand'] - get['neck'] * math.sin(theta) + high * math.cos(theta)
    length = math.hypot(get['stop'] - x, get['arch'] + get['bridge'] - y)
    return {'string_length_mm': length, 'left_reach_mm': get['body_straight'] - x,
            'bow_reach_mm': get['body_straight'] - get['stop'],
            'body_at_semitones': 12 * math.log2(length / (length - get['neck']))}


def distance(liked, other, tau):
    known = [key for key in tau if not math.isnan(liked[key])]
    both = [key for key in known if not math.isnan(other[key])]
    if not both:
        return math.nan, True
    total = sum(((other[key] - liked[key]) / tau[key]) ** 2 for key in both)
    return math.sqrt(len(known) / len(both) * total), 2 * len(both) < len(known)


def ranked(rows, name, tau):
    liked = next(row for row in rows if row['instrument'] == name)
    out = []
    for place, row in enumerate(rows):
        if row is not liked:
            far, little = distance(liked, row, tau)
            out.append((little, far if not math.isnan(far) else math.inf, place, row['instrument']))
    return sorted(out)


def compare(found, wanted, what, tolerance):
    """The same instruments, each as far as was computed; in that order, but where the tolerance cannot tell two."""
    far = {row[3]: row for row in wanted}
    mine = [far[row['instrument']] for row in found if row['instrument'] in far]
    report(len(mine) == len(found) == len(wanted) and all(
        (one[0], one[1] * (1 - tolerance) - tolerance) <= (other[0], other[1] * (1 + tolerance) + tolerance)
        for one, other in zip(mine, mine[1:])), what + ': order')
    worst = max(abs(value(row['distance']) - one[1]) / max(1.0, one[1]) for row, one in zip(found, mine))
    report(worst < tolerance, what + ': distance', str(worst))


def write(folder, rows):
    os.makedirs(folder, exist_ok=True)
    with open(os.path.join(folder, 'instruments.csv'), 'w', newline='') as file:
        writer = csv.DictWriter(file, rows[0].keys())
        writer.writeheader()
        writer.writerows(rows)
    return folder


def make(i, dice):
    return {'name': 'bird %d' % i if i % 7 else 'bird, "%d"\nof the row' % i, 'family': 'viola', 'strings': 'viola gut',
            'body': '412.5', 'body_straight': '%.2f' % dice.uniform(395, 412), 'stop': '%.2f' % dice.uniform(210, 224),
            'neck': '%.2f' % dice.uniform(140, 153), 'overstand': '8', 'board': '9.6', 'board_nut': '7.8',
            'nut': '0.5', 'arch': '13.5', 'projection': '32', 'bridge': '39',
            'price': ['%d' % dice.randrange(100, 30000), '', 'on request'][0 if i % 9 else i % 2 + 1],
            'owner': ['A, B', 'the "Old" one', 'two\nlines', '=1+1', 'größe'][i % 5]}


def own_figures(folder):
    rows = table(run('lengths', '--shop', folder, '--format', 'csv'))
    tension = {}
    for row in table(run('tension', '--every', '--shop', folder, '--format', 'csv')):
        tension[row['instrument']] = tension.get(row['instrument'], 0.0) + value(row['tension_N'])
    return [dict({key: value(row[key]) for key in TAU}, instrument=row['instrument'],
                 total_tension_N=tension.get(row['instrument'], math.nan)) for row in rows]


with tempfile.TemporaryDirectory() as place:
    dice = random.Random(14)
    given = [make(i, dice) for i in range(ROWS)]
    shop = write(os.path.join(place, 'shop'), given)
    liked = given[3]['name']
    figures = own_figures(shop)
    base = next(row for row in figures if row['instrument'] == liked)
    tau = dict(TAU, total_tension_N=0.03 * base['total_tension_N'])
    common = ['--shop', shop, '--format', 'csv']
    found = table(run('find', '--like', liked, *common))
    compare(found, ranked(figures, liked, tau), 'figures of lengths and tension', 2e-4)

    # from the measurements alone: with one set and one tuning tension goes as the length's square
    alone = [dict(geometry(row), instrument=row['name']) for row in given]
    for row in alone:
        row['total_tension_N'] = row['string_length_mm'] ** 2
    first = next(row for row in alone if row['instrument'] == liked)
    compare(found, ranked(alone, liked, dict(TAU, total_tension_N=0.03 * first['total_tension_N'])),
            'the equations alone', 2e-2)

    wide = dict(tau, string_length_mm=20.0, total_tension_N=0.5 * base['total_tension_N'])
    compare(table(run('find', '--like', liked, '--near', 'string_length=20', '--near', 'total_tension=50%', *common)),
            ranked(figures, liked, wide), 'steps of one\'s own', 2e-4)

    top = table(run('find', '--like', liked, '--top', '5', *common))
    report([row['instrument'] for row in top] == [row['instrument'] for row in found[:5]], '--top is the first rows')

    lengths = table(run('lengths', *common))
    wanted = [row for row in lengths if 360 <= value(row['string_length_mm']) <= 366 and value(row['left_reach_mm']) <= 550
              and row['price'].isdigit() and int(row['price']) <= 20000 and row['owner'] == 'A, B']
    met = table(run('find', 'string_length=360..366', '--left-reach', '..550', 'price=..20000', 'owner=a, b', *common))
    report(len(wanted) > 2 and [row['instrument'] for row in met] == [row['instrument'] for row in wanted],
           'wishes are a filter of lengths', '%d %d' % (len(met), len(wanted)))
    report(all(row['price'] == other['price'] and row['owner'] == other['owner'] for row, other in zip(met, wanted)),
           'the owner\'s cells are those of lengths')
    answers = json.loads(run('find', 'price=..20000', '--shop', shop, '--format', 'json'))['answers']
    by_name = {row['name']: row for row in given}
    report(len(answers) > 100 and all(answer['own'] == {key: by_name[answer['instrument']][key] for key in ('price', 'owner')}
                                      for answer in answers), 'the owner\'s cells in JSON are those of the file')
    text = run('find', 'price=..99999', '--shop', shop)
    without = sum(not row['price'].isdigit() for row in given)
    report('%d rows have no number in price' % without in text, 'cells that are no number are counted', text)
    prices = [row['price'] for row in table(run('find', '--sort', '-price', *common))]
    numbers = [int(text) for text in prices if text.isdigit()]
    report(numbers == sorted(numbers, reverse=True) and all(text.isdigit() for text in prices[:len(numbers)])
           and prices[-1] == '', '--sort -price: numbers, words, nothing')
    by_length = [value(row['string_length_mm']) for row in table(run('find', '--sort', 'string_length', *common))]
    report(by_length == sorted(by_length) and len(by_length) == ROWS, '--sort string_length')

    # some instruments of which little is known: they come last
    poor = given[:20] + [{key: row[key] if key in ('name', 'price') else '' for key in row} | {
        'family': 'viola', 'string_length': '%d' % (360 + i)} for i, row in enumerate(given[20:30])]
    for row in poor:
        row.setdefault('string_length', '')
    shop = write(os.path.join(place, 'poor'), poor)
    names = [row['instrument'] for row in table(run('find', '--like', liked, '--shop', shop, '--format', 'csv'))]
    report(names[-10:] == [row['name'] for row in sorted(
        poor[20:], key=lambda row: abs(float(row['string_length']) - base['string_length_mm']))],
           'what is little known comes last, by what is known')

    long = [make(i, dice) for i in range(LONG)]
    shop = write(os.path.join(place, 'long'), long)
    for words in (['--like', liked, '--format', 'csv'], ['price=..5000', '--format', 'json'],
                  ['--like', liked, '--top', '30', '--sort', 'price'], ['string_length=900..']):
        both = [run('find', *words, '--shop', shop, threads=count, code=None) for count in (1, 8)]
        report(both[0] == both[1] and len(both[0]) > 100, '1 and 8 threads: ' + ' '.join(words[-3:]))
    print('1..%d' % number)
