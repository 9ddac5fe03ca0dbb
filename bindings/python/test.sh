#!/usr/bin/env bash
# Installs the Python binding as a user would, into fresh virtual environments, and tests what was installed.
# usage: test.sh BUILD_FOLDER     prints one line for each check: "python NAME: passed" or "python NAME: FAILED"
# PYTHON is the interpreter, python3 by default; PYTHON_WITH_NUMPY is one that has numpy, /usr/bin/python3 by default.
# SIROP_PARITY_CASES names a file of cases; by default tests/parity/make_cases.py prints them.
set -u
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
build=$(cd "${1:?usage: test.sh BUILD_FOLDER}" && pwd) || exit 2
python=${PYTHON:-python3}
with_numpy=${PYTHON_WITH_NUMPY:-/usr/bin/python3}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
unset PYTHONPATH
export PYTHONDONTWRITEBYTECODE=1 PIP_DISABLE_PIP_VERSION_CHECK=1 PIP_NO_CACHE_DIR=1 LC_ALL=C.UTF-8
prefix=python
. "$here/../../tests/checks/lines.sh"

# tests NAME PYTHON MODULE...: the lines of the tests; what else they said only if they broke off.
tests() {
    local name=$1
    shift
    (cd "$work" && "$1" -W ignore "$here/tests/run.py" "${@:2}" 2>"$work/err" </dev/null)
    local status=$?
    [ "$status" -eq 0 ] && return
    failures=$((failures + 1))
    [ "$status" -eq 3 ] && return  # the lines have said which
    echo "python tests, $name: FAILED (exit status $status)"
    tail -n 20 "$work/err" | sed 's/^/    /'
}

library() {
    local name
    for name in libsirop.so libsirop.dylib; do
        [ -f "$build/lib/$name" ] && echo "$build/lib/$name" && return
    done
    echo "no libsirop in $build/lib" >&2
    return 1
}
make_cases() { "${python:-python3}" -B "$here/../../tests/parity/make_cases.py" "$build/lib/libsirop.so" >"$work/cases.jsonl"; }
wheel() {
    "$work/plain/bin/python" -m pip wheel --no-index --no-deps -w "$work/wheels" "$here" &&
        [ "$(ls "$work/wheels" | grep -c '^sirop-.*-py3-none-.*\.whl$')" -eq 1 ] && ! ls "$work/wheels" | grep -q any
}
# The package that Python finds must be the one that was installed.
is_installed() {
    (cd "$work" && "$work/$1/bin/python" -c "import sirop, sys; sys.exit(not sirop.__file__.startswith('$work/$1/'))")
}
sdist() {
    (cd "$here" && "$python" -c "import sys; sys.path.insert(0, 'backend'); import sirop_build
sirop_build.build_sdist('$work')") &&
        "$work/plain/bin/python" -m pip install --no-index --force-reinstall "$work"/sirop-*.tar.gz
}
clean_tree() {
    [ -z "$(find "$here" -name '*.egg-info' -o -name __pycache__ -o -name build -o -name '*.so' -o -name '*.whl')" ]
}

SIROP_LIBRARY=$(library) || { echo "python library: FAILED"; exit 1; }
export SIROP_LIBRARY
if [ -z "${SIROP_PARITY_CASES:-}" ]; then
    check "parity cases" make_cases
    export SIROP_PARITY_CASES="$work/cases.jsonl"
fi

# Without numpy: pip install from the folder.
check "venv" "$python" -m venv "$work/plain" || exit 1
check "pip install --no-index ." "$work/plain/bin/python" -m pip install --no-index "$here"
check "wheel" wheel
unset SIROP_LIBRARY  # the installed package must find its own
check "installed" is_installed plain && tests "without numpy" "$work/plain/bin/python"
tests "without numpy" "$work/plain/bin/python" without_numpy

# With numpy: from the wheel.
check "venv with numpy" "$with_numpy" -m venv --system-site-packages "$work/numpy" &&
    check "numpy is there (python3-numpy)" "$work/numpy/bin/python" -c "import numpy" &&
    check "pip install of the wheel" "$work/numpy/bin/python" -m pip install --no-index "$work"/wheels/sirop-*.whl &&
    check "installed, with numpy" is_installed numpy &&
    tests "with numpy" "$work/numpy/bin/python" with_numpy test_arrays

export SIROP_LIBRARY
SIROP_LIBRARY=$(library)
check "pip install of the sdist" sdist
check "the source folder is left clean" clean_tree

[ "$failures" -eq 0 ]
