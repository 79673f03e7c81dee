#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Installs into a temporary folder, compiles the example programs of the documents and every header
# against the installation, asks one of them what the program is asked, and compares the library's symbols with its headers.
# usage: installed.sh BUILD SOURCE
set -eu
build=$1
source=$2
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
fault() {
    echo "$*"
    exit 1
}

meson install -C "$build" --no-rebuild --destdir "$scratch" >"$scratch/log" 2>&1 || {
    cat "$scratch/log"
    exit 1
}
config=$(find "$scratch" -name mensur.pc)
prefix=$scratch$(sed -n 's/^prefix=//p' "$config")
export PKG_CONFIG_PATH="${config%/*}:${PKG_CONFIG_PATH-}"
flags=$(pkg-config --define-variable=prefix="$prefix" --cflags --libs mensur gsl)
library=$(find "$scratch" -name 'libmensur.so' | head -n 1)

# shellcheck disable=SC2086 # the flags are words
cc -std=c17 -Wall -Wextra -Werror "$source/docs/example.c" $flags -Wl,-rpath,"${library%/*}" \
    -o "$scratch/example"
said=$("$scratch/example")
want='string 328.1 mm
A4 of 0.68 g/m pulls 56.7 N'
[ "$said" = "$want" ] || fault "the documents' program says: $said"

# What stands in include is installed, and nothing else.
find "$source/include" -name '*.h' -exec basename {} \; | LC_ALL=C sort >"$scratch/public"
(cd "$prefix/include/mensur" && ls) | LC_ALL=C sort >"$scratch/headers"
cmp "$scratch/public" "$scratch/headers" || fault "the headers installed are not those in include"

# The public headers are enough to ask whatever the program is asked.
# shellcheck disable=SC2086 # the flags are words
cc -std=c17 -Wall -Wextra -Werror "$source/docs/example_question.c" $flags \
    -Wl,-rpath,"${library%/*}" -o "$scratch/question"
unset MENSUR_SHOP
while read -r words; do
    # shellcheck disable=SC2086 # the words are words
    "$prefix/bin/mensur" $words >"$scratch/want" 2>"$scratch/want.err" && want=0 || want=$?
    # shellcheck disable=SC2086 # the words are words
    "$scratch/question" $words >"$scratch/got" 2>"$scratch/got.err" && got=0 || got=$?
    [ "$want" = "$got" ] || fault "$words: the program ends with $want, the library with $got"
    cmp "$scratch/want" "$scratch/got" || fault "$words: the library answers otherwise"
    cmp "$scratch/want.err" "$scratch/got.err" || fault "$words: the library says otherwise"
done <<'WORDS'
--version
check
lengths kestrel
neck kestrel --like heron --working
compare kestrel heron --format json
neck kestrel --string-length ..200
lengths kestral
WORDS

# Pictures are written by a module, which is found from any prefix; without it there is a reason.
mv "$prefix" "$scratch/elsewhere"
(
    cd "$scratch"
    elsewhere/bin/mensur compare kestrel heron --output picture.pdf
    elsewhere/bin/mensur compare kestrel heron --output picture.png
    module=$(find elsewhere -name mensur-paper.so)
    mv "$module" module.so
    code=0
    elsewhere/bin/mensur compare kestrel heron --output without.pdf 2>without.err || code=$?
    mv module.so "$module"
    [ "$code" = 5 ] && grep -q mensur-paper.so without.err && [ ! -e without.pdf ]
) || fault "the module that writes pictures"
mv "$scratch/elsewhere" "$prefix"

for header in "$prefix"/include/mensur/*.h; do
    name=${header##*/}
    printf '#include <mensur/%s>\n' "$name" >"$scratch/alone.c"
    for standard in c17 c99; do
        cc -std=$standard -Wall -Wextra -Werror -I"$prefix/include" -c "$scratch/alone.c" \
            -o "$scratch/alone.o" || fault "$name does not compile alone as $standard"
    done
done

# Both ways: what the headers declare, and nothing else.
nm -D --defined-only "$library" | sed 's/.* //' | LC_ALL=C sort -u >"$scratch/exported"
sed '/^typedef/d' "$prefix"/include/mensur/*.h | grep -oE '\bmensur_[a-z0-9_]+\(' | tr -d '(' |
    LC_ALL=C sort -u >"$scratch/declared"
[ -s "$scratch/declared" ] || fault "no function is declared"
missing=$(LC_ALL=C comm -13 "$scratch/exported" "$scratch/declared")
[ -z "$missing" ] || fault "declared and not exported: $missing"
private=$(LC_ALL=C comm -23 "$scratch/exported" "$scratch/declared")
[ -z "$private" ] || fault "exported and not declared: $private"

for file in bin/mensur share/man/man1/mensur.1 share/bash-completion/completions/mensur \
    share/zsh/site-functions/_mensur; do
    [ -s "$prefix/$file" ] || fault "$file was not installed"
done
bash -n "$prefix/share/bash-completion/completions/mensur"
"$prefix/bin/mensur" --version
echo "$(wc -l <"$scratch/declared") functions declared; they, and no others, are exported"
