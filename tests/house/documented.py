#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every function and struct of the public headers carries its documentation: a comment right before
it that names each parameter (and the result, where there is one)."""
import os
import re
import sys

FUNCTION = re.compile(r'(/\*\*(?:[^*]|\*(?!/))*\*/)?\s*'
                      r'^((?:const |unsigned |enum |struct |size_t|double|int|void|char|bool)[^;{}()=]*?)'
                      r'\b(mensur_\w+)\(([^;{}]*?)\)(?:\s*MENSUR_PRINTF\([^)]*\))?;', re.M | re.S)


def parameters(text):
    text = re.sub(r'\([^()]*\)', '', text)
    names = []
    for part in text.split(','):
        part = re.sub(r'\[[^\]]*\]', '', part).strip()
        if part not in ('void', '', '...'):
            names.append(re.findall(r'\w+', part)[-1])
    return names


root, faults, count, documented = sys.argv[1], [], 0, 0
for folder, _, files in os.walk(os.path.join(root, 'include/mensur')):
    for name in sorted(files):
        text = open(os.path.join(folder, name)).read()
        text = re.sub(r'^#define(.*\\\n)*.*\n', '', text, flags=re.M)
        for comment, result, function, arguments in FUNCTION.findall(text):
            if 'typedef' in result:
                continue
            count += 1
            here = len(faults)
            if not comment:
                faults.append('%s: %s has no comment' % (name, function))
            for parameter in parameters(arguments):
                if not re.search(r'@param(\[out\])?\s[^@]*\b%s\b' % parameter, comment):
                    faults.append('%s: %s does not say what %s is' % (name, function, parameter))
            if result.strip() != 'void' and '@return' not in comment:
                faults.append('%s: %s does not say what it returns' % (name, function))
            documented += len(faults) == here
print('%d of %d public functions fully documented' % (documented, count))
print('\n'.join(faults))
sys.exit(1 if faults or count < 60 else 0)
