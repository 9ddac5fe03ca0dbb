#!/usr/bin/env bash
# Every C++ header refuses -ffast-math and -ffinite-math-only with our sentence, in both compilers; without the flag,
# and with what else optimizes, it compiles.  sirop.h computes nothing and is taken with it.
set -u
cd "$(dirname "${BASH_SOURCE[0]}")/../.." || exit 1
said="sirop: -ffast-math and -ffinite-math-only change answers without a word"
failed=0
# run HEADER COMPILER FLAGS...: what the compiler says of a file that includes the header.
run() { printf '#include <%s>\n' "$1" | "${@:2}" -Iinclude -isystem /usr/include/eigen3 -o /dev/null - 2>&1; }

for compiler in g++ clang++; do
    for header in $(cd include && find sirop -name '*.hpp' | sort); do
        for flag in -ffast-math -ffinite-math-only; do
            [ $flag = -ffast-math ] || [ "$header" = sirop/sirop.hpp ] || continue
            if message=$(run "$header" $compiler -x c++ -std=c++20 $flag -E) || ! grep -q -- "$said" <<<"$message"; then
                echo "$compiler $flag $header: not refused"
                failed=1
            fi
        done
    done
    run sirop/sirop.hpp $compiler -fsyntax-only -x c++ -std=c++20 -O3 -fno-math-errno || failed=1
    run sirop/sirop.h $compiler -fsyntax-only -x c++ -std=c++20 -ffast-math || failed=1
    run sirop/sirop.h $compiler -fsyntax-only -x c -std=c99 -ffast-math || failed=1
done
exit $failed
