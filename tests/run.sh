#!/usr/bin/env bash
# The whole check, from anywhere, in a clean clone.  Installs what is missing (Debian 12), prints one line a step
# with its seconds, and closes with "N passed, N failed": every GoogleTest case in every build, and every other
# check, counts one.  Exits 0 only if nothing failed.
# SIROP_JOBS=1 builds with one process; the default is one per core.
set -u
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd) || exit 1
cd "$root" || exit 1
export LC_ALL=C.UTF-8
jobs=${SIROP_JOBS:-$(nproc)}
logs="$root/build/logs"
passed=0
failed=0

# Headers that need exceptions: they are opt-in, and the C++ door is not among them.
with_exceptions_only="sirop/arrays.hpp sirop/format.hpp"
warnings="-Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror"

finish() {
    echo "$passed passed, $failed failed"
    [ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
    exit
}

step_began=$SECONDS
# report NAME PASSED FAILED [LOG]: counts, prints the line of the step, and the end of its log if something failed.
report() {
    passed=$((passed + $2))
    failed=$((failed + $3))
    local mark=""
    [ "$3" -eq 0 ] || mark="   FAILED: $3"
    printf '%4d s  %-28s %5d of %d%s\n' $((SECONDS - step_began)) "$1" "$2" $(($2 + $3)) "$mark"
    if [ "$3" -ne 0 ] && [ -s "${4:-}" ]; then
        # A build's log is shown from its first error on.
        { grep -A 24 -m 1 '^FAILED: ' "$4" || tail -n 30 "$4"; } | cut -c 1-240 | sed 's/^/    | /'
    fi
    step_began=$SECONDS
}

# check NAME COMMAND...: one check, passed if the command exits 0.
check() {
    local name=$1 log="$logs/${1//[^A-Za-z0-9]/_}.log"
    shift
    if "$@" >"$log" 2>&1 </dev/null; then report "$name" 1 0; else report "$name" 0 1 "$log"; return 1; fi
}

# each NAME COMMAND < list: one check for each line, which the command gets as its last argument.  Runs in parallel;
# an empty list is a failure.
each() {
    local name=$1 log="$logs/${1//[^A-Za-z0-9]/_}.log" lines good
    shift
    lines=$(cat)
    # Each check writes to a file of its own; only failures are shown.
    rm -rf "$log.d"
    mkdir -p "$log.d"
    good=$(printf '%s\n' "$lines" | grep . | nl -w 1 -s ' ' | xargs -d '\n' -P "$jobs" -I '{}' bash -c '
        number=${1%% *}; what=${1#* }; own=$2/$number; shift 2
        if "$@" "$what" >"$own" 2>&1 </dev/null; then echo passed; rm -f "$own"
        else printf "%s: FAILED\n" "$what" >>"$own"; fi' each '{}' "$log.d" "$@" | grep -c '^passed$')
    cat "$log.d"/* >"$log" 2>/dev/null
    local count
    count=$(printf '%s\n' "$lines" | grep -c .)
    if [ "$count" -eq 0 ]; then
        echo "nothing to check" >"$log"
        report "$name" 0 1 "$log"
    else
        report "$name" "$good" $((count - good)) "$log"
    fi
}

# --- builds and GoogleTest ------------------------------------------------------------------------------------------

build() { cmake --preset "$1" -DSIROP_WARNINGS_AS_ERRORS=ON && cmake --build "build/$1" -j "$jobs"; }

# gtest_program PROGRAM: runs it and writes "TOTAL OK" of its cases to PROGRAM.counts; a case that did not say OK
# (failed, skipped, or never reached because of a crash) has failed.
gtest_program() {
    local program=$1 total good status
    total=$("$program" --gtest_list_tests 2>/dev/null | grep -c '^  ')
    { timeout 600 "$program" >"$program.log" 2>&1 </dev/null; } 2>/dev/null
    status=$?
    good=$(grep -c '\[       OK \]' "$program.log")
    if [ "$total" -eq 0 ]; then
        echo "no tests ran" >>"$program.log"
        total=1
    fi
    # A program that ends badly after its last case is a failure too.
    if [ "$status" -ne 0 ] && [ "$good" -eq "$total" ]; then total=$((total + 1)); fi
    if [ "$good" -ne "$total" ]; then echo "${program##*/}: exit status $status" >>"$program.log"; fi
    echo "$total $good" >"$program.counts"
}
export -f gtest_program

# gtest PRESET: every test program of that build.
gtest() {
    local folder="build/$1/tests" log="$logs/gtest_$1.log" program total=0 good=0 a b
    rm -f "$folder"/*.counts "$log"
    sed "s,^,$folder/," "$folder/programs.txt" 2>/dev/null | xargs -r -P "$jobs" -n 1 bash -c 'gtest_program "$1"' gtest
    while read -r program; do
        a=1 b=0  # a program that could not be run counts as one failure
        read -r a b <"$folder/$program.counts"
        total=$((total + a))
        good=$((good + b))
        # For a short log: what the failed cases said, where a crash came, and how the program ended.
        if [ "$a" -ne "$b" ]; then
            grep -v -e '^\[' -e '^$' -e '^Running main' -e '^Note: ' -e 'FAILED TEST' "$folder/$program.log" |
                grep -v ": exit status" | head -n 12 >>"$log"
            grep '^\[ RUN ' "$folder/$program.log" | tail -n 1 | sed 's/.*\] /last case begun: /' >>"$log"
            tail -n 1 "$folder/$program.log" >>"$log"
        fi
    done <"$folder/programs.txt"
    if [ "$total" -eq 0 ]; then
        echo "no tests ran" >"$log"
        total=1
    fi
    report "tests, $1" "$good" $((total - good)) "$log"
}

# --- other checks ---------------------------------------------------------------------------------------------------

own_sources() {
    find include lib examples tests docs -type f \
        \( -name '*.hpp' -o -name '*.h' -o -name '*.cpp' -o -name '*.c' \) | sort
}

# header_alone "COMPILER FLAGS... HEADER": each public header must stand alone, also for users without exceptions.
header_alone() {
    local words
    read -r -a words <<<"$1"
    local header=${words[-1]}
    unset 'words[-1]'
    printf '#include <%s>\n' "$header" | "${words[@]}" -fsyntax-only -Iinclude -isystem /usr/include/eigen3 -
}
header_jobs() {
    local header compiler
    for header in $(cd include && find sirop -name '*.hpp' | sort); do
        for compiler in g++ clang++; do
            echo "$compiler -x c++ -std=c++20 $warnings $header"
            case " $with_exceptions_only " in
                *" $header "*) ;;
                *) echo "$compiler -x c++ -std=c++20 $warnings -fno-exceptions -fno-rtti $header" ;;
            esac
        done
    done
    for compiler in gcc clang; do
        echo "$compiler -x c -std=c99 -pedantic-errors $warnings sirop/sirop.h"
        echo "$compiler -x c++ -std=c++11 -pedantic-errors $warnings sirop/sirop.h"
        echo "$compiler -x c++ -std=c++20 -pedantic-errors $warnings sirop/sirop.h"
        echo "$compiler -x c -std=c99 -pedantic-errors $warnings sirop/sirop_embedded.h"
        echo "$compiler -x c++ -std=c++11 -pedantic-errors $warnings sirop/sirop_embedded.h"
    done
}
export -f header_alone

# All headers in two translation units of one program, forward and backward: nothing is defined twice, and no
# header leans on one that happened to come before it.
headers_twice() {
    local folder=build/headers_twice
    mkdir -p "$folder"
    (cd include && find sirop -name '*.hpp' | sort) >"$folder/list"
    sed 's/.*/#include <&>/' "$folder/list" >"$folder/forward.cpp"
    tac "$folder/list" | sed 's/.*/#include <&>/' >"$folder/backward.cpp"
    echo 'int main() {}' >>"$folder/backward.cpp"
    # shellcheck disable=SC2086
    g++ -std=c++20 $warnings -Iinclude -isystem /usr/include/eigen3 "$folder/forward.cpp" "$folder/backward.cpp" \
        -o "$folder/program" -lfmt && "$folder/program"
}

exported_symbols() {
    nm -D --defined-only build/release/lib/libsirop.so | awk '{print $3}' | LC_ALL=C sort |
        diff -u tests/exported_symbols.txt -
}

# The stored list is the header's: a function that was declared and forgotten shows here.
declared_functions() {
    sed -nE 's/^SIROP_API.*[ *](sirop_[a-z0-9_]+)\(.*/\1/p' include/sirop/sirop.h | LC_ALL=C sort |
        diff -u tests/exported_symbols.txt -
}

tidy() {
    clang-tidy --quiet -p build/clang "$1" 2>&1 | grep -v 'warnings\? generated'
    return "${PIPESTATUS[0]}"
}
export -f tidy

# What a person may rely on: a refusal is exit status 2, nothing on standard output, one line on standard error.
refusal() {
    local program=build/release/examples/predict_set out=build/logs/refusal.out err=build/logs/refusal.err status
    for batch in '{"sirop_batch": 1, "pan": []}' '{' '' '[1]'; do
        printf '%s' "$batch" | "$program" --json - >"$out" 2>"$err"
        status=$?
        [ $status -eq 2 ] && [ ! -s "$out" ] && [ "$(wc -l <"$err")" -eq 1 ] || return 1
    done
    "$program" no-such-file.json >"$out" 2>"$err"
    [ $? -eq 2 ] && [ ! -s "$out" ] && [ "$(wc -l <"$err")" -eq 1 ] || return 1
    head -c 100000000 /dev/zero | tr '\0' '[' | timeout 20 "$program" - >"$out" 2>"$err"
    [ "${PIPESTATUS[2]}" -eq 2 ] && [ "$(wc -l <"$err")" -eq 1 ]
}

# The same file passes as it stands, and with each misuse it must not compile, with our own sentence in the message.
misuse() {
    local n words=("" "a pressure is wanted here" "a temperature is wanted here" "a temperature is wanted here")
    for compiler in g++ clang++; do
        "$compiler" -std=c++20 -Iinclude -fsyntax-only tests/misuse.cpp || return 1
        for n in 1 2 3; do
            "$compiler" -std=c++20 -Iinclude -fsyntax-only -DSIROP_MISUSE=$n tests/misuse.cpp 2>build/logs/misuse.err &&
                return 1
            grep -q "sirop: ${words[$n]}" build/logs/misuse.err || return 1
        done
    done
}

# The README's example is the program's own text, and what it says it prints is what it prints.
readme() {
    local shown own
    shown=$(sed -n '/^```cpp$/,/^```$/p' README.md | sed '1d;$d')
    own=$(sed -n '/\[readme\]/,/\[readme\]/p' examples/first_sauce.cpp | sed '1d;$d' | sed 's/^    //')
    diff <(printf '%s\n' "$shown") <(printf '%s\n' "$own") || return 1
    grep -qF "\`$(build/release/examples/first_sauce | head -n 1)\`" README.md || return 1
    # The same sauce in C, as the page on the C API shows it.
    diff <(sed -n '/^```c$/,/^```$/p' docs/c-api.md | sed '1d;/^```$/,$d') examples/first_sauce_c.c || return 1
    diff <(build/release/examples/first_sauce | head -n 1) <(build/release/examples/first_sauce_c | head -n 1)
}

# lines PREFIX COMMAND...: a script that prints "PREFIX NAME: passed" or "... FAILED" for each of its checks.
lines() {
    local prefix=$1 log="$logs/$1.log" status good bad
    shift
    "$@" >"$log" 2>&1 </dev/null
    status=$?
    good=$(grep -c "^$prefix .*: passed\$" "$log")
    bad=$(grep -c "^$prefix .*: FAILED\$" "$log")
    if [ "$bad" -eq 0 ] && { [ "$status" -ne 0 ] || [ "$good" -eq 0 ]; }; then bad=1; fi
    report "$prefix" "$good" "$bad" "$log"
}

# The part of the C API for small machines: no exceptions, no type information, no heap, no I/O.
heap_free() {
    local compiler forbidden
    for compiler in g++ clang++; do
        # shellcheck disable=SC2086
        "$compiler" -std=c++20 -O2 $warnings -ffp-contract=off -fno-exceptions -fno-rtti -fno-threadsafe-statics \
            -ffunction-sections -Iinclude -Ilib -c lib/c/c_api.cpp -o build/logs/small.o || return 1
        forbidden=$(nm -C --undefined-only build/logs/small.o |
            grep -E 'operator (new|delete)|malloc|calloc|free$|printf|fopen|fwrite|std::cout|__cxa_(throw|allocate)|abort')
        [ -z "$forbidden" ] || { echo "$compiler: $forbidden"; return 1; }
    done
}

# Many threads on one library, under the thread sanitizer; and the C API's tests under valgrind.
threads() {
    local folder=build/threads source
    mkdir -p "$folder"
    for source in lib/{c,json,report,questions}/*.cpp tests/c/c_handles_test.cpp; do
        echo "g++ -std=c++20 -O1 -g1 -fsanitize=thread -ffp-contract=off -DSIROP_STATIC -Iinclude -Ilib -Itests" \
            "-isystem /usr/include/eigen3 -c $source -o $folder/$(basename "$source" .cpp).o"
    done | xargs -P "$jobs" -I{} bash -c '{}' || return 1
    g++ -fsanitize=thread "$folder"/*.o -o "$folder/program" -lgtest -lgtest_main &&
        "$folder/program" --gtest_filter='threads.*'
}
leaks() {
    # The tests' own operator new stays in force: one of them lets memory run out.
    local checked="valgrind --quiet --leak-check=full --errors-for-leak-kinds=definite,possible --error-exitcode=9"
    local own="$checked --soname-synonyms=somalloc=nouserintercepts"
    $own build/release/tests/c_handles_test --gtest_filter='-threads.*' &&
        $own build/release/tests/c_catalogues_test &&
        $checked build/release/tests/c_question_test && $checked build/release/tests/c_arrays_test
}

# How each example is run.  The others answer without arguments.
example_jobs() {
    local source name batch
    for source in examples/*.cpp examples/*.c; do
        [ -e "$source" ] || continue
        name=$(basename "${source%.*}")
        if [ "$name" = predict_set ]; then
            for batch in examples/batches/*.json; do
                printf '%s\n' "predict_set $batch" "predict_set --json $batch"
            done
        elif [ "$name" = check_syrup ]; then
            echo "check_syrup sucrose=60 glucose=20 --solids-percent 80 --altitude-metres 1600"
            echo "check_syrup honey=100 --boils-celsius 112"
        elif [ "$name" = draw_batch ]; then
            echo "draw_batch examples/batches/soft_caramels.json"
        elif [ "$name" = cook_for ]; then
            echo "cook_for examples/batches/miso_caramel.json --set-word ribbon --at-celsius 18"
            echo "cook_for examples/batches/soft_caramels.json --brix 88 --json"
        elif [ "$name" = rescue_batch ]; then
            echo "rescue_batch examples/batches/miso_caramel.json --shows-celsius 116 --set-word ribbon"
            echo "rescue_batch examples/batches/miso_caramel.json --grams-left 520 --water-percent 14"
        elif [ "$name" = swap_ingredient ]; then
            echo "swap_ingredient examples/batches/miso_caramel.json --replace pan[1] --by honey"
        elif [ "$name" = formulate_sauce ]; then
            echo "formulate_sauce examples/batches/miso_caramel.json --free pan[0] pan[1] pan[2] --set ribbon@25 --grams 600"
        elif [ "$name" = describe_syrup ]; then
            echo "describe_syrup --list"
            echo "describe_syrup honey=100 --celsius 40"
            echo "describe_syrup sucrose=60 glucose=20 --reads-brix 78 --celsius 60"
        else
            echo "$name"
        fi
    done
    for name in 0 500 2500; do echo "stage_chart --altitude-metres $name"; done
}
example() {
    local words output
    read -r -a words <<<"$1"
    output=$("build/release/examples/${words[0]}" "${words[@]:1}") || return 1
    [ -n "$output" ]
}
export -f example

# --- the run --------------------------------------------------------------------------------------------------------

if ! bash tests/install_needed.sh test; then
    failed=1
    finish
fi
mkdir -p "$logs"
rm -rf "${logs:?}"/*
step_began=$SECONDS

each "format" clang-format --dry-run --Werror < <(own_sources)

unset SIROP_SWEEP_DIVISOR
release_built=no
if check "build, release (g++)" build release; then
    release_built=yes
    gtest release
fi
check "build, clang" build clang && gtest clang
# Long sweeps run at full size above, and one in a hundred here.
export SIROP_SWEEP_DIVISOR=100
check "build, sanitize" build sanitize && gtest sanitize
unset SIROP_SWEEP_DIVISOR

each "headers alone" bash -c 'header_alone "$1"' header < <(header_jobs)
check "headers twice in a program" headers_twice
check "the heap-free part of the C API" heap_free
lines small bash tests/embedded_target.sh
check "threads, thread sanitizer" threads
check "declared functions" declared_functions
check "every C function is in docs/c-api.md" bash -c '[ -z "$(grep -o "sirop_[a-z0-9_]*(" include/sirop/sirop.h |
    tr -d "(" | sort -u | while read -r f; do grep -qw "$f" docs/c-api.md || echo "$f"; done | tee /dev/stderr)" ]'
check "misuse does not compile" misuse
check "-ffast-math does not compile" bash tests/no_fast_math.sh
check "docs/validation.md is up to date" bash docs/validation/make.sh --check
each "clang-tidy" bash -c 'tidy "$1"' tidy < <(find lib examples -name '*.cpp' | sort)

if [ $release_built = yes ]; then
    check "exported symbols" exported_symbols
    if [ -f examples/run_all.sh ]; then
        check "examples" bash examples/run_all.sh build/release/examples
    else
        each "examples" bash -c 'example "$1"' example < <(example_jobs)
    fi
    check "refusals of predict_set" refusal
    check "the README's example" readme
    check "docs/ranges.md is the catalogue's" bash -c \
        'build/release/examples/describe_syrup --list | diff docs/ranges.md -'
    check "water against iapws" /usr/bin/python3 tests/iapws_check.py build/release/lib/libsirop.so
    check "files of the programs" /usr/bin/python3 tests/programs_check.py build/release/examples
    check "figures" /usr/bin/python3 tests/figure_check.py build/release/examples
    check "no leak under valgrind" leaks
    lines consumer bash tests/consumers/run.sh build/release
    lines python bash bindings/python/test.sh build/release
    lines javascript bash bindings/javascript/test.sh build/release
else
    # They run what the release build makes.
    report "exported symbols: not built" 0 1
    report "examples, README: not built" 0 1
    report "consumers, bindings: not built" 0 1
fi

echo "$SECONDS s in all"
finish
