#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The program under abuse: abuse.py MENSUR.
Devices and pipes as output, letters that steer a terminal, files of a shop that cannot all be
replaced, signals at any moment, many names and wide rows."""
import os
import re
import resource
import shutil
import signal
import stat
import subprocess
import sys
import tempfile
import time

mensur = os.path.abspath(sys.argv[1])
number, bad = 0, 0
HEAD = 'name,family,stop,neck'
# A C0 and a C1 control, CSI by its C1 letter, an override and an isolate with their ends.
STEERING = ['\x1b[31m', '\x07', '\x9b31m', '\x85', '\u202e', '\u202c', '\u2066', '\u2069', '\u2028']


def run(arguments, env=None, **more):
    env = {key: value for key, value in (env or os.environ).items() if key != 'MENSUR_SHOP'}
    more.setdefault('timeout', 120)
    return subprocess.run([mensur] + arguments, env=env, capture_output=True, text=True, **more)


def check(name, holds, done=None):
    global number, bad
    number += 1
    bad += not holds
    print('%sok %d - %s' % ('' if holds else 'not ', number, name))
    if not holds and done is not None:
        print('# exit code %s; %s' % (done.returncode, ascii(done.stderr.strip()[-300:])))


def write(path, text):
    os.makedirs(os.path.dirname(path), exist_ok=True)
    with open(path, 'w', encoding='utf-8') as out:
        out.write(text)
    return path


def make_shop(folder, rows, head=HEAD, **others):
    write(os.path.join(folder, 'instruments.csv'), head + '\n' + ''.join(row + '\n' for row in rows))
    for name, text in others.items():
        write(os.path.join(folder, name + '.csv'), text)
    return folder


def odd_outputs(folder):
    fifo = os.path.join(folder, 'fifo')
    os.mkfifo(fifo)
    to_fifo = os.path.join(folder, 'to-fifo')
    os.symlink(fifo, to_fifo)
    nowhere = os.path.join(folder, 'to-nowhere')
    os.symlink(os.path.join(folder, 'nowhere'), nowhere)
    os.mkdir(os.path.join(folder, 'folder'))
    for path in (fifo, to_fifo, nowhere, os.path.join(folder, 'folder')):
        for end in ('', '.svg'):
            target = path + end
            if end:
                os.symlink(path, target)
            before = os.lstat(target)
            done = run(['compare', 'kestrel', 'heron', '--output', target, '--overwrite'])
            check('%s is not replaced' % os.path.basename(target),
                  done.returncode == 2 and 'replaces files' in done.stderr and done.stdout == '' and
                  os.lstat(target).st_ino == before.st_ino, done)
    if os.getuid() == 0:
        device = os.path.join(folder, 'device')
        os.mknod(device, 0o600 | stat.S_IFCHR, os.makedev(1, 3))
        done = run(['lengths', '--output', device, '--overwrite'])
        check('a device is not replaced', done.returncode == 2 and
              stat.S_ISCHR(os.stat(device).st_mode), done)
    kept = write(os.path.join(folder, 'kept'), 'old')
    done = run(['lengths', '--output', kept, '--overwrite'])
    check('a file is replaced', done.returncode == 0 and open(kept).read() != 'old', done)


def steered(text):
    """The letters that steer, in what is said; ends of lines are the program's own."""
    return re.findall('[\x00-\x09\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069]', text)


def messages(folder):
    for i, letters in enumerate(STEERING):
        name = 'red%sfox' % letters
        what = 'U+%04X' % ord(letters[0])
        shop = make_shop(os.path.join(folder, str(i)), ['"%s",violin,195,130' % name])
        cases = {
            'there are': ['lengths', 'nobody at all', '--shop', shop],
            'did you mean': ['lengths', 'redfoxx', '--shop', shop],
            'what was asked': ['lengths', 'x%sy' % letters, '--shop', shop],
            'an option': ['lengths', '--%s' % letters],
            'a folder': ['lengths', '--shop', os.path.join(folder, 'x' + letters)],
            'an output': ['lengths', '--output', os.path.join(folder, 'x' + letters, 'y')]}
        for case, arguments in cases.items():
            done = run(arguments)
            check('%s in a message: %s' % (what, case), done.returncode in (2, 5) and
                  done.stderr != '' and not steered(done.stderr), done)
        rows = {
            'no geometry': '"%s",violin,195,130,200' % name, 'no number': 'x,violin,%s1,130,' % letters,
            'no family': 'x,"%s",195,130,' % name}
        for case, row in rows.items():
            bad_shop = make_shop(os.path.join(folder, '%d %s' % (i, case)), [row], HEAD + ',bridge')
            for command in ('lengths', 'check'):
                done = run([command, '--shop', bad_shop])
                check('%s in %s: %s' % (what, command, case),
                      not steered(done.stderr) and not steered(done.stdout) and
                      (done.stderr + done.stdout).count('\n') > 0, done)
        bad_shop = make_shop(os.path.join(folder, '%d head' % i), ['x,violin,195,130,1'],
                             HEAD + ',"brid%sge"' % letters)
        done = run(['check', '--shop', bad_shop])
        check('%s in a column\'s name' % what, not steered(done.stderr + done.stdout), done)


