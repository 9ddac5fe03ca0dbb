#!/usr/bin/env bash
# The model for small machines as such a machine's compiler sees it: freestanding, without exceptions and run-time
# types.  What its objects need from outside is compared with a list, so nothing else gets in: no heap, no I/O, no
# C++ run time, and in float no function and no instruction of double.
#     usage: embedded_target.sh [FOLDER]     prints "small NAME: passed" or "small NAME: FAILED", and the code sizes
# SIROP_ARM_CXX: the compiler for a Cortex-M4 with its options; default arm-none-eabi-g++.
set -u
cd "$(dirname "${BASH_SOURCE[0]}")/../.." || exit 1
folder=${1:-build/small_target}
mkdir -p "$folder" || exit 1
export LC_ALL=C
prefix=small
. tests/checks/lines.sh
warnings="-Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wdouble-promotion -Werror"
restricted="-std=c++20 -ffp-contract=off -ffreestanding -fno-exceptions -fno-rtti -fno-threadsafe-statics
    -ffunction-sections -Iinclude"

# What may be undefined in an object: the mathematics of its precision, and filling or copying of memory.
may_need() {
    local memory='memset|memcpy|memmove|__aeabi_mem(set|clr|cpy|move)[48]?'
    case $1 in
        float) echo "^($memory|expf|logf|log1pf|sqrtf|powf)\$" ;;
        double) echo "^($memory|exp|expm1|log|log1p|sqrt|pow|__aeabi_(dadd|dsub|drsub|dmul|ddiv|dcmp[a-z]+|cd[a-z]+))\$" ;;
    esac
}

path_of() { echo "$folder/${1//[^A-Za-z0-9]/_}.o"; }

# object NAME PRECISION NM SIZE COMPILER...: compiles, compares what is needed from outside, prints the size.
object() {
    local name=$1 precision=$2 nm=$3 size=$4 out needs
    shift 4
    out=$(path_of "$name")
    rm -f "$out"
    # shellcheck disable=SC2086
    "$@" $restricted $warnings -c "lib/embedded/embedded_$precision.cpp" -o "$out" || return 1
    needs=$("$nm" --undefined-only "$out" | awk '{print $NF}' | grep -vE "$(may_need "$precision")" | tr '\n' ' ')
    if [ -n "$needs" ]; then
        echo "$name needs from outside: $needs"
        return 1
    fi
    # It must be the object that we think it is.
    [ "$("$nm" --defined-only "$out" | grep -cE ' T sirop_embedded_')" -eq 9 ] || return 1
    echo "$name: $("$size" "$out" | awk 'NR == 2 {print $1}') bytes of code and constants"
}

# x86-64: arithmetic and conversions of doubles; loads of 8 bytes may be two floats.
computes_in_double() {
    objdump -d --no-show-raw-insn "$1" |
        grep -E '\sv?((add|sub|mul|div|sqrt|min|max|u?comi)[sp]d|cvt[a-z0-9]*[sp]d[a-z0-9]*)\s'
}

for compiler in g++ clang++; do
    for level in -O2 -Os; do
        for precision in float double; do
            name="$compiler $level $precision"
            object "$name" $precision nm size $compiler $level
            report "$name" $?
        done
        if [ "$(uname -m)" = x86_64 ]; then
            # The same search must find something in the object that does compute in double.
            computes_in_double "$(path_of "$compiler $level double")" >/dev/null &&
                [ -s "$(path_of "$compiler $level float")" ] &&
                ! computes_in_double "$(path_of "$compiler $level float")"
            report "$compiler $level float has no instruction of double" $?
        fi
    done
done

# A C program links with the mathematics library alone, and what it prints can be checked by eye.
cat >"$folder/main.c" <<'END'
#include <sirop/sirop_embedded.h>
#include <stdio.h>
int main(void) {
    float grams[SIROP_COMPONENT_COUNT] = {0}, celsius = 0.0F, water = 0.0F;
    grams[SIROP_SUCROSE] = 60.0F;
    grams[SIROP_GLUCOSE] = 20.0F;
    grams[SIROP_WATER] = 20.0F;
    if (sirop_embedded_boiling_point_celsius_f(grams, SIROP_COMPONENT_COUNT, 971.9F, &celsius) < 0) return 1;
    if (sirop_embedded_water_at_boil_grams_f(grams, SIROP_COMPONENT_COUNT, celsius, 971.9F, &water) < 0) return 1;
    printf("boils at %.2f C with %.2f g of water\n", (double)celsius, (double)water);
    return water > 19.99F && water < 20.01F ? 0 : 1;
}
END
gcc -std=c99 -Wall -Wextra -Werror -Iinclude "$folder/main.c" "$(path_of "g++ -O2 float")" -nodefaultlibs -lm -lc \
    -o "$folder/main" && "$folder/main"
report "links without a C++ library" $?

read -r -a arm <<<"${SIROP_ARM_CXX:-arm-none-eabi-g++}"
cortex_m4="-mcpu=cortex-m4 -mthumb -mfloat-abi=hard -mfpu=fpv4-sp-d16"
if command -v "${arm[0]}" >/dev/null; then
    for level in -O2 -Os; do
        for precision in float double; do
            name="cortex-m4 $level $precision"
            # shellcheck disable=SC2086
            object "$name" $precision "${arm[0]%g++}nm" "${arm[0]%g++}size" "${arm[@]}" $cortex_m4 $level
            report "$name" $?
        done
    done
else
    echo "not run: Cortex-M4.  ${arm[0]} is not here (Debian: gcc-arm-none-eabi libstdc++-arm-none-eabi-newlib);" \
        "clang can make code for it, but finds no C++ headers for it without that package."
fi
[ "$failures" -eq 0 ]
