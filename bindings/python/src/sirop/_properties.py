"""One function for each property of the catalogue that has none of its own, such as density_g_per_ml."""

from __future__ import annotations

from . import _calls, _catalogue, _doors
from ._types import Estimate, Grams


def property_function(record):
    """The function of one property; its docstring is what the catalogue says."""
    name = record.name

    def at_a_temperature(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
        return _calls.one("property_estimate", name, grams, celsius, pressure_hpa)

    def at_any_temperature(grams: Grams, pressure_hpa: float = 1013.25) -> Estimate:
        return _calls.one("property_estimate", name, grams, 20.0, pressure_hpa)

    function = at_a_temperature if record.depends_on_temperature else at_any_temperature
    function.__name__ = function.__qualname__ = name
    function.__module__ = "sirop"
    function.__doc__ = record.documentation()
    return function


FUNCTIONS = {}
for _record in _catalogue.properties():
    _own = getattr(_doors, _record.name, None)
    if _own is None:
        FUNCTIONS[_record.name] = property_function(_record)
    else:  # what the catalogue knows of it follows its first lines
        _own.__doc__ = f"{_own.__doc__}\n\n{_record.facts()}"
globals().update(FUNCTIONS)
__all__ = list(FUNCTIONS)
