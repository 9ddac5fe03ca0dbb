#!/usr/bin/env bash
# The whole check, from anywhere, in a clean clone: installs what is missing (Debian 12), then configures, builds and
# tests each preset.  Prints one line for each, and closes with "N passed, N failed" over the tests of all; a build that
# breaks off counts as one failure.  Exits 0 only if some test ran and nothing failed.
#     usage: run.sh [PRESET...]      release clang sanitize threads, if none is named
# SIROP_JOBS=1 works with one process; the default is one per core.
set -u
cd "$(dirname "${BASH_SOURCE[0]}")/.." || exit 1
CTEST_PARALLEL_LEVEL=${SIROP_JOBS:-$(nproc)}
export CTEST_PARALLEL_LEVEL CMAKE_BUILD_PARALLEL_LEVEL=$CTEST_PARALLEL_LEVEL LC_ALL=C.UTF-8
unset SIROP_SWEEP_DIVISOR
passed=0
failed=0

# report PRESET WHAT PASSED FAILED: counts and prints a line.
report() {
    passed=$((passed + $3))
    failed=$((failed + $4))
    printf '%5d s  %-9s %-6s %5d passed, %d failed\n' $((SECONDS - began)) "$1" "$2" "$3" "$4"
    began=$SECONDS
}

# The last lines that each failed test of a ctest log said.
failures() {
    awk '/^ *[0-9]+\/[0-9]+ Test +#|^ +Start +[0-9]+:|tests passed,/ {
             for (i = n > 25 ? n - 25 : 0; i < n; ++i) print "    | " said[i]
             n = 0; failing = /\*\*\*/
             if (failing) print "  " $0
             next
         }
         failing && NF { said[n++] = substr($0, 1, 240) }' "$1"
}

began=$SECONDS
if ! bash tests/install_needed.sh test; then
    report - install 0 1
    set --
else
    [ $# -gt 0 ] || set -- release clang sanitize threads
    mkdir -p build/logs
fi
for preset; do
    log=build/logs/$preset.log
    if ! { cmake --preset "$preset" -DSIROP_WARNINGS_AS_ERRORS=ON && cmake --build --preset "$preset"; } >"$log" 2>&1; then
        report "$preset" build 0 1
        { grep -A 24 -m 1 '^FAILED: ' "$log" || tail -n 30 "$log"; } | cut -c 1-240 | sed 's/^/    | /'
        continue
    fi
    printf '%5d s  %-9s build\n' $((SECONDS - began)) "$preset"
    began=$SECONDS
    ctest --preset "$preset" >"$log" 2>&1 </dev/null
    status=$?
    # "98% tests passed, 3 tests failed out of 150"; one that was skipped or disabled has failed, too.
    read -r bad all < <(sed -nE 's/.*% tests passed, ([0-9]+) tests failed out of ([0-9]+)$/\1 \2/p' "$log")
    bad=$((${bad:-0} + $(grep -cE '\*\*\*(Skipped|Not Run \(Disabled\))' "$log")))
    # A bad end besides, or no such line, is one failure more.
    [ $bad -eq 0 ] && [ $status -ne 0 ] && { bad=1 all=$((${all:-0} + 1)); }
    [ "${all:-0}" -gt 0 ] || { bad=1 all=1; }
    report "$preset" tests $((all - bad)) $bad
    [ $bad -eq 0 ] || { failures "$log" | grep . || tail -n 15 "$log"; }
done
echo "$SECONDS s in all"
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
