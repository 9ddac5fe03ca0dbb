"""Arrays in and out.  A contiguous array of doubles is handed to C where it lies; anything else is copied once."""

from __future__ import annotations

import ctypes
import sys
from array import array
from collections.abc import Mapping
from dataclasses import dataclass, fields
from typing import Dict, Generic, Iterator, Optional, TypeVar

from ._calls import COMPONENTS, TAKERS, check_names, masses, named, number, one, place_text, warn
from ._errors import RangeError, error_class
from ._library import CEstimate, CGraining, CRange, CStagePlace, library
from ._table import FUNCTIONS
from ._types import Estimate, GrainingEstimate, Range, Self, StagePlace

__all__ = ["Estimates", "Values", "Indices", "Ranges", "StagePlaces", "Compositions", "GrainingEstimates"]

NATIVE_DOUBLE = {"d", "@d", "=d", "<d" if sys.byteorder == "little" else ">d"}
OTHER_NUMBERS = set("fbBhHiIlLqQ")
TYPE_CODES = {ctypes.c_double: "d", ctypes.c_int32: "i"}

Element = TypeVar("Element")


# --- results --------------------------------------------------------------------------------------------------------


class Columns(Generic[Element]):
    """n results, one array for each number of a result.  `_c_type` is what C writes for one of them."""

    def _columns(self):
        return [getattr(self, field.name) for field in fields(self)]

    def __len__(self) -> int:
        return len(self.status)

    def __getitem__(self, index: int) -> Element:
        return self._element(*(column[index] for column in self._columns()))

    def __iter__(self) -> Iterator[Element]:
        return map(self._element, *self._columns())

    def raise_for_errors(self) -> Self:
        """Raises the exception of the first element without an answer; else gives back the same object."""
        for index, status in enumerate(self.status):
            if status < 0:
                bad = sum(1 for other in self.status if other < 0)
                raise error_class(status)(f"element {index}: {one('status_text', status)}; {bad} of {len(self)} have no "
                                          "answer")
        return self


@dataclass(frozen=True)
class Estimates(Columns[Estimate]):
    """Estimates of n mixtures, as four arrays; `estimates[i]` is one Estimate.

    An element whose status is negative has no answer and is NaN in the other arrays. numpy.asarray(estimates.value)
    looks at the same memory."""

    value: array[float]
    low: array[float]
    high: array[float]
    status: array[int]
    _c_type = CEstimate
    _element = Estimate


@dataclass(frozen=True)
class Values(Columns[float]):
    """n plain numbers and their statuses, as two arrays; `values[i]` is one number, NaN where there is no answer."""

    value: array[float]
    status: array[int]
    _c_type = ctypes.c_double
    _element = staticmethod(lambda value, status: value)


@dataclass(frozen=True)
class Indices(Columns[int]):
    """n whole numbers and their statuses, as two arrays; `indices[i]` is one of them, -1 where there is no answer."""

    value: array[int]
    status: array[int]
    _c_type = ctypes.c_int32
    _element = staticmethod(lambda value, status: value)


@dataclass(frozen=True)
class Ranges(Columns[Range]):
    """n ranges and their statuses, as three arrays; `ranges[i]` is one Range, of NaN where there is no answer."""

    low: array[float]
    high: array[float]
    status: array[int]
    _c_type = CRange
    _element = staticmethod(lambda low, high, status: Range(low, high))


@dataclass(frozen=True)
class StagePlaces(Columns[StagePlace]):
    """n places in a stage table, as three arrays; `places[i]` is one StagePlace, and str(places[i]) its name.

    An element whose status is negative has no answer: both indices are -1, and its name is ""."""

    lower: array[int]
    upper: array[int]
    status: array[int]
    table: Optional[str] = None
    _c_type = CStagePlace

    def _columns(self):
        return [self.lower, self.upper, self.status]

    def _element(self, lower, upper, status):
        return StagePlace(lower, upper, status, "" if status < 0 else place_text(self.table, lower, upper))


@dataclass(frozen=True)
class Compositions(Columns[Dict[str, float]]):
    """n compositions: the grams of all components of the first, then those of the next, as mixture functions take them.

    `compositions[i]` is one, by the names of its components. One whose status is negative has no answer and is NaN."""

    grams: array[float]
    status: array[int]
    _c_type = ctypes.c_double
    _element = staticmethod(lambda *grams_and_status: named(grams_and_status[:-1]))

    def _columns(self):
        return [*(memoryview(self.grams)[index::len(COMPONENTS)] for index in range(len(COMPONENTS))), self.status]


