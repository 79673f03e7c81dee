#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Plausible shops and questions put to the whole program; what must hold between two answers.

    questions.py MENSUR [--seconds S | --questions N] [--seed N] [--self-test]

Each relation asks twice: as the shop stands, and with something changed that changes nothing (units,
the order of rows, the separator, the locale, the format), or changes it in a known way (a longer
neck). Every answer has an exit code from 0 to 4, a reason where it is more than 1, and no byte on
standard output then. --self-test puts a wrong figure into each second answer and asks that every
relation finds it.
"""
import csv
import io
import json
import math
import os
import random
import re
import subprocess
import sys
import tempfile
import time

# Stop and neck of the full size (common practice, no source), and sets that fit.
FAMILIES = {'violin': (195, 130, ['violin gut', 'violin steel', 'violin synthetic light']),
            'viola': (222, 150, ['viola gut', 'viola synthetic']),
            'cello': (400, 280, ['cello gut', 'cello steel'])}
SMALL = 'bfglmnprstvwz'


class Wrong(Exception):
    pass


class Asker:
    """Asks one program; plants a wrong figure into second answers where it is told to."""

    def __init__(self, mensur, folder):
        self.mensur, self.folder, self.count, self.planted, self.shops = mensur, folder, 0, False, 0

    def write(self, rows, head=None, separator=',', order=None):
        """A shop of these rows; each is a dict of column to text."""
        columns = list(rows[0])
        self.shops += 1
        shop = os.path.join(self.folder, 'shop%d' % (self.shops % 50))
        os.makedirs(shop, exist_ok=True)
        with open(os.path.join(shop, 'instruments.csv'), 'w', encoding='utf-8', newline='') as out:
            writer = csv.writer(out, delimiter=separator)
            writer.writerow([(head or {}).get(column, column) for column in columns])
            for i in order or range(len(rows)):
                writer.writerow([rows[i][column] for column in columns])
        return shop

    def ask(self, words, shop, twin=False, locale='C.UTF-8', may=(0, 1, 4)):
        self.count += 1
        done = subprocess.run([self.mensur] + words + ['--shop', shop], capture_output=True, timeout=60,
                              env={'LC_ALL': locale, 'PATH': os.environ['PATH'],
                                   **{k: v for k, v in os.environ.items() if k.endswith('SAN_OPTIONS')}})
        out, said = done.stdout.decode('utf-8'), done.stderr.decode('utf-8')
        if done.returncode not in may:
            raise Wrong('%s: exit code %d: %s' % (words, done.returncode, said[-300:]))
        if done.returncode > 1 and (said.strip() == '' or out != ''):
            raise Wrong('%s: exit code %d, and %s' % (words, done.returncode,
                                                      'no reason' if out == '' else 'an answer'))
        return done.returncode, self.plant(out) if twin and self.planted else out

    @staticmethod
    def plant(text):
        """Every number with decimals, a tenth more."""
        def more(match):
            number = match.group(0)
            return '%.*f' % (len(number.split('.')[1]), float(number) * 1.1)
        return re.sub(r'(?<![\d.\w"])\d+\.\d+(?![\d.])', more, text)

    def answers(self, words, shop, **more):
        """The answers in JSON; [] where there is none, which every relation then passes over."""
        code, out = self.ask(words + ['--format', 'json'], shop, **more)
        return json.loads(out)['answers'] if code < 2 else []


def make_rows(draw):
    rows = []
    for i in range(draw.randint(3, 8)):
        family = draw.choice(list(FAMILIES))
        stop, neck, sets = FAMILIES[family]
        scale = draw.uniform(0.96, 1.04)
        stop, neck = round(stop * scale * draw.uniform(0.99, 1.01), 1), round(neck * scale, 1)
        row = {'name': '%s%s %d' % (draw.choice(SMALL), draw.choice(['io', 'äu', 'ыр', 'o"', 'e,', 'a;']), i),
               'family': family, 'strings': draw.choice(sets), 'stop': str(stop), 'neck': str(neck),
               'overstand': '', 'projection': '', 'bridge': '', 'note': draw.choice(['', 'long, red', 'x'])}
        if draw.random() < 0.5:
            row['overstand'] = str(round({'violin': 6.5, 'viola': 8, 'cello': 20}[family] *
                                         draw.uniform(0.95, 1.05), 1))
        rows.append(row)
    return rows


LENGTHS = ('stop', 'neck', 'overstand', 'projection', 'bridge')


def differs(one, other, relative, place=''):
    """The first place where two answers differ by more; '' where none does."""
    if isinstance(one, dict) and isinstance(other, dict):
        for key in list(one) + [key for key in other if key not in one]:
            if key not in one or key not in other:
                return '%s.%s is in one alone' % (place, key)
            found = differs(one[key], other[key], relative, place + '.' + key)
            if found:
                return found
        return ''
    if isinstance(one, list) and isinstance(other, list):
        if len(one) != len(other):
            return '%s: %d against %d' % (place, len(one), len(other))
        return next(filter(None, (differs(a, b, relative, '%s[%d]' % (place, i))
                                  for i, (a, b) in enumerate(zip(one, other)))), '')
    numbers = all(isinstance(value, (int, float)) and not isinstance(value, bool) for value in (one, other))
    if numbers:
        same = math.isclose(one, other, rel_tol=relative, abs_tol=relative * 1e-3)
        return '' if same else '%s: %r against %r' % (place, one, other)
    return '' if one == other else '%s: %r against %r' % (place, one, other)


def same(one, other, relative, what):
    found = differs(one, other, relative)
    if found:
        raise Wrong('%s: %s' % (what, found))


def figures(answers):
    """Without the words, in which a number is rounded."""
    return [{key: value for key, value in answer.items() if key not in ('warnings', 'remarks')}
            for answer in answers]


COMMANDS = (['lengths'], ['tension', '--every'], ['fingers', '--every'])


def units(asker, draw, rows):
    factor, name = draw.choice([(0.1, 'cm'), (0.001, 'm'), (1 / 25.4, 'in')])
    other = [{key: '%.17g' % (float(value) * factor) if key in LENGTHS and value else value
              for key, value in row.items()} for row in rows]
    head = {column: '%s (%s)' % (column, name) for column in LENGTHS}
    for words in COMMANDS:
        same(figures(asker.answers(words, asker.write(rows))),
             figures(asker.answers(words, asker.write(other, head=head), twin=True)), 1e-7, name)


def order_of_rows(asker, draw, rows):
    order = draw.sample(range(len(rows)), len(rows))
    words = ['lengths']
    one = asker.answers(words, asker.write(rows))
    other = asker.answers(words, asker.write(rows, order=order), twin=True)
    if one:
        same([one[i] for i in order], other, 0, 'order')


def separators(asker, draw, rows):
    other = [{key: value.replace('.', ',') if key in LENGTHS else value for key, value in row.items()}
             for row in rows]
    same(asker.answers(['tension', '--every'], asker.write(rows)),
         asker.answers(['tension', '--every'], asker.write(other, separator=';'), twin=True), 0, 'separator')


def locales(asker, draw, rows):
    words = draw.choice(COMMANDS) + ['--format', draw.choice(['text', 'csv', 'json'])]
    shop = asker.write(rows)
    one, other = asker.ask(words, shop), asker.ask(words, shop, twin=True, locale='de_DE.UTF-8')
    if one != other:
        raise Wrong('%s: another locale, another answer' % words)


def agree(row, answer):
    """A row of CSV has JSON's figures, rounded as they are written."""
    for key, text in row.items():
        value = answer.get(key)
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            digits = text.lstrip('-0.').replace('.', '')
            step = max(10.0 ** -len(text.split('.')[1]) if '.' in text and 'e' not in text else 0,
                       abs(value) * 1e-5 if len(digits) <= 6 or 'e' in text else 0)
            if text == '' or abs(float(text) - value) > 0.5001 * max(step, 1e-12):
                raise Wrong('CSV has %s of %s: %s' % (text, key, value))


