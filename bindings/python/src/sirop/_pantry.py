"""Conversions of a scale, and the ingredients of the pantry."""

from __future__ import annotations

import ctypes
from array import array
from dataclasses import dataclass
from typing import Dict, Optional, Tuple

from ._arrays import Columns, Values, of_numbers
from ._calls import E_NAME, E_RANGE, check, int32, listed, name_bytes, number, text_by_name, text_or_none, unknown
from ._catalogue import COMPONENTS
from ._errors import RangeError
from ._library import library
from ._types import Numbers


def conversion_name(index: int) -> Optional[str]:
    """The names of the conversions, from 0 on; None after the last."""
    return text_or_none(library.sirop_conversion_name(int32("index", index)))


def conversions() -> Tuple[str, ...]:
    """The names of all conversions, such as "brix_to_density_kg_m3"."""
    return listed(conversion_name)


def convert(conversion: str, value: float) -> float:
    """Converts a number of one scale to another; the name of the conversion carries both units.

    Of plain sucrose at 20 °C where a concentration is meant."""
    value, result = number("value", value), ctypes.c_double()
    status = library.sirop_convert(name_bytes("conversion", conversion), value, ctypes.byref(result))
    if status == E_NAME:
        raise unknown("conversion", conversion, conversions())
    if status == E_RANGE:
        raise RangeError(f"value: {value!r} is outside the range of {conversion}")
    check(status, "convert", {"value": value})
    return result.value


def convert_n(conversion: str, values: Numbers) -> Values:
    """convert of n numbers."""
    name = name_bytes("conversion", conversion)
    if conversion not in conversions():
        raise unknown("conversion", conversion, conversions())
    return of_numbers(Values, library.sirop_convert_n, first=(name,), values=values)


@dataclass(frozen=True)
class Ingredient:
    """A row of the pantry: where its composition comes from, and what in it is an estimate ("" if nothing)."""

    name: str
    source: str
    estimate: str
    #: the components that it holds, as the mixture functions take them
    per_100_g: Dict[str, float]


def ingredient_name(index: int) -> Optional[str]:
    """The names of the pantry, from 0 on; None after the last."""
    return text_or_none(library.sirop_ingredient_name(int32("index", index)))


def ingredient_names():
    return listed(ingredient_name)


def ingredient_source(ingredient: str) -> str:
    """Where the composition of an ingredient comes from."""
    return text_by_name(library.sirop_ingredient_source, "ingredient", ingredient, ingredient_names)


def ingredient_estimate(ingredient: str) -> str:
    """What in the composition of an ingredient is an estimate; "" if nothing."""
    return text_by_name(library.sirop_ingredient_estimate, "ingredient", ingredient, ingredient_names)


def named(grams):
    """The masses that are not 0, by the names of their components."""
    return {name: mass for name, mass in zip(COMPONENTS, grams) if mass}


def ingredient_grams(ingredient: str) -> Dict[str, float]:
    """The grams of each component in 100 g of an ingredient, those of which it has none left out."""
    grams = (ctypes.c_double * len(COMPONENTS))()
    status = library.sirop_ingredient_grams(name_bytes("ingredient", ingredient), grams, len(grams))
    if status == E_NAME:
        raise unknown("ingredient", ingredient, ingredient_names())
    check(status, "ingredient_grams", {})
    return named(grams)


def glucose_syrup_grams(dextrose_equivalent: float, solids_percent: float = 80.0) -> Dict[str, float]:
    """The grams of each component in 100 g of a glucose syrup between the tabulated ones."""
    arguments = {"dextrose_equivalent": number("dextrose_equivalent", dextrose_equivalent),
                 "solids_percent": number("solids_percent", solids_percent)}
    grams = (ctypes.c_double * len(COMPONENTS))()
    check(library.sirop_glucose_syrup_grams(*arguments.values(), grams, len(grams)), "glucose_syrup_grams", arguments)
    return named(grams)


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


def glucose_syrup_grams_n(dextrose_equivalent: Numbers, solids_percent: Numbers = 80.0) -> Compositions:
    """glucose_syrup_grams of n syrups; each argument is one number for all, or n."""
    return of_numbers(Compositions, library.sirop_glucose_syrup_grams_n, last=(len(COMPONENTS),),
                      each=len(COMPONENTS), dextrose_equivalent=dextrose_equivalent, solids_percent=solids_percent)


def ingredients() -> Tuple[Ingredient, ...]:
    """The pantry: every ingredient that a batch file may name."""
    return tuple(Ingredient(name, ingredient_source(name), ingredient_estimate(name), ingredient_grams(name))
                 for name in ingredient_names())
