#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Fuzzes every harness with clang's libFuzzer, AddressSanitizer and UndefinedBehaviorSanitizer.
#   sh tests/fuzz/run.sh [60s|10000000] [HARNESS...]    a time (s) or a count of inputs for each
# What is found lies in BUILD/found and belongs into tests/fuzz/seeds once it is mended.
# MENSUR_FUZZ_BUILD names the build folder (build-fuzz).
set -eu
cd "$(dirname "$0")/../.."
build=${MENSUR_FUZZ_BUILD:-build-fuzz}
here=$(pwd)

amount=${1:-60s}
[ $# -eq 0 ] || shift
case "$amount" in
*s) limit="-max_total_time=${amount%s}" ;;
*) limit="-runs=$amount" ;;
esac

if [ ! -e "$build/build.ninja" ]; then
    CC=clang meson setup "$build" -Dbuildtype=debugoptimized -Db_sanitize=address,undefined \
        -Db_lundef=false -Dc_args="-fsanitize=fuzzer-no-link -fno-sanitize-coverage=trace-cmp \
            -fno-sanitize-recover=all" >/dev/null
fi
meson compile -C "$build" fuzzers >/dev/null

[ $# -gt 0 ] || set -- quantity wish options tunings wires materials players families strings \
    instruments
# Leaks are told by the tests; these keep the sanitizer quick.
export ASAN_OPTIONS="${ASAN_OPTIONS:-quarantine_size_mb=1:malloc_context_size=0}"
failed=0
for name in "$@"; do
    case "$name" in
    quantity | wish) longest=48 ;;
    options) longest=160 ;;
    *) longest=128 ;;
    esac
    mkdir -p "$build/found" "$build/corpus/$name"
    log=$build/fuzz_$name.log
    start=$(date +%s)
    outcome=ok
    # What the harness itself says goes nowhere.
    "$build/tests/fuzz/fuzz_$name" $limit -max_len=$longest -timeout=10 -rss_limit_mb=1024 \
        -close_fd_mask=3 -print_final_stats=1 -dict="$here/tests/fuzz/words.dict" \
        -artifact_prefix="$build/found/$name-" "$build/corpus/$name" \
        "$here/tests/fuzz/seeds/$name" >"$log" 2>&1 || outcome=FOUND
    [ "$outcome" = ok ] || failed=$((failed + 1))
    runs=$(sed -n 's/^stat::number_of_executed_units: *//p' "$log")
    echo "$outcome: $name: ${runs:-?} executions in $(($(date +%s) - start)) s"
done
echo "$(($# - failed)) passed, $failed failed"
[ "$failed" -eq 0 ]
