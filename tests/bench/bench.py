#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Times the program over long files: bench.py BUILD ROWS. Each figure is the best of several runs;
the ratios, of the clock, hold it against libcsv alone, which only splits the same file into cells,
and against awk, which only adds up two of them. Both have one core; the program answers a long file
with all there are, and its processor time tells what that costs."""
import os
import subprocess
import sys
import tempfile

build, rows = sys.argv[1], int(sys.argv[2])
here = os.path.dirname(os.path.abspath(__file__))
mensur = os.path.join(build, 'src/cli/mensur')
measure = os.path.join(build, 'tests/bench/measure')
bare = os.path.join(build, 'tests/bench/bare_csv')
evaluations = os.path.join(build, 'tests/bench/string_evaluations')


def once(arguments):
    done = subprocess.run([measure] + arguments, capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit('failed: %s: %s' % (' '.join(arguments), done.stderr))
    clock, processor, kib = done.stdout.split()
    return float(clock), float(processor), float(kib) / 1024


def best(arguments, times=3):
    runs = [once(arguments) for _ in range(times)]
    return min(run[0] for run in runs), min(run[1] for run in runs), max(run[2] for run in runs)


def line(what, figures, against_csv=None, against_awk=None):
    text = '%-44s %8.3f s %8.3f s %7.1f MiB' % ((what,) + figures)
    if against_csv:
        text += ' %6.1f x' % (figures[0] / against_csv[0])
    if against_awk:
        text += ' %6.1f x' % (figures[0] / against_awk[0])
    print(text, flush=True)


def long_files(place):
    print('%-44s %10s %10s %11s %8s %8s' % ('long files, to CSV', 'clock', 'processor', 'memory', '/libcsv',
                                            '/awk'))
    for count in sorted({max(1, rows // 100), max(1, rows // 10), rows}):
        shop = os.path.join(place, str(count))
        subprocess.check_call([sys.executable, os.path.join(here, 'make_shop.py'), shop, str(count)])
        path = os.path.join(shop, 'instruments.csv')
        csv = best([bare, path])
        line('libcsv alone, %d rows' % count, csv)
        awk = best(['awk', '-F,', 'NR > 1 { print $1 "," $5 + $6 }', path])
        line('awk: stop + neck, %d rows' % count, awk, csv)
        common = ['--shop', shop, '--format', 'csv']
        line('lengths, %d rows' % count, best([mensur, 'lengths'] + common), csv, awk)
        find = best([mensur, 'find', '--like', 'bird 1', '--top', '100'] + common)
        line('find --like, the first 100, %d rows' % count, find, csv, awk)
        line('find string_length=..370, %d rows' % count, best([mensur, 'find', 'string_length=..370'] + common), csv,
             awk)
        line('tension --every, %d rows' % count, best([mensur, 'tension', '--every'] + common), csv, awk)


def others(place):
    print('\n%-44s %10s %10s %11s' % ('others', 'clock', 'processor', 'memory'))
    line('true', best(['true'], 20))
    line('compare kestrel heron', best([mensur, 'compare', 'kestrel', 'heron'], 20))
    for count in (20, 200, 2000):
        shop = os.path.join(place, 'strings%d' % count)
        subprocess.check_call([sys.executable, os.path.join(here, 'make_shop.py'), shop, '--strings',
                               str(count)])
        question = [mensur, 'restring', 'finch', '--shop', shop, '--tension', 'A4=40..70']
        if subprocess.run(question, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL).returncode in (0, 1):
            line('restring, %d strings for each of 5 notes' % count, best(question))
    sys.stdout.write(subprocess.check_output([evaluations], text=True))


with tempfile.TemporaryDirectory() as folder:
    long_files(folder)
    others(folder)
