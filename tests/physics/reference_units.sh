#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Compares units, intervals and laws with GNU units.
# usage: reference_units.sh PRINT_REFERENCE; exit 77 where GNU units is missing.
set -eu
export LC_ALL=C
printer=$1

if ! command -v units >/dev/null 2>&1; then
    echo "GNU units is missing: skipped"
    exit 77
fi

rows=$(mktemp)
trap 'rm -f "$rows"' EXIT
"$printer" units >"$rows"

tab=$(printf '\t')
count=0
wrong=0
while IFS="$tab" read -r expression unit value; do
    count=$((count + 1))
    if ! other=$(units --terse --digits 15 -- "$expression" "$unit" 2>&1); then
        echo "GNU units refuses: $expression in $unit: $other"
        wrong=$((wrong + 1))
    elif ! awk -v a="$value" -v b="$other" \
        'BEGIN { d = a - b; if (d < 0) d = -d; if (b < 0) b = -b; exit !(b > 0 && d <= 2e-14 * b) }'; then
        echo "differs: $expression in $unit: mensur $value, GNU units $other"
        wrong=$((wrong + 1))
    fi
done <"$rows"

echo "$count values against $(units --version | head -n 1): $wrong wrong"
[ "$count" -ge 50 ] && [ "$wrong" -eq 0 ]
