#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds the drawing of the plane against the figures of the instruments on it.

    map_places.py MENSUR

The axes are read back from their ticks; every point must then stand at the stop and the neck that
`lengths` tells of an instrument, both axes must have one scale, every line of a string length must
run where an instrument with that stop and neck has that string, and every ray where neck : stop is
what it says.
"""
import csv
import io
import os
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree

SVG = '{http://www.w3.org/2000/svg}'
failed = number = 0


def say(good, what):
    global failed, number
    number += 1
    failed += not good
    print('%s %d - %s' % ('ok' if good else 'not ok', number, what))


def rows(mensur, *words):
    text = subprocess.run([mensur, *words, '--format', 'csv'], capture_output=True, text=True,
                          check=True).stdout
    return list(csv.DictReader(io.StringIO(text)))


def scale_of(ticks):
    """px = a + b * mm, through the first and the last tick; all others lie on it."""
    ticks = sorted(ticks)
    slope = (ticks[-1][1] - ticks[0][1]) / (ticks[-1][0] - ticks[0][0])
    for value, place in ticks:
        assert abs(ticks[0][1] + slope * (value - ticks[0][0]) - place) < 0.02, ticks
    return lambda px: ticks[0][0] + (px - ticks[0][1]) / slope, slope


def points_of(element):
    return [tuple(map(float, pair.split(','))) for pair in element.get('points').split()]


def main():
    mensur = sys.argv[1]
    os.environ.pop('MENSUR_SHOP', None)
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, 'map.svg')
        subprocess.run([mensur, 'map', 'kestrel', '--output', path], check=True)
        root = ElementTree.parse(path).getroot()
    texts = [(float(t.get('x')), float(t.get('y')), t.text, t.get('text-anchor'))
             for t in root.iter(SVG + 'text')]
    figure = re.compile(r'^[0-9]+(\.[0-9]+)?$')
    neck, up = scale_of([(float(text), y - 4.5) for x, y, text, anchor in texts
                         if anchor == 'end' and figure.match(text) and x < 55])
    bottom = max(y for x, y, text, anchor in texts if anchor == 'middle' and figure.match(text))
    stop, right = scale_of([(float(text), x) for x, y, text, anchor in texts
                            if anchor == 'middle' and y == bottom and figure.match(text)])
    say(abs(up + right) < 1e-3, 'a millimetre of stop is drawn as long as one of neck')

    discs = [(stop(float(c.get('cx'))), neck(float(c.get('cy')))) for c in root.iter(SVG + 'circle')]
    violas = {row['instrument']: row for row in rows(mensur, 'lengths')
              if row['instrument'] in ('heron', 'kestrel', 'wren', 'warbler')}
    for name, row in violas.items():
        say(any(abs(s - float(row['stop_mm'])) < 0.05 and abs(n - float(row['neck_mm'])) < 0.05
                for s, n in discs), '%s stands at its stop and neck' % name)
    say(len(discs) == len(violas), 'and nothing else does')

    lines = 0
    for path in root.iter(SVG + 'polyline'):
        ends = points_of(path)
        lengths = []
        for x, y in (ends[0], ends[len(ends) // 2], ends[-1]):
            row = rows(mensur, 'lengths', 'kestrel', 'stop=%.4f' % stop(x), 'neck=%.4f' % neck(y))[0]
            lengths.append(float(row['string_length_mm']))
        wanted = round(lengths[0] / 5) * 5
        say(all(abs(length - wanted) < 0.06 for length in lengths),
            'a line of %d mm, by the lengths at three of its points' % wanted)
        lines += 1
    say(lines >= 5, 'there are some')

    rays = [(float(t[2].split(':')[1]), t[1] - 4.0) for t in texts if t[2] and ':' in t[2] and
            re.match(r'^2.:.[0-9.]+$', t[2])]
    edge = max(x for x, y, text, anchor in texts if text and re.match(r'^2.:.', text)) - 4.0
    for ratio, y in rays:
        say(abs(2.0 * stop(edge) / neck(y) - ratio) < 0.005, 'a ray of 2 : %.2f' % ratio)
    say(len(rays) >= 2, 'there are some')
    print('1..%d' % number)
    return failed > 0


if __name__ == '__main__':
    sys.exit(main())
