"""Calls of the library: arguments in, status out, and messages that name the argument, the value and its range."""

from __future__ import annotations

import ctypes
import difflib
import math
import sys
import warnings
from array import array
from collections.abc import Mapping
from functools import lru_cache
from itertools import count, takewhile

from ._errors import BatchError, BufferTooSmallError, ExtrapolationWarning, RangeError, UnknownNameError, error_class
from ._library import CEstimate, CGraining, CRange, CStagePlace, library
from ._table import CODES, FUNCTIONS
from ._types import Estimate, GrainingEstimate, Range, StagePlace

E_RANGE, E_NAME, E_BATCH, E_BUFFER = (CODES[name] for name in ("E_RANGE", "E_NAME", "E_BATCH", "E_BUFFER"))

# Arguments whose accepted range has another name than they, and a range that the library has no name for.
RANGE_NAMES = {"celsius": "temperature_celsius"}
OWN_RANGES = {"firmness_pa_s": Range(0.0, math.inf)}
# What lists the names that an argument may be, or the things that an index may mean, and what knows one of them.
LISTS = {"property": "property_name", "ingredient": "ingredient_name", "conversion": "conversion_name",
         "table": "stage_table_name", "stage": "stage_name", "argument": "argument_name", "kind": "question_name",
         "texture_word_firmness_pa_s": "texture_word", "growth_limit": "growth_group"}
PROBES = {"property": library.sirop_property_unit, "ingredient": library.sirop_ingredient_source,
          "table": library.sirop_stage_table_source}


# --- arguments ------------------------------------------------------------------------------------------------------


def number(argument, value):
    """A float, or a complaint that names the argument."""
    if type(value) is float:
        return value
    if not hasattr(value, "__float__") and not hasattr(value, "__index__"):
        # float() would read the text in a string or in a buffer.
        raise TypeError(f"{argument}: {value!r} is not a number")
    try:
        return float(value)
    except TypeError:
        raise TypeError(f"{argument}: {value!r} is not a number") from None
    except OverflowError:
        raise RangeError(f"{argument}: {str(value)[:20]}... is too large for a double") from None


def int32(argument, value):
    if not isinstance(value, int):
        raise TypeError(f"{argument}: {value!r} is not a whole number")
    if not -(2**31) <= value < 2**31:
        raise RangeError(f"{argument}: {value} is outside the accepted range, -2147483648 to 2147483647")
    return value


def name_bytes(argument, text):
    """A name for C, which must not be cut short at a NUL."""
    if not isinstance(text, str):
        raise TypeError(f"{argument}: {text!r} is not a text")
    if "\0" in text:
        raise UnknownNameError(f"{argument}: {text!r} holds a NUL; no name does")
    return text.encode("utf-8", "surrogatepass")


def maybe_bytes(argument, text):
    return None if text is None else name_bytes(argument, text)


def masses(grams):
    """The masses in the order of the components, an array: from a mapping of names, or from a sequence in that order.
    """
    if type(grams) is dict or isinstance(grams, Mapping):
        values = NOTHING[:]
        for name, mass in grams.items():
            index = INDEX.get(name)
            if index is None:
                if not isinstance(name, str):
                    raise TypeError(f"grams: {name!r} is not the name of a component")
                raise unknown("grams", name, COMPONENTS)
            values[index] = mass if type(mass) is float else number(f"grams[{name}]", mass)
        return values
    if isinstance(grams, (str, bytes, bytearray, set, frozenset)):
        raise TypeError(f"grams: {grams!r} is neither a mapping of components to grams nor a sequence of grams")
    try:
        values = array("d", [mass if type(mass) is float else number(f"grams[{index}]", mass)
                             for index, mass in enumerate(grams)])
    except (TypeError, NotImplementedError) as why:  # the latter from a memoryview of several dimensions
        if str(why).startswith("grams["):
            raise
        raise TypeError(f"grams: {grams!r} is neither a mapping of components to grams nor a sequence of "
                        "grams") from None
    if not 1 <= len(values) <= len(COMPONENTS):
        raise RangeError(f"grams: {len(values)} masses; 1 to {len(COMPONENTS)} are accepted, in the order of "
                         "sirop.COMPONENTS")
    return values