def shops_replaced(folder):
    """start --overwrite where a later file cannot be replaced: the earlier ones stay."""
    shop = os.path.join(folder, 'shop')
    os.makedirs(os.path.join(folder, 'blocked', 'strings.csv'))
    make_shop(os.path.join(folder, 'blocked'), ['mine,violin,195,130'])
    old = open(os.path.join(folder, 'blocked', 'instruments.csv')).read()
    done = run(['start', os.path.join(folder, 'blocked'), '--overwrite'])
    check('a folder in the place of a file of the shop', done.returncode == 2 and
          open(os.path.join(folder, 'blocked', 'instruments.csv')).read() == old and
          len(os.listdir(os.path.join(folder, 'blocked'))) == 2, done)
    run(['start', shop])
    sizes = [os.path.getsize(os.path.join(shop, name)) for name in os.listdir(shop)]
    wrong, done = [], None
    for limit in sorted(set(sizes + [size - 1 for size in sizes]))[:-1]:
        for name in os.listdir(shop):
            write(os.path.join(shop, name), 'mine\n')
        done = run(['start', shop, '--overwrite'],
                   preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit)))
        kept = [open(os.path.join(shop, name)).read() for name in os.listdir(shop)]
        if done.returncode != 5 or 'nothing was changed' not in done.stderr or \
                kept != ['mine\n'] * len(sizes):
            wrong.append(limit)
    check('no room for a file of the shop, at each size', not wrong, done)


def signals(folder):
    """Each signal that ends the program, as soon as the scratch file is there."""
    shop = make_shop(os.path.join(folder, 'shop'), ['bird %d,violin,%d,130' % (i, 190 + i % 9)
                                                    for i in range(5000)])
    for which in (signal.SIGQUIT, signal.SIGALRM, signal.SIGUSR1, signal.SIGUSR2, signal.SIGXCPU,
                  signal.SIGVTALRM, signal.SIGPROF):
        target = os.path.join(folder, 'target%d' % which)
        os.mkdir(target)
        hit = wrong = 0
        for _ in range(20):
            child = subprocess.Popen(
                [mensur, 'lengths', '--shop', shop, '--format', 'json', '--output',
                 os.path.join(target, 'out'), '--overwrite'], stderr=subprocess.DEVNULL,
                preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CORE, (0, 0)))
            end = time.time() + 20
            while not os.listdir(target) and child.poll() is None and time.time() < end:
                pass
            child.send_signal(which)
            code = child.wait(timeout=60)
            left = os.listdir(target)
            hit += code == -which
            wrong += not (left == [] and code == -which) and \
                not (left == ['out'] and code in (0, -which))
            for name in left:
                os.remove(os.path.join(target, name))
            if hit == 3:
                break
        check('signal %d while writing leaves no scratch file (%d hit)' % (which, hit), wrong == 0)


