#!/usr/bin/env bash
# Installs what is missing on Debian 12.     usage: install_needed.sh build|test
# As root, or with sudo that asks for no password, it does so without asking.  Otherwise it prints the one line to
# run to standard error and exits 1.  Says nothing and needs no network when nothing is missing.
set -u

# What the library and the examples need, and what the whole test suite needs besides.
build="g++ cmake ninja-build libboost-dev libeigen3-dev libfmt-dev nlohmann-json3-dev libcli11-dev"
test="libgtest-dev libbenchmark-dev clang clang-format clang-tidy libclang-rt-14-dev pkg-config python3 python3-iapws valgrind
    python3-venv python3-numpy nodejs npm chromium clang-19 lld-19 wasi-libc libc++-19-dev-wasm32
    libc++abi-19-dev-wasm32 libclang-rt-19-dev-wasm32 binaryen"

case ${1:-} in
    build) wanted=$build ;;
    test) wanted="$build $test" ;;
    *) echo "usage: install_needed.sh build|test" >&2; exit 2 ;;
esac

if ! command -v dpkg-query >/dev/null || ! command -v apt-get >/dev/null; then
    echo "Not a Debian system, so nothing is installed.  Debian's names of what is needed: $wanted" >&2
    exit 0
fi

missing=""
for package in $wanted; do
    # Node and npm may have come another way.
    case $package in
        nodejs) command -v node >/dev/null && continue ;;
        npm) command -v npm >/dev/null && continue ;;
    esac
    state=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null)
    [ "$state" = installed ] || missing="$missing $package"
done
[ -n "$missing" ] || exit 0

if [ "$(id -u)" -eq 0 ]; then
    root=""
elif command -v sudo >/dev/null && sudo -n true 2>/dev/null; then
    root="sudo -n"
else
    command -v sudo >/dev/null && prefix="sudo " || prefix=""
    update=""
    ls /var/lib/apt/lists/*Packages* >/dev/null 2>&1 || update="${prefix}apt-get update && "
    echo "$update${prefix}apt-get install -y --no-install-recommends$missing" >&2
    exit 1
fi

echo "installing:$missing"
log=$(mktemp)
trap 'rm -f "$log"' EXIT
apt() { $root env DEBIAN_FRONTEND=noninteractive apt-get -o DPkg::Lock::Timeout=300 "$@" >>"$log" 2>&1 </dev/null; }
# A fresh machine has no package lists yet, an old one may have stale ones.
# shellcheck disable=SC2086
if ! apt install -y --no-install-recommends $missing; then
    if ! { apt update && apt install -y --no-install-recommends $missing; }; then
        echo "apt-get could not install:$missing" >&2
        tail -n 15 "$log" >&2
        exit 1
    fi
fi
