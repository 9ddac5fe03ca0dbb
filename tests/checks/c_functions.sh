#!/usr/bin/env bash
# The library exports what sirop.h declares, and what is made from it and stored is up to date.
#     usage: c_functions.sh LIBSIROP.so
set -u -o pipefail
export LC_ALL=C
declared=$(python3 -B bindings/doors/doors.py functions) && [ -n "$declared" ] &&
    nm -D --defined-only "$1" | awk '{print $3}' | sort | diff -u <(echo "$declared") - &&
    python3 -B bindings/doors/doors.py pages --check
