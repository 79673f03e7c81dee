#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A long file is answered in batches by several threads: batched.py MENSUR. Whatever is wrong with it, and
wherever, the answer, what is said and the exit code are those of a single thread; a file that is replaced
while it is read is answered from one version; one that is changed in place is refused; and nothing but a
file is read."""
import os
import resource
import signal
import socket
import subprocess
import sys
import tempfile
import threading
import time

ROWS = 24000  # a good megabyte: more than a single thread is left alone with
FEW = 3000    # for the longer answers
HEAD = 'name,family,strings,body,stop,neck,bridge,note'
MENSUR = sys.argv[1]
CORES = sorted(os.sched_getaffinity(0))
LITTLE = 200000  # the longest file that may be written: no room for the answer to wait in


def row(i):
    return ['bird %d' % i, 'viola', 'viola gut', '%.1f' % (395 + i % 170 / 10), '%.1f' % (212 + i % 60 / 10),
            '%.1f' % (144 + i % 50 / 10), '', 'invented %d' % i]


def table(changes=None, head=HEAD, separator=',', end='\n', rows=ROWS):
    lines = [head.replace(',', separator)]
    for i in range(rows):
        cells = row(i)
        for column, text in (changes or {}).get(i, {}).items():
            cells[column] = text
        lines.append(separator.join(cells))
    return end.join(lines) + end


LATE, LATER = ROWS * 3 // 4, ROWS - 7
FILES = {
    'nothing wrong': (table(), 0),
    'semicolons, decimal commas, both line ends': (
        table({5: {4: '213,5'}}, separator=';', end='\r\n'), 0),
    'quotes early': (table({9: {7: '"two\nlines, and ""more"""'}}), 0),
    'quotes late': (table({LATE: {0: '"=bird, the ""last"""', 7: '"two\nlines"'}}), 0),
    'quotes and line ends in every row': (
        table({i: {7: '"note\nof %d, ""quoted""\r\n\n"' % i} for i in range(ROWS)}), 0),
    'a cell longer than several batches': (table({LATE: {7: '"%s"' % ('word\n' * 20000)}}), 0),
    'inch marks': (table({9: {4: '8-3/4"'}, LATE: {4: '8 3/4"'}}), 0),
    'how sure one is': (table({9: {4: '213 +- 0.5'}, LATE: {4: '214 +- 0.3'}}), 0),
    'a name twice, far apart': (table({LATER: {0: 'bird 3'}}), 3),
    'a name twice, late': (table({LATER: {0: 'bird %d' % LATE}}), 3),
    'a wrong cell late': (table({LATE: {4: 'x'}, LATER: {5: '-1'}}), 3),
    'an unknown family early': (table({7: {1: 'viloa'}}), 3),
    'no answer late': (table({LATE: {6: '25'}, LATER: {6: '26'}}), 4),
    'no answer and a wrong cell': (table({9: {6: '25'}, LATE: {4: 'x'}, LATER: {6: '26'}}), 3),
    'an unknown column': (table(head=HEAD.replace('note', 'colour of it')), 0),
    'letters of Windows-1252': (table({LATE: {7: 'für'}}).encode('windows-1252'), 0),
    'a NUL byte late': (table({LATE: {7: 'a\0b'}}), 3),
    'an open quote late': (table({LATE: {7: '"open'}}), 3),
}


def make_shop(folder, text, file='instruments.csv'):
    with open(os.path.join(folder, file), 'wb') as out:
        out.write(text if isinstance(text, bytes) else text.encode())


class Threads:
    """The most threads that a process had, looked at over and over while it runs."""

    def __init__(self, process):
        self.most, self.status = 0, '/proc/%d/status' % process.pid
        self.over = threading.Event()
        self.watch = threading.Thread(target=self.look)
        self.watch.start()

    def look(self):
        while not self.over.wait(0.002):
            try:
                with open(self.status) as file:
                    count = [int(line.split()[1]) for line in file if line.startswith('Threads:')]
                self.most = max([self.most] + count)
            except OSError:
                return

    def stop(self):
        self.over.set()
        self.watch.join()
        return self.most