def pictures(folder):
    """No font, no module, no room in memory: a reason, and no file."""
    fonts = write(os.path.join(folder, 'fonts.conf'), '<fontconfig></fontconfig>\n')
    alone = os.path.join(folder, 'alone', 'bin')
    os.makedirs(alone)
    shutil.copy(mensur, os.path.join(alone, 'mensur'))
    for arguments, end in ((['compare', 'kestrel', 'heron'], 'pdf'), (['compare', 'kestrel', 'heron'], 'png'),
                           (['sheet', 'kestrel'], 'pdf'), (['template', 'kestrel'], 'pdf')):
        out = os.path.join(folder, 'out.' + end)
        done = run(arguments + ['--output', out])
        check('%s as %s' % (arguments[0], end), done.returncode == 0 and os.path.exists(out), done)
        os.remove(out)
        done = run(arguments + ['--output', out], env=dict(os.environ, FONTCONFIG_FILE=fonts))
        check('%s as %s without a font' % (arguments[0], end), done.returncode == 5 and
              'no font' in done.stderr and not os.path.exists(out), done)
        done = subprocess.run([os.path.join(alone, 'mensur')] + arguments + ['--output', out],
                              capture_output=True, text=True, timeout=60)
        check('%s as %s without the module' % (arguments[0], end), done.returncode == 5 and
              'mensur-paper.so' in done.stderr and not os.path.exists(out), done)
    out = os.path.join(folder, 'out.svg')
    done = subprocess.run([os.path.join(alone, 'mensur'), 'compare', 'kestrel', 'heron', '--output', out],
                          capture_output=True, text=True, timeout=60)
    check('an .svg needs no module', done.returncode == 0 and os.path.exists(out), done)
    if '--sanitized' in sys.argv:
        return
    target = os.path.join(folder, 'target')
    os.mkdir(target)
    ends, left, silent = set(), [], 0
    for room in list(range(20, 200, 12)) + [8000]:
        done = run(['compare', 'kestrel', 'heron', '--output', os.path.join(target, 'x.png')],
                   preexec_fn=lambda: (resource.setrlimit(resource.RLIMIT_AS, (room << 20, room << 20)),
                                       resource.setrlimit(resource.RLIMIT_CORE, (0, 0))))
        ends.add(done.returncode)
        silent += done.returncode != 0 and done.stderr == ''
        left += [name for name in os.listdir(target) if name != 'x.png' or done.returncode != 0]
        for name in os.listdir(target):
            os.remove(os.path.join(target, name))
    # 127: the system could not load the program
    check('memory for a picture, from none to enough: exit code 0 or a reason, and no file is left over '
          '(exit codes %s)' % ' '.join(str(end) for end in sorted(ends)),
          not left and not silent and {0, 5} <= ends <= {0, 5, 127})


