#!/usr/bin/env bash
# All C++ headers in two files of one program, forward and backward: nothing is defined twice, and none leans on
# one that happened to come before it.  Without exceptions too.  The C headers as C99, C++11
# and C++20.
#     usage: headers.sh C++_COMPILER C_COMPILER
# shellcheck disable=SC2086  # the flags are several words
set -eu
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
warnings="-pedantic-errors -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror -Iinclude -isystem /usr/include/eigen3"
(cd include && find sirop -name '*.hpp' | sort | sed 's/.*/#include <&>/') >"$work/forward.cpp"
[ -s "$work/forward.cpp" ]
tac "$work/forward.cpp" >"$work/backward.cpp"
echo 'int main() {}' >>"$work/backward.cpp"
"$1" -std=c++20 $warnings "$work"/*ward.cpp -o "$work/program"
"$work/program"
"$1" -std=c++20 $warnings -fno-exceptions -fno-rtti -fsyntax-only "$work/forward.cpp"
for header in include/sirop/*.h; do
    for language in "-x c -std=c99" "-x c++ -std=c++11" "-x c++ -std=c++20"; do
        echo "#include \"$header\"" | "$2" $language $warnings -I. -fsyntax-only -
    done
done
for source in examples/*.c; do "$2" -std=c99 $warnings -fsyntax-only "$source"; done
