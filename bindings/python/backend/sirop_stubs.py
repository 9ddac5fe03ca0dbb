"""Writes _properties.pyi from the library's catalogue: the functions that type checkers cannot see in _properties.py.

The package must be importable."""

import inspect
import re
import sys
import textwrap

import sirop
from sirop import _properties


def function_stub(function):
    """Its signature, annotations as they stand in the source, and its docstring."""
    # Annotations are strings, which str() prints with quotes.
    signature = re.sub(r"(: |-> )'([^']*)'", r"\1\2", str(inspect.signature(function)))
    lines = f'"""{inspect.getdoc(function)}"""'.split("\n")
    return [f"def {function.__name__}{signature}:", *("    " + line if line else "" for line in lines)]


def listing(start, names):
    inside = ", ".join(f'"{name}"' for name in names)
    return [start, *textwrap.wrap(inside, 115, initial_indent="    ", subsequent_indent="    "), "]"]


lines = ["# Made from the library's catalogue.", "from typing import Literal", "", "from . import Estimate, Grams", "",
         *listing("ComponentName = Literal[", sirop.COMPONENTS),
         *listing("PropertyName = Literal[", [one.name for one in sirop.properties()]), "",
         *listing("__all__ = [", _properties.__all__), ""]
for name in _properties.__all__:
    lines += function_stub(getattr(_properties, name))
sys.stdout.buffer.write(("\n".join(lines) + "\n").encode())
