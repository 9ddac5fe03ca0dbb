#!/usr/bin/env bash
# From nothing to a first answer: installs what is missing (Debian 12), builds, and predicts a miso caramel.
set -u
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd) || exit 1
bash "$root/tests/install_needed.sh" build || exit 1
cd "$root" || exit 1

log=$(mktemp)
trap 'rm -f "$log"' EXIT
if ! { cmake --preset release -B build/first -DSIROP_BUILD_TESTS=OFF &&
    cmake --build build/first --target predict_set -j "${SIROP_JOBS:-$(nproc)}"; } >"$log" 2>&1; then
    echo "The build failed:" >&2
    tail -n 30 "$log" >&2
    exit 1
fi
build/first/examples/predict_set examples/batches/miso_caramel.json
