#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Measures the template: the coordinates in its SVG, and those in its PDF with the pages joined by
their register marks, lie within 0.05 mm of the side view's equations.

    template_size.py MENSUR

The places wanted are worked out here from the measurements (plane geometry of the side view, the
equations of docs/physics.md, sections 1 and 3); the bars are 100 mm.  The PDF is read as it is: its
streams are inflated and its lines followed, so that nothing is lost to a picture's dots.
"""
import math
import os
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree
import zlib

TOLERANCE = 0.05
SVG = '{http://www.w3.org/2000/svg}'
HEAD = ('name,family,tuning,strings,body_straight,stop,neck,overstand,board,board_nut,nut,arch,'
        'projection,bridge,saddle,board_length,clearance_low,clearance_high,heel,spacing_bridge,'
        'spacing_nut,foot_spacing,built')
# name, body_straight ... foot_spacing: sizes of our own, a violin, a viola, a cello, a tall bass.
INSTRUMENTS = {
    'violin': ('violin', (354.1, 195, 130, 6.5, 8.7, 7, 0.4, 11.5, 27, 33, 4, 270, 5.5, 3.5, 20,
                          33.5, 16.5, 31), 'no'),
    'viola': ('viola', (409, 222, 150, 8, 9.6, 7.8, 0.5, 13.5, 32, 39, 5, 301, 6.5, 4.5, 24, 36,
                        17, 36), 'yes'),
    'cello': ('cello', (752, 400, 280, 20, 20, 15, 0.7, 23, 81, 90, 12, 580, 8, 5, 28, 47, 22, 68),
              'no'),
    'bass': ('bass', (1108, 603, 444.5, 34.8, 26.8, 20.9, 1, 32.8, 148.3, 160, 29.7, 874, 11, 7,
                      50, 83, 31, 90), 'no'),
}
CROWN = 1.25  # radius of the bridge's top over the outer strings' spacing: the program's own choice

number = bad = 0


def check(good, what):
    global number, bad
    number += 1
    bad += not good
    print('%s %d - %s' % ('ok' if good else 'not ok', number, what))


def places(m):
    """Where things stand, mm from the belly's upper edge, and the heights of four strings."""
    (straight, stop, neck, overstand, board, board_nut, nut, arch, projection, bridge, saddle,
     board_length, low, high, heel, spacing, spacing_nut, feet) = m
    rise = arch + projection - overstand
    taper = math.atan((board - board_nut) / neck)
    slope = math.atan2(rise, stop) - math.asin(board * math.cos(taper) / math.hypot(rise, stop))
    theta = slope - taper

    def on_neck(along, over):
        return (-along * math.cos(theta) - over * math.sin(theta),
                overstand - along * math.sin(theta) + over * math.cos(theta))
    start = on_neck(neck, board_nut)
    want = {'origin': (0, 0), 'root': (0, overstand), 'foot of the nut': on_neck(neck, 0),
            'board at the nut': start, 'string at the nut': on_neck(neck, board_nut + nut),
            'board at the edge': on_neck(0, board), 'thumb in the heel': on_neck(heel, 0),
            'end of the board': (start[0] + board_length * math.cos(slope),
                                 start[1] + board_length * math.sin(slope)),
            'top of the bridge': (stop, arch + bridge), 'belly at the bridge line': (stop, 0),
            'saddle': (straight, saddle)}
    string = math.hypot(stop - want['string at the nut'][0],
                        arch + bridge - want['string at the nut'][1])
    tilt = (low - high) / spacing * string / board_length
    radius = CROWN * spacing
    across = [spacing * (i / 3 - 0.5) for i in range(4)]
    heights = [(x, bridge - (radius - math.sqrt(radius ** 2 - x ** 2)) - tilt * x) for x in across]
    return want, heights, projection + arch


def svg_lines(path):
    """[(width, dashed, (x1, y1), (x2, y2))], mm, y down; and the texts with their places."""
    root = ElementTree.parse(path).getroot()
    lines, texts = [], []
    for one in root.iter():
        if one.tag == SVG + 'line':
            x1, y1, x2, y2 = (float(one.get(k)) for k in ('x1', 'y1', 'x2', 'y2'))
            lines.append((float(one.get('stroke-width')), one.get('stroke-dasharray') is not None,
                          (x1, y1), (x2, y2)))
        elif one.tag == SVG + 'text':
            texts.append(one.text)
    return lines, texts


