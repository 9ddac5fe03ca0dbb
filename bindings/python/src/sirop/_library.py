"""The shared library, and its functions and structures typed as the table of the C header has them."""

from __future__ import annotations

import ctypes
import os
import pathlib
import sys

from ._table import FUNCTIONS, STRUCTS

FILE_NAME = {"darwin": "libsirop.dylib", "win32": "sirop.dll"}.get(sys.platform, "libsirop.so")

# Pointers other than to a text that is read are plain addresses: arrays, structures, buffers and handles.
TYPES = {"void": None, "double": ctypes.c_double, "size_t": ctypes.c_size_t, "int32_t": ctypes.c_int32,
         "uint32_t": ctypes.c_uint32, "const char*": ctypes.c_char_p}


def c_type(text):
    if text not in TYPES and not text.endswith("*"):
        raise ImportError(f"sirop.h uses the type {text}, which _library.py does not know")
    return TYPES.get(text, ctypes.c_void_p)


def structure(name, members):
    made = type(name, (ctypes.Structure,), {"_fields_": [(member, c_type(kind)) for kind, member in members]})
    TYPES[f"sirop_{name}"] = made
    return made


CEstimate, CRange, CStagePlace, CGraining = (
    structure(name, STRUCTS[name]) for name in ("estimate", "range", "stage_place", "graining"))


def load():
    """Loads the library that was installed with the package or, in a source tree, the one of SIROP_LIBRARY."""
    path = pathlib.Path(__file__).resolve().parent / FILE_NAME
    if not path.is_file():
        if not os.environ.get("SIROP_LIBRARY"):
            raise ImportError(f"{path} is missing: install the package (pip install .), or set SIROP_LIBRARY to "
                              f"the path of {FILE_NAME}")
        path = pathlib.Path(os.environ["SIROP_LIBRARY"]).resolve()
    try:
        library = ctypes.CDLL(str(path))  # releases the interpreter's lock during each call
    except OSError as why:
        raise ImportError(f"{path} cannot be loaded: {why}") from why
    for name, (result, parameters, *_) in FUNCTIONS.items():
        if not hasattr(library, f"sirop_{name}"):
            raise ImportError(f"{path} has no sirop_{name}: it is not the library of this version of the package")
        function = getattr(library, f"sirop_{name}")
        function.restype = c_type(result)
        function.argtypes = list(map(c_type, parameters))
    return library


library = load()
