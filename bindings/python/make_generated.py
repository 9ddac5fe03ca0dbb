#!/usr/bin/env python3
"""Writes src/sirop/_properties.pyi from the library's catalogue: the functions that type checkers cannot see.

    make_generated.py [--check]
The package must be importable.  With --check nothing is written, and the exit status is 1 if the file is not up to
date, which the tests check."""

import inspect
import pathlib
import re
import sys
import textwrap

STUBS = pathlib.Path(__file__).resolve().parent / "src" / "sirop" / "_properties.pyi"


def function_stub(function):
    """Its signature, annotations as they stand in the source, and its docstring."""
    # Annotations are strings, which str() prints with quotes.
    signature = re.sub(r"(: |-> )'([^']*)'", r"\1\2", str(inspect.signature(function)))
    lines = (inspect.getdoc(function) or "").split("\n")
    lines[0] = '"""' + lines[0]
    lines[-1] += '"""'
    return [f"def {function.__name__}{signature}:", *("    " + line if line else "" for line in lines)]


def listing(start, names):
    inside = ", ".join(f'"{name}"' for name in names)
    return [start, *textwrap.wrap(inside, 115, initial_indent="    ", subsequent_indent="    "), "]"]


def stubs_text():
    import sirop
    from sirop import _properties

    lines = ["# Made by make_generated.py from the library's catalogue.", "from typing import Literal", "",
             "from . import Estimate, Grams", ""]
    lines += listing("ComponentName = Literal[", sirop.COMPONENTS)
    lines += listing("PropertyName = Literal[", [one.name for one in sirop.properties()])
    lines += ["", *listing("__all__ = [", _properties.__all__), ""]
    for name in _properties.__all__:
        lines += function_stub(getattr(_properties, name))
    return "\n".join(lines) + "\n"


def main(arguments):
    text = stubs_text()
    if "--check" not in arguments:
        STUBS.write_text(text, encoding="utf-8")
    elif STUBS.read_text(encoding="utf-8") != text:
        print(f"{STUBS.name} is not up to date: run make_generated.py", file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