def formats(asker, draw, rows):
    """CSV has JSON's figures, rounded; text the string length of each instrument."""
    shop = asker.write(rows)
    answers = asker.answers(['lengths'], shop)
    if not answers:
        return
    table = list(csv.DictReader(io.StringIO(asker.ask(['lengths', '--format', 'csv'], shop, twin=True)[1])))
    same(len(answers), len(table), 0, 'rows of CSV')
    for answer, row in zip(answers, table):
        agree(row, answer)
    text = asker.ask(['lengths'] + [answer['instrument'] for answer in answers], shop, twin=True)[1]
    for answer in answers:
        length = answer['string_length_mm']
        near = {'%.1f' % (length + off) for off in (-0.0001, 0.0001)}
        if not any(number in text for number in near):
            raise Wrong('the text lacks the string length %s of %s' % (length, answer['instrument']))


def formats_of_lists(asker, draw, rows):
    """The same where an answer holds a list: a row of CSV for each string, for each place of a finger;
    the text has the tension of all strings in kg."""
    shop = asker.write(rows)
    command, part = draw.choice([('tension', 'strings'), ('fingers', 'places')])
    answers = asker.answers([command, '--every'], shop)
    table = csv.DictReader(io.StringIO(asker.ask([command, '--every', '--format', 'csv'], shop, twin=True)[1]))
    table, items = list(table), [(answer, item) for answer in answers for item in answer[part]]
    if answers:
        same(len(items), len(table), 0, 'rows of CSV')
    for (answer, item), row in zip(items, table):
        agree(row, {**item, 'string_length_mm': answer['string_length_mm']})
        same(answer['instrument'].lstrip("'"), row['instrument'].lstrip("'"), 0, 'names')
    for answer in answers[:1] if command == 'tension' else []:
        text = asker.ask(['tension', answer['instrument']], shop, twin=True)[1]
        total = answer['total_tension_N']
        near = {'%.1f kg' % (total / 9.80665 + off) for off in (-0.0001, 0.0001)} if total else {''}
        if not any(number in text for number in near):
            raise Wrong('the text lacks the tension %s of %s' % (total, answer['instrument']))


