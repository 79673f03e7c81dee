#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Builds the catalogue of generic strings from construction to a wanted tension.

    build_sets.py FOLDER            writes violin.csv, viola.csv, cello.csv, bass.csv, other.csv
    build_sets.py FOLDER --check    ends with 1 where what stands there differs

SETS gives each string its wanted tension at a string length and an A4; BUILDS how such a string is
made: core, inner windings and the material of the outer one.  The core's diameter (within a seventh of the
nominal one, in hundredths of a millimetre) and the outer winding's thickness (in half hundredths)
are chosen so that the tension comes nearest; a plain string's diameter alone (gut in hundredths,
steel in half hundredths).

All sets are invented and generic.  The wanted tensions of the full-size sets lie within published
ranges (shared/published/tension-ranges.csv; tests/house/catalogue.py holds them there); their
values, the materials and dimensions are ours, from memory.  Fractional sizes: tension in proportion
to the string length (common practice, no source).  Baroque sets and viols: from memory and by
formula; viols at 90 N for each metre of string.
"""
import csv
import io
import math
import os
import sys

HERE = os.path.dirname(os.path.abspath(__file__))
HEAD = ('name note set material construction linear_density stated_tension stated_length stated_a4 '
        'density_state diameter density core_diameter strands '
        'wrap1_material wrap1_density wrap1_shape wrap1_thickness '
        'wrap2_material wrap2_density wrap2_shape wrap2_thickness '
        'wrap3_material wrap3_density wrap3_shape wrap3_thickness '
        'modulus strength made_for_low made_for_high source').split()
SOURCE = 'built from its construction to a wanted tension; invented generic string'
STRANDED = SOURCE + '; core_diameter is that of one solid core of the same section'
SYNTHETIC = 'multifilament polyamide'


def materials():
    with open(os.path.join(HERE, 'materials.csv'), encoding='utf-8', newline='') as file:
        return {row['name']: row for row in csv.DictReader(file)}


MATERIALS = materials()


def density(material):
    return float(MATERIALS[material]['density'])


def frequency(note, a4):
    """Of an open string in pure fifths from A, Hz."""
    letter, octave = note.rstrip('0123456789'), int(note.lstrip('ABCDEFG#b'))
    fifths = {'Bb': -5, 'F': -4, 'C': -3, 'G': -2, 'D': -1, 'A': 0, 'E': 1, 'B': 2, 'F#': 3}[letter]
    keys = {'C': 0, 'D': 2, 'E': 4, 'F': 5, 'F#': 6, 'G': 7, 'A': 9, 'Bb': 10, 'B': 11}[letter]
    return a4 * 1.5 ** fifths * 2 ** ((octave * 12 + keys - 57 - 7 * fifths) / 12)


# family and core material: note class to (name of the make, core nominal in mm, strands, inner
# windings [(material, shape, mm)], outer winding (material, shape), least thickness in mm).
# None for a plain string.
def plain(material):
    return ('plain', material, None, None, [], None, 0)


def wound(outer, material, core, inner=(), strands=None, shape='flat', least=0.02):
    return (outer + '-wound' if outer != material else 'wound in ' + outer, material, core, strands,
            list(inner), (outer, shape), least)


def steel(outer, core, inner=(), strands=1, shape='flat', least=0.02):
    return wound(outer, 'steel', core, inner, strands, shape, least)


def synthetic(outer, core, inner=(), least=0.02):
    return wound(outer, SYNTHETIC, core, inner, None, 'flat', least)


def gut(outer, core, shape):
    return wound(outer, 'gut', core, (), 1, shape, 0.05)


NICKEL, COPPER = ('nickel', 'round', 0.08), ('copper', 'round', 0.05)
BUILDS = {
    'violin steel': {'E5': plain('steel'), 'A4': steel('aluminium', 0.28),
                     'D4': steel('nickel', 0.28, strands=7),
                     'G3': steel('silver', 0.28, [NICKEL], 7)},
    'violin synthetic': {'E5': plain('steel'), 'A4': synthetic('aluminium', 0.54),
                         'D4': synthetic('aluminium', 0.54, [('aluminium', 'flat', 0.03)]),
                         'G3': synthetic('silver', 0.54, [COPPER])},
    'violin gut': {'E5': plain('gut'), 'A4': plain('gut'), 'D4': gut('aluminium', 0.72, 'flat'),
                   'G3': gut('silver', 0.66, 'round')},
    'violin gut plain': {note: plain('gut') for note in ('E5', 'A4', 'D4', 'G3')},
    'viola steel': {'A4': steel('aluminium', 0.29), 'D4': steel('nickel', 0.28, strands=7),
                    'G3': steel('silver', 0.28, [NICKEL], 7),
                    'C3': steel('silver', 0.28, [('tungsten', 'round', 0.1)], 19)},
    'viola synthetic': {'A4': synthetic('aluminium', 0.56),
                        'D4': synthetic('aluminium', 0.55, [('aluminium', 'flat', 0.03)]),
                        'G3': synthetic('silver', 0.53, [COPPER]),
                        'C3': synthetic('silver', 0.55, [('tungsten', 'round', 0.05)])},
    'viola gut': {'A4': plain('gut'), 'D4': gut('aluminium', 0.68, 'flat'),
                  'G3': gut('silver', 0.62, 'round'), 'C3': gut('silver', 0.74, 'round')},
    'viola gut plain': {'A4': plain('gut'), 'D4': plain('gut'), 'G3': plain('gut'),
                        'C3': gut('silver', 0.74, 'round')},
    'cello steel': {'A3': steel('steel', 0.48), 'D3': steel('nickel', 0.5, strands=7),
                    'G2': steel('tungsten', 0.5, strands=19),
                    'C2': steel('tungsten', 0.5, [('tungsten', 'round', 0.15)], 19),
                    'E4': plain('steel')},
    'cello synthetic': {'A3': synthetic('aluminium', 0.84, [('aluminium', 'flat', 0.05)]),
                        'D3': synthetic('aluminium', 0.84, [('copper', 'flat', 0.05)]),
                        'G2': synthetic('silver', 0.86, [('copper', 'round', 0.15)]),
                        'C2': synthetic('silver', 0.9, [('tungsten', 'round', 0.1)])},
    'cello gut': {'A3': plain('gut'), 'D3': gut('aluminium', 1.08, 'flat'),
                  'G2': gut('silver', 1.04, 'round'), 'C2': gut('silver', 1.2, 'round')},
    'cello gut plain': {'A3': plain('gut'), 'D3': plain('gut'), 'G2': gut('silver', 1.04, 'round'),
                        'C2': gut('silver', 1.2, 'round')},
    'bass steel': {'G2': steel('nickel', 0.75, strands=19),
                   'D2': steel('steel', 0.78, [('nickel', 'round', 0.22)], 19),
                   'A1': steel('steel', 0.8, [('nickel', 'round', 0.39)], 19),
                   'E1': steel('steel', 0.85, [('tungsten', 'round', 0.385)], 19),
                   'A2': steel('nickel', 0.72, strands=19, least=0.01),
                   'E2': steel('steel', 0.75, [('nickel', 'round', 0.15)], 19),
                   'B1': steel('steel', 0.78, [('nickel', 'round', 0.3)], 19),
                   'F#1': steel('steel', 0.8, [('tungsten', 'round', 0.3)], 19)},
    'bass synthetic': {'G2': synthetic('aluminium', 1.5, [('nickel', 'flat', 0.1)]),
                       'D2': synthetic('nickel', 1.5, [('nickel', 'round', 0.2)]),
                       'A1': synthetic('nickel', 1.5, [('tungsten', 'round', 0.2)]),
                       'E1': synthetic('nickel', 1.5, [('tungsten', 'round', 0.4)])},
    'bass gut': {'G2': plain('gut'), 'D2': plain('gut'), 'A1': gut('silver', 2.2, 'round'),
                 'E1': gut('silver', 2.4, 'round')},
    'octave violin synthetic': {
        'E4': synthetic('aluminium', 0.56),
        'A3': synthetic('aluminium', 0.56, [('copper', 'flat', 0.09)]),
        'D3': synthetic('silver', 0.56, [('tungsten', 'round', 0.115)]),
        'G2': synthetic('tungsten', 0.58, [('tungsten', 'round', 0.205)])},
    'octave viola synthetic': {
        'A3': synthetic('aluminium', 0.56, [('copper', 'flat', 0.07)]),
        'D3': synthetic('silver', 0.56, [('tungsten', 'round', 0.095)]),
        'G2': synthetic('tungsten', 0.58, [('tungsten', 'round', 0.16)]),
        'C2': synthetic('tungsten', 0.6, [('tungsten', 'round', 0.315)])},
    'treble viol gut': {'D5': plain('gut'), 'A4': plain('gut'), 'E4': plain('gut'),
                        'C4': plain('gut'), 'G3': gut('copper', 0.8, 'round'),
                        'D3': gut('copper', 0.9, 'round')},
    'tenor viol gut': {'G4': plain('gut'), 'D4': plain('gut'), 'A3': plain('gut'),
                       'F3': plain('gut'), 'C3': gut('copper', 1.0, 'round'),
                       'G2': gut('copper', 1.1, 'round')},
    'bass viol gut': {'D4': plain('gut'), 'A3': plain('gut'), 'E3': plain('gut'),
                      'C3': plain('gut'), 'G2': gut('copper', 1.2, 'round'),
                      'D2': gut('copper', 1.4, 'round')},
}
BUILDS['five-string steel'] = dict(BUILDS['viola steel'], E5=plain('steel'))
BUILDS['five-string synthetic'] = dict(BUILDS['viola synthetic'], E5=plain('steel'))
BUILDS['five-string cello steel'] = BUILDS['cello steel']


# file, set, build, string length in mm, made for from and to in mm, A4 in Hz, note: tension in N
def one(file, name, length, low, high, tensions, a4=440, build=None):
    return (file, name, build or name, length, low, high, a4, tensions)


VIOLIN = (328, 320, 335)
FULL = [
    one('violin', 'violin gut', *VIOLIN, {'E5': 60, 'A4': 52, 'D4': 46, 'G3': 42}),
    one('violin', 'violin gut plain', *VIOLIN, {'E5': 60, 'A4': 52, 'D4': 46, 'G3': 42}),
    one('violin', 'violin synthetic', *VIOLIN, {'E5': 78, 'A4': 54, 'D4': 47, 'G3': 44}),
    one('violin', 'violin steel', *VIOLIN, {'E5': 80, 'A4': 60, 'D4': 55, 'G3': 50}),
    one('viola', 'viola gut', 375, 370, 380, {'A4': 62, 'D4': 50, 'G3': 47, 'C3': 47}),
    one('viola', 'viola gut plain', 375, 370, 380, {'A4': 62, 'D4': 50, 'G3': 47, 'C3': 47}),
    one('viola', 'viola synthetic', 375, 365, 385, {'A4': 68, 'D4': 50, 'G3': 49, 'C3': 49}),
    one('viola', 'viola steel', 375, 360, 385, {'A4': 80, 'D4': 54, 'G3': 53, 'C3': 53}),
    one('cello', 'cello gut', 690, 680, 705, {'A3': 125, 'D3': 115, 'G2': 113, 'C2': 115}),
    one('cello', 'cello gut plain', 690, 680, 705, {'A3': 125, 'D3': 115, 'G2': 113, 'C2': 115}),
    one('cello', 'cello synthetic', 690, 680, 705, {'A3': 144, 'D3': 124, 'G2': 122, 'C2': 130}),
    one('cello', 'cello steel', 690, 680, 705, {'A3': 150, 'D3': 132, 'G2': 130, 'C2': 135}),
    one('bass', 'bass steel', 1060, 1040, 1080, {'G2': 286, 'D2': 290, 'A1': 295, 'E1': 300}),
    one('bass', 'bass synthetic', 1060, 1040, 1080,
        {'G2': 265, 'D2': 268, 'A1': 270, 'E1': 275}),
    one('bass', 'bass gut', 1060, 1040, 1080, {'G2': 235, 'D2': 235, 'A1': 240, 'E1': 250}),
    one('bass', 'bass solo steel', 1060, 1040, 1080,
        {'A2': 270, 'E2': 270, 'B1': 270, 'F#1': 270}, build='bass steel'),
    one('other', 'five-string synthetic', 360, 350, 370,
        {'E5': 74, 'A4': 64, 'D4': 48, 'G3': 47, 'C3': 47}),
    one('other', 'five-string steel', 360, 350, 370,
        {'E5': 81, 'A4': 76, 'D4': 52, 'G3': 51, 'C3': 51}),
    one('other', 'five-string cello steel', 645, 635, 660,
        {'E4': 140, 'A3': 140, 'D3': 123, 'G2': 121, 'C2': 126}),
    one('other', 'octave violin synthetic', *VIOLIN, {'E4': 50, 'A3': 47, 'D3': 44, 'G2': 46}),
    one('other', 'octave viola synthetic', 375, 360, 390,
        {'A3': 50, 'D3': 49, 'G2': 48, 'C2': 49}),
    one('violin', 'violin baroque graded', 325, 315, 335,
        {'E5': 50, 'A4': 44, 'D4': 40, 'G3': 37}, 415, 'violin gut plain'),
    one('violin', 'violin baroque equal', 325, 315, 335,
        {'E5': 42, 'A4': 42, 'D4': 42, 'G3': 42}, 415, 'violin gut plain'),
    one('viola', 'viola baroque', 370, 360, 380,
        {'A4': 50, 'D4': 43, 'G3': 40, 'C3': 39}, 415,
        'viola gut plain'),
    one('cello', 'cello baroque', 690, 675, 705,
        {'A3': 112, 'D3': 104, 'G2': 100, 'C2': 100}, 415, 'cello gut plain'),
    one('other', 'treble viol gut', 350, 335, 370,
        dict.fromkeys(('D5', 'A4', 'E4', 'C4', 'G3', 'D3'), 31), 415),
    one('other', 'tenor viol gut', 505, 480, 530,
        dict.fromkeys(('G4', 'D4', 'A3', 'F3', 'C3', 'G2'), 45), 415),
    one('other', 'bass viol gut', 690, 670, 715,
        dict.fromkeys(('D4', 'A3', 'E3', 'C3', 'G2', 'D2'), 62), 415),
]
# The same set pulled less or more, or for a shorter or a longer string: tension and made for.
KINDS = {'light': 0.93, 'heavy': 1.07}
OTHER_LENGTHS = {'short': (356, 345, 368), 'long': (390, 380, 400)}
# String length, and by how much the made-for range reaches to either side: 2.5 %, and where the next
# size is near, as far as its range (ours), mm.
SIZES = {'violin': {'3/4': (308, 12), '1/2': (288, 10), '1/4': (268, 10), '1/8': (239, 6),
                    '1/16': (212, 5)},
         'cello': {'7/8': (660, 20), '3/4': (624, 16), '1/2': (572, 14), '1/4': (512, 13)}}


def scaled(tensions, factor):
    return {note: tension * factor for note, tension in tensions.items()}


def sets():
    for row in FULL:
        file, name, build, length, low, high, a4, tensions = row
        yield row, '', name
        material = name.split(' ', 1)[1] if ' ' in name else ''
        if name in ('violin gut', 'violin synthetic', 'violin steel', 'viola gut', 'viola synthetic',
                    'viola steel', 'cello gut', 'cello synthetic', 'cello steel', 'bass steel'):
            for kind, factor in KINDS.items():
                yield (file, name, build, length, low, high, a4,
                       scaled(tensions, factor)), ' ' + kind, name + ' ' + kind
        if name in ('viola gut', 'viola synthetic', 'viola steel'):
            for kind, (other, least, most) in OTHER_LENGTHS.items():
                yield (file, name, build, other, least, most, a4, tensions), ' ' + kind, \
                    name + ' ' + kind
        if name in ('violin synthetic', 'violin steel', 'cello steel'):
            for size, (other, reach) in SIZES[file].items():
                yield (file, name, build, other, other - reach, other + reach, a4,
                       scaled(tensions, other / length)), '', '%s %s %s' % (file, size, material)


def tension(string, length, pitch):
    """T in N on a length in mm; slack plain gut thins as it stretches (model: T + T2/EA = B)."""
    mass, slack, core = string
    b = 4 * (length / 1000) ** 2 * pitch ** 2 * mass
    if slack:
        stiff = float(MATERIALS['gut']['modulus']) * 1e9 * math.pi / 4 * core ** 2
        return 2 * b / (1 + math.sqrt(1 + 4 * b / stiff))
    return b


def mass_of(material, core, windings):
    """kg/m; mm; round wire fills pi/4 of its layer."""
    d, total = core / 1000, density(material) * (core / 1000) ** 2
    for metal, shape, thickness in windings:
        outer = d + 2 * thickness / 1000
        total += density(metal) * (1 if shape == 'flat' else math.pi / 4) * (outer ** 2 - d ** 2)
        d = outer
    return math.pi / 4 * total


def solve(build, wanted, length, pitch):
    """(core or diameter in mm, windings) whose tension comes nearest."""
    make, material, nominal, strands, inner, outer, least = build
    best = None
    if outer is None:
        step = 0.01 if material == 'gut' else 0.005
        tries = [(n * step, []) for n in range(int(0.15 / step), int(4 / step))]
        nominal = None
    else:
        cores = [round(n * 0.01, 2) for n in range(math.ceil(nominal * 86), int(nominal * 114) + 1)]
        tries = [(core, inner + [outer + (round(n * 0.005, 3),)]) for core in cores
                 for n in range(max(2, round(least / 0.005)), 160)]
    for core, windings in tries:
        slack = outer is None and material == 'gut'
        got = tension((mass_of(material, core, windings), slack, core / 1000), length, pitch)
        off = abs(got / wanted - 1) + (0.1 * abs(core / nominal - 1) if nominal else 0)
        if best is None or off < best[0]:
            best = (off, core, windings, got)
    return best


def number(value):
    return ('%.4f' % value).rstrip('0').rstrip('.')


def rows():
    for (file, family, build, length, low, high, a4, tensions), suffix, name in sets():
        for note, wanted in tensions.items():
            made = BUILDS[build][note]
            make, material, nominal, strands, inner, outer, least = made
            _, core, windings, got = solve(made, wanted, length, frequency(note, a4))
            word = {SYNTHETIC: 'synthetic'}.get(material, material)
            row = dict.fromkeys(HEAD, '')
            owner = name[:len(name) - len(suffix)] if suffix else name
            owner = owner.replace(' gut plain', '').replace(' ' + word, '')
            for other in (' synthetic', ' steel', ' gut'):
                owner = owner.replace(other, '') if outer is None else owner
            tail = ' plain %.3f' % core if outer is None and material == 'steel' else ' ' + make
            row.update(name='%s %s %s%s%s' % (owner, note, word, tail, suffix), note=note, set=name,
                       material=material, made_for_low=low, made_for_high=high,
                       construction='plain' if outer is None else
                       'stranded' if (strands or 1) > 1 else 'wound',
                       source=STRANDED if (strands or 1) > 1 else SOURCE)
            if outer is None:
                row['diameter'] = number(core)
                row['density_state'] = 'slack' if material == 'gut' else ''
            else:
                row['core_diameter'] = number(core)
                row['strands'] = strands or ''
            for n, (metal, shape, thickness) in enumerate(windings, 1):
                row['wrap%d_material' % n] = metal
                row['wrap%d_shape' % n] = shape
                row['wrap%d_thickness' % n] = number(thickness)
            yield file, row, wanted, got, length


PACKETS = [
    ('viola A4 by its packet', 'A4', 68, 370, 440, 360, 380),
    ('viola C3 by its packet', 'C3', 49, 370, 442, 360, 380),
]


def files():
    out = {}
    seen = {}
    for file, row, wanted, got, length in rows():
        # The same string may belong to two sets: its name is then told apart by the set.
        if row['name'] in seen:
            row['name'] += ' (%s)' % row['set']
        seen[row['name']] = row
        out.setdefault(file, []).append(row)
    for name, note, stated, length, a4, low, high in PACKETS:
        row = dict.fromkeys(HEAD, '')
        row.update(name=name, note=note, stated_tension=stated, stated_length=length, stated_a4=a4,
                   made_for_low=low, made_for_high=high,
                   source='given by tension, length and A4 as a packet would state them; invented '
                          'generic string')
        out['other'].append(row)
    texts = {}
    for file, lines in out.items():
        text = io.StringIO()
        writer = csv.DictWriter(text, HEAD, lineterminator='\n')
        writer.writeheader()
        writer.writerows(lines)
        texts[file + '.csv'] = text.getvalue()
    return texts


def main():
    folder, check = sys.argv[1], sys.argv[2:] == ['--check']
    differ = []
    for name, text in files().items():
        path = os.path.join(folder, name)
        if check:
            with open(path, encoding='utf-8', newline='') as file:
                if file.read() != text:
                    differ.append(name)
        else:
            with open(path, 'w', encoding='utf-8', newline='') as file:
                file.write(text)
    if differ:
        print('not what build_sets.py builds: ' + ', '.join(differ))
    return 1 if differ else 0


if __name__ == '__main__':
    sys.exit(main())
