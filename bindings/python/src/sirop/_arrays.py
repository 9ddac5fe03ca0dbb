"""Arrays of mixtures.  A contiguous array of doubles is handed to C where it lies; anything else is copied once."""

from __future__ import annotations

import ctypes
import sys
from array import array
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Iterator, Optional, Tuple, Union

from . import _catalogue
from ._calls import NORMAL_HPA, check, estimate, name_bytes, number, status_text, warn
from ._errors import RangeError, error_class
from ._library import CEstimate, library
from ._mixtures import COMPONENTS, masses
from ._types import Estimate, Mixtures, Numbers, PropertyName

NATIVE_DOUBLE = {"d", "@d", "=d", "<d" if sys.byteorder == "little" else ">d"}
OTHER_NUMBERS = set("fbBhHiIlLqQ")


@dataclass(frozen=True)
class Estimates:
    """Estimates of n mixtures, as four arrays; `estimates[i]` is one Estimate.

    An element whose status is negative has no answer and is NaN in the other arrays. numpy.asarray(estimates.value)
    looks at the same memory."""

    value: array[float]
    low: array[float]
    high: array[float]
    status: array[int]

    def __len__(self) -> int:
        return len(self.value)

    def __getitem__(self, index: int) -> Estimate:
        return Estimate(self.value[index], self.low[index], self.high[index], self.status[index])

    def __iter__(self) -> Iterator[Estimate]:
        return map(Estimate, self.value, self.low, self.high, self.status)

    def raise_for_errors(self) -> Estimates:
        """Raises the exception of the first element without an answer; else gives back the estimates."""
        for index, status in enumerate(self.status):
            if status < 0:
                bad = sum(1 for other in self.status if other < 0)
                raise error_class(status)(f"element {index}: {status_text(status)}; {bad} of {len(self)} have no "
                                          "answer")
        return self


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
    return copied if view.ndim == 1 else copied.cast("B").cast("d", view.shape)


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
            grams = array("d", [mass for row in lists for mass in row + [0.0] * (width - len(row))])
            components = components_of(components, width)
        else:
            grams = rows
    elif view.ndim == 2:
        components = components_of(components, view.shape[1])
    elif view.ndim != 1:
        raise TypeError(f"grams: an array of {view.ndim} dimensions; one row for each mixture is wanted")
    width = len(COMPONENTS) if components is None else components
    if not isinstance(width, int) or not 1 <= width <= len(COMPONENTS):
        raise RangeError(f"components: {width!r} is outside the accepted range, 1 to {len(COMPONENTS)}")
    doubles = Doubles("grams", grams)
    if doubles.count % width:
        raise RangeError(f"grams: {doubles.count} masses are not whole mixtures of {width} components")
    return doubles, doubles.count // width, width


def components_of(given, found):
    if given is not None and given != found:
        raise RangeError(f"components: {given!r}, but each mixture has {found} masses")
    return found


def column(argument, values, n):
    """n doubles: one for each mixture, or the same for all."""
    if not hasattr(values, "__len__") or getattr(values, "shape", None) == ():
        values = array("d", [number(argument, values)]) * n
    doubles = Doubles(argument, values)
    if doubles.count != n or len(doubles.shape) != 1:
        raise RangeError(f"{argument}: {doubles.count} numbers for {n} mixtures; one for each, or one number for all, "
                         "is accepted")
    return doubles


def of_mixtures(c_function, grams, components, first=(), **numbers):
    """Calls sirop_..._n(first..., n, grams, components, numbers..., results)."""
    doubles, n, width = mixtures_of(grams, components)
    columns = [column(name, values, n) for name, values in numbers.items()]
    results = (CEstimate * n)()
    c_function(*first, n, doubles.memory, width, *(one.memory for one in columns), results)
    # Four arrays of their own, each in one piece.
    raw = memoryview(results).cast("B")
    estimates = Estimates(*(array("d") for _ in range(3)), array("i"))
    if n:
        for offset, name in enumerate(("value", "low", "high")):
            getattr(estimates, name).frombytes(raw.cast("d")[offset::4].tobytes())
        estimates.status.frombytes(raw.cast("i")[6::8].tobytes())
    outside = estimates.status.count(1)
    if outside:
        warn(f"{c_function.__name__[len('sirop_'):]}: {status_text(1)} ({outside} of {n})")
    return estimates


@dataclass(frozen=True)
class Layers:
    """Layers that touch, at equilibrium: their common water activity, and what each gains (negative: gives)."""

    water_activity: Estimate
    water_gained_grams: Tuple[Estimate, ...]


def layers_at_equilibrium(grams: Mixtures, celsius: float, components: Optional[int] = None) -> Layers:
    """Where the water goes between layers that touch, at a temperature in °C; `grams`: one mixture for each layer."""
    doubles, layers, width = mixtures_of(grams, components)
    celsius = number("celsius", celsius)
    activity, gained = CEstimate(), (CEstimate * layers)()
    status = library.sirop_layers_at_equilibrium(layers, doubles.memory, width, celsius, ctypes.byref(activity), gained)
    check(status, "layers_at_equilibrium", {"layers": layers, "celsius": celsius})
    return Layers(estimate(activity), tuple(map(estimate, gained)))


def boiling_point_celsius_n(grams: Mixtures, pressure_hpa: Numbers = NORMAL_HPA,
                            components: Optional[int] = None) -> Estimates:
    """boiling_point_celsius of n mixtures.

    `grams`: an array of n rows, a sequence of mixtures, or all masses one after the other, `components` for each
    mixture. Other arguments: one number for all, or n of them."""
    return of_mixtures(library.sirop_boiling_point_celsius_n, grams, components, pressure_hpa=pressure_hpa)


def water_at_boil_grams_n(grams: Mixtures, celsius: Numbers, pressure_hpa: Numbers = NORMAL_HPA,
                          components: Optional[int] = None) -> Estimates:
    """water_at_boil_grams of n mixtures; arguments as in boiling_point_celsius_n."""
    return of_mixtures(library.sirop_water_at_boil_grams_n, grams, components, celsius=celsius,
                       pressure_hpa=pressure_hpa)


def water_activity_n(grams: Mixtures, celsius: Numbers, components: Optional[int] = None) -> Estimates:
    """water_activity of n mixtures; arguments as in boiling_point_celsius_n."""
    return of_mixtures(library.sirop_water_activity_n, grams, components, celsius=celsius)


def freezing_point_celsius_n(grams: Mixtures, components: Optional[int] = None) -> Estimates:
    """freezing_point_celsius of n mixtures; arguments as in boiling_point_celsius_n."""
    return of_mixtures(library.sirop_freezing_point_celsius_n, grams, components)


def property_estimate_n(property: Union[PropertyName, str], grams: Mixtures, celsius: Numbers = 20.0,
                        pressure_hpa: Numbers = NORMAL_HPA, components: Optional[int] = None) -> Estimates:
    """A property of the catalogue, by its name, for n mixtures; arguments as in boiling_point_celsius_n."""
    _catalogue.property_range(property)  # complains of an unknown name
    return of_mixtures(library.sirop_property_estimate_n, grams, components,
                       first=(name_bytes("property", property),), celsius=celsius, pressure_hpa=pressure_hpa)
