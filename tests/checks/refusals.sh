#!/usr/bin/env bash
# A refusal is exit status 2, nothing on standard output, one line on standard error.     usage: refusals.sh PREDICT_SET
set -u
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
refused() {  # ARGUMENT...: the batch is on standard input
    timeout 20 "$program" "$@" >"$work/out" 2>"$work/err"
    [ $? -eq 2 ] && [ ! -s "$work/out" ] && [ "$(wc -l <"$work/err")" -eq 1 ] || { echo "not refused: $*"; exit 1; }
}
program=$1
for batch in '{"sirop_batch": 1, "pan": []}' '{' '' '[1]'; do refused --json - < <(printf "%s" "$batch"); done
refused no-such-file.json </dev/null
refused - < <(head -c 100000000 /dev/zero | tr '\0' '[')