def another_pitch(asker, draw, rows):
    """Tension goes as the square of the pitch and by the law of the taut string; the margin to breaking
    as its logarithm; lengths do not know it. Strings that stretch get thinner, which is in the 2 %."""
    shop, name, a4 = asker.write(rows), draw.choice(rows)['name'], '%.1f' % draw.uniform(392, 466)
    one = asker.answers(['tension', name], shop)
    other = asker.answers(['tension', name, '--a4', a4], shop, twin=True)
    if not one or not other:
        return
    ratio = float(a4) / 440
    same(one[0]['string_length_mm'], other[0]['string_length_mm'], 0, 'length at another pitch')
    for string, moved in zip(one[0]['strings'], other[0]['strings']):
        same(string['frequency_Hz'] * ratio, moved['frequency_Hz'], 1e-9, 'frequency')
        if string['tension_N'] is None or moved['tension_N'] is None:
            continue
        same(string['tension_N'] * ratio ** 2, moved['tension_N'], 2e-2, 'tension at another pitch')
        speed = 2 * other[0]['string_length_mm'] * 1e-3 * moved['frequency_Hz']
        same(speed ** 2 * moved['linear_density_g_per_m'] * 1e-3, moved['tension_N'], 1e-9, 'the law')
        if string['breaking_margin_semitones'] is not None:
            less = string['breaking_margin_semitones'] - moved['breaking_margin_semitones']
            if abs(less - 12 * math.log2(ratio)) > 0.17:  # half of 2 %, in semitones
                raise Wrong('%s semitones less to breaking at %s' % (less, a4))


def longer_neck(asker, draw, rows):
    """A longer neck: a longer string, more tension, fingers further apart."""
    shop, name = asker.write(rows), draw.choice(rows)['name']
    more = 'neck=+%.1f' % draw.uniform(0.5, 5)
    one, other = asker.answers(['tension', name], shop), asker.answers(['tension', name, more], shop, twin=True)
    if not one or not other:
        return
    before, after = one[0], other[0]
    # a tenth more is more than any such neck gives
    grown = after['string_length_mm'] / before['string_length_mm']
    if not 1 < grown < 1.06:
        raise Wrong('%s makes the string %.6f times as long' % (more, grown))
    for string, changed in zip(before['strings'], after['strings']):
        if string['tension_N'] is not None:  # gut that stretches is a little thinner
            same(string['tension_N'] * grown * grown, changed['tension_N'], 2e-3, 'tension of a longer string')


