"""Numbers of one mixture."""

from __future__ import annotations

import ctypes
from array import array
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Union

from . import _catalogue
from ._calls import E_NAME, NORMAL_HPA, accepted, check, estimate, listed, name_bytes, number, unknown
from ._errors import RangeError
from ._library import CEstimate, CGraining, library
from ._types import Estimate, Grams, PropertyName

COMPONENTS = _catalogue.COMPONENTS
INDEX = {name: index for index, name in enumerate(COMPONENTS)}
NOTHING = array("d", [0.0] * len(COMPONENTS))


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


def of_mixture(c_function, grams, **numbers):
    """Calls sirop_...(grams, components, numbers..., result)."""
    values = masses(grams)
    for name, value in numbers.items():
        if type(value) is not float:
            numbers[name] = number(name, value)
    result = CEstimate()
    status = c_function(*values.buffer_info(), *numbers.values(), ctypes.byref(result))
    if status != 0:
        check(status, c_function.__name__[len("sirop_"):], {"grams": values, **numbers})
    return estimate(result)


def boiling_point_celsius(grams: Grams, pressure_hpa: float = NORMAL_HPA) -> Estimate:
    """Temperature, in °C, at which the mixture with its own water boils."""
    return of_mixture(library.sirop_boiling_point_celsius, grams, pressure_hpa=pressure_hpa)


def water_at_boil_grams(grams: Grams, celsius: float, pressure_hpa: float = NORMAL_HPA) -> Estimate:
    """Grams of water that the solids hold when they boil at that temperature. Their own water does not count."""
    return of_mixture(library.sirop_water_at_boil_grams, grams, celsius=celsius, pressure_hpa=pressure_hpa)


def water_activity(grams: Grams, celsius: float) -> Estimate:
    """Water activity of the mixture, 0 to 1, at a temperature in °C; all its water is taken as liquid."""
    return of_mixture(library.sirop_water_activity, grams, celsius=celsius)


def freezing_point_celsius(grams: Grams) -> Estimate:
    """Temperature, in °C, at which ice begins to form in the mixture."""
    return of_mixture(library.sirop_freezing_point_celsius, grams)


def property_estimate(property: Union[PropertyName, str], grams: Grams, celsius: float = 20.0,
                      pressure_hpa: float = NORMAL_HPA) -> Estimate:
    """A property of the catalogue, by its name, for a mixture at a temperature in °C.

    `celsius` is ignored where the property does not depend on it; the pressure matters to boiling points only."""
    values = masses(grams)
    arguments = {"celsius": number("celsius", celsius), "pressure_hpa": number("pressure_hpa", pressure_hpa)}
    result = CEstimate()
    status = library.sirop_property_estimate(
        name_bytes("property", property), c_masses(values), len(values), *arguments.values(), ctypes.byref(result))
    if status != 0:
        # C looks at the masses before the name, so a bad mass is what to complain of even if the name is unknown.
        names = listed(_catalogue.property_name)
        if status == E_NAME:
            raise unknown("property", property, names)
        ranges = {"celsius": _catalogue.property_range(property)[0]} if property in names else {}
        if ranges and ranges["celsius"].low == ranges["celsius"].high:
            del arguments["celsius"]
        check(status, property, {"grams": values, **arguments}, ranges)
    return estimate(result)


@dataclass(frozen=True)
class GrainingEstimate:
    """Whether the sugar of a mixture may crystallize at a temperature. `risk`: 0 none, 1 low, 2 moderate, 3 high."""

    risk: int
    sucrose_supersaturation: Estimate
    lactose_supersaturation: Estimate
    #: of the dissolved sucrose and lactose
    crystallizable_percent: Estimate
    #: other sugars, of themselves and the sucrose
    hindering_percent: float
    status: int


def graining_at(grams: Grams, celsius: float) -> GrainingEstimate:
    """Whether the sugar of a mixture may crystallize at a temperature in °C."""
    values, celsius = masses(grams), number("celsius", celsius)
    found = CGraining(struct_bytes=ctypes.sizeof(CGraining))
    status = library.sirop_graining_at(c_masses(values), len(values), celsius, ctypes.byref(found))
    check(status, "graining_at", {"grams": values, "celsius": celsius}, {"celsius": accepted("serve_celsius")})
    return GrainingEstimate(found.risk, estimate(found.sucrose_supersaturation),
                            estimate(found.lactose_supersaturation), estimate(found.crystallizable_percent),
                            found.hindering_percent, found.status)


for _function in (boiling_point_celsius, water_activity, freezing_point_celsius):
    # What the catalogue knows of it follows the first line.
    _function.__doc__ = f"{_function.__doc__}\n\n{_catalogue.property_record(_function.__name__).facts()}"
