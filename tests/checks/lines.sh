# Sourced by scripts of many checks, which set `prefix` and, for `check`, `work`, a folder of their own.
failures=0

# report NAME STATUS [LOG]: prints "PREFIX NAME: passed", or "... FAILED" with the end of the log.
report() {
    if [ "$2" -eq 0 ]; then
        echo "$prefix $1: passed"
    else
        echo "$prefix $1: FAILED"
        [ -z "${3:-}" ] || tail -n 20 "$3" | cut -c 1-300 | sed 's/^/    | /'
        failures=$((failures + 1))
    fi
}

# check NAME COMMAND...: one line; returns what the command returned.
check() {
    local name=$1 status
    shift
    "$@" >"$work/log" 2>&1 </dev/null
    status=$?
    report "$name" $status "$work/log"
    return $status
}
