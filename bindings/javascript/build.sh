#!/usr/bin/env bash
# Compiles the C API to WebAssembly and puts the whole npm package together.     usage: build.sh OUT_DIR
# OUT_DIR is then ready for `npm pack`.  The version is the C header's.
set -eu
[ $# -eq 1 ] || { echo "usage: build.sh OUT_DIR" >&2; exit 2; }
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
root=$(cd "$here/../.." && pwd)
header=$root/include/sirop/sirop.h
mkdir -p "$1"
out=$(cd "$1" && pwd)

# What is needed: a file that shows it, and the Debian package that brings it.
missing=""
need() { [ -e "$1" ] || command -v "$1" >/dev/null || missing="$missing $2"; }
need python3 python3
need clang++-19 clang-19
need wasm-ld-19 lld-19
need /usr/include/wasm32-wasi/stdio.h wasi-libc
need /usr/lib/wasm32-wasi/libc++.a libc++-19-dev-wasm32
need /usr/lib/wasm32-wasi/libc++abi.a libc++abi-19-dev-wasm32
need /usr/lib/llvm-19/lib/clang/19/lib/wasi/libclang_rt.builtins-wasm32.a libclang-rt-19-dev-wasm32
need wasm-opt binaryen
need /usr/include/eigen3/Eigen/Core libeigen3-dev
need /usr/include/nlohmann/json.hpp nlohmann-json3-dev
if [ -n "$missing" ]; then
    echo "build.sh: missing Debian packages:$missing" >&2
    exit 1
fi

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
# The header folders that are needed, without the rest of the system's.
mkdir "$work/include"
ln -s /usr/include/nlohmann /usr/include/eigen3/Eigen /usr/include/eigen3/unsupported \
    "$work/include/"

# For size, over all files at once; no contraction to fused multiply-add, so that every language gets the same number.
flags="--target=wasm32-wasi -std=c++20 -Oz -flto -ffp-contract=off -fno-exceptions -fno-rtti -DNDEBUG -DSIROP_STATIC
    -DEIGEN_UNROLLING_LIMIT=0
    -Wall -Wextra -Wconversion -Wshadow"
objects=""
for source in "$root"/lib/{c,json,report,questions}/*.cpp "$here/src/standalone.cpp"; do
    object=$work/$(basename "$source" .cpp).o
    # shellcheck disable=SC2086
    clang++-19 $flags -I"$root/include" -I"$root/lib" -isystem "$work/include" -c "$source" -o "$object"
    objects="$objects $object"
done

exports=$(python3 -B "$here/../doors/doors.py" functions | sed 's/^/-Wl,--export=/') && [ -n "$exports" ] || exit 1
# The stack comes first in the memory, so that running out of it stops the module instead of overwriting data.
# shellcheck disable=SC2086
clang++-19 --target=wasm32-wasi -mexec-model=reactor -flto $objects -o "$work/linked.wasm" $exports \
    -Wl,--export=malloc -Wl,--export=free -Wl,--gc-sections -Wl,--strip-all \
    -Wl,--stack-first -Wl,-z,stack-size=262144 -lc-printscan-no-floating-point

# What the linker left, made smaller; the features are those that clang 19 uses.
wasm-opt -Oz --converge --enable-bulk-memory --enable-sign-ext --enable-nontrapping-float-to-int \
    --enable-mutable-globals "$work/linked.wasm" -o "$out/sirop.wasm"

number() { sed -nE "s/^#define SIROP_VERSION_$1 ([0-9]+)\$/\1/p" "$header"; }
version=$(number MAJOR).$(number MINOR).$(number PATCH)
case $version in *..* | .* | *.) echo "build.sh: no version found in $header" >&2; exit 1 ;; esac

cp "$here"/package/*.js "$here"/package/README.md "$root/LICENSE" "$out/"
for what in javascript schemas; do python3 -B "$here/../doors/doors.py" $what "$out" || exit 1; done
sed "s/\"version\": \"[^\"]*\"/\"version\": \"$version\"/" "$here/package/package.json" >"$out/package.json"
grep -q "\"version\": \"$version\"" "$out/package.json"
