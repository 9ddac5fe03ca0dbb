"""The functions of the C API and its status codes, read from the C header."""

from __future__ import annotations

import pathlib
import re

FOLDER = pathlib.Path(__file__).resolve().parent
#: installed it lies beside this file, in a source tree among the headers
PATH = FOLDER / "sirop.h" if (FOLDER / "sirop.h").is_file() else FOLDER.parents[3] / "include" / "sirop" / "sirop.h"


def functions_of(text):
    """Name -> declaration of every SIROP_API function, comments and line breaks taken out."""
    text = re.sub(r"/\*.*?\*/", " ", text, flags=re.S)
    text = re.sub(r"^#.*$", "", text, flags=re.M)
    declarations = [" ".join(one.split()) for one in re.findall(r"SIROP_API\s+([^;{]*\))\s*;", text)]
    return {re.search(r"(\w+)\s*\(", one)[1]: one for one in declarations}


TEXT = PATH.read_text(encoding="utf-8")
FUNCTIONS = functions_of(TEXT)
#: name -> number
CODES = {name: int(code) for name, code in re.findall(r"SIROP_(OK|EXTRAPOLATED|E_\w+)\s*=\s*(-?\d+)", TEXT)}
