#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The sources that a page is built from, as one SHA-256: over the sorted lines "sha256  path" of every
file in src (but src/cli, src/library and src/paper), include, strings and shared, and of meson.build.

    sources.py TOP"""
import hashlib
import os
import sys

FOLDERS = ('include', 'shared', 'src', 'strings')
ELSEWHERE = ('src/cli', 'src/library', 'src/paper')


def files(top):
    yield 'meson.build'
    for folder in FOLDERS:
        for path, folders, names in os.walk(os.path.join(top, folder)):
            inside = os.path.relpath(path, top).replace(os.sep, '/')
            folders[:] = [one for one in folders
                          if one != '__pycache__' and '%s/%s' % (inside, one) not in ELSEWHERE]
            for name in names:
                yield '%s/%s' % (inside, name)


def digest(top):
    lines = []
    for path in files(top):
        with open(os.path.join(top, path), 'rb') as file:
            lines.append('%s  %s\n' % (hashlib.sha256(file.read()).hexdigest(), path))
    return hashlib.sha256(''.join(sorted(lines)).encode()).hexdigest()


if __name__ == '__main__':
    print(digest(sys.argv[1]))