def start(command, shop, threads=None, longest_file=resource.RLIM_INFINITY, cores=None, stdout=subprocess.PIPE):
    """threads None: as many as the program takes by itself."""
    def hold():
        os.sched_setaffinity(0, cores or CORES)
        resource.setrlimit(resource.RLIMIT_FSIZE, (longest_file, longest_file))

    env = {key: value for key, value in os.environ.items() if not key.startswith('MENSUR_')}
    if threads:
        env['MENSUR_THREADS'] = str(threads)
    if longest_file != resource.RLIM_INFINITY or stdout != subprocess.PIPE:
        env['LLVM_PROFILE_FILE'] = os.devnull  # threads that a signal ends leave counts that do not agree
    return subprocess.Popen([MENSUR] + command + ['--shop', shop], stdout=stdout, stderr=subprocess.PIPE,
                            env=env, preexec_fn=hold)


def run(*arguments, **more):
    process = start(*arguments, **more)
    out, err = process.communicate(timeout=300)
    return process.returncode, out, err


def differ(one, other):
    return 'exit %d and %d, %d and %d bytes, %s and %s' % (
        one[0], other[0], len(one[1]), len(other[1]), one[2][-200:], other[2][-200:])


def compare(command, code, shop):
    """What is wrong, or None."""
    alone, eight = run(command, shop, 1), run(command, shop, 8)
    if alone[0] != code:
        return 'exit code %d, expected %d: %s' % (alone[0], code, alone[2][-300:])
    if alone != eight:
        return 'one thread and eight differ: ' + differ(alone, eight)
    if (code == 0) != (len(alone[1].splitlines()) > FEW):
        return '%d lines of answer' % len(alone[1].splitlines())
    if code != 0 and alone[1] != b'':
        return 'an answer in spite of an error'
    again = run(command, shop, 8, longest_file=LITTLE)
    if again != alone:
        return 'without room for the answer to wait in, another one is given: ' + differ(alone, again)
    return None


def compare_output(shop):
    """--output has the same bytes, and is not there after an error."""
    path = os.path.join(shop, 'out')
    plain = run(['lengths', '--format', 'csv'], shop, 8)
    to_file = run(['lengths', '--format', 'csv', '--output', path], shop, 8)
    if to_file != (0, b'', b'') or open(path, 'rb').read() != plain[1]:
        return 'the file differs: %s' % (to_file[2],)
    os.remove(path)
    make_shop(shop, FILES['a wrong cell late'][0])
    code, _, err = run(['lengths', '--format', 'csv', '--output', path], shop, 8)
    if code != 3 or sorted(os.listdir(shop)) != ['instruments.csv']:
        return 'after an error: exit code %d, %s, %s' % (code, os.listdir(shop), err[-200:])
    return None


def count_threads(shop):
    """By itself the program takes a thread a core; for a short file, one. ThreadSanitizer may add one."""
    with open(MENSUR, 'rb') as program:
        more = b'__tsan_init' in program.read()
    for text, cores, least, most in ((table(), CORES[:1], 1, 1), (table(), CORES[:2], len(CORES[:2]), 2),
                                     (table(rows=50), CORES[:2], 0, 1)):
        make_shop(shop, text)
        process = start(['tension', '--every'], shop, cores=cores)
        watch = Threads(process)
        process.communicate(timeout=300)
        found = watch.stop()
        if not least <= found <= most + more:
            return '%d cores, %d bytes: %d threads' % (len(cores), len(text), found)
    return None


