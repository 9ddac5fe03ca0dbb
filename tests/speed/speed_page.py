"""Makes docs/speed.md: times, aims, general tools beside, sizes. Best on a quiet machine; the page says how busy it was.

usage: python3 tests/speed/speed_page.py BUILD_FOLDER        such as build/release, with speed and sirop_c built"""

import datetime
import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).parent
ROOT = HERE.parents[1]
SCIPY_PYTHON = "/usr/bin/python3"  # Debian's, which has scipy


def output(*command):
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout


def shown(seconds):
    for unit, size in (("s", 1.0), ("ms", 1e-3), ("µs", 1e-6), ("ns", 1e-9)):
        if seconds >= size or unit == "ns":
            return f"{seconds / size:.3g} {unit}"


def times(program):
    """CPU seconds of each benchmark, the least of five repetitions."""
    run = json.loads(output(program, "--benchmark_format=json", "--benchmark_repetitions=5", "--benchmark_min_time=0.05"))
    least = {}
    for b in run["benchmarks"]:
        if b["run_type"] == "iteration" and not b.get("error_occurred"):
            seconds = b["cpu_time"] * {"ns": 1e-9, "us": 1e-6, "ms": 1e-3}[b["time_unit"]]
            least[b["run_name"]] = min(seconds, least.get(b["run_name"], seconds))
    return least


def compile_seconds(compiler, header, *options):
    with tempfile.TemporaryDirectory() as folder:
        source = pathlib.Path(folder, "only.c" if header.endswith(".h") else "only.cpp")
        source.write_text(f'#include "{header}"\n')
        before = os.times().children_user
        subprocess.run([compiler, "-O2", "-c", f"-I{ROOT}/include", "-isystem", "/usr/include/eigen3", *options,
                        str(source), "-o", os.path.join(folder, "only.o")], check=True, cwd=folder)
        return os.times().children_user - before


def table(head, rows):
    return "\n".join(["| " + " | ".join(head) + " |", "|" + "---|" * len(head)] +
                     ["| " + " | ".join(row) + " |" for row in rows]) + "\n"


def main(build):
    program = str(pathlib.Path(build, "tests", "speed", "speed"))
    library = str(pathlib.Path(build, "lib", "libsirop.so").resolve())
    load = os.getloadavg()[0]
    least = times(program)
    listed = [line.split("\t") for line in output(program, "--list").splitlines()]
    exp = least["one_exp"]
    general = json.loads(output(SCIPY_PYTHON, str(HERE / "general_tools.py"), library))
    call = general["python_mixture_call_seconds"] - least["water_at_boil_plain"]
    processor = next((line.split(":")[1].strip() for line in open("/proc/cpuinfo") if line.startswith("model name")), "")
    timed_rows, aim_rows = [], []
    for name, what, aim, _ in listed:
        if name not in least:
            continue
        timed_rows.append((what, shown(least[name]), f"{least[name] / exp:.0f}"))
        if float(aim):
            aim_rows.append((what, f"{float(aim):.0f}", f"{least[name] / exp:.0f}",
                             f"{least[name] / exp / float(aim):.1f} x the aim"))
    aim_rows.append(("a call from Python of a function of a mixture, without what C takes", "500", f"{call / exp:.0f}",
                     f"{call / exp / 500.0:.1f} x the aim"))
    for name, what in (("water_boils", "`sirop_water_boils_celsius`"),
                       ("embedded_boiling_point", "`sirop_embedded_boiling_point_celsius`, caramel"),
                       ("embedded_boiling_point_float", "the same in float")):
        timed_rows.append((what, shown(least[name]), f"{least[name] / exp:.0f}"))
    beside = [(row["what"], shown(row["sirop_seconds"]), shown(row["general_seconds"]),
               f"{row['general_seconds'] / row['sirop_seconds']:.2g}", f"{row['differ']:.1e}")
              for row in general["rows"]]
    losing = [row["what"] for row in general["rows"] if row["general_seconds"] < row["sirop_seconds"]]
    headers = ["sirop/sirop.h", "sirop/sirop.hpp", "sirop/questions.hpp", "sirop/questions/calibrate.hpp"]
    compilers = [(c, "gcc" if c == "g++" else "clang") for c in ("g++", "clang++") if shutil.which(c)]
    includes = [(f"`{h}`", *(f"{compile_seconds(c if h.endswith('.hpp') else cc, h, *(['-std=c++20'] if h.endswith('.hpp') else [])):.2f} s"
                             for c, cc in compilers)) for h in headers]
    with tempfile.NamedTemporaryFile() as stripped:
        subprocess.run(["strip", "-o", stripped.name, library], check=True)
        size = os.path.getsize(stripped.name)
    (ROOT / "docs" / "speed.md").write_text(f"""# Speed and size

How long an answer takes, what an include costs, how large the library is. Measured, not promised. This page is made by

    python3 tests/speed/speed_page.py build/release

and by hand not at all. Method: CPU time of one thread, the least of five repetitions of at least 0.05 s each; beside each
time how many `exp` of the C library it is, one waiting for the other, which carries over to other machines better than
seconds do. Here one takes {shown(exp)}. Machine: {processor}, {os.cpu_count()} cores, load {load:.1f} at the start,
{output("g++", "--version").splitlines()[0]}, {datetime.date.today():%B %Y}. A load above 1 makes all of it slower, and uneven.

*Plain syrup* is 80 g of sucrose and 20 g of water; *caramel* is sugar, glucose syrup and cream, 16 components. The batch is
an invented caramel with butter.

{table(("call", "time", "in exps"), timed_rows)}
## What is aimed at
What a cook at a slider, or a study of a million recipes, would ask for, in exps. It is met where the last column is 1 or less.

{table(("answer", "aim", "measured", ""), aim_rows)}
## Beside general tools
The same laws solved with scipy's `brentq` (for the array: its vectorized `newton` in numpy), steam pressure by
{general["steam"]}; {general["versions"]}. Both called from Python. They find the best value alone; sirop its interval too.

{table(("answer", "sirop", "general tools", "times as fast", "largest difference"), beside)}
{"sirop loses here: " + "; ".join(losing) + "." if losing else "sirop loses none of them."} A single solute is explicit in
its composition, so a few lines of numpy need neither the interval nor the other components.

## Instructions
`tests/speed/instruction_counts.txt` keeps how many instructions fixed workloads take. The test `instruction_counts` fails
where one grows by more than 3 %; it is skipped, and says so, with another compiler or C library than the recorded ones, or
without valgrind. On purpose the file is made anew by

    python3 tests/speed/instruction_counts.py build/release/tests/speed/speed g++ Release --write

## Many recipes
Every function is free of shared state, so recipes may be answered on as many threads as there are cores: [studies](studies.md).

## Includes and size
User time of compiling a file that only includes it, with `-O2`:

{table(("include", *(c for c, _ in compilers)), includes)}
A program that cannot wait links the C API, whose header is free. `libsirop.so`, stripped, has {size / 1e6:.2f} MB; the sizes
for small machines are in [embedded](embedded.md), that of `sirop.wasm` in [javascript](javascript.md).
""")


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    main(sys.argv[1])
