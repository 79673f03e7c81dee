#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The pictures of the documents are what the documents' own commands make.

    pictures.py MENSUR SOURCE_ROOT [--write]

Every `mensur ... --output NAME.svg` in the console blocks of README.md and of the walkthroughs is
run and held against docs/pictures/NAME.svg: the same elements in the same order, the same words,
numbers within 0.001.  Also told: a picture that no command makes, one made in two ways, one that is
shown and not there, and one that is not shown.  With --write the pictures are made anew: look at
every one before it is kept.
"""
import os
import re
import shutil
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), '..', 'support'))
from same_text import same_text

DOCUMENTS = ['README.md', 'docs/maker.md', 'docs/player.md', 'docs/teacher.md']
LARGEST = 60000  # bytes
OUTPUT = re.compile(r'^mensur .*--output (\S+)\.svg\b')
SHOWN = re.compile(r'!\[([^\]]*)\]\((?:docs/)?pictures/([^)]+)\.svg\)')


def commands(text):
    """The commands of a document's console blocks, lines that go on joined."""
    for block in re.findall(r'^```console\n(.*?)^```', text, re.M | re.S):
        for line in block.replace('\\\n', '').split('\n'):
            if line.startswith('$ '):
                yield line[2:]


def difference(got, want, path):
    """Where two elements first differ; None where they are the same."""
    path = '%s/%s' % (path, want.tag.split('}')[-1])
    if got.tag != want.tag or set(got.attrib) != set(want.attrib) or len(got) != len(want):
        return path + ' is another or has other parts'
    for name in want.attrib:
        if not same_text(got.attrib[name], want.attrib[name]):
            return '%s %s="%s", wanted "%s"' % (path, name, got.attrib[name], want.attrib[name])
    if not same_text(got.text, want.text) or not same_text(got.tail, want.tail):
        return '%s says "%s", wanted "%s"' % (path, got.text, want.text)
    for i, pair in enumerate(zip(got, want)):
        found = difference(*pair, '%s[%d]' % (path, i))
        if found:
            return found
    return None


def make(program, command, folder):
    """The picture that a command makes in a fresh folder, or what went wrong."""
    words = command.replace('mensur', "'%s'" % program, 1)
    code = subprocess.run(['bash', '-c', words], cwd=folder, timeout=300,
                          stdin=subprocess.DEVNULL).returncode
    return 'exit %d' % code if code > 1 else None


def compare(made, kept):
    if not os.path.exists(kept):
        return 'is not there'
    if not os.path.exists(made):
        return 'was not made'
    if os.path.getsize(kept) > LARGEST:
        return 'is over %d bytes' % LARGEST
    return difference(ElementTree.parse(made).getroot(), ElementTree.parse(kept).getroot(), '')


def read(root):
    """{picture: [commands]} and {picture: [words in its place]} of the documents."""
    makers, shown = {}, {}
    for document in DOCUMENTS:
        with open(os.path.join(root, document), encoding='utf-8') as file:
            text = file.read()
        for command in commands(text):
            found = OUTPUT.match(command)
            if found:
                makers.setdefault(found[1], set()).add(command)
        for words, name in SHOWN.findall(text):
            shown.setdefault(name, []).append(words)
    return makers, shown


def faults_of(name, program, makers, shown, folder, write):
    faults = []
    with tempfile.TemporaryDirectory() as scratch:
        made, kept = os.path.join(scratch, name + '.svg'), os.path.join(folder, name + '.svg')
        if len(makers.get(name, [])) != 1:
            faults.append('%d commands make it' % len(makers.get(name, [])))
        else:
            faults.append(make(program, next(iter(makers[name])), scratch))
            if write and os.path.exists(made):
                shutil.copyfile(made, kept)
            faults.append(faults[0] or compare(made, kept))
    if not all(len(words.strip()) > 20 for words in shown.get(name, [''])):
        faults.append('is not shown, or without words in its place')
    return list(dict.fromkeys(fault for fault in faults if fault))


def main():
    program, root, write = os.path.abspath(sys.argv[1]), sys.argv[2], '--write' in sys.argv
    folder = os.path.join(root, 'docs', 'pictures')
    os.environ.pop('MENSUR_SHOP', None)
    makers, shown = read(root)
    there = {name[:-4] for name in os.listdir(folder) if name.endswith('.svg')}
    names = sorted(there | set(makers) | set(shown))
    bad = 0
    for number, name in enumerate(names, 1):
        faults = faults_of(name, program, makers, shown, folder, write)
        bad += bool(faults)
        print('%sok %d - %s%s' % ('not ' if faults else '', number, name,
                                  ': ' + '; '.join(faults) if faults else ''))
    print('1..%d' % len(names))
    return 1 if bad or not names else 0


sys.exit(main())
