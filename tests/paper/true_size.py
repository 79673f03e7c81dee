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
PLACES, SEAM, BARS = 63.5, 32.5, 17.0
# A string of 94.1 mm * 4 stands its fifth semitone at 94.42 mm; one that stands it at 94.1 mm:
LENGTH = 94.1 / (1 - 2 ** (-5 / 12))
SHOP = 'name,family,string_length\nlong,viola,%.6f\n' % LENGTH


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


def check_sheet(paper, width, height, pdf):
    step = width - 40  # from one page's window to the next
    places = [LENGTH * (1 - 2 ** (-s / 12)) for s in range(25)]
    pages = int(subprocess.run(['pdfinfo', pdf], check=True, capture_output=True, text=True)
                .stdout.split('Pages:')[1].split()[0])
    check('%s has two pages' % paper, 0 if pages == 2 else 1)
    for page in range(pages):
        runs = dark_runs(pdf, page + 1, PLACES)
        origin = 20 - step * page  # of the nut, as this page's register marks say
        if page > 0:
            seam = dark_runs(pdf, page + 1, SEAM)
            check('%s, register mark of page %d' % (paper, page + 1), near(seam, 20))
            origin = min(seam, key=lambda run: abs(run - 20)) - step * page
        if page + 1 < pages:
            seam = dark_runs(pdf, page + 1, SEAM)
            check('%s, register mark of page %d' % (paper, page + 1), near(seam, width - 20))
        shown = [s for s in range(1, 25) if 10.5 < origin + places[s] < width - 10.5]
        for s in shown:
            check('%s, page %d, semitone %d at %.2f mm' % (paper, page + 1, s, places[s]),
                  near(runs, origin + places[s]))
        bars = dark_runs(pdf, page + 1, height - BARS)
        for end in (10, 110, 130, 231.6):
            check('%s, page %d, bar end' % (paper, page + 1), near(bars, end))
        hundred = min(bars, key=lambda r: abs(r - 110)) - min(bars, key=lambda r: abs(r - 10))
        check('%s, page %d, the bar is 100 mm' % (paper, page + 1), abs(hundred - 100))


number = bad = 0
if shutil.which('pdftoppm') is None or shutil.which('pdfinfo') is None:
    sys.exit(77)
with tempfile.TemporaryDirectory() as folder:
    with open(os.path.join(folder, 'instruments.csv'), 'w') as shop:
        shop.write(SHOP)
    for paper, width, height in (('a4', 297, 210), ('letter', 279.4, 215.9)):
        pdf = os.path.join(folder, paper + '.pdf')
        subprocess.run([sys.argv[1], 'sheet', 'long', '--shop', folder, '--paper', paper,
                        '--output', pdf], check=True)
        check_sheet(paper, width, height, pdf)
print('1..%d' % number)
sys.exit(1 if bad else 0)
