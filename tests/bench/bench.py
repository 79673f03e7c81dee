#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Times the program over long files: bench.py BUILD ROWS [ENGINE]. Each figure is the best of
several runs, in turns; the ratios, of the clock, hold it against libcsv alone, which only splits the
same file into cells, against awk, which only adds up two of them, and against a columnar SQL engine
(columnar_sum.mjs; ENGINE is the folder of its npm package), which does that too. libcsv and awk have
one core; the program answers a long file with all there are, as the engine does, and the processor
time tells what that costs. ns/byte: processor time for each byte that is written."""
import os
import subprocess
import sys
import tempfile

build, rows = sys.argv[1], int(sys.argv[2])
engine = sys.argv[3] if len(sys.argv) > 3 else None
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


def best(runs):
    return min(run[0] for run in runs), min(run[1] for run in runs), max(run[2] for run in runs)


def written(arguments):
    """The bytes that it writes."""
    with subprocess.Popen(arguments, stdout=subprocess.PIPE) as child:
        return sum(iter(lambda: len(child.stdout.read(1 << 20)), 0))


def in_turns(commands, times=3):
    """The best of each, of runs in turns: so what else the machine does falls on all of them."""
    runs = [[once(arguments) for arguments in commands] for _ in range(times)]
    return [best(list(of_one)) for of_one in zip(*runs)]


def references(path):
    yield 'libcsv', [bare, path]
    yield 'awk', ['awk', '-F,', 'NR > 1 { sum += $5 + $6 } END { print NR - 1, sum }', path]
    if engine:
        yield 'engine', ['node', os.path.join(here, 'columnar_sum.mjs'), engine, path]


def questions():
    for form in ('text', 'csv', 'json'):
        yield 'lengths, ' + form, ['lengths', '--format', form]
    yield 'find --like, the first 100, csv', ['find', '--like', 'bird 1', '--top', '100', '--format', 'csv']
    yield 'find string_length=..370, csv', ['find', 'string_length=..370', '--format', 'csv']
    for form in ('text', 'csv', 'json'):
        yield 'tension --every, ' + form, ['tension', '--every', '--format', form]


def long_file(place, count):
    shop = os.path.join(place, str(count))
    subprocess.check_call([sys.executable, os.path.join(here, 'make_shop.py'), shop, str(count)])
    beside = dict(references(os.path.join(shop, 'instruments.csv')))
    asked = {name: [mensur] + words + ['--shop', shop] for name, words in questions()}
    figures = in_turns(list(beside.values()) + list(asked.values()))
    print('%-33s %9s %9s %9s %9s %8s' % ('%d rows' % count, 'clock', 'processor', 'memory', 'written', 'ns/byte')
          + ''.join(' %8s' % ('/' + name) for name in beside))
    for (name, command), figure in zip(list(beside.items()) + list(asked.items()), figures):
        text = '%-33s %7.3f s %7.3f s %5.1f MiB' % ((name,) + figure)
        size = written(command) if name in asked else 0
        text += ' %6.1f MB %8.1f' % (size / 1e6, figure[1] * 1e9 / size) if size > 1e6 else ' %9s %8s' % ('', '')
        print(text + ''.join(' %6.2f x' % (figure[0] / reference[0]) for reference in figures[:len(beside)]), flush=True)
    print()


def line(what, figures):
    print('%-44s %8.3f s %8.3f s %7.1f MiB' % ((what,) + figures), flush=True)


def others(place):
    print('%-44s %10s %10s %11s' % ('others', 'clock', 'processor', 'memory'))
    line('true', in_turns([['true']], 20)[0])
    line('compare kestrel heron', in_turns([[mensur, 'compare', 'kestrel', 'heron']], 20)[0])
    for count in (20, 200, 2000):
        shop = os.path.join(place, 'strings%d' % count)
        subprocess.check_call([sys.executable, os.path.join(here, 'make_shop.py'), shop, '--strings',
                               str(count)])
        question = [mensur, 'restring', 'finch', '--shop', shop, '--tension', 'A4=40..70']
        if subprocess.run(question, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL).returncode in (0, 1):
            line('restring, %d strings for each of 5 notes' % count, in_turns([question])[0])
    sys.stdout.write(subprocess.check_output([evaluations], text=True))


with tempfile.TemporaryDirectory() as folder:
    for long in sorted({max(1, rows // 10), rows}):
        long_file(folder, long)
    others(folder)
