#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Builds everything, tests too, with gcc and clang, for debugging and for release, a warning being an
# error.
#   sh tests/static/compilers.sh [BUILD]     (build-compilers)
# Each of the four builds is one check, from scratch.
set -eu
cd "$(dirname "$0")/../.."
build=${1:-build-compilers}
mkdir -p "$build"
passed=0
failed=0
for compiler in gcc clang; do
    for type in debug release; do
        folder=$build/$compiler-$type
        log=$folder.log
        rm -rf "$folder"
        start=$(date +%s)
        if CC=$compiler meson setup --werror --buildtype "$type" "$folder" >"$log" 2>&1 &&
            ninja -C "$folder" all meson-test-prereq >>"$log" 2>&1; then
            outcome=ok
            passed=$((passed + 1))
        else
            outcome=FAILED
            failed=$((failed + 1))
            grep -E -A 3 ': (fatal )?error: |ERROR: ' "$log" || tail -n 20 "$log"
        fi
        version=$("$compiler" -dumpfullversion -dumpversion 2>/dev/null || echo "not installed")
        steps=$(sed -n 's/^\[\([0-9]*\)\/[0-9]*\].*/\1/p' "$log" | tail -n 1)
        echo "$outcome: $compiler $version, $type: ${steps:-0} steps in $(($(date +%s) - start)) s"
    done
done
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