def pdf_pages(path):
    """The lines of each page as of svg_lines, and its size in mm."""
    data = open(path, 'rb').read()
    objects = {int(m.group(1)): m.group(2) for m in
               re.finditer(rb'(?s)(?:^|\n)(\d+) 0 obj\s(.*?)\nendobj', data)}

    def stream(body):
        raw = re.search(rb'(?s)stream\r?\n(.*)\nendstream', body).group(1)
        return zlib.decompressobj().decompress(raw) if b'FlateDecode' in body else raw
    for body in list(objects.values()):  # objects that stand in streams
        if b'/ObjStm' in body:
            text = stream(body)
            count = int(re.search(rb'/N (\d+)', body).group(1))
            first = int(re.search(rb'/First (\d+)', body).group(1))
            head = [int(n) for n in text[:first].split()][:2 * count]
            ends = head[3::2] + [len(text) - first]
            for key, start, end in zip(head[::2], head[1::2], ends):
                objects[key] = text[first + start:first + end]
    pages = next(b for b in objects.values() if re.search(rb'/Type\s*/Pages\b', b))
    kids = re.search(rb'(?s)/Kids\s*\[(.*?)\]', pages).group(1)
    for key in re.findall(rb'(\d+) 0 R', kids):
        page = objects[int(key)]
        content = int(re.search(rb'/Contents\s+(\d+) 0 R', page).group(1))
        box = re.search(rb'/MediaBox\s*\[\s*\S+\s+\S+\s+([\d.]+)\s+([\d.]+)', page)
        width, height = float(box.group(1)), float(box.group(2))
        yield follow(stream(objects[content]), height), (width * 25.4 / 72, height * 25.4 / 72)


def follow(content, height):
    lines, stack, operands = [], [], []
    state = {'m': (1.0, 0.0, 0.0, 1.0, 0.0, 0.0), 'w': 1.0, 'd': False}
    path = []

    def place(x, y):
        a, b, c, d, e, f = state['m']
        return ((a * x + c * y + e) * 25.4 / 72, (height - (b * x + d * y + f)) * 25.4 / 72)
    for token in re.findall(rb'\[[^\]]*\]|<[^>]*>|\((?:\\.|[^\\)])*\)|[^\s\[\]<>()]+', content):
        word = token.decode('latin-1')
        if re.fullmatch(r'[-+]?[\d.]+', word):
            operands.append(float(word))
            continue
        if word == 'q':
            stack.append(dict(state))
        elif word == 'Q':
            state = stack.pop()
        elif word == 'cm':
            a, b, c, d, e, f = operands[-6:]
            A, B, C, D, E, F = state['m']
            state['m'] = (a * A + b * C, a * B + b * D, c * A + d * C, c * B + d * D,
                          e * A + f * C + E, e * B + f * D + F)
        elif word == 'w':
            state['w'] = operands[-1]
        elif word == 'd':
            state['d'] = dash not in (b'[]', b'[ ]')
        elif word == 'm':
            path = [place(*operands[-2:])]
        elif word == 'l':
            path.append(place(*operands[-2:]))
        elif word in ('S', 'B'):
            scale = math.hypot(state['m'][0], state['m'][1]) * 25.4 / 72
            lines += [(state['w'] * scale, state['d'], a, b) for a, b in zip(path, path[1:])]
            path = []
        elif word in ('f', 'f*', 'n', 's', 'b'):
            path = []
        if word.startswith('['):
            dash = token
        operands = []
    return lines


def near(a, b, within=TOLERANCE):
    return math.hypot(a[0] - b[0], a[1] - b[1]) <= within


def crosses(lines):
    """Middles of the register marks: a level and an upright line of 6 mm that halve each other."""
    level = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for _, _, a, b in lines
             if abs(a[1] - b[1]) < 0.01 and abs(abs(a[0] - b[0]) - 6) < 0.02]
    upright = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for _, _, a, b in lines
               if abs(a[0] - b[0]) < 0.01 and abs(abs(a[1] - b[1]) - 6) < 0.02]
    return sorted(p for p in level if any(near(p, q) for q in upright))


def marks_of(lines, size):
    """The register marks of a page of that size by where they stand: to the left and to the right,
    above and below."""
    width, height = size
    marks = crosses(lines)
    sides = {'left': [p for p in marks if abs(p[0] - 30) < 1 and not 30 < p[1] < height - 30],
             'right': [p for p in marks if abs(p[0] - width + 20) < 1
                       and not 30 < p[1] < height - 30],
             'above': [p for p in marks if abs(p[1] - 32) < 1],
             'below': [p for p in marks if abs(p[1] - height + 32) < 1]}
    return {side: sorted(points) for side, points in sides.items()}


def figures(pages):
    """The pages of each figure behind the first page: a list of rows of (lines, size)."""
    found = []
    for lines, size in pages[1:]:
        marks = marks_of(lines, size)
        if not marks['left'] and not marks['above']:
            found.append([])
        if not marks['left']:
            found[-1].append([])
        found[-1][-1].append((lines, marks))
    return found


def moved(points, by):
    return [(p[0] + by[0], p[1] + by[1]) for p in points]


