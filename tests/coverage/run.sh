#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Which branches of base, read, physics and answers the tests take: each one is taken, or argued in
# exceptions.txt. Ends with a line "N passed, N failed".
#   sh tests/coverage/run.sh [BUILD]    (build-coverage)
#
# Clang's own coverage, not gcov's: it counts the conditions that stand in the source, each && and
# || by itself and with its place, before any optimisation and without the branches that a compiler
# makes; so the tests may run optimised, and a condition is known by its text. Counted atomically, as
# long tables are answered by several threads.
set -eu
cd "$(dirname "$0")/../.."
build=${1:-build-coverage}
[ -e "$build/build.ninja" ] || CC=clang meson setup "$build" -Dbuildtype=debug -Doptimization=1 \
    -Dc_args='-fprofile-instr-generate -fcoverage-mapping -fprofile-update=atomic' \
    -Dc_link_args=-fprofile-instr-generate >/dev/null
build=$(cd "$build" && pwd)
profiles=$build/profiles
rm -rf "$profiles"
mkdir "$profiles"

# suites PROFILE ARGUMENTS...: runs tests; %m makes a profile for each program, %p for each run.
suites() {
    export LLVM_PROFILE_FILE="$profiles/$1.profraw"
    shift
    meson test -C "$build" --num-processes 1 --timeout-multiplier 5 "$@" >"$build/log" 2>&1 && return
    grep -E ' (FAIL|TIMEOUT|ERROR) |^ninja: |error: ' "$build/log" || tail -n 20 "$build/log"
    echo "0 passed, 1 failed"
    exit 1
}
# Each program once, and two may look alike to %m; size limits and signals leave torn profiles.
suites %m-%p --suite unit --suite fuzz
suites %m-%p faults/library faults/program
# One program some thousand times: in one profile.
suites %m --suite cli --suite docs
suites %m faults/allocations

llvm-profdata merge -failure-mode=all -o "$build/tests.profdata" "$profiles"/*.profraw 2>"$build/log" ||
    { cat "$build/log"; exit 1; }
exec python3 tests/coverage/branches.py "$build" tests/coverage/exceptions.txt
