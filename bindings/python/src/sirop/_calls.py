"""Calls of the library: arguments in, status out, and messages that name the argument, the value and its range."""

from __future__ import annotations

import ctypes
import difflib
import sys
import warnings
from itertools import count, takewhile

from ._errors import BatchError, BufferTooSmallError, ExtrapolationWarning, RangeError, UnknownNameError, error_class
from ._header import CODES
from ._library import CRange, library
from ._types import Estimate, Range

E_RANGE, E_NAME, E_BATCH, E_BUFFER = (CODES[name] for name in ("E_RANGE", "E_NAME", "E_BATCH", "E_BUFFER"))
NORMAL_HPA = 1013.25

# Arguments whose accepted range has another name than they.
RANGE_NAMES = {"celsius": "temperature_celsius"}


def status_text(status: int) -> str:
    """What a status code means, in English."""
    return library.sirop_status_text(int32("status", status)).decode()


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


def text_or_none(found):
    return None if found is None else found.decode()


def listed(thing_of):
    """What an index from 0 on gives, up to the first None."""
    return tuple(takewhile(lambda thing: thing is not None, map(thing_of, count())))


def unknown(argument, name, accepted):
    """The exception for a name that does not exist, with the nearest ones that do."""
    near = difflib.get_close_matches(name, accepted, 3, 0.5) or list(accepted)
    return UnknownNameError(f'{argument}: there is no "{name}"; accepted: {", ".join(near)}'
                            f'{"" if len(near) == len(accepted) else ", ..."}')


def text_by_name(c_function, argument, name, names):
    """What the library says of a name; a complaint if there is no such name among those that names() lists."""
    found = c_function(name_bytes(argument, name))
    if found is None:
        raise unknown(argument, name, names())
    return found.decode()


def accepted(argument):
    """The range of an argument, or None if the library knows none for it."""
    found = CRange()
    status = library.sirop_accepted_range(RANGE_NAMES.get(argument, argument).encode(), ctypes.byref(found))
    return Range(found.low, found.high) if status >= 0 else None


def bad_argument(arguments, ranges):
    """What is wrong with the first argument that is outside its range, or None."""
    for name, value in arguments.items():
        allowed = ranges.get(name) or accepted(name)
        if name == "grams":
            masses = list(value)
            for index, mass in enumerate(masses):
                if mass not in allowed:
                    component = library.sirop_component_name(index)
                    where = component.decode() if component else str(index)
                    return f"grams[{where}]: {mass!r} is outside the accepted range, {text_of(allowed)}"
            if not any(masses):
                return "grams: all are 0; at least one must be more"
        elif allowed is not None and value not in allowed:
            return f"{name}: {value!r} is outside the accepted range, {text_of(allowed)}"
    return None


def text_of(allowed):
    return shown_range(allowed.low, allowed.high)


def shown_range(low, high):
    return f"{low:g} to {high:g}" if high is not None else f"{low:g} or more"


def shown(arguments):
    """The arguments as a person would write them: a mixture by the names of what is in it."""
    texts = []
    for name, value in arguments.items():
        if name == "grams":
            parts = [f"{library.sirop_component_name(i).decode()} {mass:g}" for i, mass in enumerate(value) if mass]
            texts.append("grams " + ", ".join(parts))
        else:
            texts.append(f"{name} {value!r}")
    return "; ".join(texts)


def check(status, function, arguments, ranges={}):  # the default is never changed
    """Raises the exception of a negative status; warns of an extrapolation."""
    if status == 0:
        return
    if status > 0:
        warn(f"{function}: {status_text(status)}")
        return
    reason = bad_argument(arguments, ranges) if status == E_RANGE else None
    given = f" ({shown(arguments)})" if arguments else ""
    raise error_class(status)(reason or f"{function}: {status_text(status)}{given}")


def warn(message):
    """An ExtrapolationWarning at the line that called the package."""
    frame, level = sys._getframe(1), 2
    while frame.f_back is not None and frame.f_globals.get("__name__", "").split(".")[0] == "sirop":
        frame, level = frame.f_back, level + 1
    warnings.warn(message, ExtrapolationWarning, stacklevel=level)


def number_of_number(c_function, argument, value):
    """A plain number from a plain number: double f(double)."""
    result = ctypes.c_double()
    value = number(argument, value)
    status = c_function(value, ctypes.byref(result))
    if status != 0:
        check(status, c_function.__name__[len("sirop_"):], {argument: value})
    return result.value


def estimate(c_estimate):
    """An Estimate of C as one of Python, past the slow constructor of a frozen dataclass."""
    made = object.__new__(Estimate)
    numbers = made.__dict__
    numbers["value"], numbers["low"], numbers["high"] = c_estimate.value, c_estimate.low, c_estimate.high
    numbers["status"] = c_estimate.status
    return made


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
