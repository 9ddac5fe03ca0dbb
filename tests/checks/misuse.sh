#!/usr/bin/env bash
# misuse.cpp passes as it stands, and with each misuse it must not compile, with our own sentence in the message.
#     usage: misuse.sh C++_COMPILER
set -u
compile() { "$compiler" -std=c++20 -Iinclude -fsyntax-only tests/checks/misuse.cpp "$@" 2>&1; }
compiler=$1
compile || exit 1
number=0
for words in "a pressure is wanted here" "a temperature is wanted here" "a temperature is wanted here"; do
    number=$((number + 1))
    said=$(compile -DSIROP_MISUSE=$number) && { echo "misuse $number compiles"; exit 1; }
    [[ $said == *"sirop: $words"* ]] || { echo "misuse $number does not say: $words"; exit 1; }
done
