#!/usr/bin/env bash
# The part of the C API for small machines: no exceptions, no type information, no heap, no I/O.
#     usage: heap_free.sh C++_COMPILER
set -eu
object=$(mktemp)
trap 'rm -f "$object"' EXIT
"$1" -std=c++20 -O2 -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror -ffp-contract=off -fno-exceptions -fno-rtti \
    -fno-threadsafe-statics -ffunction-sections -Iinclude -Ilib -c lib/c/c_api.cpp -o "$object"
nm -C --undefined-only "$object" | grep ' U ' >/dev/null  # it is an object, and calls something
! nm -C --undefined-only "$object" |
    grep -E 'operator (new|delete)|malloc|calloc|free$|printf|fopen|fwrite|std::cout|__cxa_(throw|allocate)|abort'
