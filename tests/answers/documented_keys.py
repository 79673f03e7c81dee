#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds the tables of docs/json.md against the table of figures, both ways.

    documented_keys.py PRINT_FIGURES DOCUMENT

Every published figure must stand in the tables of its record, as the type it is, and no key may
stand there that is neither a figure nor one of the named others (lists, objects, texts).
"""
import re
import subprocess
import sys

# Section, number of the table in it: keys that are no figures of a record, and the records.
TABLES = {
    ('lengths', 1): (['instrument'], ['instrument']),
    ('tension', 1): (['instrument', 'string_length_mm', 'strings'], ['total']),
    ('tension', 2): ([], ['string']),
    ('fingers', 1): (['instrument', 'string_length_mm', 'places', 'positions', 'true_places',
                      'remarks'], ['hand', 'frets']),
    ('fingers', 2): ([], ['true_place']),
    ('neck, stop', 4): (['neck_mm', 'tension_N', 'present', 'recommended'],
                        ['step', 'step_total']),
    ('neck, stop', 5): ([], ['instead']),
    ('restring', 1): (['instrument', 'string_length_mm', 'can_meet_all', 'leave', 'whole_sets',
                       'present', 'chosen', 'misses', 'runners_up', 'needed', 'to_order', 'reason',
                       'excluded'], ['choice', 'choice_total']),
    ('restring', 2): (['present', 'misses'], ['whole_set']),
    ('restring', 3): ([], ['needed']),
    ('restring', 4): ([], ['order']),
    ('reach', 1): (['instrument', 'player', 'frame_mm', 'span_mm'], ['reach']),
    ('reach', 2): (['string_length_mm'], ['pupil_size']),
}
# Keys that are told in one cell or one paragraph: section, its start, words besides, records.
INLINE = [
    ('fingers', '| places |', ['places'], ['place']),
    ('fingers', '| positions |', ['positions'], ['position']),
    ('fingers', 'CSV:', ['instrument', 'string_length_mm'], ['hand', 'place', 'frets', 'true_place']),
    ('neck, stop', 'CSV:', ['instrument', 'neck_mm', 'stop_mm', 'tension_NOTE_N', 'present',
                            'recommended'], ['step', 'step_total']),
    ('restring', '| runners_up |', ['runners_up', 'chosen'], ['choice', 'choice_total']),
    ('compare, change', 'A *compared*:', ['lengths', 'strings', 'tension', 'positions', 'fingers',
                                          'plus_minus', 'matters_most'], ['compared']),
    ('reach', 'CSV:', ['instrument', 'player', 'frame_half_mm', 'frame_1_mm', 'span_mm'],
     ['reach']),
]
TYPES = {'number': 'number', 'known': 'true or false', 'text': 'text'}


def read_figures(program):
    figures, wishes = {}, {}
    for line in subprocess.run([program], check=True, capture_output=True,
                               text=True).stdout.splitlines():
        words = line.split(' ')
        if words[0] == 'figure':
            figures.setdefault(words[1], {})[words[2]] = words[3]
        else:
            wishes[words[1]] = ' '.join(words[2:])
    return figures, wishes


def read_document(path):
    """Sections; of each its text, and its tables as lists of (keys, type)."""
    text = open(path, encoding='utf-8').read()
    sections = {}
    for part in re.split(r'^## ', text, flags=re.M)[1:]:
        name, body = part.split('\n', 1)
        tables = []
        for block in re.findall(r'(?:^\|.*\n)+', body, flags=re.M):
            rows = [[cell.strip() for cell in row.strip('|').split(' | ')]
                    for row in block.splitlines()[2:]]
            tables.append([(row[0].split(', '), row[1].strip()) for row in rows])
        sections[name] = (body, tables)
    return sections


def check(figures, wishes, sections):
    wrong = []

    def same(where, told, wanted):
        wrong.extend(f'{where}: {key} is missing' for key in sorted(wanted - told))
        wrong.extend(f'{where}: {key} is no key of it' for key in sorted(told - wanted))

    for (section, number), (others, scopes) in TABLES.items():
        where = f'{section}, table {number}'
        rows = sections[section][1][number - 1]
        types = {key: type_ for scope in scopes for key, type_ in figures[scope].items()}
        same(where, {key for keys, _ in rows for key in keys}, set(others) | set(types))
        for keys, told in rows:
            for key in keys:
                want = TYPES[types[key]] if key in types else ''
                if want not in told and not told.startswith('as in') and told != '':
                    wrong.append(f'{where}: {key} is {want}, not {told}')
    for section, start, others, scopes in INLINE:
        body = sections[section][0]
        place = body.index('\n' + start) if '\n' + start in body else body.index(start)
        told = re.split(r'\n\n|\n(?=\|)', body[place + 1:], maxsplit=1)[0]
        keys = {key for scope in scopes for key in figures[scope]}
        known = {key for table in figures.values() for key in table}
        words = set(re.findall(r'[A-Za-z]\w*' if start.startswith('|') else r'`(\w+)`', told))
        same(f'{section}, {start}', {word for word in words - set(others)
                                     if '_' in word or word in known}, keys)
    covered = {scope for _, scopes in TABLES.values() for scope in scopes}
    covered |= {scope for *_, scopes in INLINE for scope in scopes}
    wrong.extend(f'{scope}: no table is named for it' for scope in sorted(set(figures) - covered))
    wants = dict((keys[0], told) for keys, told in sections['neck, stop'][1][1])
    for word, unit in wishes.items():
        if word not in wants['what']:
            wrong.append(f'neck, stop, what: {word} is missing')
        if unit not in wants['unit']:
            wrong.append(f'neck, stop, unit: {unit} is missing')
    return wrong


def main():
    figures, wishes = read_figures(sys.argv[1])
    wrong = check(figures, wishes, read_document(sys.argv[2]))
    for line in wrong:
        print(line)
    sections = len(TABLES) + len(INLINE)
    print(f'{sum(map(len, figures.values()))} figures, {len(wishes)} wishes, {sections} tables and '
          f'lists; {len(wrong)} wrong')
    return 1 if wrong else 0


if __name__ == '__main__':
    sys.exit(main())
