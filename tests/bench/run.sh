#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Builds an optimised mensur and prints a table of its speed and size.
#   sh tests/bench/run.sh [ROWS [ENGINE]]    (1000000)
# ENGINE is the folder of a columnar SQL engine's npm package to compare with (columnar_sum.mjs).
# MENSUR_BENCH_BUILD names the build folder (build-bench).
set -eu
cd "$(dirname "$0")/../.."
build=${MENSUR_BENCH_BUILD:-build-bench}
[ -e "$build/build.ninja" ] || meson setup "$build" -Dbuildtype=release -Db_lto=true >/dev/null
ninja -C "$build" src/cli/mensur tests/bench/bare_csv tests/bench/measure \
    tests/bench/string_evaluations >/dev/null
exec python3 tests/bench/bench.py "$build" "${1:-1000000}" ${2:+"$2"}
