#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs clang-tidy, gcc's analyser and cppcheck on the files that the two builds in a folder compile
(run.sh sets them up), one job for each processor; prints their messages."""
import concurrent.futures
import json
import os
import re
import shlex
import subprocess
import sys
import time

top, build = (os.path.abspath(path) for path in sys.argv[1:])
jobs = os.cpu_count() or 1

# Warnings in addition to those of every build. Left out: -Wdouble-promotion, since math.h's NAN is a float;
# -Wswitch-default and -Wswitch-enum, since -Wswitch already wants every value unless a default says
# otherwise; -Wredundant-decls, since a table of functions declares one anew that several rows share.
GCC = ['-fanalyzer', '-Werror', '-O2', '-Wall', '-Walloca', '-Walloc-zero', '-Warith-conversion',
       '-Warray-bounds=2', '-Wbidi-chars=any', '-Wcast-align=strict', '-Wdate-time',
       '-Wduplicated-branches', '-Wduplicated-cond', '-Wformat=2', '-Wformat-overflow=2',
       '-Wformat-signedness', '-Wimplicit-fallthrough=5', '-Wjump-misses-init', '-Wlogical-op',
       '-Wnested-externs', '-Wnull-dereference', '-Wshift-overflow=2',
       '-Wstack-usage=65536', '-Wstrict-aliasing=2', '-Wstrict-overflow=2', '-Wstringop-overflow=4',
       '-Wtrampolines', '-Wunused-const-variable=2', '-Wunused-macros']
CPPCHECK = ['--inconclusive', '--std=c11',  # the newest that cppcheck 2.10 knows
            '--suppress=missingIncludeSystem', '--error-exitcode=1', '--quiet',
            '--template={file}:{line}:{column}: {severity}: {message} [{id}]',
            '--library=posix,gnu,gtk,cairo,' + os.path.join(top, 'tests/static/cmocka.cfg')]
# No style checks in tests: a local variable may have the name of the function that it tests.
CPPCHECKED = {'src': ('warning,performance,portability,information,style', 'cppcheck'),
              'tests': ('warning,performance,portability,information', 'cppcheck-tests')}


def arguments_of(entry, file):
    """The compiler's arguments, without those that name output files."""
    given = iter(shlex.split(entry['command'])[1:])
    kept = []
    for word in given:
        if word in ('-o', '-MF', '-MQ'):
            next(given)
        elif word not in ('-MD', '-fcolor-diagnostics', '-fdiagnostics-color=always'):
            kept.append(word)
    return kept[:-1] + [file]


def compiled():
    """Path from the root and command of each file, once even if several builds compile it."""
    found = {}
    for part in ('native', 'page'):
        with open(os.path.join(build, part, 'compile_commands.json'), encoding='utf-8') as file:
            for entry in json.load(file):
                path = os.path.normpath(os.path.join(entry['directory'], entry['file']))
                name = os.path.relpath(path, top)
                if name.startswith(('src/', 'tests/')) and name not in found:
                    found[name] = {'directory': entry['directory'], 'file': path,
                                   'arguments': arguments_of(entry, path)}
    return found


def uncompiled(found):
    for part in ('src', 'tests'):
        for folder, _, names in os.walk(os.path.join(top, part)):
            for name in names:
                path = os.path.relpath(os.path.join(folder, name), top)
                if name.endswith('.c') and path not in found and 'node_modules' not in path:
                    yield path


def write_commands(folder, found, names):
    os.makedirs(folder, exist_ok=True)
    entries = []
    for name in names:
        # cppcheck needs quotes to be escaped.
        words = (re.sub(r'([^\w@%+=:,./-])', r'\\\1', word) for word in found[name]['arguments'])
        entries.append({'directory': found[name]['directory'], 'file': found[name]['file'],
                        'command': 'clang ' + ' '.join(words)})
    with open(os.path.join(folder, 'compile_commands.json'), 'w', encoding='utf-8') as file:
        json.dump(entries, file, indent=1)


def run(command, folder):
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)
    text = re.sub(r'^\d+ warnings? generated\.\n', '', done.stdout + done.stderr, flags=re.M)
    return done.returncode, text


def over_each(tool, names, command_of, pool, found):
    """Counts the files with and without messages of a tool."""
    started, failed = time.monotonic(), 0
    told = pool.map(lambda name: run(command_of(name), found[name]['directory']), names)
    for name, (code, text) in zip(names, told):
        if code != 0:
            failed += 1
            print('FAILED: %s: %s\n%s' % (tool, name, text.replace(top + '/', '').rstrip()))
    print('%s: %d files, %d with findings, %.0f s' % (
        tool, len(names), failed, time.monotonic() - started), flush=True)
    return len(names) - failed, failed


def over_all(part, names):
    """The same for cppcheck, which checks all files together."""
    started, folder = time.monotonic(), os.path.join(build, part)
    kinds, suppressions = CPPCHECKED[part]
    code, text = run(
        ['cppcheck', '--project=' + os.path.join(folder, 'compile_commands.json'),
         '--enable=' + kinds, '--suppressions-list=' +
         os.path.join(top, 'tests/static', suppressions + '.suppressions')] + CPPCHECK, folder)
    text = text.replace(top + '/', '')
    bad = set(re.findall(r'^([^:\s]+):-?\d+:\d+: ', text, re.M))
    if code != 0 and not bad:
        bad = {'cppcheck itself'}
    if bad:
        print('FAILED: cppcheck: %s\n%s' % (', '.join(sorted(bad)), text.rstrip()))
    print('cppcheck: %d files of %s, %d with findings, %.0f s' % (
        len(names), part, len(bad), time.monotonic() - started), flush=True)
    return len(set(names) - bad), len(bad)


def main():
    found = compiled()
    parts = {part: sorted(name for name in found if name.startswith(part + '/'))
             for part in ('src', 'tests')}
    for part, names in parts.items():
        write_commands(os.path.join(build, part), found, names)
    strays = list(uncompiled(found))
    for name in strays:
        print('FAILED: %s is in no build' % name)
    with concurrent.futures.ThreadPoolExecutor(jobs) as pool:
        counts = list(pool.map(lambda part: over_all(part, parts[part]), parts))
        counts.append(over_each(
            'gcc -fanalyzer', parts['src'],
            lambda name: ['gcc'] + found[name]['arguments'] + GCC + ['-o', '/dev/null'],
            pool, found))
        counts.append(over_each(
            'clang-tidy', parts['src'],
            lambda name: ['clang-tidy', '--quiet', '-p', os.path.join(build, 'src'),
                          found[name]['file']],
            pool, found))
    passed = sum(good for good, _ in counts)
    failed = sum(bad for _, bad in counts) + len(strays)
    print('%d passed, %d failed' % (passed, failed))
    return 1 if failed or len(parts['src']) < 100 else 0


sys.exit(main())
