"""Numbers of n mixtures, and of n kitchens, in one call of C."""

from __future__ import annotations

import ctypes
from array import array
from dataclasses import dataclass
from typing import Optional, Sequence, Tuple, Union

from . import _catalogue
from ._arrays import (Columns, Estimates, Values, column_of, desserts_of, doubles_of, mixtures_of, of_mixtures,
                      of_numbers, warn_of)
from ._calls import NORMAL_HPA, accepted, check, estimate, name_bytes, number
from ._library import CEstimate, CGraining, library
from ._mixtures import GrainingEstimate
from ._types import Estimate, Mixtures, Numbers, PropertyName


def pressure_at_altitude_hpa_n(altitude_metres: Numbers) -> Values:
    """pressure_at_altitude_hpa of n altitudes."""
    return of_numbers(Values, library.sirop_pressure_at_altitude_hpa_n, altitude_metres=altitude_metres)


def pressure_from_boiling_water_hpa_n(water_boils_celsius: Numbers) -> Values:
    """pressure_from_boiling_water_hpa of n temperatures."""
    return of_numbers(Values, library.sirop_pressure_from_boiling_water_hpa_n, water_boils_celsius=water_boils_celsius)


def water_boils_celsius_n(pressure_hpa: Numbers) -> Values:
    """water_boils_celsius of n pressures."""
    return of_numbers(Values, library.sirop_water_boils_celsius_n, pressure_hpa=pressure_hpa)


def boiling_point_celsius_n(grams: Mixtures, pressure_hpa: Numbers = NORMAL_HPA,
                            components: Optional[int] = None) -> Estimates:
    """boiling_point_celsius of n mixtures.

    `grams`: an array of n rows, a sequence of mixtures, or all masses one after the other, `components` for each
    mixture. Other arguments: one number for all, or n of them."""
    return of_mixtures(Estimates, library.sirop_boiling_point_celsius_n, grams, components, pressure_hpa=pressure_hpa)


def water_at_boil_grams_n(grams: Mixtures, celsius: Numbers, pressure_hpa: Numbers = NORMAL_HPA,
                          components: Optional[int] = None) -> Estimates:
    """water_at_boil_grams of n mixtures; arguments as in boiling_point_celsius_n."""
    return of_mixtures(Estimates, library.sirop_water_at_boil_grams_n, grams, components, celsius=celsius,
                       pressure_hpa=pressure_hpa)


def water_activity_n(grams: Mixtures, celsius: Numbers, components: Optional[int] = None) -> Estimates:
    """water_activity of n mixtures; arguments as in boiling_point_celsius_n."""
    return of_mixtures(Estimates, library.sirop_water_activity_n, grams, components, celsius=celsius)


def freezing_point_celsius_n(grams: Mixtures, components: Optional[int] = None) -> Estimates:
    """freezing_point_celsius of n mixtures; arguments as in boiling_point_celsius_n."""
    return of_mixtures(Estimates, library.sirop_freezing_point_celsius_n, grams, components)


def property_estimate_n(property: Union[PropertyName, str], grams: Mixtures, celsius: Numbers = 20.0,
                        pressure_hpa: Numbers = NORMAL_HPA, components: Optional[int] = None) -> Estimates:
    """A property of the catalogue, by its name, for n mixtures; arguments as in boiling_point_celsius_n."""
    _catalogue.property_range(property)  # complains of an unknown name
    return of_mixtures(Estimates, library.sirop_property_estimate_n, grams, components,
                       first=(name_bytes("property", property),), celsius=celsius, pressure_hpa=pressure_hpa)


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


def graining_at_n(grams: Mixtures, celsius: Numbers, components: Optional[int] = None) -> GrainingEstimates:
    """graining_at of n mixtures; arguments as in boiling_point_celsius_n."""
    return of_mixtures(GrainingEstimates, library.sirop_graining_at_n, grams, components, celsius=celsius)


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
    check(status, "layers_at_equilibrium", {"layers": layers, "celsius": celsius},
          {"celsius": accepted("layers_celsius")})
    return Layers(estimate(activity), tuple(map(estimate, gained)))


@dataclass(frozen=True)
class Desserts(Columns[Layers]):
    """n desserts of layers at equilibrium; `desserts[i]` is one, as Layers.

    `water_gained_grams` has Estimates of all desserts for each layer: water_gained_grams[0] is of the first layers. A
    dessert whose status is negative has no answer and is NaN."""

    water_activity: Estimates
    water_gained_grams: Tuple[Estimates, ...]
    status: array[int]
    _element = staticmethod(lambda activity, *gained_and_status: Layers(activity, gained_and_status[:-1]))

    def _columns(self):
        return [self.water_activity, *self.water_gained_grams, self.status]


def layers_at_equilibrium_n(grams: Union[Sequence[Mixtures], Mixtures], celsius: Numbers, layers: Optional[int] = None,
                            components: Optional[int] = None) -> Desserts:
    """layers_at_equilibrium of n desserts of as many layers each.

    `grams`: an array of n x layers x components, a sequence of sequences of mixtures, or all layers one after the
    other as boiling_point_celsius_n takes mixtures, `layers` for each dessert. `celsius`: one for all, or n."""
    doubles, n, layers, width = desserts_of(grams, layers, components)
    _, columns = doubles_of({"celsius": celsius}, n, "desserts")
    activity, gained = (CEstimate * n)(), (CEstimate * layers * n)()
    c_function = library.sirop_layers_at_equilibrium_n
    c_function(n, layers, doubles.memory, width, *columns, activity, gained)
    activity = column_of(activity, CEstimate)
    gained = [column_of(gained, CEstimate, layer * ctypes.sizeof(CEstimate)) for layer in range(layers if n else 0)]
    # An error is that of all numbers of a dessert; an extrapolation may be that of one.
    status = array("i", map(max, activity.status, *(one.status for one in gained)))
    warn_of(c_function, status)
    return Desserts(activity, tuple(gained), status)
