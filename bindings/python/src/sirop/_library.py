"""The shared library and its functions, typed from the declarations of the header."""

from __future__ import annotations

import ctypes
import os
import pathlib
import re
import sys

from ._header import FUNCTIONS

FILE_NAME = {"darwin": "libsirop.dylib", "win32": "sirop.dll"}.get(sys.platform, "libsirop.so")


class CEstimate(ctypes.Structure):
    """sirop_estimate"""

    _fields_ = [("value", ctypes.c_double), ("low", ctypes.c_double), ("high", ctypes.c_double),
                ("status", ctypes.c_int32), ("reserved", ctypes.c_int32)]


class CRange(ctypes.Structure):
    """sirop_range"""

    _fields_ = [("low", ctypes.c_double), ("high", ctypes.c_double)]


class CStagePlace(ctypes.Structure):
    """sirop_stage_place"""

    _fields_ = [("lower", ctypes.c_int32), ("upper", ctypes.c_int32), ("status", ctypes.c_int32),
                ("reserved", ctypes.c_int32)]


class CGraining(ctypes.Structure):
    """sirop_graining"""

    _fields_ = [("struct_bytes", ctypes.c_uint32), ("status", ctypes.c_int32), ("risk", ctypes.c_int32),
                ("reserved", ctypes.c_int32), ("sucrose_supersaturation", CEstimate),
                ("lactose_supersaturation", CEstimate), ("crystallizable_percent", CEstimate),
                ("hindering_percent", ctypes.c_double)]


# Pointers other than to a text that is read are plain addresses: arrays, structures, buffers and handles.
TYPES = {"void": None, "double": ctypes.c_double, "size_t": ctypes.c_size_t, "int32_t": ctypes.c_int32,
         "const char*": ctypes.c_char_p}


def c_type(text):
    if text not in TYPES and not text.endswith("*"):
        raise ImportError(f"sirop.h uses the type {text}, which _library.py does not know")
    return TYPES.get(text, ctypes.c_void_p)


def parse(declaration):
    """A C declaration as (name, type of the result, [(name of the parameter, its type), ...])."""
    result, name, inside = re.fullmatch(r"(.+?[\s*])(\w+)\s*\((.*)\)", declaration).groups()
    parameters = []
    if inside.strip() != "void":
        for parameter in inside.split(","):
            kind, parameter_name = re.fullmatch(r"\s*(.+?[\s*])(\w+)\s*", parameter).groups()
            parameters.append((parameter_name, c_type(kind.strip())))
    return name, c_type(result.strip()), parameters


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
    for declaration in FUNCTIONS.values():
        name, result, parameters = parse(declaration)
        if not hasattr(library, name):
            raise ImportError(f"{path} has no {name}: it is not the library of this version of the package")
        function = getattr(library, name)
        function.restype = result
        function.argtypes = [kind for _, kind in parameters]
    return library


library = load()
