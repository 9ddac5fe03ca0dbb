"""What the library knows: properties, conversions, the pantry, stages, words of the set, limits of growth, layers."""

from __future__ import annotations

import ctypes
from array import array
from dataclasses import dataclass
from typing import Dict, Optional, Sequence, Tuple, Union

from ._arrays import Columns, Estimates, column_of, desserts_of, doubles_of, mixtures_of, warn_of
from ._calls import COMPONENTS, check, check_names, estimate, int32, listed, number, one, place_text
from ._doors import GrowthLimit
from ._errors import RangeError
from ._library import CEstimate, library
from ._types import Estimate, Mixtures, Numbers, PropertyName, Range

__all__ = ["COMPONENTS", "Property", "Ingredient", "TableStage", "TextureWord", "Layers", "Desserts",
           "argument_names", "properties", "conversions", "ingredients", "stage_tables", "stages", "stage_place_text",
           "texture_words", "growth_limit", "growth_limits", "question_names", "layers_at_equilibrium",
           "layers_at_equilibrium_n"]


def argument_names() -> Tuple[str, ...]:
    """The names of all arguments that have an accepted range, such as "pressure_hpa"."""
    return listed("argument_name")


def question_names() -> Tuple[str, ...]:
    """The kinds of all questions, such as "cook_for"."""
    return listed("question_name")


def conversions() -> Tuple[str, ...]:
    """The names of all conversions, such as "brix_to_density_kg_m3"."""
    return listed("conversion_name")


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


def property_record(property: Union[PropertyName, str]) -> Property:
    """All that the catalogue knows of one property."""
    return Property(property, *(one(f"property_{what}", property) for what in ("unit", "source", "uncertainty")),
                    *one("property_range", property))


def properties() -> Tuple[Property, ...]:
    """The catalogue: every property with its unit, range, uncertainty and source."""
    return tuple(map(property_record, listed("property_name")))


@dataclass(frozen=True)
class Ingredient:
    """A row of the pantry: where its composition comes from, and what in it is an estimate ("" if nothing)."""

    name: str
    source: str
    estimate: str
    #: the components that it holds, as the mixture functions take them
    per_100_g: Dict[str, float]


def ingredients() -> Tuple[Ingredient, ...]:
    """The pantry: every ingredient that a batch file may name."""
    return tuple(Ingredient(name, *(one(f"ingredient_{what}", name) for what in ("source", "estimate", "grams")))
                 for name in listed("ingredient_name"))


# --- stages and words of the set ------------------------------------------------------------------------------------


def stage_tables() -> Tuple[str, ...]:
    """The names of all stage tables; the first, "us 2004", is the default."""
    return listed("stage_table_name")


@dataclass(frozen=True)
class TableStage:
    """A stage of a table, and its temperatures in °C: of plain sugar syrup at sea level."""

    name: str
    celsius: Range


def stages(table: Optional[str] = None) -> Tuple[TableStage, ...]:
    """The stages of a table, "us 2004" if None."""
    return tuple(TableStage(name, one("stage_range_celsius", table, name)) for name in listed("stage_name", table))


def stage_place_text(lower: int, upper: int, table: Optional[str] = None) -> str:
    """The name of a place in a table, such as "between soft ball and firm ball"; the indices as in a StagePlace."""
    check_names({"table": table})
    try:
        return place_text(table, int32("lower", lower), int32("upper", upper))
    except RangeError:
        last = len(listed("stage_name", table)) - 1
        raise RangeError(f"lower, upper: {lower}, {upper} is no place in the table; accepted: a stage, 0 to {last}, "
                         f"twice, or one and the next, -1 being below the first and {last + 1} above any") from None


@dataclass(frozen=True)
class TextureWord:
    """A word of the set, what it means, and the firmness, in Pa s, from which and up to which it is said."""

    word: str
    meaning: str
    firmness_pa_s: Range


def texture_words() -> Tuple[TextureWord, ...]:
    """The words of the set, from the thinnest to the hardest."""
    return tuple(TextureWord(word, one("texture_word_meaning", index), one("texture_word_firmness_pa_s", index))
                 for index, word in enumerate(listed("texture_word")))


# --- growth and layers ----------------------------------------------------------------------------------------------


def growth_limit(index: int) -> GrowthLimit:
    """A published limit of growth: the group, and the water activity below which it does not grow."""
    return GrowthLimit(one("growth_limit", index), one("growth_group", index))


def growth_limits() -> Tuple[GrowthLimit, ...]:
    """The published limits of growth. Screening figures: follow your food code and a tested process."""
    return tuple(map(growth_limit, range(len(listed("growth_group")))))


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
    check(status, "layers_at_equilibrium", {"layers": layers, "celsius": celsius}, {"celsius": "layers_celsius"})
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
    library.sirop_layers_at_equilibrium_n(n, layers, doubles.memory, width, *columns, activity, gained)
    activity = column_of(activity, CEstimate)
    gained = [column_of(gained, CEstimate, layer * ctypes.sizeof(CEstimate)) for layer in range(layers if n else 0)]
    # An error is that of all numbers of a dessert; an extrapolation may be that of one.
    status = array("i", map(max, activity.status, *(one.status for one in gained)))
    warn_of("layers_at_equilibrium_n", status)
    return Desserts(activity, tuple(gained), status)
