#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Writes the version script of the shared library: what the public headers declare is seen by other
programs, and nothing else.
usage: exported.py OUT HEADER..."""
import re
import sys

# comments and preprocessor lines, with the lines that continue them
NO_DECLARATION = re.compile(r'/\*(?:[^*]|\*(?!/))*\*/|//[^\n]*|^[ \t]*#(?:[^\n]*\\\n)*[^\n]*', re.M)
FUNCTION = re.compile(r'\b(mensur_\w+)\(')

out, headers = sys.argv[1], sys.argv[2:]
names = set()
for header in headers:
    with open(header, encoding='utf-8') as file:
        for declaration in NO_DECLARATION.sub(' ', file.read()).split(';'):
            found = FUNCTION.search(declaration)
            if found and declaration.split()[0] != 'typedef':
                names.add(found[1])
with open(out, 'w', encoding='utf-8') as file:
    file.write('{\n    global:\n%s    local: *;\n};\n'
               % ''.join('        %s;\n' % name for name in sorted(names)))
