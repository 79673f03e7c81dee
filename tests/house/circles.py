#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Finds circles of files inside a folder of src: one uses a function or variable that another
defines, and this one, or one that it uses, the first. A header belongs to the .c of its name."""
import collections
import os
import re
import sys

sys.dont_write_bytecode = True
from source import sources, tags_of

# Circles that are known and wait to be opened: folder, files without their ending. A circle that is
# not listed is a fault; so is a listed one that is gone or has other files.
KNOWN = [
]

# What holds no use: comments, strings, characters, and the names of members.
NO_CODE = re.compile(r'/\*.*?\*/|//[^\n]*|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\'', re.S)
WORD = re.compile(r'(?<![\w.])(?<!->)[A-Za-z_]\w*')


def words_of(path, bodies):
    """The words of the code; of a header, those of its macros and of its functions' lines alone, as
    what it declares is no use."""
    with open(path, encoding='utf-8') as file:
        code = NO_CODE.sub(lambda found: '\n' * found[0].count('\n') + ' ', file.read())
    macro = False
    for number, line in enumerate(code.split('\n'), 1):
        macro = macro or line.lstrip().startswith('#define')
        if macro or path.endswith('.c') or number in bodies:
            yield from WORD.findall(line)
        macro = macro and line.endswith('\\')


def uses_of(root, folder, paths, tags):
    """The names that a file uses of another, by (user, used): files without their ending."""
    home, bodies = {}, collections.defaultdict(set)
    for tag in tags:
        if os.path.dirname(tag.path) == folder:
            header = tag.path.endswith('.h')
            if tag.kind == 'function' and header:
                bodies[tag.path].update(range(tag.line, tag.line + tag.length))
            # not what only its own file sees, nor a variable that a header declares
            if (tag.kind == 'function' or not header) and (header or not tag.static):
                home[tag.name] = os.path.splitext(os.path.basename(tag.path))[0]
    home.pop('main', None)
    uses = collections.defaultdict(set)
    for path in paths:
        if os.path.dirname(path) == folder:
            user = os.path.splitext(os.path.basename(path))[0]
            for word in words_of(os.path.join(root, path), bodies[path]):
                if home.get(word, user) != user:
                    uses[user, home[word]].add(word)
    return uses


def circles_of(uses):
    """The sets of files each of which leads to each other."""
    leads = collections.defaultdict(set)
    for user, used in uses:
        leads[user].add(used)

    def reached(start):
        found, waiting = set(), [start]
        while waiting:
            for next_one in leads[waiting.pop()] - found:
                found.add(next_one)
                waiting.append(next_one)
        return found

    reach = {name: reached(name) for name in list(leads)}
    return {frozenset(other for other in reach[name] if name in reach.get(other, ()))
            for name in reach if name in reach[name]}


def main(root):
    paths = sources(root)
    tags = tags_of(root, paths)
    known = {(folder, frozenset(files.split())) for folder, files in KNOWN}
    found, faults, count = set(), [], 0
    for folder in sorted({os.path.dirname(path) for path in paths if path.startswith('src/')}):
        uses = uses_of(root, folder, paths, tags)
        count += len(uses)
        for circle in sorted(circles_of(uses), key=sorted):
            found.add((folder, circle))
            if (folder, circle) not in known:
                faults.append('%s: a circle of files: %s' % (folder, ' '.join(sorted(circle))))
                faults += ['    %s uses %s: %s' % (user, used, ' '.join(sorted(names)))
                           for (user, used), names in sorted(uses.items())
                           if user in circle and used in circle]
    faults += ['%s: listed as a circle and none any more: %s' % (folder, ' '.join(sorted(circle)))
               for folder, circle in sorted(known - found, key=str)]
    print('%d uses between files of one folder, %d circles, all of them known' % (count, len(found))
          if not faults else '\n'.join(faults))
    return 1 if faults or count < 100 else 0


sys.exit(main(sys.argv[1]))
