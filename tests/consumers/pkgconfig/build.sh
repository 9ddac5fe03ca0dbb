#!/usr/bin/env bash
# Builds one program with pkg-config alone: build.sh c-shared|c-static|cpp <folder for the program>
# shellcheck disable=SC2046  # the flags are several words
set -eu
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
case $1 in
    c-shared) ${CC:-cc} -std=c99 -pedantic-errors -Wall -Wextra -Werror $(pkg-config --cflags sirop) \
        "$here/../boil.c" -o "$2/c-shared" $(pkg-config --libs sirop) ;;
    c-static) ${CC:-cc} -std=c99 -pedantic-errors -Wall -Wextra -Werror $(pkg-config --cflags sirop-static) \
        "$here/../boil.c" -o "$2/c-static" $(pkg-config --libs sirop-static) ;;
    cpp) ${CXX:-c++} -std=c++20 -Wall -Wextra -Werror $(pkg-config --cflags sirop-headers) \
        "$here/../boil.cpp" -o "$2/cpp" $(pkg-config --libs sirop-headers) ;;
    *) echo "usage: build.sh c-shared|c-static|cpp FOLDER" >&2; exit 2 ;;
esac
