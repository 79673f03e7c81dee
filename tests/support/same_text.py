# SPDX-License-Identifier: GPL-3.0-or-later
"""Whether two texts of a drawing are the same, as the tests of drawings take it."""
import re

NUMBER = re.compile(r'-?\d+(?:\.\d+)?')


def same_text(got, want):
    """Words alike, numbers within 0.001."""
    got, want = got or '', want or ''
    if NUMBER.split(got) != NUMBER.split(want):
        return False
    return all(abs(float(a) - float(b)) <= 0.001
               for a, b in zip(NUMBER.findall(got), NUMBER.findall(want)))
