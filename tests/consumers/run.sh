#!/usr/bin/env bash
# Installs a built preset to a temporary folder and uses it as other projects would.
# usage: run.sh BUILD_FOLDER      prints one line per consumer: "consumer NAME: passed" or "... FAILED"
set -u
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
build=$(cd "${1:?usage: run.sh BUILD_FOLDER}" && pwd) || exit 2
jobs=${SIROP_JOBS:-$(nproc)}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
failures=0

cached() { sed -n "s/^$1:[A-Z]*=//p" "$build/CMakeCache.txt"; }
CC=$(cached CMAKE_C_COMPILER)
CXX=$(cached CMAKE_CXX_COMPILER)
version=$(cached CMAKE_PROJECT_VERSION)
export CC CXX

# consumer NAME COMMAND...: one line, and the end of what the command said if it failed.
consumer() {
    local name=$1 log="$work/log"
    shift
    if "$@" >"$log" 2>&1; then
        echo "consumer $name: passed"
    else
        echo "consumer $name: FAILED"
        tail -n 20 "$log" | sed 's/^/    /'
        failures=$((failures + 1))
    fi
}

# cmake_project FOLDER [-D...]: configures and builds it.
cmake_project() {
    local folder=$1
    shift
    cmake -S "$here/$folder" -B "$work/$folder" -G Ninja -DCMAKE_BUILD_TYPE=Release \
        -DCMAKE_PREFIX_PATH="$work/moved" -DEXPECTED_VERSION="$version" "$@" &&
        cmake --build "$work/$folder" -j "$jobs"
}

run() { "$work/$1"; }
pkgconfig() { bash "$here/pkgconfig/build.sh" "$1" "$work" && "$work/$1"; }
needs_shared() { readelf -d "$work/$1" | grep -q 'NEEDED.*libsirop\.so'; }
without_shared() { ! needs_shared "$1" && run "$1"; }
with_shared() { needs_shared "$1" && run "$1"; }

# The tree is moved after the install: nothing in it may remember where it was put first.
consumer install cmake --install "$build" --prefix "$work/installed"
mv "$work/installed" "$work/moved" 2>/dev/null
pc=$(find "$work/moved" -name sirop.pc 2>/dev/null)
export PKG_CONFIG_PATH="${pc%/*}"
export LD_LIBRARY_PATH="${pc%/pkgconfig/*}${LD_LIBRARY_PATH:+:$LD_LIBRARY_PATH}"

consumer add_subdirectory cmake_project add_subdirectory
consumer add_subdirectory/cpp run add_subdirectory/cpp
consumer add_subdirectory/c run add_subdirectory/c
consumer find_package cmake_project find_package
consumer find_package/cpp run find_package/cpp
consumer find_package/c_shared with_shared find_package/c_shared
consumer find_package/c_static without_shared find_package/c_static
consumer find_package_c cmake_project find_package_c
consumer find_package_c/c_shared with_shared find_package_c/c_shared
consumer find_package_c/c_static without_shared find_package_c/c_static
consumer pkgconfig/c-shared pkgconfig c-shared
consumer pkgconfig/c-static pkgconfig c-static
consumer pkgconfig/cpp pkgconfig cpp

[ "$failures" -eq 0 ]
