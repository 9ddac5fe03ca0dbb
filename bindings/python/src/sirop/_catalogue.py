"""What the library knows of itself: components, ranges, properties; and the kitchen's pressure."""

from __future__ import annotations

import ctypes
from dataclasses import dataclass
from typing import Optional, Tuple, Union

from ._calls import int32, listed, name_bytes, number_of_number, text_by_name, text_or_none, unknown
from ._header import CODES
from ._library import CRange, library
from ._types import PropertyName, Range


def version() -> str:
    """The version of the library that runs, such as "0.1.0"."""
    return library.sirop_version().decode()


def component_name(component: int) -> Optional[str]:
    """The name of a component as the batch file writes it; None for an index that does not exist."""
    return text_or_none(library.sirop_component_name(int32("component", component)))


COMPONENTS: Tuple[str, ...] = listed(component_name)


def argument_name(index: int) -> Optional[str]:
    """The names of the arguments that have an accepted range, from 0 on; None after the last."""
    return text_or_none(library.sirop_argument_name(int32("index", index)))


def argument_names() -> Tuple[str, ...]:
    """The names of all arguments that have an accepted range, such as "pressure_hpa"."""
    return listed(argument_name)


def accepted_range(argument: str) -> Range:
    """The inclusive range that an argument accepts, such as "pressure_hpa", "altitude_metres" or "grams"."""
    found = CRange()
    status = library.sirop_accepted_range(name_bytes("argument", argument), ctypes.byref(found))
    if status == CODES["E_NAME"]:
        raise unknown("argument", argument, argument_names())
    return Range(found.low, found.high)


# --- the kitchen ----------------------------------------------------------------------------------------------------


def pressure_at_altitude_hpa(altitude_metres: float) -> float:
    """Air pressure, in hPa, at an altitude in metres: the standard atmosphere (ISO 2533)."""
    return number_of_number(library.sirop_pressure_at_altitude_hpa, "altitude_metres", altitude_metres)


def pressure_from_boiling_water_hpa(water_boils_celsius: float) -> float:
    """Air pressure, in hPa, of a kitchen where water really boils at that temperature in °C (IAPWS-IF97)."""
    return number_of_number(library.sirop_pressure_from_boiling_water_hpa, "water_boils_celsius", water_boils_celsius)


def water_boils_celsius(pressure_hpa: float) -> float:
    """Temperature, in °C, at which water boils at that pressure in hPa (IAPWS-IF97)."""
    return number_of_number(library.sirop_water_boils_celsius, "pressure_hpa", pressure_hpa)


# --- properties -----------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Property:
    """A property of the catalogue: where it is answered, how well, and from which source."""

    name: str
    unit: str
    source: str
    uncertainty: str
    #: where it is answered; equal ends: it does not depend on a temperature
    celsius: Range
    #: above these solids of the syrup phase the answer is an extrapolation
    fitted_solids_percent: float

    @property
    def depends_on_temperature(self) -> bool:
        """False if its value is the same at any temperature."""
        return self.celsius.low != self.celsius.high

    def facts(self) -> str:
        """Unit, range, uncertainty and source, one a line."""
        answered = (f"{self.celsius.low:g} to {self.celsius.high:g} °C" if self.depends_on_temperature
                    else "any temperature")
        return (f"Unit: {self.unit}\nRange: {answered}; an extrapolation above {self.fitted_solids_percent:g} % "
                f"solids of the syrup phase\nUncertainty: {self.uncertainty}\nSource: {self.source}")

    def documentation(self) -> str:
        """The docstring of its function."""
        words = self.name.replace("_", " ")
        return f"{self.name} of a mixture, in {self.unit}.\n\n{self.facts()}" if self.unit != "1" else (
            f"{words[0].upper()}{words[1:]} of a mixture, a plain number.\n\n{self.facts()}")


def property_name(index: int) -> Optional[str]:
    """The names of the catalogue's properties, from 0 on; None after the last."""
    return text_or_none(library.sirop_property_name(int32("index", index)))


def property_names():
    return listed(property_name)


def property_unit(property: Union[PropertyName, str]) -> str:
    """The unit of a property; "1" for a plain number."""
    return text_by_name(library.sirop_property_unit, "property", property, property_names)


def property_source(property: Union[PropertyName, str]) -> str:
    """The published source of a property."""
    return text_by_name(library.sirop_property_source, "property", property, property_names)


def property_uncertainty(property: Union[PropertyName, str]) -> str:
    """How far off a property is, in words; each estimate has its own low and high."""
    return text_by_name(library.sirop_property_uncertainty, "property", property, property_names)


def property_range(property: Union[PropertyName, str]) -> Tuple[Range, float]:
    """The temperatures in °C in which a property is answered, and the solids of the syrup phase, in percent, above
    which the answer is an extrapolation. Equal temperatures: it does not depend on one."""
    celsius, solids = CRange(), ctypes.c_double()
    status = library.sirop_property_range(name_bytes("property", property), ctypes.byref(celsius),
                                          ctypes.byref(solids))
    if status < 0:
        raise unknown("property", property, property_names())
    return Range(celsius.low, celsius.high), solids.value


def property_record(property: Union[PropertyName, str]) -> Property:
    """All that the catalogue knows of one property."""
    celsius, solids = property_range(property)
    return Property(property, property_unit(property), property_source(property), property_uncertainty(property),
                    celsius, solids)


def properties() -> Tuple[Property, ...]:
    """The catalogue: every property with its unit, range, uncertainty and source."""
    return tuple(map(property_record, property_names()))
