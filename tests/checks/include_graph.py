"""The plan of include/sirop: a file includes only its own room or an earlier one, the C headers only C headers, nothing
from lib/, tests/ or bindings/; no header but the data is longer than 400 lines.  Exits 1 and names what breaks it."""
import pathlib
import re
import sys

ROOMS = ["formula", "base", "data", "solution", "texture", "stability", "cooking", "questions"]
LONGEST = 400
include = pathlib.Path(__file__).resolve().parents[2] / "include"
headers = sorted(path for path in (include / "sirop").rglob("*") if path.is_file())
wrong = [] if len(headers) > len(ROOMS) else [f"only {len(headers)} headers in {include}"]


def rank(name):
    """The place of a header, by its name below include/, in the order; None: it is not one of ours."""
    parts = name.split("/")
    if parts[0] != "sirop" or not (include / name).is_file():
        return None
    if name.endswith(".h"):
        return -1
    if len(parts) == 2:
        return len(ROOMS)
    return ROOMS.index(parts[1]) if parts[1] in ROOMS else None


for path in headers:
    name, text = path.relative_to(include).as_posix(), path.read_text(encoding="utf-8")
    own, lines = rank(name), text.count("\n")
    if own is None:
        wrong.append(f"{name}: in no room")
        continue
    if lines > LONGEST and not name.startswith("sirop/data/"):
        wrong.append(f"{name}: {lines} lines, {LONGEST} allowed")
    for number, line in enumerate(text.splitlines(), 1):
        found = re.match(r'\s*#\s*include\s*(?:<([^>]+)>|"([^"]+)")', line)
        if not found:
            continue
        # In quotes it may stand beside the file or below include/; everything else of ours is named from sirop/ on.
        beside = path.parent / (found[2] or "")
        ours = found[2] is not None or found[1].startswith("sirop/")
        target = beside.resolve().relative_to(include).as_posix() if found[2] and beside.is_file() and \
            beside.resolve().is_relative_to(include) else found[1] or found[2]
        of = rank(target)
        if ours and (of is None or of > own):
            wrong.append(f"{name}:{number}: includes {target}, {'no public header' if of is None else 'a later room'}")
        if own == -1 and not ours and not target.endswith(".h"):
            wrong.append(f"{name}:{number}: a C header includes {target}")

print("\n".join(wrong) or f"{len(headers)} headers in order")
sys.exit(bool(wrong))
