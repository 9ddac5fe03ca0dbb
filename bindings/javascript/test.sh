#!/usr/bin/env bash
# Builds the package, installs it as a user would, and tests it in Node and in Chromium.     usage: test.sh BUILD_DIR
# BUILD_DIR is a release build of the C library, for the cases that both must answer alike; a file of them may be
# given by SIROP_PARITY_CASES instead.  One line for each test, `javascript NAME: passed` or `FAILED`; exit status 1 if
# one failed.
set -u -o pipefail
[ $# -eq 1 ] || { echo "usage: test.sh BUILD_DIR" >&2; exit 2; }
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
root=$(cd "$here/../.." && pwd)
build=$(cd "$1" && pwd) || exit 2
limit=185000  # bytes of the compressed module

work=$(mktemp -d)
server=""
finish() {
    [ -z "$server" ] || kill "$server" 2>/dev/null
    rm -rf "$work"
}
trap finish EXIT

prefix=javascript
. "$root/tests/checks/lines.sh"

needs() {
    local missing=""
    command -v node >/dev/null || missing="$missing nodejs"
    command -v npm >/dev/null || missing="$missing npm"
    command -v chromium >/dev/null || missing="$missing chromium"
    command -v g++ >/dev/null || missing="$missing g++"
    [ -z "$missing" ] || { echo "missing Debian packages:$missing"; return 1; }
}
build_package() {
    bash "$here/build.sh" "$work/package" 2>&1 | tee "$work/build" && [ ! -s "$work/build" ]  # no warning either
}
check "tools" needs || exit 1
check "build" build_package || exit 1

# --- the number texts of the WebAssembly build, against the standard library's --------------------------------------
number_texts() {
    g++ -std=c++20 -O2 -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror "$here/test/decimal_text_test.cpp" \
        -o "$work/number_texts" && "$work/number_texts"
}
check "number texts" number_texts

# --- size -----------------------------------------------------------------------------------------------------------
size() {
    local wasm=$work/package/sirop.wasm brotli
    brotli=$(node -e '
        const {brotliCompressSync} = require("node:zlib"), {readFileSync} = require("node:fs");
        console.log(brotliCompressSync(readFileSync(process.argv[1])).length)' "$wasm")
    echo "$(wc -c <"$wasm") bytes, gzip -9 $(gzip -9c "$wasm" | wc -c), brotli $brotli, limit $limit on brotli" |
        tee "$work/size"
    [ "$brotli" -lt "$limit" ]
}
check "size" size
echo "    $(cat "$work/size")"

# --- installed in a project of its own ------------------------------------------------------------------------------
project=$work/project
mkdir "$project"
echo '{"name": "project", "version": "1.0.0", "private": true, "type": "module"}' >"$project/package.json"
export npm_config_cache=$work/npm npm_config_update_notifier=false
pack() { cd "$work" && npm pack --silent ./package; }
install() { cd "$project" && npm install --offline --no-audit --no-fund "$work"/sirop-*.tgz; }
check "npm pack" pack || exit 1
check "npm install" install || exit 1
cp "$here"/test/*.js "$project/"

export SIROP_HEADER=$root/include/sirop/sirop.h SIROP_DOC=$root/docs/javascript.md SIROP_README=$root/README.md \
    SIROP_PACKAGE_README=$here/package/README.md
if [ -z "${SIROP_PARITY_CASES:-}" ]; then
    make_cases() { "${python:-python3}" -B "$root/tests/parity/make_cases.py" "$build/lib/libsirop.so" >"$work/cases.jsonl"; }
    check "cases from C" make_cases
    export SIROP_PARITY_CASES=$work/cases.jsonl
fi
# node_tests NAME: passed if its file ran, at least one test passed and none failed, was skipped or put off.
node_tests() {
    cd "$project" && node --test --test-reporter=tap "$1.test.js" >"$work/tap" 2>&1
    local status=$?
    grep -A 12 '^ *not ok' "$work/tap"
    grep -E '^# (pass|fail|skipped|todo|cancelled) ' "$work/tap"
    [ $status -eq 0 ] && grep -qE '^# pass [1-9]' "$work/tap" && grep -q '^# fail 0$' "$work/tap" &&
        grep -q '^# skipped 0$' "$work/tap" && grep -q '^# todo 0$' "$work/tap"
}
for name in header parity use misuse docs; do check "$name" node_tests "$name"; done

# --- types ----------------------------------------------------------------------------------------------------------
# With the TypeScript that is installed, or else one from npm; without either this is not tested, and said so.
tsc=$(command -v tsc)
if [ -z "$tsc" ] && (mkdir "$work/tsc" && cd "$work/tsc" && echo '{"private": true}' >package.json &&
    timeout 120 npm install --no-audit --no-fund typescript@5) >"$work/log" 2>&1; then
    tsc=$work/tsc/node_modules/.bin/tsc
fi
types() {
    cp "$here/test/types.ts" "$project/" && cd "$project" &&
        "$tsc" --noEmit --strict --skipLibCheck false --target es2022 --module nodenext --moduleResolution nodenext \
            --lib es2022,dom types.ts
}
if [ -n "$tsc" ]; then check "types" types; else echo "javascript types: not tested, no TypeScript here"; fi

# --- Chromium -------------------------------------------------------------------------------------------------------
site=$work/site
mkdir "$site"
cp "$here"/test/browser/* "$site/"
cp -r "$project/node_modules/sirop" "$site/sirop"
cp "$here/demo.html" "$site/sirop/demo.html"
node "$project/serve.js" "$site" >"$work/address" 2>&1 &
server=$!
for _ in $(seq 50); do [ -s "$work/address" ] && break; sleep 0.1; done
address=$(cat "$work/address")
line=$(sed -n 's/^It prints `\([^`]*\)`.*/\1/p' "$root/README.md")  # the worked example's

# browser PATH TEXT: the page as Chromium leaves it holds the text.
browser() {
    [ -n "$line" ] || { echo "no worked example in README.md"; return 1; }
    timeout 90 chromium --headless --no-sandbox --disable-gpu --disable-quic --no-first-run \
        --disable-background-networking --disable-component-update --disable-sync --user-data-dir="$work/chromium" \
        --dump-dom "$address/$1" >"$work/dom" 2>"$work/chromium.log"
    grep -qF "$2" "$work/dom" || { cat "$work/dom"; tail -n 5 "$work/chromium.log"; return 1; }
}
check "page in Chromium" browser page.html "page: $line"
check "page in Chromium, bytes" browser "page.html?bytes" "bytes: $line"
check "page in Chromium, other media type" browser plain/page.html "page: $line"
check "worker in Chromium" browser "page.html?worker" "worker: $line"
check "demo in Chromium" browser demo_frame.html "demo: $line; cautions shown"

[ "$failures" -eq 0 ]
