#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds the words for columns in docs/measuring.md against the table of the reader: heads.py ROOT. Every word
of the one stands in the other, beside the same column."""
import os
import re
import sys

root = sys.argv[1]
LETTERS = {'ä': 'ae', 'ö': 'oe', 'ü': 'ue', 'ß': 'ss', 'é': 'e', 'è': 'e', 'ê': 'e'}


def fold(word):
    return re.sub('[ _-]+', '_', ''.join(LETTERS.get(letter, letter) for letter in word.lower()))


source = open(os.path.join(root, 'src/read/heads.c'), encoding='utf-8').read()
rows = re.findall(r'^    \{([^{"]*), "([^"]+)",\s+"([^"]+)"\},$', source, re.M)
read = {(fold(column), word) for _, word, column in rows}
told, columns = set(), None
for line in open(os.path.join(root, 'docs/measuring.md'), encoding='utf-8'):
    cells = [cell.strip() for cell in line.strip().strip('|').split('|')]
    if line.startswith('| column | is also read as'):
        columns = True
    elif columns and not line.startswith('|'):
        columns = None
    elif columns and not cells[0].startswith('---'):
        told |= {(fold(cells[0]), fold(word.strip())) for word in cells[1].split(',')}
    elif columns is None and line.startswith('| word | may mean'):
        columns = False
    elif columns is False and not line.startswith('|'):
        columns = None
    elif columns is False and not cells[0].startswith('---'):
        told |= {(fold(cells[1]), fold(word.strip())) for word in cells[0].split(',')}
for column, word in sorted(read ^ told):
    print('%s for %s: only in %s' % (word, column, 'heads.c' if (column, word) in read else 'docs/measuring.md'))
print('%d words for columns' % len(read))
sys.exit(1 if read != told or len(read) < 100 else 0)
