#!/usr/bin/env bash
# Installs a built preset to a temporary folder and uses it as other projects would.
# usage: run.sh BUILD_FOLDER      prints one line per consumer: "consumer NAME: passed" or "... FAILED"
set -u
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
build=$(cd "${1:?usage: run.sh BUILD_FOLDER}" && pwd) || exit 2
jobs=${CMAKE_BUILD_PARALLEL_LEVEL:-$(nproc)}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
prefix=consumer
. "$here/../checks/lines.sh"

cached() { sed -n "s/^$1:[A-Z]*=//p" "$build/CMakeCache.txt"; }
CC=$(cached CMAKE_C_COMPILER)
CXX=$(cached CMAKE_CXX_COMPILER)
version=$(cached CMAKE_PROJECT_VERSION)
export CC CXX

# cmake_project FOLDER [TARGET...]: configures and builds it, at -O0, where the library itself is compiled fastest.
cmake_project() {
    local folder=$1
    shift
    cmake -S "$here/$folder" -B "$work/$folder" -G Ninja -DCMAKE_BUILD_TYPE=Debug \
        -DCMAKE_PREFIX_PATH="$work/moved" -DEXPECTED_VERSION="$version" &&
        cmake --build "$work/$folder" -j "$jobs" ${1:+--target "$@"}
}

run() { "$work/$1"; }
pkgconfig() { bash "$here/pkgconfig/build.sh" "$1" "$work" && "$work/$1"; }
needs_shared() { readelf -d "$work/$1" | grep -q 'NEEDED.*libsirop\.so'; }
without_shared() { ! needs_shared "$1" && run "$1"; }
with_shared() { needs_shared "$1" && run "$1"; }

# The tree is moved after the install: nothing in it may remember where it was put first.
check install cmake --install "$build" --prefix "$work/installed"
mv "$work/installed" "$work/moved" 2>/dev/null
pc=$(find "$work/moved" -name sirop.pc 2>/dev/null)
export PKG_CONFIG_PATH="${pc%/*}"
export LD_LIBRARY_PATH="${pc%/pkgconfig/*}${LD_LIBRARY_PATH:+:$LD_LIBRARY_PATH}"

check add_subdirectory cmake_project add_subdirectory cpp c
check add_subdirectory/cpp run add_subdirectory/cpp
check add_subdirectory/c run add_subdirectory/c
check find_package cmake_project find_package
check find_package/cpp run find_package/cpp
check find_package/c_shared with_shared find_package/c_shared
check find_package/c_static without_shared find_package/c_static
check find_package_c cmake_project find_package_c
check find_package_c/c_shared with_shared find_package_c/c_shared
check find_package_c/c_static without_shared find_package_c/c_static
check pkgconfig/c-shared pkgconfig c-shared
check pkgconfig/c-static pkgconfig c-static
check pkgconfig/cpp pkgconfig cpp

[ "$failures" -eq 0 ]
