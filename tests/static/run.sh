#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Static analysis: clang-tidy and gcc's analyser over all of src, cppcheck over src and tests.
#   sh tests/static/run.sh [BUILD]     (build-static)
# Nothing is compiled; two builds are set up for their commands: the program's, and the page's with
# the compiler of this machine. Needs what `.ci/packages full` installs. Every tool and file is one
# check.
set -eu
cd "$(dirname "$0")/../.."
build=${1:-build-static}

for tool in clang clang-tidy cppcheck gcc meson; do
    if ! command -v "$tool" >/dev/null; then
        echo "FAILED: $tool is not installed"
        echo "0 passed, 1 failed"
        exit 1
    fi
done

mkdir -p "$build"
[ -e "$build/native/build.ninja" ] || CC=clang meson setup "$build/native" >"$build/log"
[ -e "$build/page/build.ninja" ] ||
    meson setup --cross-file tests/static/page.cross "$build/page" >"$build/log"
# The lists of sources may have changed since the last run.
for part in native page; do
    ninja -C "$build/$part" build.ninja >"$build/log"
done
exec python3 tests/static/analyse.py . "$build"
