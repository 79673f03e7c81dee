#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Which branches of base, read, physics and answers the tests take: each one is taken, or argued in
# exceptions.txt. Ends with a line "N passed, N failed".
#   sh tests/coverage/run.sh [BUILD]    (build-coverage)
#
# Clang's own coverage, not gcov's: it counts the conditions that stand in the source, each && and
# || by itself and with its place, before any optimisation and without the branches that a compiler
# makes; so the tests may run optimised, and a condition is known by its text. Counted atomically, as
# long tables are answered by several threads, and in the file itself, which every process maps (%c):
# a process that is killed, that has no memory left or may write no file counts what it did, and no
# file is ever half written, however many processes there are and however slow they run.
set -eu
cd "$(dirname "$0")/../.."
build=${1:-build-coverage}
[ -e "$build/build.ninja" ] || CC=clang meson setup "$build" -Dbuildtype=debug -Doptimization=1 \
    -Dc_args='-fprofile-instr-generate -fcoverage-mapping -fprofile-update=atomic -mllvm -runtime-counter-relocation' \
    -Dc_link_args=-fprofile-instr-generate >/dev/null
build=$(cd "$build" && pwd)
profiles=$build/profiles
rm -rf "$profiles"
mkdir "$profiles"

# suites PROFILE ARGUMENTS...: runs tests; %m makes a profile for each program, %p for each run.
suites() {
    export LLVM_PROFILE_FILE="$profiles/%c$1.profraw"
    shift
    meson test -C "$build" --timeout-multiplier 5 "$@" >"$build/log" 2>&1 && return
    grep -E ' (FAIL|TIMEOUT|ERROR) |^ninja: |error: ' "$build/log" || tail -n 20 "$build/log"
    echo "0 passed, 1 failed"
    exit 1
}
# Many programs once, of which two may look alike to %m; and one program some thousand times.
suites %m-%p --suite unit --suite fuzz
suites %m --suite cli --suite docs
# But for faults/abuse, which leaves no memory to map the counts into.
suites %m faults/library faults/program faults/changing faults/allocations

llvm-profdata merge -o "$build/tests.profdata" "$profiles"/*.profraw
exec python3 tests/coverage/branches.py "$build" tests/coverage/exceptions.txt
