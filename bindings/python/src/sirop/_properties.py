"""One function for each property of the catalogue that has none of its own, such as density_g_per_ml."""

from __future__ import annotations

from . import _catalogue, _mixtures
from ._calls import NORMAL_HPA
from ._mixtures import property_estimate
from ._types import Estimate, Grams


def property_function(record):
    """The function of one property; its docstring is what the catalogue says."""
    name = record.name

    def at_a_temperature(grams: Grams, celsius: float, pressure_hpa: float = NORMAL_HPA) -> Estimate:
        return property_estimate(name, grams, celsius, pressure_hpa)

    def at_any_temperature(grams: Grams, pressure_hpa: float = NORMAL_HPA) -> Estimate:
        return property_estimate(name, grams, 20.0, pressure_hpa)

    function = at_a_temperature if record.depends_on_temperature else at_any_temperature
    function.__name__ = function.__qualname__ = name
    function.__module__ = "sirop"
    function.__doc__ = record.documentation()
    return function


FUNCTIONS = {record.name: property_function(record) for record in _catalogue.properties()
             if not hasattr(_mixtures, record.name)}
globals().update(FUNCTIONS)
__all__ = list(FUNCTIONS)
