#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds the drawing of `restring` against the figures of the same question as JSON.

    restring_bars.py MENSUR

The scale is read back from its ticks; every bar must then be as long as the string's tension, stand at
its note under its name, and have its break mark where tension and margin put it; what is wished stands
where it was asked for. No text lies on another, on a line or on an area, and none leaves the page.
"""
import json
import os
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree

SVG = '{http://www.w3.org/2000/svg}'
KGF, LBF = 9.80665, 4.4482216152605  # N, by definition
UNITS = {'kg': KGF, 'lb': LBF, 'N': 1.0}
WISHED = {'kestrel --tension A4=60..70N': ('A4', (60, 65, 70))}  # N: least, aimed at, most
CASES = ['kestrel', *WISHED, 'kestrel --tension A4=1..2', 'kestrel --like heron', 'swift', 'bittern',
         'warbler', 'length=361|family=viola|strings=five-string synthetic', 'nightjar',
         'heron --to-order gut', 'length=1058.6 family=bass|strings=bass steel',
         'length=1058.6 family=bass|strings=bass gut', 'length=690|family=bass viol|strings=bass viol gut',
         'length=277 family=violin|strings=violin 1/2 synthetic',
         'length=440 family=violin|strings=violin gut', 'kestrel --force-unit lb',
         'bittern --force-unit N']
# Advances of the letters of a wide sans-serif, in font sizes; from memory
NARROW = {' ': .32, '.': .32, ',': .32, ':': .34, ';': .34, 'i': .28, 'l': .28, 'j': .28, 't': .4, 'f': .36,
          'r': .42, '(': .39, ')': .39, '-': .37, '/': .34, 'm': .98, 'w': .82, 'M': .87, 'W': .99}
failed = number = 0


def say(good, what):
    global failed, number
    number += 1
    failed += not good
    print('%s %d - %s' % ('ok' if good else 'not ok', number, what))


def words_of(case):
    return [word for part in case.split('|') for word in ([part] if '=' in part and ' ' in
            part.split('=', 1)[1] and not part.startswith(('length', 'kestrel')) else part.split())]


def answer(mensur, *words):
    text = subprocess.run([mensur, *words, '--format', 'json'], capture_output=True, text=True).stdout
    return json.loads(text)['answers'][0]


def drawn(mensur, words):
    """Texts, lines, areas and discs, each with its place in the order of painting."""
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, 'restring.svg')
        subprocess.run([mensur, 'restring', *words, '--output', path], capture_output=True)
        root = ElementTree.parse(path).getroot()
    texts, lines, areas, discs = [], [], [], []
    for order, each in enumerate(root):
        get, kind = each.attrib.get, each.tag.replace(SVG, '')
        if kind == 'text':
            size, bold = float(get('font-size')), get('font-weight') == 'bold'
            wide = sum(NARROW.get(letter, .7 if letter.isupper() else .636) for letter in each.text)
            wide *= size * (1.1 if bold else 1)
            x, y = float(get('x')), float(get('y'))
            left = x - {'end': wide, 'middle': wide / 2}.get(get('text-anchor'), 0)
            texts.append({'order': order, 'x': x, 'y': y, 'text': each.text, 'bold': bold, 'size': size,
                          'anchor': get('text-anchor'),
                          'box': (left, y - .73 * size, left + wide, y + .2 * size)})
        elif kind == 'line':
            lines.append({'order': order, 'ends': tuple(float(get(c)) for c in ('x1', 'y1', 'x2', 'y2')),
                          'width': get('stroke-width'), 'dashed': get('stroke-dasharray') is not None})
        elif kind == 'polygon':
            points = [tuple(map(float, pair.split(','))) for pair in get('points').split()]
            xs, ys = [p[0] for p in points], [p[1] for p in points]
            areas.append({'order': order, 'box': (min(xs), min(ys), max(xs), max(ys)), 'fill': get('fill'),
                          'edge': get('stroke') is not None, 'corners': len(points)})
        elif kind == 'circle':
            x, y, r = (float(get(c)) for c in ('cx', 'cy', 'r'))
            discs.append({'order': order, 'box': (x - r, y - r, x + r, y + r)})
    return root, texts, lines, areas, discs


def meet(a, b):
    """What two boxes have in common; None where that is nothing."""
    both = (max(a[0], b[0]), max(a[1], b[1]), min(a[2], b[2]), min(a[3], b[3]))
    return both if both[0] < both[2] and both[1] < both[3] else None


def faults_of_texts(root, texts, lines, areas, discs):
    plates = [each for each in areas if each['fill'] == '#ffffff' and not each['edge']]
    inked = [each for each in areas if each not in plates and
             (each['edge'] or each['corners'] == 3)] + discs
    for line in lines:
        x1, y1, x2, y2 = line['ends']
        inked.append({'order': line['order'], 'box': (min(x1, x2) - .2, min(y1, y2) - .2,
                                                      max(x1, x2) + .2, max(y1, y2) + .2)})
    page = (0, 0, float(root.get('width')), float(root.get('height')))
    for i, text in enumerate(texts):
        if not (page[0] <= text['box'][0] and text['box'][2] <= page[2] and text['box'][3] <= page[3]):
            yield '"%s" leaves the page' % text['text']
        for other in texts[:i]:
            if meet(text['box'], other['box']):
                yield '"%s" lies on "%s"' % (text['text'], other['text'])
        for each in inked:
            common = meet(text['box'], each['box'])
            hidden = common and any(
                each['order'] < plate['order'] < text['order'] and
                plate['box'][0] <= common[0] + .3 and common[2] - .3 <= plate['box'][2] and
                plate['box'][1] <= common[1] + .3 and common[3] - .3 <= plate['box'][3]
                for plate in plates)
            if common and not hidden:
                yield '"%s" lies on what is drawn at %.0f, %.0f' % (text['text'], *each['box'][:2])


def expected(present, restrung):
    """Note, string as the answer has it, and whether it stays, in the order of the rows."""
    chosen = {each['note']: each for each in restrung['chosen']}
    after = {each['note']: each for each in (restrung['runners_up'] or [{'chosen': []}])[0]['chosen']}
    for now in present['strings']:
        best, other = chosen.get(now['note']), after.get(now['note'])
        if now['tension_N'] is not None:
            yield now['note'], now, best is not None and best['kept']
        if best is not None and not best['kept']:
            yield now['note'], best, False
        if other is not None and not other['kept'] and other['string'] != best['string']:
            yield now['note'], other, False


def faults(mensur, words, unit, wished):
    asked = [word for word in words if '=' in word and not word[0].isupper()] + [words[0]] * ('=' not in words[0])
    asked = [word for word in asked if word != 'gut']
    rows = list(expected(answer(mensur, 'tension', *asked), answer(mensur, 'restring', *words)))
    root, texts, lines, areas, discs = drawn(mensur, words)
    figure = re.compile(r'^[0-9]+(\.[0-9]+)?$')
    ticks = sorted((float(t['text']), t['x']) for t in texts if t['anchor'] == 'middle' and
                   figure.match(t['text']))
    slope = (ticks[-1][1] - ticks[0][1]) / (ticks[-1][0] - ticks[0][0])
    at = lambda force: ticks[0][1] + slope * (force / UNITS[unit] - ticks[0][0])
    for value, place in ticks:
        if abs(at(value * UNITS[unit]) - place) > 0.02:
            yield 'the tick %g stands at %g' % (value, place)
        if not any(abs(line['ends'][0] - place) < .01 and line['ends'][0] == line['ends'][2] for line in lines):
            yield 'the tick %g has no line' % value
    start, end = ticks[0][1], 296.0
    notes = [t for t in texts if t['bold'] and t['x'] == 16.0 and re.match(r'^[A-G][b#]*-?[0-9]$', t['text'])]
    names = [t for t in texts if t['size'] == 12.0 and t['x'] == start + 3.0]
    if len(names) != len(rows):
        yield '%d rows drawn, %d strings' % (len(names), len(rows))
    for name, (note, string, stays) in zip(names, rows):
        top = name['y'] + 4.0
        over = [t for t in notes if t['y'] - 14.1 <= name['y']]
        if not over or over[-1]['text'] != note:
            yield '%s stands at another note than %s' % (name['text'], note)
        if name['text'] != string['string'] + (' (stays)' if stays else ''):
            yield '%s is called %s' % (string['string'], name['text'])
        bars = [a for a in areas if a['edge'] and a['box'][0] == start and abs(a['box'][1] - top) < .01]
        if not bars or any(abs(bar['box'][2] - at(string['tension_N'])) > .02 for bar in bars):
            yield 'the bar of %s is not %g N long' % (string['string'], string['tension_N'])
        middle = top + 5.0
        crosses = {round((line['ends'][0] + line['ends'][2]) / 2, 2) for line in lines if line['width'] == '1.6'
                   and abs((line['ends'][1] + line['ends'][3]) / 2 - middle) < .01 and line['ends'][0] > 55}
        margin = string['breaking_margin_semitones']
        shown = {t['text'] for t in texts if t['anchor'] == 'end' and abs(t['y'] - top - 10.0) < .01}
        beyond = [t['text'] for t in texts if t['text'].startswith('breaks at ') and abs(t['y'] - middle - 4) < .01]
        heads = [a for a in areas if a['corners'] == 3 and
                 abs((a['box'][1] + a['box'][3]) / 2 - middle) < .01 and a['box'][2] > start]
        least = string['breaking_margin_at_least']
        if margin is None:
            good = not crosses and not beyond and any(abs(d['box'][1] + 4 - middle) < .01 for d in discs)
        else:
            breaking = string['tension_N'] * 2 ** (margin / 6)
            if at(breaking) <= end + .03:
                good = not beyond and bool(heads) == least and crosses and \
                    all(abs(cross - at(breaking)) < .02 for cross in crosses)
            else:
                good = not crosses and bool(heads) and beyond == [
                    'breaks at %s%.1f' % ('least ' if least else '', breaking / UNITS[unit])]
        if not good:
            yield 'the break mark of %s: margin %s, crosses at %s, words %s' % (
                string['string'], margin, crosses, beyond)
        if not {'%.1f' % (string['tension_N'] / UNITS[unit]), 'unknown' if margin is None else
                '%s%.1f' % ('at least ' if least else '', margin)} <= shown:
            yield 'the figures of %s: %s' % (string['string'], shown)
        if '--full' in words and unit != 'N' and not any(
                t['text'] == '(%.1f N)' % string['tension_N'] and top + 10 < t['y'] < top + 30 for t in texts):
            yield '%s has no tension in N' % string['string']
    if wished is not None:
        note, forces = wished
        below = [name['y'] for name, row in zip(names, rows) if row[0] == note]
        dots = {round(line['ends'][0], 2) for line in lines if line['dashed'] and
                line['ends'][0] == line['ends'][2] and below and below[0] - 2 < line['ends'][1] < below[-1]}
        if dots != {round(at(force), 2) for force in forces}:
            yield 'what is wished of %s stands at %s' % (note, sorted(dots))
    yield from faults_of_texts(root, texts, lines, areas, discs)


def main():
    mensur = sys.argv[1]
    os.environ.pop('MENSUR_SHOP', None)
    for case in CASES:
        unit = (re.findall(r'--force-unit (\w+)', case) or ['kg'])[0]
        for full in ([], ['--full']):
            found = list(faults(mensur, words_of(case) + full, unit, WISHED.get(case)))
            for fault in found:
                print('# ' + fault)
            say(not found, ' '.join([case.replace('|', ' ')] + full))
    print('1..%d' % number)
    return failed > 0


if __name__ == '__main__':
    sys.exit(main())
