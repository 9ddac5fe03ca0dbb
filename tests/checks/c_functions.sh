#!/usr/bin/env bash
# The functions that sirop.h declares, the stored list, what the library exports and docs/c-api.md agree.
#     usage: c_functions.sh LIBSIROP.so
set -u -o pipefail
export LC_ALL=C
stored=tests/checks/exported_symbols.txt
sed -nE 's/^SIROP_API.*[ *](sirop_[a-z0-9_]+)\(.*/\1/p' include/sirop/sirop.h | sort | diff -u $stored - &&
    nm -D --defined-only "$1" | awk '{print $3}' | sort | diff -u $stored - || exit 1
[ -s $stored ] && grep -ow 'sirop_[a-z0-9_]*' docs/c-api.md | sort -u | comm -23 $stored - |
    sed 's/$/ is not in docs\/c-api.md/' | { ! grep .; }
