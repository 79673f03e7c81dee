#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The program when the system fails or a file is malicious: program.py MENSUR.
Full disks, size limits, closed pipes, signals, links, folders in place of files, formulas."""
import os
import resource
import signal
import subprocess
import sys
import tempfile
import time

mensur = sys.argv[1]
number, bad = 0, 0


def run(arguments, **more):
    env = {key: value for key, value in os.environ.items() if key != 'MENSUR_SHOP'}
    more.setdefault('stdout', subprocess.PIPE)
    return subprocess.run([mensur] + arguments, env=env, stderr=subprocess.PIPE, text=True,
                          timeout=120, **more)


def check(name, holds, done=None):
    global number, bad
    number += 1
    bad += not holds
    print('%sok %d - %s' % ('' if holds else 'not ', number, name))
    if not holds and done is not None:
        print('# exit code %s; %s' % (done.returncode, done.stderr.strip()[-300:]))


def skip(name, why):
    global number
    number += 1
    print('ok %d - %s # SKIP %s' % (number, name, why))


def write(path, text):
    with open(path, 'w') as out:
        out.write(text)
    return path


def make_shop(folder, rows):
    os.makedirs(folder)
    write(os.path.join(folder, 'instruments.csv'), 'name,family,stop,neck\n' + ''.join(
        'bird %d,violin,%d,130\n' % (i, 190 + i % 9) for i in range(rows)))
    return folder


def full_devices():
    for arguments in (['lengths'], ['compare', 'kestrel', 'heron', '--format', 'json'], ['--help'],
                      ['check', '--format', 'csv']):
        with open('/dev/full', 'w') as full:
            done = run(arguments, stdout=full)
        check('%s to a full device' % arguments[0],
              done.returncode == 5 and 'No space left' in done.stderr, done)


def closed_streams(folder):
    """Every set of closed standard streams: no file takes the number of one."""
    shop = make_shop(os.path.join(folder, 'streams'), 4000)
    out = os.path.join(folder, 'streams.out')
    cases = [['--help'], ['compare', 'kestrel', 'heron'], ['check', '--shop', shop],
             ['lengths', '--shop', shop, '--format', 'csv'],  # its answer waits in a file
             ['lengths', '--shop', shop, '--format', 'csv', '--output', out],
             ['check', '--format', 'csv', '--output', out], ['lengths', 'nobody'],
             ['compare', 'kestrel', 'heron', '--output', os.path.join(folder, 'streams.pdf')]]
    for arguments in cases:
        path = arguments[-1] if '--output' in arguments else None
        whole = run(arguments)
        want = open(path, 'rb').read() if path else None
        for closed in ([0], [1], [2], [0, 1], [0, 2], [1, 2], [0, 1, 2]):
            if path:
                os.remove(path)
            done = run(arguments, preexec_fn=lambda: [os.close(stream) for stream in closed])
            lost = 1 in closed and whole.stdout != ''
            holds = done.returncode == (5 if lost else whole.returncode)
            if 1 not in closed:
                holds = holds and done.stdout == whole.stdout
            if 2 not in closed:
                holds = holds and ('standard output cannot be written' in done.stderr if lost
                                   else done.stderr == whole.stderr)
            if path:
                holds = holds and os.path.exists(path) and open(path, 'rb').read() == want
            check('%s with %s closed' % (' '.join(arguments[:1] + arguments[-2:]).replace(folder, ''),
                                         ' and '.join('0 input,1 output,2 errors'.split(',')[stream][2:]
                                                      for stream in closed)), holds, done)
        if path:
            os.remove(path)


def full_disk(folder):
    mount = os.path.join(folder, 'small')
    os.mkdir(mount)
    mounted = os.getuid() == 0 and subprocess.run(
        ['mount', '-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', mount], stderr=subprocess.DEVNULL).returncode == 0
    if not mounted:
        skip('a full disk', 'no leave to mount one')
        return
    try:
        shop = make_shop(os.path.join(folder, 'long'), 3000)
        out = os.path.join(mount, 'out.csv')
        done = run(['lengths', '--shop', shop, '--format', 'csv', '--output', out])
        check('a full disk', done.returncode == 5 and 'No space left' in done.stderr and
              os.listdir(mount) == [], done)
        write(out, 'what was there')
        done = run(['lengths', '--shop', shop, '--format', 'csv', '--output', out, '--overwrite'])
        check('a full disk leaves the old file', done.returncode == 5 and
              open(out).read() == 'what was there' and os.listdir(mount) == ['out.csv'], done)
    finally:
        subprocess.run(['umount', mount])


def size_limits(folder):
    """A limit on the file size at every length of the output."""
    whole = run(['lengths', '--format', 'csv']).stdout
    wrong, done = [], None
    out = os.path.join(folder, 'limited.csv')
    for limit in range(0, len(whole) + 20, 97):
        done = run(['lengths', '--format', 'csv', '--output', out],
                   preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit)))
        there = os.path.exists(out)
        if there != (limit >= len(whole)) or done.returncode != (0 if there else 5) or \
                [name for name in os.listdir(folder) if name.startswith('limited.csv.')]:
            wrong.append(limit)
        if there:
            os.remove(out)
    check('a file size limit at any length', not wrong, done)


def long_answers(folder):
    """An answer larger than its buffer is computed a second time, with the same bytes."""
    shop = make_shop(os.path.join(folder, 'limit'), 4000)
    whole = run(['lengths', '--shop', shop, '--format', 'csv'])
    limited = run(['lengths', '--shop', shop, '--format', 'csv'],
                  preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (100000, 100000)))
    check('no place for the answer to wait in', limited.returncode == 0 and len(whole.stdout) > 300000 and
          limited.stdout == whole.stdout, limited)


def closed_pipes(folder):
    shop = make_shop(os.path.join(folder, 'pipe'), 3000)
    reader, writer = os.pipe()
    os.close(reader)
    done = run(['lengths', '--shop', shop], stdout=writer)
    os.close(writer)
    check('a closed pipe', done.returncode == -signal.SIGPIPE and done.stderr == '', done)


def signals(folder):
    """The signal is sent as soon as the temporary file exists."""
    for which in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP):
        wrong, hit = 0, 0
        shop = make_shop(os.path.join(folder, 'shop%d' % which), 5000)
        target = os.path.join(folder, 'target%d' % which)
        os.mkdir(target)
        for _ in range(5):
            child = subprocess.Popen([mensur, 'lengths', '--shop', shop, '--format', 'json', '--output',
                                      os.path.join(target, 'out'), '--overwrite'],
                                     stderr=subprocess.DEVNULL)
            end = time.time() + 20
            while not os.listdir(target) and child.poll() is None and time.time() < end:
                pass
            child.send_signal(which)
            code = child.wait(timeout=60)
            left = os.listdir(target)
            hit += code == -which
            # the program may have finished before the signal: then the file is whole
            wrong += not (left == [] and code == -which) and not (left == ['out'] and code in (0, -which))
            for name in left:
                os.remove(os.path.join(target, name))
        check('signal %d while writing leaves no scratch file (%d of 5 hit)' % (which, hit), wrong == 0)


def links(folder):
    kept = write(os.path.join(folder, 'kept'), 'not to be touched')
    link = os.path.join(folder, 'link')
    os.symlink(kept, link)
    done = run(['lengths', '--output', link])
    check('a link as output is taken for a file that is there', done.returncode == 2 and
          'already there' in done.stderr and open(kept).read() == 'not to be touched', done)
    done = run(['lengths', '--output', link, '--overwrite'])
    check('overwriting replaces the link, not what it points to', done.returncode == 0 and
          not os.path.islink(link) and open(kept).read() == 'not to be touched', done)
    os.symlink(os.path.join(folder, 'nowhere'), os.path.join(folder, 'dangling'))
    done = run(['lengths', '--output', os.path.join(folder, 'dangling')])
    check('a link to nowhere is not followed', done.returncode == 2 and
          not os.path.exists(os.path.join(folder, 'nowhere')), done)


def odd_inputs(folder):
    shop = os.path.join(folder, 'odd')
    os.makedirs(os.path.join(shop, 'instruments.csv'))
    done = run(['lengths', '--shop', shop])
    check('a folder in place of a file', done.returncode == 3 and 'is a directory' in done.stderr, done)
    shop = make_shop(os.path.join(folder, 'wide'), 1)
    write(os.path.join(shop, 'instruments.csv'), ','.join('c%d' % i for i in range(200000)) + '\n')
    done = run(['check', '--shop', shop])
    check('a head of 200000 columns', done.returncode == 3 and 'no table' in done.stderr, done)
    write(os.path.join(shop, 'instruments.csv'), 'name,stop\n"' + 'x' * 3000000)
    done = run(['check', '--shop', shop])
    check('a quote that never ends', done.returncode == 3 and 'never closed' in done.stderr, done)
    write(os.path.join(shop, 'instruments.csv'), 'name,family,stop,neck\n\x1b[31mred\x07,violin,9999,130\n')
    done = run(['check', '--shop', shop])
    check('control characters of a file do not reach the terminal in a message',
          done.returncode == 3 and '\x1b' not in done.stderr and '\x07' not in done.stderr, done)
    write(os.path.join(shop, 'instruments.csv'), 'name,family,stop,neck\n\x1b[31mred\x07,violin,195,130\n')
    done = run(['lengths', '--shop', shop])
    check('control characters of a file do not reach the terminal in an answer',
          done.returncode == 0 and '\x1b' not in done.stdout and '\x07' not in done.stdout, done)


def formulas(folder):
    names = ['=1+1', '+1', '-1', '@sum', '=HYPERLINK("http://example.org","x")', '="a,b"']
    shop = make_shop(os.path.join(folder, 'formulas'), 0)
    with open(os.path.join(shop, 'instruments.csv'), 'a') as out:
        for name in names:
            out.write('"%s",violin,195,130\n' % name.replace('"', '""'))
    done = run(['lengths', '--shop', shop, '--format', 'csv'])
    cells = [line.lstrip('"') for line in done.stdout.splitlines()[1:]]
    check('a formula in a name is made a text', done.returncode == 0 and len(cells) == len(names) and
          all(cell.startswith("'") for cell in cells), done)


with tempfile.TemporaryDirectory() as place:
    full_devices()
    closed_streams(place)
    full_disk(place)
    size_limits(place)
    long_answers(place)
    closed_pipes(place)
    signals(place)
    links(place)
    odd_inputs(place)
    formulas(place)
print('1..%d' % number)
sys.exit(1 if bad else 0)
