#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Asks the program some hundred fixed questions and keeps or compares every byte of the answers.

    frozen.py PROGRAM FOLDER             writes the answers into FOLDER, which is new or empty
    frozen.py PROGRAM --against FOLDER   asks again and compares
    frozen.py PROGRAM --beside OTHER     compares two programs
    frozen.py PROGRAM --self-test        shows that a comparison finds what differs, and that alone
    frozen.py PROGRAM --list             prints each question's name and words

    --only GLOB     those questions alone (repeatable), for example 'demo/restring-*'
    --except FILE   differences that are allowed, a line each: GLOB REASON; # begins a comment

A question is a command line, asked of a copy of the demonstration (shared/demo), of the shop of
awkward cases (awkward/ beside this script), of the demonstration inside the program, or of a small
shop written here.  Its answer is NAME.txt (command line, exit code, standard output, standard
error) and, for each file that the program wrote, NAME.FILE.  Nothing in them is normalised; the
shops are named by relative paths, so that an answer does not depend on where it was asked.
PDF and PNG depend on the version of cairo too: compare them on one machine.

The man page and the completions are asked of the program `manual` that stands beside PROGRAM.
The last line is `N questions, M differ`; exit 1 where M is not 0, 2 for wrong use.
"""
import argparse
import difflib
import fnmatch
import os
import re
import shutil
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor

HERE = os.path.dirname(os.path.abspath(__file__))
DEMONSTRATION = os.path.join(HERE, '..', '..', 'shared', 'demo')
DIFF_LINES = 40
SECONDS = 120  # a question that takes longer is recorded as one that does not end

# Instrument, and about its string length in mm: what the wishes below are made from.
DEMO = {'heron': 376, 'kestrel': 362, 'wren': 372, 'swift': 328, 'bittern': 687, 'warbler': 363,
        'nightjar': 328, 'dipper': 358}
AWKWARD = {'bare': 372, 'sure': 374, 'disagreeing': 381, 'string alone': 366, 'no family': 368,
           'no family string': 360, 'tapered': 369, 'inches': 329, 'five': 364, 'knee': 693,
           'knee bare': 688, 'standing': 1069, 'seven': 701, 'one': 328, 'low action': 328,
           'arched': 331, 'breaking': 339, 'Quill, the "old" one': 378, 'شحرور': 369,
           'うぐいす 鶯': 326, 'Żółw & <b>co</b>': 365, '=SUM(A1:A9)': 371}
STRING_ALONE = ('dipper', 'string alone', 'no family string')
PLAYERS = ['stature only', 'sure', 'Ani, "the small"', 'بطء', 'inches']

# What stands for these words in the name of a question, which is the name of a file.
ALIASES = {'Quill, the "old" one': 'quill', 'شحرور': 'right-to-left', 'うぐいす 鶯': 'wide',
           'Żółw & <b>co</b>': 'marked', '=SUM(A1:A9)': 'formula', 'Ani, "the small"': 'ani',
           'بطء': 'right-to-left', 'naïve ‘größe’': 'naive', 'violin, "first"': 'first'}

# Small shops, file by file; in bytes, because some are not UTF-8.
SHOPS = {
    'decimal-comma': {'instruments.csv': b'name;family;stop;neck;body\n'
                                         b'mine;viola;222 \xc2\xb10,5;150,5;410\n'},
    'tabs': {'instruments.csv': b'\xef\xbb\xbfName\tFamily\tStop\tNeck\tString Length\r\n'
                                b'one\tviola\t222\t150\t\r\n\r\ntwo\tviola\t\t\t370\r\n'},
    'windows': {'instruments.csv': b'name,family,stop,neck\nGr\xfcn,viola,220,148\n'},
    'wrong': {'instruments.csv': b'name,family,tuning,strings,stop,neck,projection,bridge,arch\n'
                                 b'a,voila,viola,viola gut,220,148,,,\n'
                                 b'b,viola,viloa,viola gutt,220,148,,,\n'
                                 b'c,viola,viola,viola gut,wide,-4,,,0\n'
                                 b'd,viola,viola,viola gut,220,148,32,31,\n'
                                 b'a,viola,viola,viola gut,,148,,,\n'
                                 b'e,viola,viola,viola gut,22000,1/3,,,1,2,3\n'},
    'misspelt': {'instruments.csv': b'name,family,stop,neck,brige,stop\nx,viola,220,148,39,1\n'},
    'empty': {'instruments.csv': b''},
    'zero-byte': {'instruments.csv': b'name,family,stop,neck\nx,vi\0ola,220,148\n'},
    'unclosed': {'instruments.csv': b'name,family,stop,neck\nx,viola,220,148\n"y,viola,1,2\n'},
    'nothing-usual': {'instruments.csv': b'name,stop,neck\nx,220,148\n'},
    'control': {'instruments.csv': b'name,family,stop,neck\n"a\x1b[31mred\x07",viola,220,148\n'},
    'wrong-strings': {
        'instruments.csv': b'name,family,strings,stop,neck\nx,viola,own,220,148\n',
        'strings.csv': b'name,set,note,material,linear_density,diameter,wrap1_shape,'
                       b'wrap1_thickness\na,own,A4,gutt,,0.7,,\nb,own,A4,,0.46,,,\n'
                       b'c,own,A4,,0.5,,,\nd,own,H4,,0.46,,,\ne,own,C3,,0,,square,0\n',
        'tunings.csv': b'name,notes\nviola,C3 G3 D4 A4 A4\nnone,\n',
        'players.csv': b'name,stature,upper_arm\ntern,,312\n',
        'families.csv': b'name,held,frame_semitones,positions\nviola,lap,5,4 2 1\n'},
    'unsure-family': {
        'instruments.csv': b'name,family,stop,neck,body\nx,own,220,148,410\n',
        'tunings.csv': b'name,notes\nown,C3 G3 D4 A4\n',
        'families.csv': b'name,held,frame_semitones,positions,back_arch,overstand,board,board_nut,'
                        b'nut,arch,edge,projection,bridge,saddle,hollow,clearance_high_offset,'
                        b'clearance_low_offset,behind_nut,source\n'
                        b'own,chin,4,2 4 5,13,8 \xc2\xb1 1,9.6,7.8,0.5,13.5,4.2,32,39,5,1,-1,1,45,'
                        b'invented\n'},
}


class Question:
    """A command line for the program: NAME=VALUE words for its environment, then its arguments;
    `given` are files that stand in its folder beforehand."""

    def __init__(self, shop, words, given=None):
        self.shop, self.given, self.words = shop or 'built-in', given or {}, list(words)
        self.name = '%s/%s' % (self.shop, slug(words))
        if shop:
            self.words += ['--shop', shop]

    def command(self):
        return next((word for word in self.words if '=' not in word), '')


def slug(words):
    """The words as the name of a file: --output FILE.svg leaves its ending alone."""
    text = '-'.join(ALIASES.get(word, word) for word in words).replace('--output-drawing.', '-as-')
    for long, short in ALIASES.items():
        text = text.replace(long, short)
    return re.sub(r'[^A-Za-z0-9.,=+%@#-]+', '_', text).strip('-') or 'nothing'


def read_table(text):
    """Command lines, one in a line; words in single quotes may hold blanks."""
    for line in text.strip().split('\n'):
        words = [quoted or bare for quoted, bare in re.findall(r"'([^']*)'|(\S+)", line)]
        if words and not words[0].startswith('#'):
            yield words


def of_each_instrument(shop, lengths, player):
    """What is asked of every instrument of a shop, in turn text, CSV, JSON, drawing, dossier."""
    for name, length in lengths.items():
        near = '%d..%d' % (length + 1, length + 4)
        far = '%d..%d' % (length - 6, length - 2)
        alone = name in STRING_ALONE
        changes = ['string_length=+3'] if alone else ['neck=+4', 'stop=-3']
        yield from ([
            ['lengths', name],
            ['lengths', name, '--working', '--format', 'json'],
            ['tension', name, '--feel'],
            ['tension', name, '--feel', '--working', '--format', 'json'],
            ['fingers', name, '--true'],
            ['fingers', name, '--true', '--working', '--format', 'json'],
            ['change', name] + changes + ['--working'],
            ['neck', name, '--string-length', near],
            ['stop', name, '--string-length', far, '--ratio', '2:2.9..2:3.1', '--format', 'json'],
            ['restring', name, '--working'],
            ['reach', name, '--player', player, '--working'],
            ['dossier', name, '--output', 'drawing.html'],
            ['lengths', name, '--output', 'drawing.svg'],
            ['tension', name, '--output', 'drawing.svg'],
        ])
        if shop == 'demo':
            yield from ([
                ['lengths', name, '--format', 'csv'],
                ['tension', name, '--format', 'csv', '--feel'],
                ['fingers', name, '--format', 'csv'],
                ['change', name] + changes + ['--feel', '--format', 'json'],
                ['neck', name, '--like', 'heron', '--working', '--format', 'json'],
                ['restring', name, '--format', 'json', '--like', 'kestrel'],
                ['fingers', name, '--output', 'drawing.svg'],
                ['sheet', name, '--output', 'drawing.svg'],
            ])


# Every option, on the demonstration.
OF_THE_DEMONSTRATION = """
check
check --format csv
check --format json
lengths
lengths --format csv
lengths --format json
lengths --inches
lengths heron kestrel wren
lengths heron kestrel --working --inches
lengths heron --hold slope --working
lengths swift nightjar --output drawing.svg
find --like heron
find --like heron family=any --full
find --like heron --format csv
find --like heron --format json
find family=viola string_length=360..370 --sort -stop
find string_length=900.. --like heron
find price=..20000
lengths kestrel --output drawing.txt
lengths kestrel --output drawing.csv
lengths kestrel --output drawing.json
lengths kestrel --inches --output drawing.svg
lengths kestrel --output drawing.png
tension --every
tension --every --format csv
tension --every --format json --feel
tension kestrel
tension kestrel --working
tension kestrel --feel --working
tension kestrel --a4 415
tension kestrel --a4 500
tension kestrel --fifths equal --working
tension kestrel --inches --force-unit lbf --feel
tension kestrel --force-unit kgf --format csv
tension heron kestrel wren --force-unit kgf
tension heron kestrel --format json --working
tension kestrel --a4 415 --fifths equal --steps just --hold slope --feel --working
tension kestrel --feel --bow-speed 0.4 --bow-distance 20 --friction 0.6 --bridge-resistance 500
tension kestrel --feel --bridge-resistance 500 --working --format json
tension warbler nightjar --output drawing.svg
tension kestrel --force-unit lbf --inches --output drawing.svg
tension kestrel --output drawing.pdf
fingers --every
fingers --every --format csv
fingers --every --format json --true
fingers kestrel
fingers kestrel --inches --true
fingers kestrel --steps pythagorean
fingers kestrel --steps just --fifths equal --working
fingers kestrel --working
fingers heron kestrel --format csv --true
fingers heron kestrel --output drawing.svg
fingers heron kestrel
fingers kestrel --a4 415 --fifths equal --steps just --hold slope --inches --force-unit kgf --true --working
scale heron body=395
scale heron body=395 --string-length 372..376 --format json
scale swift body=310 --full
scale heron body=370 --working
scale heron body=395 --output drawing.svg
compare heron kestrel
compare heron kestrel --feel --working
compare heron kestrel --format csv
compare heron kestrel --format json --feel --working
compare heron kestrel wren dipper bittern
compare heron dipper bittern --format csv
compare heron dipper bittern --output drawing.svg
compare kestrel wren --inches --force-unit lbf
compare kestrel wren --inches --force-unit lbf --output drawing.svg
compare heron kestrel --hold slope --a4 442 --steps just
compare wren kestrel --output drawing.svg
compare swift nightjar --feel --bow-speed 0.3 --bow-distance 25
compare heron kestrel --a4 415 --fifths equal --steps just --hold slope --feel --bow-speed 0.3 --bow-distance 25 --friction 0.4 --bridge-resistance 500 --working
change kestrel neck=151
change kestrel neck=+6 stop=-3 --format csv
change kestrel neck=+6 stop=-3 --hold slope
change kestrel neck=+6 stop=-3 --output drawing.svg
change kestrel neck=+1/4in --inches
change kestrel 'neck=151 ±0.4' --working --format json
change kestrel 'strings=viola synthetic long' --feel
change kestrel 'tuning=octave viola'
change kestrel 'tuning=octave violin' 'strings=octave violin synthetic' --force-unit kgf
change kestrel projection=33 bridge=40 saddle=+2 overstand=9 board=10
change kestrel clearance_low=6 clearance_high=4 hollow=+0.3 board_length=300
change heron body=-5 arch=+1 edge=4.5
change dipper string_length=365
change kestrel neck=+4 --a4 415 --fifths equal --steps just --hold slope --inches --force-unit kgf --feel --bow-speed 0.3 --bow-distance 25 --friction 0.4 --bridge-resistance 500 --working
neck kestrel --like heron
neck kestrel --like heron --format csv
neck kestrel --like heron --hold slope --feel
neck kestrel --like heron --inches --force-unit lbf
neck kestrel --like heron --working
neck kestrel --like heron --left-reach ..552
neck kestrel --like heron --left-reach ..560
neck kestrel --like heron --body-note 8.4..9.0
neck kestrel --string-length 368..376
neck kestrel --string-length 368..
neck kestrel --string-length '14.5in..14.7in' --inches
neck kestrel --string-length 372..376 --left-reach ..560 --format csv
neck kestrel --string-length 372..376 --left-reach ..560 --format json --working
neck kestrel --ratio 2:2.9..2:3.1
neck kestrel --body-note 8.8..9.2 --working
neck kestrel --left-reach 540..548
neck kestrel --tension A4=45..50
neck kestrel --tension A4=45..50 --tension C3=..60 --feel --working
neck kestrel --tension 95%..105%
neck kestrel --tension 95%..105% --like heron
neck kestrel --tension A4=98%..102% --format json
neck kestrel --total-tension ..190
neck kestrel --belly-force ..80
neck kestrel --belly-force 60..70 --total-tension 150..160 --ratio 2:3..2:3.05
neck kestrel --belly-force ..16lbf --force-unit lbf
neck kestrel --like heron --a4 430 --fifths equal --steps pythagorean
neck kestrel --like heron --a4 415 --fifths equal --steps just --hold slope --feel --bow-speed 0.3 --bow-distance 25 --friction 0.4 --bridge-resistance 500 --working
neck kestrel --like heron --output drawing.svg
neck kestrel --like heron --left-reach ..552 --output drawing.svg
neck kestrel --like heron --inches --output drawing.pdf
stop kestrel --like wren
stop kestrel --string-length 368..372
stop kestrel --string-length 368..372 --format csv --working
stop kestrel --string-length 368..372 --working
stop kestrel --string-length 368..372 --hold slope --inches
stop kestrel --ratio 2:2.95..2:3.05 --body-note 8..9 --left-reach ..560
stop kestrel --tension 90%..98% --total-tension ..200 --belly-force ..85
stop kestrel --string-length 368..372 --output drawing.svg
stop bittern --string-length 680..690 --tension A3=..180 --feel
stop kestrel --string-length 368..372 --a4 415 --fifths equal --steps just --hold slope --inches --force-unit kgf --feel --bow-speed 0.3 --bow-distance 25 --friction 0.4 --bridge-resistance 500 --working
restring kestrel
restring kestrel --format csv
restring kestrel --runners-up 1 --format csv
restring kestrel --runners-up 16 --format json
restring kestrel --runners-up 0 --working
restring kestrel --from 'viola steel'
restring kestrel --from 'viola gut long' --working --format json
restring kestrel --any-length
restring kestrel --any-length --margin 3 --belly-force ..75
restring kestrel --margin 0
restring kestrel --margin 5
restring kestrel --tension A4=42..45
restring kestrel --tension 95%..105% --tension C3=..50
restring kestrel --tension A4=200..210
restring kestrel --belly-force ..68
restring kestrel --belly-force ..68 --force-unit lbf --inches
restring kestrel --belly-force ..68 --working --format json
restring kestrel --belly-force ..10 --format csv
restring kestrel --like heron
restring kestrel --like heron --feel-by impedance --working
restring kestrel --like heron --feel-by tension --format csv
restring kestrel --like heron --feel-by impedance --bow-speed 0.3 --friction 0.4 --format json
restring kestrel --like heron --packet A4=50@370
restring kestrel --packet A4=55@370 --packet C3=50@375@415 --working
restring kestrel --packet A4=12lbf@14.5in --inches --force-unit lbf
restring kestrel neck=+6 stop=-3
restring kestrel neck=156 'tuning=octave viola' --any-length
restring kestrel 'strings=viola steel' --format json
restring kestrel --a4 466 --fifths equal
restring kestrel --a4 415 --fifths equal --steps just --hold slope --bow-speed 0.3 --bow-distance 25 --friction 0.4 --bridge-resistance 500 --any-length --working
restring dipper --like kestrel --belly-force ..80
restring warbler --any-length --belly-force ..80 --runners-up 5
restring bittern --from 'cello gut' --belly-force ..300
restring kestrel --output drawing.txt
map kestrel --like heron
map kestrel --like heron --output drawing.svg
map kestrel neck=+9 --string-length 370..380 --ratio 2:2.9..2:3.1 --format json
map --format csv
map bittern --output drawing.svg
reach kestrel heron --player small
reach kestrel heron --player middle --format csv
reach kestrel heron wren --player tall --format json --working
reach kestrel heron --player middle --inches --working
reach bittern --player tall --format csv
reach swift dipper --player small
reach kestrel --player middle --a4 415 --fifths equal --steps just --hold slope --inches --force-unit kgf --working
template heron --output drawing.svg
template kestrel neck=150 --paper letter --date 2024-05-31 --output drawing.pdf
template bittern --inches --output drawing.svg
sheet heron kestrel --output drawing.svg
sheet heron kestrel --output drawing.pdf
sheet heron --paper letter --output drawing.pdf
sheet heron --marks tapes --added --output drawing.svg
sheet length=690 'family=bass viol' --steps quarter-comma --output drawing.svg
sheet kestrel --true --output drawing.svg
sheet bittern --steps just --inches --output drawing.svg
sheet heron --a4 415 --fifths equal --steps just --hold slope --inches --force-unit kgf --output drawing.svg
dossier kestrel --like heron --output drawing.html
dossier kestrel --like heron --left-reach ..552 --output drawing.html
dossier kestrel --string-length 368..372 --tension 95%..105% --inches --force-unit lbf --output drawing.html
dossier kestrel wren --output drawing.html
dossier kestrel --ratio 2:3..2:3.05 --total-tension 150..160 --belly-force 60..70 --body-note 8..9 --output drawing.html
dossier heron kestrel swift dipper --a4 415 --fifths equal --steps pythagorean --hold slope --output drawing.html
"""

# What the shop of awkward cases shows beside that.
OF_THE_AWKWARD = """
check
check --format csv
check --format json
lengths
lengths --format csv
lengths --format json
lengths --inches
tension --every --feel
tension --every --feel --format csv
tension --every --format json
tension --every --a4 415 --force-unit lbf
fingers --every --format csv --true
fingers --every --format json
fingers five seven one --steps just --fifths equal
fingers sure --inches --working
tension sure --inches --force-unit kgf --working
tension sure --feel --bridge-resistance 400 --working
tension knee --hold slope
compare sure disagreeing
compare sure disagreeing --feel --working
compare sure disagreeing --format csv
compare sure five 'string alone' knee --format json --working
compare 'Quill, the "old" one' شحرور 'うぐいす 鶯' 'Żółw & <b>co</b>'
compare 'Quill, the "old" one' شحرور 'うぐいす 鶯' 'Żółw & <b>co</b>' --output drawing.svg
compare five seven one
compare inches 'low action' arched breaking --inches --force-unit lbf
compare 'no family' tapered --output drawing.svg
change sure neck=+2
change sure 'neck=151 ±0.2' 'stop=220 ±0.2' --working
change sure 'strings=naïve ‘größe’' --feel
change disagreeing neck=+4 --hold slope
change disagreeing string_length=376
change five 'strings=own viola' tuning=viola --format csv
change 'Quill, the "old" one' neck=+2 --output drawing.svg
neck sure --like disagreeing
neck sure --like disagreeing --working
neck sure --like disagreeing --format csv
neck sure --tension 95%..105% --belly-force ..95 --total-tension ..230 --feel
neck sure --tension A4=40..60 --body-note 8.6..9.0 --left-reach ..556 --working --format json
neck sure --string-length 380..384 --left-reach ..550
neck sure --string-length 372..376 --output drawing.svg
neck knee --tension 98%..102% --total-tension 400..700
neck disagreeing --ratio 2:2.9..2:3 --hold slope
neck 'Quill, the "old" one' --like شحرور
neck 'Quill, the "old" one' --like شحرور --output drawing.svg
neck five --tension G3=40..50
neck 'no family' --left-reach ..560
neck tapered --left-reach ..545 --body-note 9..9.2 --ratio 2:2.9..2:3
stop sure --like tapered --tension 95%..105%
stop sure --body-note 8.7..8.9 --belly-force 80..95 --working --format json
stop knee --body-note 8.9..9.1 --hold slope --format csv
stop inches --string-length 12.9in..13in --inches
restring sure --any-length
restring sure --any-length --belly-force ..90 --runners-up 6
restring sure --like 'string alone' --feel-by impedance --format json --working
restring sure --packet A4=55@370 --packet D4=50@375@415 --any-length --margin 2
restring 'Quill, the "old" one' --from 'naïve ‘größe’'
restring 'Quill, the "old" one' --any-length --format csv
restring five --any-length --tension E5=60..75
restring sure --tension A4=98%..101% --belly-force ..40
restring breaking --margin 0
sheet five seven --output drawing.svg
template five --output drawing.svg
sheet 'Quill, the "old" one' 'うぐいす 鶯' --output drawing.svg
dossier sure --like disagreeing --output drawing.html
dossier sure --string-length 380..384 --left-reach ..550 --output drawing.html
dossier knee --tension 98%..102% --body-note 8.9..9.1 --inches --force-unit kgf --output drawing.html
dossier sure five 'string alone' knee --output drawing.html
dossier 'Quill, the "old" one' شحرور 'うぐいす 鶯' 'Żółw & <b>co</b>' --output drawing.html
"""

# Help, wrong use, what cannot be answered: of the demonstration in the program.
OF_NO_SHOP = """
--help
--version
lengths --version
lengths heron
lengths
lenghts
banana
LENGTHS dipper
lengths --formt csv
lengths --like heron
lengths --format
lengths --format xml
lengths --fifths tempered
lengths --steps odd
lengths --hold on
lengths --force-unit stone
lengths --a4 -3
lengths --a4 abc
lengths --shop nowhere
lengths --output nowhere/there.csv
lengths -- --like
tension
tension kestrell
tension albatross
tension kestrel --every
tension kestrel --feel --bow-speed 0
tension kestrel --feel --bow-distance 400
tension kestrel --output drawing.bmp
fingers albatross
fingers --true
compare kestrel
change
change kestrel
change kestrel neck
change kestrel nek=+4
change kestrel wood=maple
change kestrel neck=long
change kestrel neck=-200
change kestrel strings=nylon
change kestrel tuning=lute
change dipper neck=+4
change kestrel bridge=31
change kestrel stop=+60 --hold slope
neck
neck kestrel
neck kestrel heron --like heron
neck kestrel --like nobody
neck kestrel --string-length 370
neck kestrel --string-length 376..368
neck kestrel --string-length ..
neck kestrel --ratio 2.9..3.1
neck kestrel --tension 50..58
neck kestrel --tension X4=50..58
neck kestrel --tension E5=50..58
neck bittern --left-reach ..560
neck dipper --string-length 350..360
neck kestrel --string-length 900..1000
stop kestrel --string-length 20..30
restring
restring nobody
restring kestrel --from nylon
restring kestrel --margin -1
restring kestrel --runners-up 17
restring kestrel --runners-up 1.5
restring kestrel --feel-by impedance
restring kestrel --like heron --feel-by weight
restring kestrel --belly-force 50..90
restring kestrel --packet A4=50
restring kestrel --packet A4@370
restring kestrel --packet E5=50@370
restring kestrel --output drawing.svg
reach heron
reach heron --player smal
reach heron --player Methuselah
reach --player small
reach heron --player small --output drawing.pdf
sheet
sheet heron
template
template heron
template dipper --output drawing.pdf
template heron kestrel --output drawing.pdf
template heron --date today --output drawing.pdf
sheet heron kestrel wren --output drawing.pdf
sheet heron --paper a5 --output drawing.pdf
sheet heron --marks frets --output drawing.svg
fingers heron --fret 1=low
dossier heron
dossier heron wren --like kestrel --output drawing.html
dossier heron --output drawing.txt
check now
check --output drawing.svg
start
start my-shop
start my-shop other
MENSUR_SHOP=tabs lengths
MENSUR_SHOP=nowhere lengths
"""
COMMANDS = ['start', 'check', 'lengths', 'tension', 'fingers', 'compare', 'change', 'scale', 'neck',
            'stop', 'restring', 'reach', 'map', 'sheet', 'template', 'dossier']


def all_questions():
    questions = [Question('demo', words)
                 for words in [*of_each_instrument('demo', DEMO, 'middle'),
                               *read_table(OF_THE_DEMONSTRATION)]]
    questions += [Question('awkward', words)
                  for words in [*of_each_instrument('awkward', AWKWARD, 'sure'),
                                *read_table(OF_THE_AWKWARD)]]
    questions += [Question('awkward', ['reach', 'sure', 'inches', 'no family', '--player', player])
                  for player in PLAYERS]
    for shop in SHOPS:
        questions += [Question(shop, ['check']), Question(shop, ['lengths', '--format', 'json'])]
    questions += [Question('unsure-family', ['reach', 'x', '--player', 'tall']),
                  Question('decimal-comma', ['lengths', 'mine', '--working'])]
    questions += [Question(None, []), *(Question(None, words) for words in read_table(OF_NO_SHOP))]
    questions += [Question(None, [command, '--help']) for command in COMMANDS]
    questions += [Question(None, ['manual'] + kind) for kind in (['man'], ['bash'], ['zsh'], [])]
    there = {'there.csv': b'mine\n'}
    questions += [
        Question(None, ['lengths', '--output', 'there.csv'], there),
        Question(None, ['lengths', '--output', 'there.csv', '--overwrite'], there),
        Question(None, ['start', 'taken'], {'taken/players.csv': b'name\n'}),
        Question(None, ['start', 'taken', '--overwrite'], {'taken/players.csv': b'name\n'}),
    ]
    names = [question.name for question in questions]
    twice = {name for name in names if names.count(name) > 1}
    if twice:
        raise SystemExit('asked twice: ' + ', '.join(sorted(twice)))
    return questions


class Place:
    """A scratch folder with the shops, in which questions are asked."""

    def __enter__(self):
        self.scratch = tempfile.mkdtemp(prefix='frozen-')
        self.shops = os.path.join(self.scratch, 'shops')
        shutil.copytree(DEMONSTRATION, os.path.join(self.shops, 'demo'))
        shutil.copytree(os.path.join(HERE, 'awkward'), os.path.join(self.shops, 'awkward'))
        for shop, files in SHOPS.items():
            write_files(os.path.join(self.shops, shop), files)
        return self

    def __exit__(self, *_):
        shutil.rmtree(self.scratch)

    def ask(self, program, question):
        """{file: bytes} of one question, asked in a folder of its own."""
        folder = tempfile.mkdtemp(dir=self.scratch)
        for shop in os.listdir(self.shops):
            os.symlink(os.path.join('..', 'shops', shop), os.path.join(folder, shop))
        write_files(folder, question.given)
        environment = {key: value for key, value in os.environ.items()
                       if key not in ('MENSUR_SHOP', 'LANGUAGE', 'COLUMNS')}
        environment['LC_ALL'] = 'C.UTF-8'
        words = list(question.words)
        while words and re.match(r'[A-Z_]+=', words[0]):
            environment.update([words.pop(0).split('=', 1)])
        if words[:1] == ['manual']:
            command = [os.path.join(os.path.dirname(program), 'manual')] + words[1:]
        else:
            command = [program] + words
        try:
            done = subprocess.run(command, cwd=folder, env=environment, stdin=subprocess.DEVNULL,
                                  capture_output=True, timeout=SECONDS)
            code, out, err = done.returncode, done.stdout, done.stderr
            ended = 'signal %d' % -code if code < 0 else '%d' % code
        except subprocess.TimeoutExpired:
            ended, out, err = 'no end within %d s' % SECONDS, b'', b''
        said = b'$ %s\n? %s\n--- standard output\n%s--- standard error\n%s' % (
            ' '.join(map(shown_word, question.words)).encode(), ended.encode(), out, err)
        files = {question.name + '.txt': said}
        for path, data in read_files(folder):
            if data != question.given.get(path):
                files['%s.%s' % (question.name, path.replace('/', '-'))] = data
        for path, data in files.items():
            if os.path.basename(self.scratch).encode() in data:
                raise SystemExit('%s names the folder in which it was asked' % path)
        return files

    def ask_all(self, program, questions):
        """{question: {file: bytes}}"""
        with ThreadPoolExecutor(os.cpu_count()) as pool:
            answers = pool.map(lambda question: self.ask(program, question), questions)
            return {question.name: files for question, files in zip(questions, answers)}


def shown_word(word):
    return word if re.fullmatch(r'[\w.,:=+%@-]+', word) else "'%s'" % word


def write_files(folder, files):
    for path, data in files.items():
        path = os.path.join(folder, path)
        os.makedirs(os.path.dirname(path), exist_ok=True)
        with open(path, 'wb') as file:
            file.write(data)


def read_files(folder):
    """(relative path, bytes) of every file, links to folders not followed."""
    for inside, folders, names in os.walk(folder):
        folders.sort()
        for name in sorted(names):
            path = os.path.join(inside, name)
            with open(path, 'rb') as file:
                yield os.path.relpath(path, folder), file.read()


def read_answers(folder, questions):
    """The answers in a folder by question; what belongs to no question is one of its own."""
    answers, names = {}, {question.name for question in questions}
    for path, data in read_files(folder):
        parts = path.split('.')
        starts = ('.'.join(parts[:count]) for count in range(len(parts) - 1, 0, -1))
        name = next((start for start in starts if start in names), path)
        answers.setdefault(name, {})[path] = data
    return answers


def difference(path, before, after):
    """Lines that show how a file differs; control characters as their numbers."""
    if before is None or after is None:
        return ['%s: only %s' % (path, 'after' if before is None else 'before')]
    if b'\0' in before + after or path.endswith('.pdf'):
        at = next((i for i, pair in enumerate(zip(before, after)) if pair[0] != pair[1]),
                  min(len(before), len(after)))
        return ['%s: %d bytes before, %d after, differ from byte %d on' % (
            path, len(before), len(after), at)]
    sides = [data.decode(errors='backslashreplace').split('\n') for data in (before, after)]
    lines = list(difflib.unified_diff(*sides, 'before/' + path, 'after/' + path, lineterm=''))
    more = len(lines) - DIFF_LINES
    lines = lines[:DIFF_LINES] + (['[%d lines more]' % more] if more > 0 else [])
    return [re.sub(r'[\x00-\x1f\x7f-\x9f]', lambda c: '\\x%02x' % ord(c[0]), line)
            for line in lines] or [path + ': the bytes differ']


def compare(before, after, allowed=(), say=print):
    """Says what differs, and returns the names of the questions that do; `allowed` are pairs of a
    pattern and a reason."""
    names, differing, listed = sorted(set(before) | set(after)), [], []
    for name in names:
        one, other = before.get(name, {}), after.get(name, {})
        if one == other:
            continue
        reason = next((why for glob, why in allowed if fnmatch.fnmatchcase(name, glob)), None)
        if reason is not None:
            listed.append('%s: %s' % (name, reason))
            continue
        differing.append(name)
        for path in sorted(set(one) | set(other)):
            if one.get(path) != other.get(path):
                say('\n'.join(difference(path, one.get(path), other.get(path))))
    for line in listed:
        say('as listed: ' + line)
    for glob, _ in allowed:
        if not any(fnmatch.fnmatchcase(line.split(': ')[0], glob) for line in listed):
            say('listed, and nothing differs: ' + glob)
    if allowed:
        say('%d differ as listed' % len(listed))
    say('%d questions, %d differ' % (len(names), len(differing)))
    return differing


def read_allowed(path):
    allowed = []
    with open(path, encoding='utf-8') as file:
        for number, line in enumerate(file, 1):
            words = line.split(None, 1)
            if not words or words[0].startswith('#'):
                continue
            if len(words) < 2:
                raise SystemExit('%s:%d: a pattern without its reason' % (path, number))
            allowed.append((words[0], words[1].strip()))
    return allowed


# Changes one byte of standard output (tension), of standard error (reach) and of a file (dossier),
# and the exit code (check); the other commands are passed through.
PASSING = """#!/bin/sh
case ${1-} in
tension | reach | check | dossier) exec '%s' "${0%%/*}/change.py" '%s' "$@" ;;
*) exec '%s' "$@" ;;
esac
"""
CHANGING = """import os, subprocess, sys
done = subprocess.run(sys.argv[1:], stdin=subprocess.DEVNULL, capture_output=True)
out, err, code, command = done.stdout, done.stderr, done.returncode, sys.argv[2]
if command == 'tension' and out:
    out = out[:-1] + bytes([out[-1] ^ 1])
