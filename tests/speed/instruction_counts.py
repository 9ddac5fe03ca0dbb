"""Counts the instructions of the fixed workloads of workloads.hpp with valgrind, against instruction_counts.txt.

usage: instruction_counts.py SPEED_PROGRAM COMPILER BUILD_TYPE [--write]

Fails where a workload takes over 3 % more than the file says, or is not in it. --write makes the file anew: do so on
purpose, and say why. Counts belong to one compiler and one C library: with another the test is skipped (77)."""

import os
import pathlib
import platform
import re
import subprocess
import sys

FILE = pathlib.Path(__file__).with_name("instruction_counts.txt")
GROWTH_PERCENT = 3.0
HEAD = """# Instructions of one call of each workload (workloads.hpp), the second in its process, by valgrind --tool=callgrind.
# Made anew by:  python3 tests/speed/instruction_counts.py build/release/tests/speed/speed g++ Release --write
"""


def machine(compiler, build_type):
    """What the counts depend on besides the sources."""
    version = subprocess.run([compiler, "--version"], capture_output=True, text=True, check=True).stdout.splitlines()[0]
    return f"{version}; {build_type}; {' '.join(platform.libc_ver())}; {platform.machine()}"


def counted(program, name):
    command = ["valgrind", "--tool=callgrind", "--callgrind-out-file=/dev/null", "--collect-atstart=no",
               "--toggle-collect=counted_workload", program, "--once", name]
    run = subprocess.run(command, capture_output=True, text=True)
    found = re.search(r"Collected : (\d+)", run.stderr)
    if run.returncode != 0 or not found or int(found[1]) == 0:
        sys.exit(f"{name}: not counted (exit status {run.returncode}):\n{run.stdout}{run.stderr}")
    return int(found[1])


def main(program, compiler, build_type, *options):
    try:
        subprocess.run(["valgrind", "--version"], capture_output=True, check=True)
    except FileNotFoundError:
        print("skipped: no valgrind here")
        return 77
    here = machine(compiler, build_type)
    recorded = FILE.read_text().splitlines() if FILE.exists() else []
    counts = {name: int(count) for name, count in (line.split() for line in recorded
                                                   if line and not line.startswith(("#", "made with")))}
    write = "--write" in options
    made_with = next((line[len("made with "):] for line in recorded if line.startswith("made with ")), "nothing")
    if not write and made_with != here:
        print(f"skipped: the counts were made with {made_with}; here is {here}")
        return 77
    listed = subprocess.run([program, "--list"], capture_output=True, text=True, check=True).stdout.splitlines()
    names = [name for name, _, _, is_counted in (line.split("\t") for line in listed) if is_counted == "1"]
    now = {name: counted(program, name) for name in names}
    grown = [name for name in names if now[name] > counts.get(name, 0) * (1.0 + 0.01 * GROWTH_PERCENT)]
    for name in names:
        before = counts.get(name)
        change = "new" if before is None else f"{100.0 * (now[name] / before - 1.0):+.1f} %"
        print(f"{name:24} {now[name]:12} {change}{' GREW' if name in grown and not write else ''}")
    if write:
        FILE.write_text(HEAD + f"made with {here}\n" + "".join(f"{name:24} {now[name]:12}\n" for name in names))
        return 0
    gone = sorted(set(counts) - set(names))
    if gone:
        print("in the file, but not counted any more:", ", ".join(gone))
    if any(now[name] < counts[name] * (1.0 - 0.01 * GROWTH_PERCENT) for name in names if name in counts):
        print("some have become fewer: make the file anew, so that they stay so")
    return 1 if grown or gone else 0


if __name__ == "__main__":
    if len(sys.argv) < 4 or not os.access(sys.argv[1], os.X_OK):
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
