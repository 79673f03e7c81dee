#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Builds the page: one HTML file that works anywhere, off line.
#
#   src/page/build.sh [--install] OUT.html
#
# --install lets root install the Debian packages that are missing. The libraries are built once and
# kept, with the engine, in the folder build-page (or PAGE_BUILD) at the top of the tree.
set -euo pipefail

fail() { echo "build: $*" >&2; exit 1; }

install=()
if [ "${1-}" = --install ]; then install=(--install); shift; fi
[ $# -eq 1 ] || fail "usage: build.sh [--install] OUT.html"
here=$(cd "$(dirname "$0")" && pwd)
top=$(cd "$here/../.." && pwd)
build=${PAGE_BUILD:-$top/build-page}
libraries=${PAGE_LIBRARIES:-$build/libraries}

"$here/build-libraries.sh" "${install[@]}" "$libraries"
if ! command -v wasm-opt >/dev/null; then # makes the engine smaller and a little faster
  [ ${#install[@]} -gt 0 ] || fail "missing Debian package (--install, as root): binaryen"
  DEBIAN_FRONTEND=noninteractive apt-get install -qq --no-install-recommends binaryen >/dev/null
fi
if [ ! -f "$build/engine/build.ninja" ]; then
  meson setup "$build/engine" "$top" --buildtype release --optimization 2 \
    --cross-file "$here/wasm32-wasi.cross" --cross-file "$libraries/prefix.cross"
fi
meson compile -C "$build/engine" ${JOBS:+-j "$JOBS"}
wasm-opt -O3 "$build/engine/src/page/engine.wasm" -o "$build/engine.wasm"
python3 "$here/pack.py" "$here" "$build/engine.wasm" "$1"
