#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds drawings of the demonstration against golden ones, by content: the same elements in the
same order, the same words, numbers within 0.001.

    compare.py MENSUR GOLDEN_FOLDER [--write]

With --write the golden drawings are made anew: look at every one before it is kept.
"""
import os
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), '..', 'support'))
from same_text import same_text

CASES = {
    'compare': ['compare', 'heron', 'kestrel'],
    'compare-in-inches': ['compare', 'kestrel', 'wren', '--inches', '--force-unit', 'lbf'],
    'compare-string-alone': ['compare', 'heron', 'dipper', 'bittern'],
    'change': ['change', 'kestrel', 'neck=+6', 'stop=-3'],
    'lengths-one': ['lengths', 'kestrel'],
    'lengths-cello': ['lengths', 'bittern'],
    'lengths-two': ['lengths', 'swift', 'nightjar'],
    'fingers': ['fingers', 'bittern'],
    'tension': ['tension', 'warbler', 'nightjar'],
    'neck-met': ['neck', 'kestrel', '--like', 'heron'],
    'neck-unmet': ['neck', 'kestrel', '--like', 'heron', '--left-reach', '..552'],
    'stop-met': ['stop', 'kestrel', '--string-length', '368..372'],
    'map': ['map', 'kestrel', '--string-length', '370..380', '--ratio', '2:2.9..2:3.1'],
    'template': ['template', 'kestrel', 'neck=150', '--date', '2024-05-31'],
    'template-in-inches': ['template', 'swift', '--inches', '--date', '2024-05-31'],
    'restring': ['restring', 'kestrel', '--tension', 'A4=60..70N'],
    'restring-stays-full': ['restring', 'warbler', '--full'],
    'restring-belly-unknown': ['restring', 'length=690', 'family=bass viol', 'strings=bass viol gut'],
    'sheet': ['sheet', 'heron', 'kestrel'],
    'sheet_tapes': ['sheet', 'wren', '--marks', 'tapes', '--added'],
    'sheet_frets': ['sheet', 'length=690', 'family=bass viol', '--steps', 'quarter-comma'],
}


def difference(got, want, path):
    """Where two elements first differ; None where they are the same."""
    path = '%s/%s' % (path, want.tag.split('}')[-1])
    if got.tag != want.tag or set(got.attrib) != set(want.attrib):
        return path + ' is ' + got.tag
    for name in want.attrib:
        if not same_text(got.attrib[name], want.attrib[name]):
            return '%s %s="%s", wanted "%s"' % (path, name, got.attrib[name], want.attrib[name])
    if not same_text(got.text, want.text):
        return '%s says "%s", wanted "%s"' % (path, got.text, want.text)
    if len(got) != len(want):
        return '%s has %d parts, wanted %d' % (path, len(got), len(want))
    for i, pair in enumerate(zip(got, want)):
        found = difference(*pair, '%s[%d]' % (path, i))
        if found:
            return found
    return None


def main():
    mensur, golden, write = sys.argv[1], sys.argv[2], '--write' in sys.argv
    bad = 0
    os.environ.pop('MENSUR_SHOP', None)
    with tempfile.TemporaryDirectory() as folder:
        for number, (name, arguments) in enumerate(CASES.items(), 1):
            keep = os.path.join(golden, name + '.svg')
            path = keep if write else os.path.join(folder, name + '.svg')
            code = subprocess.run([mensur] + arguments + ['--output', path, '--overwrite']).returncode
            found = 'exit %d' % code if code > 1 else difference(
                ElementTree.parse(path).getroot(), ElementTree.parse(keep).getroot(), '')
            bad += found is not None
            print('%s %d - %s%s' % ('not ok' if found else 'ok', number, name,
                                    ': ' + found if found else ''))
    print('1..%d' % len(CASES))
    return 1 if bad else 0


sys.exit(main())