@dataclass(frozen=True)
class GrainingEstimates(Columns[GrainingEstimate]):
    """Graining of n mixtures: an array for each number, Estimates for each estimate; `[i]` is one GrainingEstimate.

    An element whose status is negative has no answer: risk -1, and NaN."""

    risk: array[int]
    sucrose_supersaturation: Estimates
    lactose_supersaturation: Estimates
    crystallizable_percent: Estimates
    hindering_percent: array[float]
    status: array[int]
    _c_type = CGraining
    _element = GrainingEstimate


KINDS = {"values": Values, "wholes": Indices, "ranges": Ranges, "estimates": Estimates, "places": StagePlaces,
         "grainings": GrainingEstimates, "syrups": Compositions}


def column_of(results, kind, offset=0):
    """What lies at `offset` in each of n results: an array of its own, in one piece; of estimates, Estimates."""
    if kind is CEstimate:
        return Estimates(**members_of(results, CEstimate, offset))
    code, size = TYPE_CODES[kind], ctypes.sizeof(kind)
    found = array(code)
    if len(results):  # there is no view of nothing
        every = memoryview(results).cast("B").cast(code)[offset // size::ctypes.sizeof(results._type_) // size]
        found.frombytes(every.tobytes())
    return found


def members_of(results, structure, offset=0):
    """The members of n structures, each as a column, by their names."""
    return {name: column_of(results, kind, offset + getattr(structure, name).offset)
            for name, kind in structure._fields_ if name not in ("struct_bytes", "reserved")}


def warn_of(name, statuses):
    outside = statuses.count(1)
    if outside:
        warn(f"{name}: {one('status_text', 1)} ({outside} of {len(statuses)})")


def many(name, *values, components=None):
    """Calls sirop_NAME, whose name ends in _n, with its arguments in the order of C; the results as Columns.

    Where the result has no room for a status, the array of statuses goes before it."""
    _, _, takes, ((result, _),) = FUNCTIONS[name]
    given = {argument: (kind, value) for (kind, argument, _), value in zip(takes, values)}
    texts = {argument: value for argument, (kind, value) in given.items() if kind.startswith("text")}
    first = [TAKERS[given[argument][0]](argument, value) for argument, value in texts.items()]
    check_names(texts)
    numbers = {argument: value for argument, (kind, value) in given.items() if kind in ("many", "numbers")}
    if takes[len(first)][0] == "rows":
        doubles, n, width = mixtures_of(given["grams"][1], components)
        inputs = [doubles.memory, width, *doubles_of(numbers, n, "mixtures")[1]]
    else:
        n, inputs = doubles_of(numbers)
    kind, last = KINDS[result], (len(COMPONENTS),) if result == "syrups" else ()
    results, statuses = (kind._c_type * (n * sum(last, start=not last)))(), (ctypes.c_int32 * n)()
    if n and hasattr(kind._c_type, "struct_bytes"):
        results[0].struct_bytes = ctypes.sizeof(kind._c_type)
    has_status = hasattr(kind._c_type, "status")
    getattr(library, f"sirop_{name}")(*first, n, *inputs, *(() if has_status else (statuses,)), results, *last)
    if issubclass(kind._c_type, ctypes.Structure):
        columns = members_of(results, kind._c_type)
    else:
        columns = {fields(kind)[0].name: column_of(results, kind._c_type)}
    if not has_status:
        columns["status"] = column_of(statuses, ctypes.c_int32)
    warn_of(name, columns["status"])
    return kind(**columns, **texts) if result == "places" else kind(**columns)


# --- arguments ------------------------------------------------------------------------------------------------------


class Doubles:
    """Doubles that C can read: their count, their shape, and an object to pass as the pointer."""

    def __init__(self, argument, values):
        view = buffer_of(argument, values)
        if view is None:
            view = memoryview(array("d", [number(f"{argument}[{i}]", value) for i, value in enumerate(values)]))
        self.shape = view.shape
        self.count = view.nbytes // 8
        if view.readonly:
            self.memory = (ctypes.c_double * self.count).from_buffer_copy(view)
        elif self.count:
            self.memory = (ctypes.c_double * self.count).from_buffer(view)
        else:
            self.memory = (ctypes.c_double * 0)()


def buffer_of(argument, values):
    """A contiguous view of doubles on what has the buffer protocol, copied if it must be; None on other things."""
    if isinstance(values, (str, bytes, bytearray, set, frozenset)):
        raise TypeError(f"{argument}: {type(values).__name__} is not an array of numbers")
    try:
        view = memoryview(values)
    except TypeError:
        return None
    if view.format in NATIVE_DOUBLE:
        return view if view.c_contiguous else memoryview(view.tobytes()).cast("B").cast("d", view.shape)
    if view.format not in OTHER_NUMBERS:
        raise TypeError(f"{argument}: an array of numbers is wanted, not of the format {view.format!r}")
    flat = memoryview(view.tobytes()).cast(view.format) if view.nbytes else []
    copied = memoryview(array("d", flat))
    return copied if view.ndim == 1 or not view.nbytes else copied.cast("B").cast("d", view.shape)


def mixtures_of(grams, components):
    """The masses of n mixtures one after the other, n, and how many masses each has."""
    view = buffer_of("grams", grams)
    if view is None:
        if not hasattr(grams, "__iter__"):
            raise TypeError(f"grams: {grams!r} is neither an array nor a sequence of mixtures")
        rows = list(grams)
        if any(isinstance(row, Mapping) or hasattr(row, "__len__") for row in rows):
            lists = [masses(row) for row in rows]
            width = max(map(len, lists))
            grams = array("d")
            for row in lists:
                grams += row
                grams.extend([0.0] * (width - len(row)))
            components = agreed("components", components, width)
        else:
            grams = rows
    elif view.ndim == 2:
        components = agreed("components", components, view.shape[1])
    elif view.ndim != 1:
        raise TypeError(f"grams: an array of {view.ndim} dimensions; one row for each mixture is wanted")
    width = len(COMPONENTS) if components is None else components
    if not isinstance(width, int) or not 1 <= width <= len(COMPONENTS):
        raise RangeError(f"components: {width!r} is outside the accepted range, 1 to {len(COMPONENTS)}")
    doubles = Doubles("grams", grams)
    if doubles.count % width:
        raise RangeError(f"grams: {doubles.count} masses are not whole mixtures of {width} components")
    return doubles, doubles.count // width, width


def layers_of(dessert):
    """The layers of a dessert, as a list of mixtures; None if it is a mixture or a number itself."""
    view = buffer_of("grams", dessert)
    if view is not None:
        return view.tolist() if view.ndim == 2 else None
    if isinstance(dessert, Mapping) or not hasattr(dessert, "__iter__"):
        return None
    rows = list(dessert)
    return rows if any(isinstance(row, Mapping) or hasattr(row, "__len__") for row in rows) else None


def desserts_of(grams, layers, components):
    """The masses of n desserts one after the other, n, how many layers each has, and how many masses each layer."""
    view = buffer_of("grams", grams)
    if view is not None and view.ndim == 3:
        layers = agreed("layers", layers, view.shape[1])
        components = agreed("components", components, view.shape[2])
        grams = Doubles("grams", grams).memory
    elif view is None and hasattr(grams, "__iter__"):
        grams = list(grams)
        desserts = list(map(layers_of, grams))
        if any(one is not None for one in desserts):
            counts = [0 if one is None else len(one) for one in desserts]
            if min(counts) != max(counts):
                raise RangeError(f"grams: desserts of {min(counts)} and of {max(counts)} layers; the same number of "
                                 "layers in each is accepted")
            layers = agreed("layers", layers, counts[0])
            grams = [layer for one in desserts for layer in one]
    doubles, count, width = mixtures_of(grams, components)
    if layers is None and count:
        raise TypeError("layers: is missing; how many each dessert has is wanted, as grams are not nested")
    if layers is not None and (not isinstance(layers, int) or layers < 1):
        raise RangeError(f"layers: {layers!r} is outside the accepted range, 1 or more")
    if count and count % layers:
        raise RangeError(f"grams: {count} mixtures are not whole desserts of {layers} layers")
    return (doubles, count // layers, layers, width) if count else (doubles, 0, 1, width)


def agreed(argument, given, found):
    if given is not None and given != found:
        raise RangeError(f"{argument}: {given!r}, but there are {found} in grams")
    return found


def doubles_of(numbers, n=None, things="elements"):
    """n, and for each argument n doubles: its own, or one number for all.

    Without an n it is that of the first array, or 1 if all are plain numbers."""
    arrays = {argument: Doubles(argument, values) for argument, values in numbers.items()
              if hasattr(values, "__len__") and getattr(values, "shape", None) != ()}
    if n is None:
        n = next((one.count for one in arrays.values()), 1)
    found = []
    for argument, values in numbers.items():
        doubles = arrays.get(argument) or Doubles(argument, array("d", [number(argument, values)]) * n)
        if len(doubles.shape) != 1:
            raise RangeError(f"{argument}: an array of {len(doubles.shape)} dimensions; one number for each, or one "
                             "number for all, is accepted")
        if doubles.count != n:
            raise RangeError(f"{argument}: {doubles.count} numbers for {n} {things}; one for each, or one number for "
                             "all, is accepted")
        found.append(doubles.memory)
    return n, found