def replace_while_read(shop):
    """Two versions take each other's place, over and over."""
    names = os.path.join(shop, 'instruments.csv'), os.path.join(shop, 'next.csv')
    texts = [table(), table({i: {4: '211'} for i in range(ROWS)}, rows=ROWS - 1000)]
    wanted = []
    for text in texts:
        make_shop(shop, text)
        wanted.append(run(['lengths', '--format', 'csv'], shop, 1))
    over = threading.Event()

    def replace():
        number = 0
        while not over.is_set():
            make_shop(shop, texts[number % 2], 'next.csv')
            os.rename(names[1], names[0])
            number += 1

    thread = threading.Thread(target=replace)
    thread.start()
    try:
        for _ in range(40):
            got = run(['lengths', '--format', 'csv'], shop, 8)
            if got not in wanted:
                return 'neither version: ' + differ(got, wanted[0])
    finally:
        over.set()
        thread.join()
    return None


def append(path):
    with open(path, 'a') as out:
        out.write(','.join(row(ROWS)) + '\n')


def truncate(path):
    os.truncate(path, os.path.getsize(path) * 4 // 5)


def overwrite(path):
    """The same size and the same time: other digits in the last row."""
    before = os.stat(path)
    with open(path, 'r+b') as out:
        out.seek(-2, os.SEEK_END)
        out.write(b'x')
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))


def touch(path):
    os.utime(path, ns=(0, 0))


def replace(path):
    with open(path + '.new', 'w') as out:
        out.write(table(rows=20))
    os.rename(path + '.new', path)


def stop_half_way(process, path):
    """Stops a process that has read some of the file; False where it has read it all."""
    size = os.path.getsize(path)
    folder = '/proc/%d/' % process.pid
    while process.poll() is None:
        try:
            for name in os.listdir(folder + 'fd'):
                if os.readlink(folder + 'fd/' + name) != path:
                    continue
                with open(folder + 'fdinfo/' + name) as info:
                    at = int(info.readline().split()[1])
                if at > 0:
                    process.send_signal(signal.SIGSTOP)
                    with open(folder + 'fdinfo/' + name) as info:
                        return int(info.readline().split()[1]) < size
        except OSError:
            pass
    return False


def change_in_first_pass(shop, change, whole):
    """No byte leaves, and no file is left behind."""
    path, out = os.path.join(shop, 'instruments.csv'), os.path.join(shop, 'out')
    for more in ([], ['--output', out]):
        for _ in range(20):
            make_shop(shop, table())
            if os.path.exists(out):
                os.remove(out)  # written by one that was not stopped in time
            process = start(['tension', '--every', '--format', 'csv'] + more, shop, 2)
            stopped = stop_half_way(process, path)
            if stopped:
                change(path)
            process.send_signal(signal.SIGCONT)
            said = process.communicate(timeout=300)
            if stopped:
                break
        if not stopped:
            return 'it could not be stopped half way'
        if change is replace:
            answer = open(out, 'rb').read() if more else said[0]
            if process.returncode != 0 or answer != whole:
                return 'exit code %d, %d bytes' % (process.returncode, len(answer))
            continue
        if process.returncode != 5 or b'was changed after it was opened' not in said[1]:
            return 'exit code %d: %s' % (process.returncode, said[1][-300:])
        if said[0] != b'' or os.listdir(shop) != ['instruments.csv']:
            return '%d bytes, %s' % (len(said[0]), os.listdir(shop))
    return None


def change_in_second_pass(shop, change, whole):
    """The answer has no room to wait in; the pipe it goes into instead is read after the change."""
    make_shop(shop, table())
    process = start(['tension', '--every', '--format', 'csv'], shop, 8, longest_file=LITTLE)
    first = os.read(process.stdout.fileno(), 1000)
    time.sleep(0.05)
    change(os.path.join(shop, 'instruments.csv'))
    rest, err = process.communicate(timeout=300)
    if change is replace:
        return None if (process.returncode, first + rest) == (0, whole) else 'another answer'
    if process.returncode != 5 or b'was changed after it was opened' not in err or b'already stand' not in err:
        return 'exit code %d: %s' % (process.returncode, err[-300:])
    return None if whole.startswith((first + rest)[:100000]) else 'other rows'


