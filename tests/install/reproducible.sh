#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Two builds from two source folders into two build folders, one inside its source and one elsewhere,
# give the same bytes, nothing stripped: the program, the module that writes pictures, the library, as a
# release (a build with debugging records where it was built); with the folder of
# src/page/build-libraries.sh, or two, for each page its own, the page too.
# usage: reproducible.sh SOURCE [LIBRARIES [OTHER_LIBRARIES]]
set -eu
source=$1
libraries=${2:+$(cd "$2" && pwd)}
others=${3:+$(cd "$3" && pwd)}
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
export CCACHE_DISABLE=1

one=$scratch/one
two=$scratch/a/longer/path/two
copy() {
    mkdir -p "$1"
    (cd "$source" && tar -cf - meson.build src include strings shared tests docs) | tar -xf - -C "$1"
}
copy "$one"
copy "$two"

version=$(sed -n "s/^  version: '\(.*\)',$/\1/p" "$source/meson.build")
parts="src/cli/mensur src/paper/mensur-paper.so src/library/libmensur.so.$version"
#   build SOURCE FOLDER
build() {
    meson setup "$2" "$1" --buildtype=release >"$scratch/log" 2>&1 || { cat "$scratch/log"; exit 1; }
    # shellcheck disable=SC2086 # the names are words
    ninja -C "$2" $parts >"$scratch/log" 2>&1 || { cat "$scratch/log"; exit 1; }
}
#   same NAME ONE TWO
same() {
    cmp "$2" "$3" || { echo "$1: two builds, two files"; exit 1; }
    echo "$(sha256sum <"$2" | cut -c 1-64)  $1"
}
build "$one" "$one/build"
build "$two" "$scratch/elsewhere/program"
for part in $parts; do
    same "$part" "$one/build/$part" "$scratch/elsewhere/program/$part"
done

if [ -n "$libraries" ]; then
    PAGE_LIBRARIES=$libraries PAGE_BUILD=$one/build-page \
        "$one/src/page/build.sh" "$scratch/one.html" >"$scratch/log" 2>&1 || { cat "$scratch/log"; exit 1; }
    PAGE_LIBRARIES=${others:-$libraries} PAGE_BUILD=$scratch/elsewhere/page \
        "$two/src/page/build.sh" "$scratch/two.html" >"$scratch/log" 2>&1 || { cat "$scratch/log"; exit 1; }
    same "the page" "$scratch/one.html" "$scratch/two.html"
fi
