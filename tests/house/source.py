# SPDX-License-Identifier: GPL-3.0-or-later
"""The C files of src and include, and the functions and variables in them, as universal-ctags sees
them."""
import collections
import json
import os
import re
import subprocess
import sys
import tempfile

# kind: function, or variable that stands in no function
Tag = collections.namedtuple('Tag', 'name kind path line length static')


def sources(root):
    """The paths of all C files and headers, from the top of the tree."""
    return sorted(os.path.relpath(os.path.join(folder, name), root) for part in ('src', 'include')
                  for folder, _, names in os.walk(os.path.join(root, part))
                  for name in names if name.endswith(('.c', '.h')))


def tags_of(root, paths):
    with tempfile.TemporaryDirectory() as copy:
        for path in paths:
            os.makedirs(os.path.join(copy, os.path.dirname(path)), exist_ok=True)
            with open(os.path.join(root, path), encoding='utf-8') as file:
                text = file.read()
            # Behind `typedef enum status call(int x);` ctags 5.9 sees no function any more.
            text = re.sub(r'^typedef (?=[^;{]*\()', 'extern  ', text, flags=re.M)
            with open(os.path.join(copy, path), 'w', encoding='utf-8') as file:
                file.write(text)
        try:
            told = subprocess.run(
                ['ctags', '--language-force=C', '--kinds-C=fv', '--fields=+neS', '--extras=+F',
                 '--output-format=json', '-L', '-', '-f', '-'], cwd=copy, input='\n'.join(paths),
                capture_output=True, text=True, check=True).stdout
        except (OSError, subprocess.CalledProcessError):
            sys.exit('universal-ctags is not installed, or another ctags stands before it: '
                     'sh .ci/packages test installs it')
    return [Tag(tag['name'], tag['kind'], tag['path'], tag['line'],
                tag.get('end', tag['line']) - tag['line'] + 1, bool(tag.get('file')))
            for tag in map(json.loads, told.splitlines())]
