#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Two builds in two folders give the same bytes.
# usage: reproducible.sh SOURCE
set -eu
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
for place in one two/deeper; do
    mkdir -p "$(dirname "$scratch/$place")"
    cp -r "$1" "$scratch/$place"
    meson setup "$scratch/$place/build-again" "$scratch/$place" -Dbuildtype=release >/dev/null
    ninja -C "$scratch/$place/build-again" src/cli/mensur src/paper/mensur-paper.so src/library/libmensur.so.0.1.0 >/dev/null
done
for file in src/cli/mensur src/paper/mensur-paper.so src/library/libmensur.so.0.1.0; do
    cmp "$scratch/one/build-again/$file" "$scratch/two/deeper/build-again/$file"
    sha256sum "$scratch/one/build-again/$file" | sed "s#$scratch/##"
done
