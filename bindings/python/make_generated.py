#!/usr/bin/env python3
"""Writes the two files of the package that are made from elsewhere; the tests check that they are up to date.

    make_generated.py declarations     src/sirop/_declarations.py from include/sirop/sirop.h
    make_generated.py stubs            src/sirop/__init__.pyi and _properties.pyi from the package (which must be
                                       importable) and the library's catalogue
With --check nothing is written, and the exit status is 1 if the file is not up to date.
"""

import dataclasses
import inspect
import pathlib
import re
import sys
import textwrap

FOLDER = pathlib.Path(__file__).resolve().parent
HEADER = FOLDER.parent.parent / "include" / "sirop" / "sirop.h"
DECLARATIONS = FOLDER / "src" / "sirop" / "_declarations.py"
STUBS = FOLDER / "src" / "sirop" / "__init__.pyi"
PROPERTY_STUBS = FOLDER / "src" / "sirop" / "_properties.pyi"


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


def declarations_text():
    text = HEADER.read_text(encoding="utf-8")
    lines = ['"""Made by make_generated.py from sirop.h: the functions of the C API and its status codes."""', "",
             "FUNCTIONS = {"]
    for name, declaration in header_functions(text).items():
        lines.append(f'    "{name}":')
        pieces = textwrap.wrap(declaration, 100)
        lines += [f'        "{piece}{" " if piece is not pieces[-1] else ""}"' for piece in pieces]
        lines[-1] += ","
    lines += ["}", "", "CODES = {"]
    lines += [f'    "{name}": {value},' for name, value in header_codes(text).items()]
    return "\n".join([*lines, "}"]) + "\n"


# --- stubs ----------------------------------------------------------------------------------------------------------

STUB_HEAD = '''\
# Made by make_generated.py from the package and the library's catalogue.
import os
from array import array
from dataclasses import dataclass
from typing import Any, ClassVar, Dict, Iterator, Literal, Mapping, Optional, Sequence, Tuple, Type, Union

from typing_extensions import Buffer, Self
'''


def signature_text(function):
    """The parameters and result as they stand in the source."""
    # Annotations are strings, which str() prints with quotes.
    return re.sub(r"(: |-> )'([^']*)'", r"\1\2", str(inspect.signature(function)))


def documentation(thing, indent):
    """Its docstring, as lines."""
    lines = (inspect.getdoc(thing) or "").split("\n")
    lines[0] = '"""' + lines[0]
    lines[-1] += '"""'
    return [indent + line if line else "" for line in lines]


def function_stub(name, function, indent="", decorator=""):
    lines = [indent + decorator] if decorator else []
    lines.append(f"{indent}def {name}{signature_text(function)}:")
    if name.startswith("__"):
        return [*lines[:-1], lines[-1] + " ..."]
    return lines + documentation(function, indent + "    ")


def is_public(kind):
    import sirop
    return kind.__name__ in sirop.__all__


def class_stub(name, kind):
    # What comes from a base that is not public is shown as its own.
    private = [base for base in kind.__mro__[1:] if base.__module__.startswith("sirop.") and not is_public(base)]
    bases = [base.__name__ for base in kind.__bases__ if base is not object and base not in private]
    lines = []
    if dataclasses.is_dataclass(kind):
        lines.append("@dataclass(frozen=True)")
    lines.append(f"class {name}{'(' + ', '.join(bases) + ')' if bases else ''}:")
    lines += documentation(kind, "    ")
    # What a generic base calls Element; a type is shown by its name, typing's by what it prints.
    element = "".join(argument.__name__ if inspect.isclass(argument) else repr(argument).replace("typing.", "")
                      for base in vars(kind).get("__orig_bases__", ()) for argument in base.__args__)
    if dataclasses.is_dataclass(kind):
        for field in dataclasses.fields(kind):
            default = "" if field.default is dataclasses.MISSING else " = ..."
            lines.append(f"    {field.name}: {field.type}{default}")
    else:
        lines += [f"    {key}: {value}" for key, value in kind.__dict__.get("__annotations__", {}).items()]
    hidden = {"__reduce__", "__dict__", "__weakref__"}
    made = {"__init__", "__repr__", "__eq__", "__hash__", "__setattr__", "__delattr__", "__replace__"}
    members = {key: member for one in [*reversed(private), kind] for key, member in vars(one).items()}
    for key, member in members.items():
        if key in hidden or (key.startswith("_") and not key.startswith("__")):
            continue
        if dataclasses.is_dataclass(kind) and key in made:
            continue
        if isinstance(member, property):
            lines += function_stub(key, member.fget, "    ", "@property")
        elif isinstance(member, classmethod):
            lines += function_stub(key, member.__func__, "    ", "@classmethod")
        elif inspect.isfunction(member):
            lines += function_stub(key, member, "    ")
    return [re.sub(r"\bElement\b", element, line) for line in lines]


def literal(name, values):
    inside = ", ".join(f'"{value}"' for value in values)
    return [f"{name} = Literal[", *textwrap.wrap(inside, 115, initial_indent="    ", subsequent_indent="    "), "]"]


def stubs_text():
    import sirop
    from sirop import _properties, _types

    lines = [STUB_HEAD]
    lines += literal("ComponentName", sirop.COMPONENTS)
    lines += literal("PropertyName", [one.name for one in sirop.properties()])
    lines += re.findall(r"^\w+ = Union\[.*\]$", inspect.getsource(_types), flags=re.M)
    lines += ["", "__version__: str"]
    later = []
    lines += [f"from ._properties import {name} as {name}" for name in _properties.__all__]
    for name in sirop.__all__:
        if name in _properties.__all__:
            continue
        thing = getattr(sirop, name)
        if inspect.isclass(thing):
            lines += [*class_stub(name, thing), ""]
        elif inspect.isfunction(thing):
            later += function_stub(name, thing)
        else:
            kind = {tuple: "Tuple[str, ...]"}.get(type(thing), type(thing).__name__)
            lines += [f"{name}: {kind}", ""]
    return "\n".join(lines + later).rstrip() + "\n"


def property_stubs_text():
    from sirop import _properties

    lines = ["# Made by make_generated.py from the library's catalogue.", "from . import Estimate, Grams", "",
             "__all__ = ["]
    lines += [f'    "{name}",' for name in _properties.__all__] + ["]", ""]
    for name in _properties.__all__:
        lines += function_stub(name, getattr(_properties, name))
    return "\n".join(lines) + "\n"


def main(arguments):
    made = {"declarations": [(DECLARATIONS, declarations_text)],
            "stubs": [(STUBS, stubs_text), (PROPERTY_STUBS, property_stubs_text)]}
    wanted = [word for word in arguments if word in made]
    if not wanted or len(wanted) + arguments.count("--check") != len(arguments):
        print(__doc__, file=sys.stderr)
        return 2
    status = 0
    for word, (path, make) in ((word, pair) for word in wanted for pair in made[word]):
        text = make()
        if "--check" not in arguments:
            path.write_text(text, encoding="utf-8")
        elif not path.is_file() or path.read_text(encoding="utf-8") != text:
            print(f"{path.name} is not up to date: run make_generated.py {word}", file=sys.stderr)
            status = 1
    return status


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
