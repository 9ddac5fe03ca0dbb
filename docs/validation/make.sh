#!/usr/bin/env bash
# Makes docs/validation.md and its figures, from anywhere: compiles validate.cpp, runs it, draws with gnuplot.
# make.sh --check compares a fresh validation.md with the committed one and draws nothing; exit 1 on a difference.
# SIROP_CXX names the compiler (default g++).
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
root=$(cd "$here/../.." && pwd)
page="$root/docs/validation.md"
work="$root/build/validation"
export LC_ALL=C

mode=${1:-make}
if [ $# -gt 1 ] || { [ "$mode" != make ] && [ "$mode" != --check ]; }; then
    echo "usage: make.sh [--check]" >&2
    exit 2
fi
if [ "$mode" = make ] && ! command -v gnuplot > /dev/null; then
    echo "gnuplot is missing: apt-get install -y --no-install-recommends gnuplot-nox" >&2
    exit 2
fi

mkdir -p "$work"
cd "$root"
"${SIROP_CXX:-g++}" -std=c++20 -O2 -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Iinclude -Itests \
    -DSIROP_TEST_DATA='"tests/data"' docs/validation/validate.cpp -o "$work/validate"
"$work/validate" "$work" > "$work/validation.md"

if [ "$mode" = --check ]; then
    diff -u "$page" "$work/validation.md" && echo "docs/validation.md is up to date"
    exit
fi
LC_ALL=C.UTF-8 gnuplot -e "csv='$work'; out='$here'" "$here/figures.gp"
sed -i '/^[[:space:]]*$/d' "$here"/*.svg
cp "$work/validation.md" "$page"
echo "made docs/validation.md and $(find "$here" -name '*.svg' | wc -l) figures"