def c_masses(values):
    """Where the masses stand; the array has to outlive the call."""
    return values.buffer_info()[0]


TAKERS = {"number": number, "index": int32, "text": name_bytes, "text?": maybe_bytes,
          "masses": lambda argument, grams: masses(grams)}


# --- results --------------------------------------------------------------------------------------------------------


def estimate(c_estimate):
    """An Estimate of C as one of Python, past the slow constructor of a frozen dataclass."""
    made = object.__new__(Estimate)
    numbers = made.__dict__
    numbers["value"], numbers["low"], numbers["high"] = c_estimate.value, c_estimate.low, c_estimate.high
    numbers["status"] = c_estimate.status
    return made


def named(grams):
    """The masses that are not 0, by the names of their components."""
    return {name: mass for name, mass in zip(COMPONENTS, grams) if mass}


def graining(found):
    return GrainingEstimate(found.risk, estimate(found.sucrose_supersaturation),
                            estimate(found.lactose_supersaturation), estimate(found.crystallizable_percent),
                            found.hindering_percent, found.status)


def place(found, given):
    return StagePlace(found.lower, found.upper, found.status,
                      place_text(given["table"], found.lower, found.upper))


# Of each kind of result: room for it, and what it is in Python.
ROOMS = {"number": (ctypes.c_double, lambda found, given: found.value),
         "whole": (ctypes.c_int32, lambda found, given: found.value),
         "range": (CRange, lambda found, given: Range(found.low, found.high)),
         "estimate": (CEstimate, lambda found, given: estimate(found)),
         "graining": (lambda: CGraining(struct_bytes=ctypes.sizeof(CGraining)), lambda found, given: graining(found)),
         "place": (CStagePlace, place),
         "masses": (lambda: (ctypes.c_double * len(COMPONENTS))(), lambda found, given: named(found))}


# --- calls ----------------------------------------------------------------------------------------------------------


@lru_cache(maxsize=None)
def plan(name):
    """The C function, how each argument is taken, how each result is read (none: a text), what follows them."""
    _, _, takes, gives = FUNCTIONS[name]
    return (getattr(library, f"sirop_{name}"), [(TAKERS[kind], kind, argument) for kind, argument, _ in takes],
            [ROOMS[kind] for kind, _ in gives if kind != "text"],
            (len(COMPONENTS),) if gives[0][0] == "masses" else ())


def one(name, *values):
    """Calls sirop_NAME with its arguments in the order of C; the result as Python has it."""
    c_function, takers, rooms, last = plan(name)
    given, raw = {}, []
    for (taker, kind, argument), value in zip(takers, values):
        taken = taker(argument, value)
        given[argument] = value if kind in ("text", "text?") else taken
        if kind == "masses":
            raw.append(c_masses(taken))
            taken = len(taken)
        raw.append(taken)
    if not rooms:
        found = c_function(*raw)
        if found is None:
            check_names(given)
        return None if found is None else found.decode()
    results = [room() for room, _ in rooms]
    status = c_function(*raw, *map(ctypes.byref, results), *last)
    if status != 0:
        check(status, name, given, {argument: ranged for _, argument, ranged in FUNCTIONS[name][2]})
    results = [read(result, given) for (_, read), result in zip(rooms, results)]
    return results[0] if len(results) == 1 else tuple(results)


def text_call(c_function, *inputs, arguments=None, warns=True):
    """A call that writes a text.  The buffer grows until the text fits."""
    size, needed = 65536, ctypes.c_size_t()
    for _ in range(4):
        out = ctypes.create_string_buffer(size)
        status = c_function(*inputs, out, size, ctypes.byref(needed))
        if status != E_BUFFER:
            break
        size = needed.value
    name = c_function.__name__[len("sirop_"):]
    if status == E_BUFFER:
        raise BufferTooSmallError(f"{name}: the text takes {size} bytes, and then more again")
    text = out.raw[:max(needed.value, 1) - 1].decode("utf-8", "replace")
    if status == E_BATCH:
        raise BatchError(text)
    if status < 0 or warns:
        check(status, name, arguments or {})
    return text


