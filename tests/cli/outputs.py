#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every output that is a file: names of every kind in it, the same bytes twice, a file that is
already there, and a disk that is full.

    outputs.py MENSUR
"""
import base64
import hashlib
import os
import re
import resource
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree

NAMES = ['<b>&"\'x', 'ויולה גדולה (1)', 'كمان <script>alert(1)</script>',
         'é' + 'a\u0301\u0323' * 60, 'W' * 200, 'one word after the other, ' * 8 + 'two hundred',
         'a\u202eb', '日本語' * 30, '-- &amp; ]]>']
ROWS = ['viola,viola gut,410,214,144', 'viola,viola gut,410,222,150']
# Arguments before --output, and the endings that go with them; N and M are names.
COMMANDS = [(['compare', 'N', 'M'], 'svg pdf png'), (['change', 'N', 'neck=+4'], 'svg'),
            (['neck', 'N', '--like', 'M'], 'svg pdf'), (['stop', 'N', '--like', 'M'], 'svg'),
            (['lengths', 'N'], 'svg png'), (['lengths', 'N', 'M'], 'svg'),
            (['fingers', 'N'], 'svg'), (['tension', 'M', 'N'], 'svg'),
            (['sheet', 'N'], 'svg pdf'), (['sheet', 'N', 'M', '--paper', 'letter'], 'pdf'),
            (['template', 'N'], 'svg pdf'), (['template', 'M', '--paper', 'letter'], 'pdf'),
            (['dossier', 'N'], 'html'), (['dossier', 'N', 'M'], 'html'),
            (['dossier', 'N', '--like', 'M'], 'html')]
MENSUR = sys.argv[1]
number = bad = 0


def report(good, what, more=''):
    global number, bad
    number += 1
    bad += not good
    print('%s %d - %s%s' % ('ok' if good else 'not ok', number, what, '' if good else ': ' + more))


def run(arguments, path, *more, limit=None):
    def lessen():
        if limit is not None:
            resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))
    return subprocess.run([MENSUR] + arguments + ['--output', path] + list(more),
                          capture_output=True, text=True, preexec_fn=lessen)


def write_shop(folder):
    with open(os.path.join(folder, 'instruments.csv'), 'w', encoding='utf-8') as shop:
        shop.write('name,family,strings,body,stop,neck\n')
        for i, name in enumerate(NAMES):
            shop.write('"%s",%s\n' % (name.replace('"', '""'), ROWS[i % 2]))


def digest(path):
    with open(path, 'rb') as file:
        return hashlib.sha256(file.read()).hexdigest()


def check_policy(html):
    """'' or what is wrong with a page's policy: it names the hash of the one style sheet."""
    sheet = re.search(b'<style>(.*?)</style>', html, re.S).group(1)
    want = b"style-src 'sha256-" + base64.b64encode(hashlib.sha256(sheet).digest()) + b"'"
    ids = re.findall(b' id="([^"]*)"', html)
    if want not in html:
        return 'the policy does not name ' + want.decode()
    return '' if len(ids) == len(set(ids)) else 'an id stands twice'


def check_content(path):
    """'' or what is wrong with a file."""
    with open(path, 'rb') as file:
        content = file.read()
    if path.endswith('.svg'):
        ElementTree.fromstring(content)
    heads = {'pdf': b'%PDF', 'png': b'\x89PNG', 'svg': b'<svg', 'html': b'<!DOCTYPE html>'}
    if not content.startswith(heads[path.rsplit('.', 1)[1]]):
        return 'begins ' + repr(content[:20])
    if path.endswith('.html') and check_policy(content):
        return check_policy(content)
    return 'holds a script' if b'<script' in content else ''


def check_names(folder):
    for arguments, endings in COMMANDS:
        for ending in endings.split():
            faults = []
            for i, name in enumerate(NAMES):
                other = NAMES[(i + 1) % len(NAMES)]
                named = [{'N': name, 'M': other}.get(word, word) for word in arguments]
                named = named[:1] + ['--shop', folder] + named[1:]
                # A name that begins with a dash is no option behind "--"; none begins with one
                # letter alone.
                if any(word.startswith('-- ') for word in named):
                    continue
                path = os.path.join(folder, 'out.' + ending)
                done = run(named, path, '--overwrite')
                wrong = done.stderr if done.returncode > 1 else check_content(path)
                faults += [wrong] if wrong else []
            report(not faults, '%s to .%s with every name' % (' '.join(arguments), ending),
                   ' | '.join(faults))


def check_files(folder):
    for arguments, endings in COMMANDS:
        named = [{'N': 'kestrel', 'M': 'heron'}.get(word, word) for word in arguments]
        for ending in endings.split():
            what = '%s to .%s' % (' '.join(arguments), ending)
            path = os.path.join(folder, 'file.' + ending)
            first = run(named, path, '--overwrite')
            before = digest(path)
            taken = run(named, path)
            report(taken.returncode == 2 and 'already there' in taken.stderr
                   and digest(path) == before, what + ' leaves what is there', taken.stderr)
            again = run(named, path, '--overwrite')
            report(again.returncode == first.returncode and digest(path) == before,
                   what + ' is the same twice')
            full = run(named, path, '--overwrite', limit=2000)
            report(full.returncode != 0 and digest(path) == before
                   and os.listdir(folder) == [os.path.basename(path)],
                   what + ' on a full disk changes nothing',
                   '%d %s %s' % (full.returncode, full.stderr, os.listdir(folder)))
            os.remove(path)


def check_refusals(folder):
    for arguments, name in [(['sheet', 'heron'], 'x.png'), (['sheet', 'heron'], 'x.txt'),
                            (['sheet', 'heron', 'wren', 'swift'], 'x.pdf'),
                            (['sheet', 'heron', '--paper', 'a3'], 'x.pdf'),
                            (['template', 'heron'], 'x.png'), (['template'], 'x.pdf'),
                            (['template', 'heron', 'wren'], 'x.pdf'),
                            (['sheet'], 'x.pdf'), (['dossier'], 'x.html'),
                            (['dossier', 'heron'], 'x.txt'), (['lengths'], 'x.svg'),
                            (['tension', '--every'], 'x.svg'),
                            (['dossier', 'heron'], 'x.svg'),
                            (['sheet', 'heron', '--format', 'csv'], 'x.pdf')]:
        path = os.path.join(folder, name)
        done = run(arguments, path)
        report(done.returncode == 2 and done.stderr.startswith('mensur: ')
               and not os.path.exists(path), '%s to %s is wrong use' % (' '.join(arguments), name),
               '%d %s' % (done.returncode, done.stderr))


os.environ.pop('MENSUR_SHOP', None)
for check in (check_names, check_files, check_refusals):
    with tempfile.TemporaryDirectory() as place:
        if check is check_names:
            write_shop(place)
        check(place)
print('1..%d' % number)
sys.exit(1 if bad else 0)
