#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Whether docs/mensur.html, the page that is kept in the tree, was built from the tree as it is.

    kept.py TOP [PAGE.html]

Exit 77: there is no such page."""
import os
import re
import sys

sys.dont_write_bytecode = True
top = sys.argv[1]
page = sys.argv[2] if len(sys.argv) > 2 else os.path.join(top, 'docs', 'mensur.html')
sys.path.insert(0, os.path.join(top, 'src', 'page'))
import sources  # noqa: E402

if not os.path.exists(page):
    print('skipped: docs/mensur.html is not in the tree; build it: src/page/build.sh docs/mensur.html')
    sys.exit(77)
with open(page, encoding='utf-8') as file:
    found = re.search(r'<meta name="mensur-sources" content="([0-9a-f]{64})">', file.read())
if not found:
    sys.exit('%s does not say what it was built from' % page)
if found[1] != sources.digest(top):
    sys.exit('%s was built from other sources; build it anew: src/page/build.sh docs/mensur.html' % page)
print('%s was built from these sources' % page)
