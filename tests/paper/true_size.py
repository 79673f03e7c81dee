#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Measures the finger sheet on paper: places from the nut within 0.05 mm, across pages by their
register marks, and the bars.

    true_size.py MENSUR

Each page of the PDF is rendered at 1200 dots to the inch by poppler's pdftoppm, a row of it is
read, and the middle of every dark run taken.  The places wanted are L (1 - 2^(-s/12)) (Euclid,
Sectio canonis; equal steps).  Exit 77 where pdftoppm is missing.
"""
import os
import shutil
import subprocess
import sys
import tempfile

DPI = 1200
MM = 25.4 / DPI
TOLERANCE = 0.05
# Heights on the page, mm: over the strings of the first strip, the upper register mark under its
# ring, the ends of the bars (from the foot).
PLACES, SEAM, BARS = 57.8, 28.4, 17.0
# Name, family, string, options, last semitone and pages on A4 and Letter. A string of 94.1 mm * 4
# stands its fifth semitone at 94.42 mm; one that stands it at 94.1 mm is the first.
SHEETS = (
    ('long', 'viola', 94.1 / (1 - 2 ** (-5 / 12)), [], range(1, 25), {'a4': 2, 'letter': 2}),
    ('sixteenth', 'violin', 212, [], range(1, 25), {'a4': 1, 'letter': 1}),
    ('tapes', 'violin', 212, ['--marks', 'tapes'], (2, 4, 5, 7), {'a4': 1, 'letter': 1}),
    ('bass', 'bass', 1060, [], range(1, 25), {'a4': 4, 'letter': 4}),
    ('viol', 'bass viol', 690, ['--marks', 'frets'], range(1, 8), {'a4': 1, 'letter': 1}),
)
SHOP = 'name,family,string_length\n' + ''.join('%s,%s,%.6f\n' % row[:3] for row in SHEETS)


def dark_runs(pdf, page, y):
    """Middles of the dark runs of a row, mm from the page's left edge."""
    pgm = subprocess.run(['pdftoppm', '-gray', '-r', str(DPI), '-f', str(page), '-l', str(page),
                          '-x', '0', '-y', str(round(y / MM)), '-W', '20000', '-H', '1', pdf],
                         check=True, capture_output=True).stdout
    fields = pgm.split(maxsplit=4)
    width, row = int(fields[1]), pgm[-int(fields[1]):]
    runs, start = [], None
    for x in range(width + 1):
        dark = x < width and row[x] < 128
        if dark and start is None:
            start = x
        elif not dark and start is not None:
            runs.append((start + x) / 2 * MM)
            start = None
    return runs


def near(runs, want):
    """The run nearest to a place, and how far off it is."""
    best = min(runs, key=lambda run: abs(run - want))
    return abs(best - want)


def check(what, off):
    global number, bad
    number += 1
    good = off <= TOLERANCE
    bad += not good
    print('%s %d - %s: %.4f mm off' % ('ok' if good else 'not ok', number, what, off))


def check_sheet(sheet, paper, width, height, pdf):
    name, _, length, _, marks, wanted_pages = sheet
    places = {s: length * (1 - 2 ** (-s / 12)) for s in marks}
    what = '%s on %s' % (name, paper)
    pages = int(subprocess.run(['pdfinfo', pdf], check=True, capture_output=True, text=True)
                .stdout.split('Pages:')[1].split()[0])
    check('%s has %d pages' % (what, wanted_pages[paper]), abs(pages - wanted_pages[paper]))
    # Pages of the same window, 20 mm in common, from 10 mm before the nut to 8 behind the last.
    window = width - 20
    if pages > 1:
        window = (places[max(marks)] + 18 + 20 * (pages - 1)) / pages
    step = window - 20
    seen = set()
    for page in range(pages):
        runs = dark_runs(pdf, page + 1, PLACES)
        origin = 20 - step * page  # of the nut, as this page's register marks say
        if page > 0:
            seam = dark_runs(pdf, page + 1, SEAM)
            check('%s, register mark of page %d' % (what, page + 1), near(seam, 20))
            origin = min(seam, key=lambda run: abs(run - 20)) - step * page
        if page + 1 < pages:
            seam = dark_runs(pdf, page + 1, SEAM)
            check('%s, register mark of page %d' % (what, page + 1), near(seam, window))
        shown = [s for s in marks if 10.5 < origin + places[s] < window + 9.5]
        seen.update(shown)
        for s in shown:
            check('%s, page %d, semitone %d at %.2f mm' % (what, page + 1, s, places[s]),
                  near(runs, origin + places[s]))
        text = subprocess.run(['pdftotext', '-f', str(page + 1), '-l', str(page + 1), pdf, '-'],
                              check=True, capture_output=True, text=True).stdout
        check('%s, page %d shows three places or more' % (what, page + 1), len(shown) < 3)
        if pages > 1:
            last = max(s for s in marks
                       if origin + places[s] <= window + (10 if page + 1 == pages else 0))
            check('%s, page %d says it goes to semitone %d' % (what, page + 1, last),
                  'page %d of %d, to semitone %d' % (page + 1, pages, last) not in text)
        bars = dark_runs(pdf, page + 1, height - BARS)
        for end in (10, 110, 130, 231.6):
            check('%s, page %d, bar end' % (what, page + 1), near(bars, end))
        hundred = min(bars, key=lambda r: abs(r - 110)) - min(bars, key=lambda r: abs(r - 10))
        check('%s, page %d, the bar is 100 mm' % (what, page + 1), abs(hundred - 100))
    check('%s shows every place' % what, len(set(marks) - seen))


number = bad = 0
if shutil.which('pdftoppm') is None or shutil.which('pdfinfo') is None:
    sys.exit(77)
with tempfile.TemporaryDirectory() as folder:
    with open(os.path.join(folder, 'instruments.csv'), 'w') as shop:
        shop.write(SHOP)
    for sheet in SHEETS:
        for paper, width, height in (('a4', 297, 210), ('letter', 279.4, 215.9)):
            pdf = os.path.join(folder, '%s-%s.pdf' % (sheet[0], paper))
            subprocess.run([sys.argv[1], 'sheet', sheet[0], '--shop', folder, '--paper', paper,
                            '--output', pdf] + sheet[3], check=True)
            check_sheet(sheet, paper, width, height, pdf)
print('1..%d' % number)
sys.exit(1 if bad else 0)