if command == 'reach':
    err += b'!'
if command == 'check':
    code += 1
if command == 'dossier' and os.path.exists('drawing.html'):
    with open('drawing.html', 'r+b') as file:
        file.seek(100)
        file.write(b'\\0')
sys.stdout.buffer.write(out)
sys.stderr.buffer.write(err)
sys.exit(code)
"""


def self_test(place, program, questions):
    """The program beside itself, beside one that changes bytes, and against a folder that was
    changed: what differs is what was changed.  Returns the exit code."""
    said, faults = [], []
    first = place.ask_all(program, questions)

    def expect(what, before, after, wanted, last_line, allowed=()):
        del said[:]
        got = compare(before, after, allowed, said.append)
        good = got == sorted(wanted) and said[-1] == last_line
        print('%s: %s' % (what, said[-1] if good else 'NOT AS IT SHOULD BE: %s' % said[-1]))
        if not good:
            faults.append(what)
            print('\n'.join(sorted(set(got) ^ set(wanted))))

    count = len(questions)
    expect('beside itself', first, place.ask_all(program, questions), [],
           '%d questions, 0 differ' % count)

    changing = os.path.join(place.scratch, 'changing')
    os.mkdir(changing)
    os.symlink(os.path.join(os.path.dirname(program), 'manual'), os.path.join(changing, 'manual'))
    path = os.path.join(changing, 'mensur')
    write_files(changing, {
        'mensur': (PASSING % (sys.executable, program, program)).encode(),
        'change.py': CHANGING.encode()})
    os.chmod(path, 0o755)

    def changes(question):
        files, command = first[question.name], question.command()
        return command in ('reach', 'check') or \
            command == 'tension' and b'output\n--- ' not in files[question.name + '.txt'] or \
            command == 'dossier' and question.name + '.drawing.html' in files

    wanted = [question.name for question in questions if changes(question)]
    if {name.split('/')[1].split('-')[0] for name in wanted} != {
            'tension', 'reach', 'check', 'dossier'}:
        faults.append('the questions do not hold the four commands that are changed')
    expect('beside a program that changes bytes', first, place.ask_all(path, questions), wanted,
           '%d questions, %d differ' % (count, len(wanted)))

    folder = os.path.join(place.scratch, 'kept')
    for files in first.values():
        write_files(folder, files)
    expect('against a folder', read_answers(folder, questions), first, [],
           '%d questions, 0 differ' % count)
    write_files(folder, {'demo/stray.txt': b'', wanted[0] + '.txt': b''})
    os.remove(os.path.join(folder, wanted[1] + '.txt'))
    changed = ['demo/stray.txt', wanted[0], wanted[1]]
    expect('against a changed folder', read_answers(folder, questions), first, changed,
           '%d questions, 3 differ' % (count + 1))
    expect('with differences allowed', read_answers(folder, questions), first, changed[1:],
           '%d questions, 2 differ' % (count + 1), [('*/stray*', 'left there')])
    if '1 differ as listed' not in said:
        faults.append('what is listed is not counted')
    return 1 if faults else 0


def main():
    parser = argparse.ArgumentParser(description=__doc__,
                                     formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument('program')
    parser.add_argument('folder', nargs='?')
    parser.add_argument('--against', metavar='FOLDER')
    parser.add_argument('--beside', metavar='OTHER')
    parser.add_argument('--self-test', action='store_true')
    parser.add_argument('--list', action='store_true')
    parser.add_argument('--only', metavar='GLOB', action='append')
    parser.add_argument('--except', metavar='FILE', dest='allowed')
    asked = parser.parse_args()
    uses = (asked.folder, asked.against, asked.beside, asked.self_test, asked.list)
    if sum(map(bool, uses)) != 1:
        parser.error('give one of FOLDER, --against, --beside, --self-test, --list')
    allowed = read_allowed(asked.allowed) if asked.allowed else []

    def chosen(name):
        return not asked.only or any(fnmatch.fnmatchcase(name, glob) for glob in asked.only)

    questions = [question for question in all_questions() if chosen(question.name)]
    if asked.list:
        for question in questions:
            print(question.name, *map(shown_word, question.words))
        return 0
    for program in filter(None, (asked.program, asked.beside)):
        for path in (program, os.path.join(os.path.dirname(os.path.abspath(program)), 'manual')):
            if not os.access(path, os.X_OK):
                parser.error('%s is no program' % path)
    program = os.path.abspath(asked.program)
    if asked.folder and os.path.isdir(asked.folder) and os.listdir(asked.folder):
        parser.error('%s is not empty' % asked.folder)
    if asked.against and not os.path.isdir(asked.against):
        parser.error('%s is no folder' % asked.against)
    with Place() as place:
        if asked.self_test:
            return self_test(place, program, questions)
        answers = place.ask_all(program, questions)
        if asked.folder:
            for files in answers.values():
                write_files(asked.folder, files)
            print('%d questions, %d files' % (len(answers), sum(map(len, answers.values()))))
            return 0
        if asked.against:
            before = {name: files for name, files in read_answers(asked.against, questions).items()
                      if chosen(name)}
        else:
            before, answers = answers, place.ask_all(os.path.abspath(asked.beside), questions)
    return 1 if compare(before, answers, allowed) else 0


if __name__ == '__main__':
    sys.exit(main())