def close_pipe(shop):
    """A reader that goes away ends all threads, early or half way, in either pass."""
    make_shop(shop, table())
    for bytes_read, longest_file in ((0, resource.RLIM_INFINITY), (0, LITTLE), (100000, LITTLE)):
        reader, writer = os.pipe()
        process = start(['tension', '--every', '--format', 'csv'], shop, 8, longest_file, stdout=writer)
        os.close(writer)
        while bytes_read > 0:
            bytes_read -= len(os.read(reader, bytes_read))
        os.close(reader)
        err = process.communicate(timeout=60)[1]
        if process.returncode != -signal.SIGPIPE or err != b'':
            return 'exit code %d: %s' % (process.returncode, err[-300:])
    return None


def make_socket(path):
    with socket.socket(socket.AF_UNIX) as end:
        end.bind(path)


KINDS = {
    'a FIFO (named pipe)': os.mkfifo,
    'a directory': os.mkdir,
    'a socket': make_socket,
    'a device': lambda path: os.symlink('/dev/zero', path),
}


def refuse_kind(shop, kind):
    """At once, whichever table it stands for."""
    for file in ('instruments.csv', 'strings.csv', 'tunings.csv'):
        with tempfile.TemporaryDirectory() as place:
            make_shop(place, table(rows=20))
            if file == 'instruments.csv':
                os.remove(os.path.join(place, file))
            KINDS[kind](os.path.join(place, file))
            code, out, err = run(['lengths'], place)
            if code != 3 or out != b'' or ('%s:1:1: is %s;' % (file, kind)).encode() not in err:
                return '%s: exit code %d: %s' % (file, code, err[-300:])
    return None


def cases():
    for name, (text, code) in FILES.items():
        yield 'lengths as csv: ' + name, text, lambda shop, code=code: compare(
            ['lengths', '--format', 'csv'], code, shop)
    for name in ('nothing wrong', 'no answer late', 'a wrong cell late'):
        text, code = FILES[name]
        for shape in ('text', 'json'):
            yield 'lengths as %s: %s' % (shape, name), text, lambda shop, code=code, shape=shape: compare(
                ['lengths', '--full', '--format', shape], code, shop)
    few = table({9: {4: '213 +- 0.5'}, FEW - 9: {7: '"two\nlines"'}}, rows=FEW)
    for command in (['tension', '--every'], ['fingers', '--every']):
        for shape in ('text', 'csv', 'json'):
            yield '%s as %s' % (' '.join(command), shape), few, lambda shop, command=command, shape=shape: compare(
                command + ['--format', shape], 0, shop)
    yield 'fingers --every --true as csv', few, lambda shop: compare(
        ['fingers', '--every', '--true', '--format', 'csv'], 0, shop)
    for shape in ('text', 'json'):
        yield 'lengths --working as ' + shape, few, lambda shop, shape=shape: compare(
            ['lengths', '--working', '--format', shape], 0, shop)
    yield '--output', table(), compare_output
    yield 'threads', '', count_threads
    yield 'a file replaced over and over', '', replace_while_read
    with tempfile.TemporaryDirectory() as shop:
        make_shop(shop, table())
        whole = run(['tension', '--every', '--format', 'csv'], shop, 1)[1]
    for change in (append, truncate, overwrite, touch, replace):
        if change is not overwrite:  # which a first reading cannot know of
            yield '%s while the answer waits' % change.__name__, '', lambda shop, change=change: (
                change_in_first_pass(shop, change, whole))
        yield '%s while the answer is written' % change.__name__, '', lambda shop, change=change: (
            change_in_second_pass(shop, change, whole))
    yield 'a closed pipe', '', close_pipe
    for kind in KINDS:
        yield kind, '', lambda shop, kind=kind: refuse_kind(shop, kind)


def main():
    wrong, number = 0, 0
    for number, (name, text, case) in enumerate(cases(), 1):
        with tempfile.TemporaryDirectory() as shop:
            if text:
                make_shop(shop, text)
            fault = case(shop)
        wrong += fault is not None
        print('%s %d - %s' % ('ok' if fault is None else 'not ok', number, name), flush=True)
        if fault:
            print('# ' + fault)
    print('1..%d' % number)
    return 1 if wrong else 0


sys.exit(main())
