#!/usr/bin/env bash
# Builds the C libraries the page's engine needs as static libraries for
# wasm32-wasi, out of Debian's own source packages (apt-get source).
#
#   build-libraries.sh [--install] PREFIX
#
# PREFIX/lib, PREFIX/include   the libraries, their .pc files, their headers
# PREFIX/bin/wasm-cc           the compiler as meson can use it
# PREFIX/prefix.cross          tells meson where PREFIX is; give it together
#                              with wasm32-wasi.cross (two --cross-file)
# PREFIX/build                 sources, objects and the log: may be deleted,
#                              but then the next call builds again
#
# --install lets root install the Debian packages that are missing.
# GSL_PARTS and LIB_CFLAGS may be set to build other parts, or otherwise.
set -euo pipefail

packages="autoconf automake autotools-dev clang dpkg-dev
  libclang-rt-dev-wasm32 libtool lld llvm make meson ninja-build pkg-config
  wasi-libc"
# Subfolders of GSL. An object is linked only when something calls it, so a
# wide choice costs time here and nothing in the page. specfunc, cdf,
# integration, histogram may be added (half a minute); not cblas nor blas.
gsl_parts=${GSL_PARTS:-"err sys utils complex poly roots min deriv rng randist
  block vector matrix sort statistics linalg interpolation fit"}
cflags=${LIB_CFLAGS:--O2 -DNDEBUG}

fail() { echo "build-libraries: $*" >&2; exit 1; }

install=no
if [ "${1-}" = --install ]; then install=yes; shift; fi
[ $# -eq 1 ] || fail "usage: build-libraries.sh [--install] PREFIX"

missing=
for package in $packages; do
  dpkg-query -W -f='${db:Status-Abbrev}' "$package" 2>/dev/null |
    grep -q '^ii' || missing="$missing $package"
done
if [ -n "$missing" ]; then
  [ "$install" = yes ] || fail "missing Debian packages (--install, as root):$missing"
  [ "$(id -u)" -eq 0 ] || fail "--install needs root"
  # shellcheck disable=SC2086
  DEBIAN_FRONTEND=noninteractive \
    apt-get install -qq --no-install-recommends $missing >/dev/null
fi

mkdir -p "$1"
prefix=$(cd "$1" && pwd)
case $prefix in *[[:space:]\']*) fail "no blanks or quotes in PREFIX, please" ;; esac
build=$prefix/build
log=$build/log
stamp=$prefix/libraries.stamp
want="$(cksum <"$0") $gsl_parts $cflags"
if [ -f "$stamp" ] && [ "$(cat "$stamp")" = "$want" ]; then
  echo "build-libraries: gsl, libcsv, jansson are ready in $prefix"
  exit 0
fi

rm -rf "$build" "$stamp"
mkdir -p "$build/gsl-build" "$prefix"/{bin,include/gsl,lib/pkgconfig}
exec 3>&1 4>&2 >"$log" 2>&1
finish() {
  if [ ! -f "$stamp" ]; then
    tail -n 20 "$log" >&4
    echo "build-libraries: failed; the log is $log" >&4
  fi
}
trap finish EXIT

# The machine's own package sources again, as source entries, in a copy of
# apt's state that lives under the build folder.
mkdir -p "$build"/apt/{parts,lists/partial,cache/archives/partial}
eval "$(apt-config shell list Dir::Etc::sourcelist/f parts Dir::Etc::sourceparts/d)"
# shellcheck disable=SC2154
for file in "$list" "$parts"*.list "$parts"*.sources; do
  [ -f "$file" ] || continue
  sed -E -e 's/^Types:.*/Types: deb-src/' -e 's/^deb /deb-src /' "$file" |
    awk '!/^deb-src/ || !seen[$0]++' >"$build/apt/parts/$(basename "$file")"
done
apt() {
  apt-get -qq -o Dir::Etc::SourceList=/dev/null \
    -o Dir::Etc::SourceParts="$build/apt/parts" \
    -o Dir::State::Lists="$build/apt/lists" \
    -o Dir::Cache="$build/apt/cache" "$@"
}
apt update || true # a list that fails matters only if the sources are missing
(cd "$build" && apt source gsl libcsv jansson)

cross=(--host=wasm32-unknown-wasi --prefix="$prefix" --disable-shared
  --disable-dependency-tracking CC="clang --target=wasm32-wasi"
  AR=llvm-ar RANLIB=llvm-ranlib NM=llvm-nm CFLAGS="$cflags")

# libcsv: one file
cd "$build"/libcsv-*/
# shellcheck disable=SC2086
clang --target=wasm32-wasi $cflags -c libcsv.c
rm -f "$prefix/lib/libcsv.a"
llvm-ar qcs "$prefix/lib/libcsv.a" libcsv.o
cp csv.h "$prefix/include"

# jansson: without its own random seed, which would want files
cd "$build"/jansson-*/
autoreconf -fi
./configure "${cross[@]}" --disable-urandom ac_cv_func_open=no
make -C src install
cp jansson.pc "$prefix/lib/pkgconfig"
rm -f "$prefix/lib/libjansson.la"

# GSL: the objects of the chosen subfolders, put in one library ("q", since
# members of different subfolders bear the same names); past libtool, which
# takes longer than the compiler
cp -f /usr/share/misc/config.{sub,guess} "$build"/gsl-[0-9]*/
cd "$build/gsl-build"
sh ../gsl-[0-9]*/configure "${cross[@]}" ac_cv_c_extended_fp=no
make -C gsl
rm -f "$prefix/lib/libgsl.a"
for part in $gsl_parts; do
  # shellcheck disable=SC2016
  make -C "$part" LTCOMPILE='$(COMPILE)' LIBS= \
    LINK="llvm-ar qcs $prefix/lib/libgsl.a"
done
cp -L gsl/*.h "$prefix/include/gsl"
cat >"$prefix/lib/pkgconfig/gsl.pc" <<END
Name: GSL
Description: GNU Scientific Library (parts of it)
Version: $(sed -n 's/^#define VERSION "\(.*\)"/\1/p' config.h)
Libs: -L$prefix/lib -lgsl -lm
Cflags: -I$prefix/include
END

# meson brackets libraries with two arguments that wasm-ld may not know
cat >"$prefix/bin/wasm-cc" <<'END'
#!/bin/sh
for arg; do
  shift
  case $arg in -Wl,--start-group | -Wl,--end-group) ;; *) set -- "$@" "$arg" ;; esac
done
exec clang --target=wasm32-wasi "$@"
END
chmod +x "$prefix/bin/wasm-cc"
printf "[constants]\nlibraries = '%s'\n" "$prefix" >"$prefix/prefix.cross"
echo "$want" >"$stamp"
echo "build-libraries: gsl, libcsv, jansson built in $prefix ($SECONDS s)" >&3
