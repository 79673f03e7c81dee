#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Joins page.html, page.css, the scripts and the engine into one file, and writes its policy: no host
is asked for anything, and only this very script and style are obeyed.

    pack.py FOLDER ENGINE.wasm OUT.html"""
import base64
import hashlib
import os
import sys

sys.dont_write_bytecode = True
import sources  # noqa: E402

SCRIPTS = ['wasi.js', 'engine.js', 'state.js', 'dom.js', 'measures.js', 'wishes.js', 'figures.js',
           'decision.js', 'more.js', 'files.js', 'kept.js', 'own.js', 'carried.js', 'handles.js', 'bands.js', 'chosen.js', 'paper.js',
           'panels.js', 'doors.js', 'views.js', 'main.js', 'controls.js']


def read(name):
    with open(os.path.join(folder, name), encoding='utf-8') as file:
        return file.read()


def hashed(text):
    return "'sha256-%s'" % base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()


folder, engine, out = sys.argv[1:]
style = read('page.css')
script = '"use strict";\n(() => {\n%s\n})();' % '\n'.join(read(name) for name in SCRIPTS)
assert '</script' not in script.lower() and '</style' not in style.lower()
policy = '; '.join([
    "default-src 'none'", "script-src %s 'wasm-unsafe-eval'" % hashed(script),
    "style-src %s" % hashed(style), 'img-src data: blob:', "connect-src 'none'", "base-uri 'none'",
    "form-action 'none'"])
with open(engine, 'rb') as file:
    module = base64.b64encode(file.read()).decode()
page = read('page.html')
for mark, text in (('@POLICY@', policy), ('@STYLE@', style), ('@ENGINE@', module), ('@SCRIPT@', script),
                   ('@SOURCES@', sources.digest(os.path.join(folder, '..', '..')))):
    assert page.count(mark) == 1, mark
    page = page.replace(mark, text)
with open(out + '.part', 'w', encoding='utf-8', newline='\n') as file:
    file.write(page)
os.replace(out + '.part', out)
print('%s: %d bytes' % (out, len(page.encode())))