def seconds(arguments, code):
    """What the program uses of the processor's time, and the run; -1 where its exit code is another."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    done = run(arguments, preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, (60, 60)))
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    took = after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime
    return took if done.returncode == code else -1, done


def many(folder):
    """No work grows with the square: limits that it would pass by far (twenty times without a
    sanitizer, which is slower)."""
    rows, sets = 20000, 5000
    slower = 8 if '--sanitized' in sys.argv else 1
    strings = 'name,note,set,linear_density\n' + ''.join(
        's%d %s,%s,own set %d,0.5\n' % (i, note, note, i)
        for i in range(sets) for note in ('E5', 'A4', 'D4', 'G3'))
    head = 'name,family,stop,neck,strings'
    shop = make_shop(os.path.join(folder, 'sets'), ['bird %d,violin,%d,130,own set %d' %
                                                    (i, 190 + i % 9, i % sets) for i in range(rows)],
                     head, strings=strings)
    wrong = make_shop(os.path.join(folder, 'wrong'), ['bird %d,violin,%d,130,nowhere %d' %
                                                      (i, 190 + i % 9, i) for i in range(rows)],
                      head, strings=strings)
    there = ['bird %d' % (rows - 1 - i) for i in range(4000)]
    page = os.path.join(folder, 'page.html')
    for name, arguments, code, limit in (
            ('a set for each of many instruments', ['tension', '--every', '--format', 'csv'], 0, 3),
            ('many names', ['lengths'] + there, 0, 1.5),
            ('a dossier of many names', ['dossier', '--output', page] + there, 0, 6),
            ('many names that are not there', ['lengths'] + ['nobody %d' % i for i in range(4000)], 2, 1.5)):
        took, done = seconds(arguments + ['--shop', shop], code)
        check('%s: %.2f s' % (name, took), 0 <= took <= limit * slower, done)
        check('%s: no flood of messages' % name, done.stderr.count('\n') <= 30, done)
    took, done = seconds(['check', '--shop', wrong], 3)
    check('many sets that are not there: %.2f s' % took, 0 <= took <= 4 * slower, done)


def long_files(folder):
    """Rows and messages without end: a reason, in little memory."""
    good = 'a,violin,195,130'
    cases = {
        'a row of ten million empty cells': ([good, ',' * 10000000], 'more than 16384 cells'),
        'ten million cells behind a row': ([good + ',' * 10000000], 'more than 16384 cells'),
        'a row of twenty megabytes': ([good + (',' + 'x' * 900000) * 20], 'more than 4000000 bytes'),
        'a million faulty rows': (['b%d,violin,abc,9999' % i for i in range(1000000)], 'more errors'),
        'half a million names twice': (['b%d,violin,195,130' % (i % 500000) for i in range(1000000)],
                                       'share their name'),
        'a name a million times': ([good] * 1000000, 'more errors')}
    for name, (rows, words) in cases.items():
        shop = make_shop(os.path.join(folder, name), rows)
        room = 1 << 26

        def lessen():
            if '--sanitized' not in sys.argv:
                resource.setrlimit(resource.RLIMIT_AS, (room, room))
        done = run(['check', '--shop', shop], preexec_fn=lessen)
        check('%s, in %d MiB' % (name, room >> 20), done.returncode == 3 and words in done.stderr and
              done.stderr.count('\n') <= 10010, done)
        shutil.rmtree(shop)
    shop = make_shop(os.path.join(folder, 'wide'), [good + ',' * 16000])
    done = run(['check', '--shop', shop])
    check('a row as wide as a spreadsheet', done.returncode == 3 and '16004 cells' in done.stderr, done)
    shop = make_shop(os.path.join(folder, 'blank'), [good, ',' * 16000])
    done = run(['check', '--shop', shop])
    check('an empty row as wide as a spreadsheet', done.returncode == 0, done)


def limits(folder):
    """Few open files, short files, little memory: the whole answer, or exit code 5 with a reason and no
    file. 127: the system could not load the program."""
    shop = make_shop(os.path.join(folder, 'shop'), ['bird %d,violin,%d,130' % (i, 190 + i % 9)
                                                    for i in range(4000)])
    rows = ['bird %d,violin,%d,130' % (i, 190 + i % 9) for i in range(2000)]
    odd = {'fault': 'last,violin,no stop,130', 'twice': rows[0], 'no answer': 'last,violin,195,130,500,1'}
    for name, row in odd.items():
        make_shop(os.path.join(folder, name), rows + [row], HEAD + (',body,bridge' if name == 'no answer' else ''))
    place = os.path.join(folder, 'place')
    out = os.path.join(place, 'out')

    def ask(arguments, which=None, limit=0):
        shutil.rmtree(place, ignore_errors=True)
        os.mkdir(place)
        done = run(arguments, preexec_fn=which and (lambda: resource.setrlimit(which, (limit, limit))))
        files = {name: open(os.path.join(place, name), 'rb').read() if
                 os.path.isfile(os.path.join(place, name)) else None for name in os.listdir(place)}
        return done, files

    kinds = {'open files': (resource.RLIMIT_NOFILE, range(10)),
             'bytes in a file': (resource.RLIMIT_FSIZE, [0, 1, 1000, 65536, 70000, 200000])}
    if '--sanitized' not in sys.argv:
        kinds['memory'] = resource.RLIMIT_AS, [room << 20 for room in list(range(6, 32, 2)) + [64]]
    # The first waits in a file without a name until it is whole, or is made a second time.
    for arguments in (['lengths', '--shop', shop, '--format', 'csv'],
                      ['tension', '--shop', shop, '--format', 'json', '--output', out],
                      ['find', 'stop=195..', '--shop', shop], ['check', '--shop', shop],
                      ['compare', 'kestrel', 'heron', '--output', out + '.svg'], ['start', out],
                      *(['lengths', '--format', 'csv', '--shop', os.path.join(folder, name)] for name in odd)):
        whole, files = ask(arguments)
        for kind, (which, most) in kinds.items():
            wrong, last = [], None
            for limit in most:
                done, written = ask(arguments, which, limit)
                same = (done.returncode, done.stdout, done.stderr, written) == \
                    (whole.returncode, whole.stdout, whole.stderr, files)
                refused = done.returncode in (5, 127) and done.stderr != '' and done.stdout == '' and \
                    not [name for name in written if written[name] is not None]
                if not same and not refused:
                    wrong.append(limit)
                    last = done
            check('%s with a limit on %s (exit code %d without)' % (
                ' '.join(os.path.basename(word) for word in arguments[:6]), kind, whole.returncode), not wrong, last)


PARTS = {'limits': limits, 'long': long_files, 'many': many, 'pictures': pictures, 'outputs': odd_outputs, 'messages': messages, 'shops': shops_replaced, 'signals': signals}

with tempfile.TemporaryDirectory() as place:
    for part in [name for name in sys.argv[2:] if name in PARTS] or PARTS:
        os.mkdir(os.path.join(place, part))
        PARTS[part](os.path.join(place, part))
print('1..%d' % number)
sys.exit(1 if bad else 0)