def place_text(table, lower, upper):
    return text_call(library.sirop_stage_place_text, maybe_bytes("table", table), lower, upper)


def listed(name, *before):
    """What a function of an index gives from 0 on, up to the first None."""
    return tuple(takewhile(lambda thing: thing is not None, (one(name, *before, index) for index in count())))


# --- what is wrong --------------------------------------------------------------------------------------------------


def unknown(argument, name, accepted):
    """The exception for a name that does not exist, with the nearest ones that do."""
    near = difflib.get_close_matches(name, accepted, 3, 0.5) or list(accepted)
    return UnknownNameError(f'{argument}: there is no "{name}"; accepted: {", ".join(near)}'
                            f'{"" if len(near) == len(accepted) else ", ..."}')


def check_names(given):
    """Complains of the first name among the arguments that does not exist."""
    for argument, name in given.items():
        if argument not in LISTS or name is None:
            continue
        if argument == "stage":
            known = library.sirop_stage_range_celsius(
                maybe_bytes("table", given["table"]), name_bytes(argument, name), ctypes.byref(CRange())) != E_NAME
        else:
            known = PROBES[argument](name_bytes(argument, name)) if argument in PROBES else None
        names = listed(LISTS[argument], *((given["table"],) if argument == "stage" else ()))
        if not known and (argument in PROBES or name not in names):
            raise unknown(argument, name, names)


def accepted(argument):
    """The range of an argument, or None if the library knows none for it."""
    found = CRange()
    status = library.sirop_accepted_range(RANGE_NAMES.get(argument, argument).encode(), ctypes.byref(found))
    return Range(found.low, found.high) if status >= 0 else OWN_RANGES.get(argument)


def bad_argument(function, given, ranges):
    """What is wrong with the first argument that is outside its range, or None."""
    for name, value in given.items():
        if name == "index" and function in LISTS:
            return f"index: {value} is outside the accepted range, 0 to {len(listed(LISTS[function])) - 1}"
        allowed = accepted(ranges.get(name, name))
        if name == "celsius" and "property" in given:
            allowed = one("property_range", given["property"])[0]
            allowed = None if allowed.low == allowed.high else allowed
        if name == "grams":
            for index, mass in enumerate(value):
                if mass not in allowed:
                    return f"grams[{COMPONENTS[index]}]: {mass!r} is outside the accepted range, {shown_range(allowed)}"
            if not any(value):
                return "grams: all are 0; at least one must be more"
        elif allowed is not None and value not in allowed:
            return f"{name}: {value!r} is outside the accepted range, {shown_range(allowed)}"
    return f"value: {given['value']!r} is outside the range of {given['conversion']}" if "conversion" in given else None


def shown_range(allowed):
    return f"{allowed.low:g} or more" if math.isinf(allowed.high) else f"{allowed.low:g} to {allowed.high:g}"


def shown(given):
    """The arguments as a person would write them: a mixture by the names of what is in it."""
    texts = [f"{name} " + (", ".join(f"{part} {mass:g}" for part, mass in named(value).items()) if name == "grams"
                           else repr(value)) for name, value in given.items() if value is not None]
    return "; ".join(texts)


def check(status, function, given, ranges={}):  # the default is never changed
    """Raises the exception of a negative status; warns of an extrapolation."""
    if status == 0:
        return
    name = given.get("property", function)
    if status > 0:
        warn(f"{name}: {one('status_text', status)}")
        return
    if status == E_NAME:
        check_names(given)
    reason = bad_argument(function, given, ranges) if status == E_RANGE else None
    beside = f" ({shown(given)})" if given else ""
    raise error_class(status)(reason or f"{name}: {one('status_text', status)}{beside}")


def warn(message):
    """An ExtrapolationWarning at the line that called the package."""
    frame, level = sys._getframe(1), 2
    while frame.f_back is not None and frame.f_globals.get("__name__", "").split(".")[0] == "sirop":
        frame, level = frame.f_back, level + 1
    warnings.warn(message, ExtrapolationWarning, stacklevel=level)


COMPONENTS = listed("component_name")
INDEX = {name: index for index, name in enumerate(COMPONENTS)}
NOTHING = array("d", [0.0] * len(COMPONENTS))