def round_trip(asker, draw, rows):
    """A change to what is there already, and a change by so much against another file."""
    shop, at = asker.write(rows), draw.randrange(len(rows))
    name, neck = rows[at]['name'], float(rows[at]['neck'])
    one = asker.answers(['lengths', name], shop)
    same([answer['string_length_mm'] for answer in one],
         [answer['string_length_mm']
          for answer in asker.answers(['lengths', name, 'neck=%s' % rows[at]['neck']], shop, twin=True)],
         1e-12, 'no change')
    there = asker.answers(['change', name, 'neck=+2'], shop)
    back = asker.answers(['change', name, 'neck=%.17g' % (neck + 2)], shop, twin=True)
    same(figures(there), figures(back), 1e-9, 'a change by and to')


def there_and_back(asker, draw, rows):
    """A shop that was changed as `change` says has that instrument, and changed back the first one. What is
    not measured is scaled to the instrument as it is, and what stays differs: a part in a thousand."""
    at, by = draw.randrange(len(rows)), round(draw.uniform(-4, 4), 1)
    name, where = rows[at]['name'], draw.choice(['neck', 'stop'])
    moved = [dict(row) for row in rows]
    moved[at][where] = '%.1f' % (float(rows[at][where]) + by)
    there = asker.answers(['change', name, '%s=%+.1f' % (where, by)], asker.write(rows))
    back = asker.answers(['change', name, '%s=%+.1f' % (where, -by)], asker.write(moved), twin=True)
    if not there or not back:
        return
    for key, near in (('stop_mm', 1e-9), ('neck_mm', 1e-9), ('string_length_mm', 1e-3)):
        same(there[0]['instruments'][0][key], back[0]['instruments'][1][key], near, 'there and back: ' + key)
        same(there[0]['instruments'][1][key], back[0]['instruments'][0][key], near, 'there: ' + key)


def found(asker, draw, rows):
    """find is lengths, filtered; the bounds lie between two instruments."""
    shop = asker.write(rows)
    answers = asker.answers(['lengths'], shop, twin=True)
    if len(answers) < 2:
        return
    lengths = sorted(answer['string_length_mm'] for answer in answers)
    at = draw.randrange(1, len(lengths))
    if lengths[at] - lengths[at - 1] < 0.001:
        return
    most = '%.6f' % ((lengths[at] + lengths[at - 1]) / 2)
    if asker.planted:
        most = '%.6f' % (float(most) / 1.1)
    got = asker.answers(['find', 'string_length=..' + most], shop)
    most = float(most) * (1.1 if asker.planted else 1)
    same(sorted((answer['instrument'], answer['string_length_mm']) for answer in answers
                if answer['string_length_mm'] <= most),
         sorted((answer['instrument'], answer['string_length_mm']) for answer in got), 1e-12, 'find')


def found_in_rows(asker, draw, rows):
    """find filtered by what stands in the rows has those rows, with lengths' figures."""
    shop, family = asker.write(rows), draw.choice(rows)['family']
    necks = sorted(float(row['neck']) for row in rows)
    most = draw.choice(necks) + 0.05
    if asker.planted:
        most = 1.1 * most
    got = asker.answers(['find', 'family=' + family, 'neck=..%.2f' % most], shop)
    most = most / 1.1 if asker.planted else most
    answers = asker.answers(['lengths'], shop)
    want = {row['name'] for row in rows if row['family'] == family and float(row['neck']) <= most}
    if answers:
        same(sorted((answer['instrument'], answer['string_length_mm']) for answer in answers
                    if answer['instrument'] in want),
             sorted((answer['instrument'], answer['string_length_mm']) for answer in got), 1e-12, 'find in rows')


def recommended(asker, draw, rows):
    """A recommended neck gives the string length that was wished for."""
    shop, row = asker.write(rows), draw.choice(rows)
    now = asker.answers(['lengths', row['name']], shop)
    if not now:
        return
    low = now[0]['string_length_mm'] * draw.uniform(0.99, 1.02)
    made = asker.answers(['neck', row['name'], '--string-length', '%.3f..%.3f' % (low, low + 3)], shop)
    if not made or not made[0]['can_meet_all'] or made[0]['recommended_neck_mm'] is None:
        return
    then = asker.answers(['lengths', row['name'], 'neck=%.12g' % made[0]['recommended_neck_mm']], shop,
                         twin=True)
    if then and not low - 0.001 <= then[0]['string_length_mm'] <= low + 3.001:
        raise Wrong('the recommended neck gives %s, and wished was from %s' %
                    (then[0]['string_length_mm'], low))


