#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Fuzzes every harness with clang's libFuzzer, AddressSanitizer and UndefinedBehaviorSanitizer.
#   sh tests/fuzz/run.sh [60s|10000000] [HARNESS...]    a time (s) or a count of inputs for each
# Inputs that fail are kept in BUILD/found; add them to tests/fuzz/seeds once the fault is fixed.
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
[ "${MENSUR_FUZZ_ONE:-}" ] || meson compile -C "$build" fuzzers >/dev/null

# Fuzzes one harness and prints a line with the result.
fuzz() {
    case "$1" in
    quantity | wish) longest=48 ;;
    options) longest=160 ;;
    *) longest=128 ;;
    esac
    mkdir -p "$build/found" "$build/corpus/$1"
    log=$build/fuzz_$1.log
    start=$(date +%s)
    outcome=ok
    # The output of the harness itself is discarded.
    "$build/tests/fuzz/fuzz_$1" $limit -max_len=$longest -timeout=10 -rss_limit_mb=1024 \
        -close_fd_mask=3 -print_final_stats=1 -dict="$here/tests/fuzz/words.dict" \
        -artifact_prefix="$build/found/$1-" "$build/corpus/$1" \
        "$here/tests/fuzz/seeds/$1" >"$log" 2>&1 || outcome=FOUND
    runs=$(sed -n 's/^stat::number_of_executed_units: *//p' "$log")
    echo "$outcome: $1: ${runs:-?} executions in $(($(date +%s) - start)) s"
}

# Leaks are found by the tests; without these checks the sanitizer is faster.
export ASAN_OPTIONS="${ASAN_OPTIONS:-quarantine_size_mb=1:malloc_context_size=0}"
if [ "${MENSUR_FUZZ_ONE:-}" ]; then
    fuzz "$1"
    exit
fi

[ $# -gt 0 ] || set -- quantity wish options tunings wires materials players families settings strings \
    instruments
# As many at a time as there are cores.
outcomes=$build/outcomes
printf '%s\n' "$@" | MENSUR_FUZZ_ONE=yes xargs -P "$(getconf _NPROCESSORS_ONLN)" -n 1 \
    sh tests/fuzz/run.sh "$amount" | tee "$outcomes"
failed=$(grep -c -v '^ok: ' "$outcomes" || true)
echo "$(($# - failed)) passed, $failed failed"
[ "$(grep -c '^ok: ' "$outcomes")" -eq $# ]
