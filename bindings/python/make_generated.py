#!/usr/bin/env python3
"""Writes the two files of the package that are made from elsewhere; the tests check that they are up to date.

    make_generated.py declarations     src/sirop/_declarations.py from include/sirop/sirop.h
    make_generated.py stubs            src/sirop/_properties.pyi, what type checkers cannot see, from the library's
                                       catalogue (the package must be importable)
With --check nothing is written, and the exit status is 1 if the file is not up to date.
"""

import inspect
import pathlib
import re
import sys
import textwrap

FOLDER = pathlib.Path(__file__).resolve().parent
HEADER = FOLDER.parent.parent / "include" / "sirop" / "sirop.h"
DECLARATIONS = FOLDER / "src" / "sirop" / "_declarations.py"
STUBS = FOLDER / "src" / "sirop" / "_properties.pyi"


def header_functions(text):
    """Name -> declaration of every SIROP_API function, comments and line breaks taken out."""
    text = re.sub(r"/\*.*?\*/", " ", text, flags=re.S)
    text = re.sub(r"^#.*$", "", text, flags=re.M)
    found = {}
    for declaration in re.findall(r"SIROP_API\s+([^;{]*\))\s*;", text):
        declaration = " ".join(declaration.split())
        found[re.search(r"(\w+)\s*\(", declaration).group(1)] = declaration
    return found


def header_codes(text):
    """Name -> number of every status code."""
    return {name: int(value) for name, value in re.findall(r"SIROP_(OK|EXTRAPOLATED|E_\w+)\s*=\s*(-?\d+)", text)}


DECLARATIONS_HEAD = '''\
"""Made by make_generated.py from sirop.h: the functions of the C API and its status codes."""

import re

FUNCTIONS = {re.search(r"(\\w+)\\(", one)[1]: " ".join(one.split()) for one in """
'''


def declarations_text():
    text = HEADER.read_text(encoding="utf-8")
    lines = [line for declaration in header_functions(text).values()
             for line in textwrap.wrap(declaration + ";", 118, subsequent_indent="    ")]
    codes = [f'    "{name}": {value},' for name, value in header_codes(text).items()]
    return DECLARATIONS_HEAD + "\n".join([*lines, '""".split(";\\n") if one}', "", "CODES = {", *codes, "}"]) + "\n"


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
    made = {"declarations": (DECLARATIONS, declarations_text), "stubs": (STUBS, stubs_text)}
    wanted = [word for word in arguments if word in made]
    if not wanted or len(wanted) + arguments.count("--check") != len(arguments):
        print(__doc__, file=sys.stderr)
        return 2
    status = 0
    for word in wanted:
        path, make = made[word]
        text = make()
        if "--check" not in arguments:
            path.write_text(text, encoding="utf-8")
        elif not path.is_file() or path.read_text(encoding="utf-8") != text:
            print(f"{path.name} is not up to date: run make_generated.py {word}", file=sys.stderr)
            status = 1
    return status


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