def all_and_named(asker, draw, rows):
    """Of every instrument, and of each alone; the working changes no figure."""
    shop = asker.write(rows)
    words = draw.choice(COMMANDS)
    one = asker.answers(words, shop)
    for answer in one:
        alone = asker.answers(words[:1] + [answer['instrument']], shop, twin=True)
        same(figures([answer]), figures(alone), 0, 'of all and alone')
    if one:
        worked = asker.answers(words[:1] + [one[0]['instrument'], '--working', '--inches'], shop, twin=True)
        for answer in worked:
            answer.pop('working', None)
        same(figures(one[:1]), figures(worked), 0, 'with the working')


def any_question(asker, draw, rows):
    """Whatever is asked: an exit code, a reason, an answer that can be read."""
    shop, names = asker.write(rows), [row['name'] for row in rows]
    one, two = draw.sample(names, 2)
    words = draw.choice([
        ['check'], ['compare', one, two], ['compare'] + names, ['change', one, 'stop=-2', 'neck=+1'],
        ['neck', one, '--like', two], ['stop', one, '--like', two], ['restring', one, '--like', two],
        ['restring', one], ['reach', one, '--player', 'small'], ['map'], ['map', one, '--like', two],
        ['scale', one, 'body=395'], ['find', '--like', one], ['find', 'family=viola', '--top', '2'],
        ['lengths', one + 'x'], ['neck', one, '--ratio', '2:2.9..2:3.1'], ['tension', one, 'a4=415']])
    style = draw.choice([[], ['--format', 'csv'], ['--format', 'json'], ['--full'], ['--working']])
    code, out = asker.ask(words + (style if words[0] not in ('check', 'map') or style[:1] == ['--format'] else []),
                          shop, may=(0, 1, 2, 4))
    if code < 2 and style == ['--format', 'json']:
        json.loads(out)
    if code < 2 and out == '':
        raise Wrong('%s: no answer' % words)


RELATIONS = [units, order_of_rows, separators, locales, formats, formats_of_lists, longer_neck, another_pitch,
             round_trip, there_and_back, found, found_in_rows, recommended, all_and_named]


def hold(asker, relation, seed):
    """'' or what is wrong."""
    draw = random.Random('%s %d' % (relation.__name__, seed))
    try:
        relation(asker, draw, make_rows(draw))
        return ''
    except Wrong as wrong:
        return str(wrong)


def option(name, usual):
    return type(usual)(sys.argv[sys.argv.index(name) + 1]) if name in sys.argv else usual


def self_test(asker):
    """Each relation finds a planted difference within a few shops, and none without."""
    missed = []
    for relation in RELATIONS:
        asker.planted = True
        if not any(hold(asker, relation, seed) for seed in range(5)):
            missed.append(relation.__name__)
        asker.planted = False
    print('%d relations, each asked to find a planted figure; missed: %s' % (len(RELATIONS), missed or 'none'))
    return 1 if missed else 0


def main():
    seed, wrong, tally = option('--seed', 1), 0, {}
    most = option('--questions', 0)
    with tempfile.TemporaryDirectory() as folder:
        asker = Asker(os.path.abspath(sys.argv[1]), folder)
        if '--self-test' in sys.argv:
            return self_test(asker)
        end = math.inf if most else time.time() + option('--seconds', 60.0)
        while time.time() < end and (most == 0 or asker.count < most) and wrong < 20:
            for relation in RELATIONS + [any_question]:
                before = asker.count
                found_wrong = hold(asker, relation, seed)
                shops, questions, faults = tally.get(relation.__name__, (0, 0, 0))
                tally[relation.__name__] = shops + 1, questions + asker.count - before, faults + bool(found_wrong)
                if found_wrong:
                    wrong += 1
                    print('seed %d, %s: %s' % (seed, relation.__name__, ascii(found_wrong)), flush=True)
            seed += 1
        for name, counts in tally.items():
            print('%-16s %6d shops %7d questions %3d wrong' % (name, *counts))
        print('%d questions, %d wrong' % (asker.count, wrong))
    return 1 if wrong else 0


if __name__ == '__main__':
    sys.exit(main())