def join(rows):
    """Lines of a figure's pages, each page moved so that its marks lie on those of the page to its
    left, or above."""
    joined, first, before = [], None, None
    for row in rows:
        for i, (lines, marks) in enumerate(row):
            theirs, own = (before['right'], marks['left']) if i else (
                (first['below'], marks['above']) if first else ([], []))
            by = (theirs[0][0] - own[0][0], theirs[0][1] - own[0][1]) if own else (0.0, 0.0)
            if own:
                check(len(own) == 2 and near(moved(own, by)[1], theirs[1]),
                      'both marks of a seam lie on each other')
            before = {side: moved(points, by) for side, points in marks.items()}
            first = before if i == 0 else first
            joined += [(w, d, *moved((a, b), by)) for w, d, a, b in lines]
    return joined


def find_origin(lines, want):
    """The end of a line from which every other place is an end of a line: the belly's upper edge."""
    ends = [p for _, _, a, b in lines for p in (a, b)]
    best, most = None, -1
    for x, y in set(ends):
        found = sum(any(near((x + p[0], y - p[1]), e) for e in ends) for p in want.values())
        if found > most:
            best, most = (x, y), found
    return best


def check_side(name, lines, want, projection):
    ends = [p for _, _, a, b in lines for p in (a, b)]
    x, y = find_origin(lines, want)
    for what, place in want.items():
        at = min(ends, key=lambda e: math.hypot(e[0] - x - place[0], e[1] - y + place[1]))
        off = math.hypot(at[0] - x - place[0], at[1] - y + place[1])
        check(off <= TOLERANCE, '%s, %s: %.3f mm off' % (name, what, off))
    stop = want['top of the bridge'][0]
    check(any(near((x + stop, y - projection), e) for e in ends),
          '%s: the line of the board ends at the projection' % name)


def check_bridge(name, lines, heights):
    """The four strings' lines on the bridge: as high and as far apart as they should be."""
    upright = []
    for x, top, bottom in sorted((a[0], min(a[1], b[1]), max(a[1], b[1])) for w, d, a, b in lines
                                 if abs(a[0] - b[0]) < 0.005 and not d and w < 0.2):
        if upright and near(upright[-1][:1] + [0], (x, 0)) and top <= upright[-1][2] + 0.01:
            upright[-1][2] = max(bottom, upright[-1][2])  # cut between two pages
        else:
            upright.append([x, top, bottom])
    upright = [(top, x, bottom - top) for x, top, bottom in upright]
    for (x, z), (x2, z2) in zip(heights, heights[1:]):
        good = any(abs(l[2] - z) <= TOLERANCE and abs(r[2] - z2) <= TOLERANCE and
                   abs(r[1] - l[1] - (x2 - x)) <= TOLERANCE for l in upright for r in upright)
        check(good, '%s: strings %.2f mm apart, %.2f and %.2f mm over the belly'
              % (name, x2 - x, z, z2))


def check_bars(name, lines):
    level = any(abs(a[1] - b[1]) < 0.01 and abs(abs(a[0] - b[0]) - 100) <= TOLERANCE
                for _, _, a, b in lines)
    upright = any(abs(a[0] - b[0]) < 0.01 and abs(abs(a[1] - b[1]) - 100) <= TOLERANCE
                  for _, _, a, b in lines)
    check(level and upright, '%s: a bar of 100 mm across, and one upwards' % name)


def make(folder, name, path, *more):
    subprocess.run([sys.argv[1], 'template', name, '--shop', folder, '--date', '2024-05-31',
                    '--output', path, *more], check=True)


with tempfile.TemporaryDirectory() as folder:
    with open(os.path.join(folder, 'instruments.csv'), 'w') as shop:
        shop.write(HEAD + '\n')
        for name, (family, measures, built) in INSTRUMENTS.items():
            shop.write(','.join([name, family, family, ''] + [str(m) for m in measures] + [built])
                       + '\n')
    for name, (family, measures, built) in INSTRUMENTS.items():
        want, heights, projection = places(measures)
        path = os.path.join(folder, name + '.svg')
        make(folder, name, path)
        lines, texts = svg_lines(path)
        check_side(name + ', SVG', lines, want, projection)
        check_bridge(name + ', SVG', lines, heights)
        check_bars(name + ', SVG', lines)
        check(any('2024-05-31' in t for t in texts), name + ': its date')
        check(any('restorer' in t for t in texts) == (built == 'yes'), name + ': the caution')
        check('assumed' not in ' '.join(t for t in texts if 'radius' not in t and t != 'assumed'),
              name + ': nothing but the radius is assumed')
        for paper in ('a4', 'letter'):
            path = os.path.join(folder, name + paper + '.pdf')
            make(folder, name, path, '--paper', paper)
            pages = list(pdf_pages(path))
            title = '%s, %s' % (name, paper)
            for i, (lines, _) in enumerate(pages):
                check_bars('%s, page %d' % (title, i + 1), lines)
            parts = figures(pages)
            check(len(parts) == 2, title + ': two figures')
            check_bridge(title, join(parts[0]), heights)
            check_side(title, join(parts[1]), want, projection)
print('1..%d' % number)
sys.exit(1 if bad else 0)
