# SPDX-License-Identifier: GPL-3.0-or-later
"""Comparison of two texts of drawings, for the tests of drawings."""
import re

NUMBER = re.compile(r'-?\d+(?:\.\d+)?')


def same_text(got, want):
    """True where the words are the same and the numbers agree within 0.001."""
    got, want = got or '', want or ''
    if NUMBER.split(got) != NUMBER.split(want):
        return False
    return all(abs(float(a) - float(b)) <= 0.001
               for a, b in zip(NUMBER.findall(got), NUMBER.findall(want)))
