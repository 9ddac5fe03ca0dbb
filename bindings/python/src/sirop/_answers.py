"""The answer to a batch as typed objects: the keys of the JSON answer (docs/batch-file.md), the unit in each name.

None stands for what cannot be given."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, fields, is_dataclass
from typing import Any, Dict, Optional, Tuple

from ._types import Estimate


@dataclass(frozen=True)
class Cooked:
    """When the cook ends. Temperatures are real ones, but for thermometer_celsius. None: cannot be given."""

    celsius: Optional[float]
    thermometer_celsius: Optional[float]
    pressure_hpa: Optional[float]
    water_boils_celsius: Optional[float]
    starts_to_boil_celsius: Optional[float]
    highest_celsius: Optional[float]
    water_activity: Optional[float]
    water_percent: Optional[Estimate]
    solids_percent: Optional[Estimate]
    grams: Optional[Estimate]
    water_boiled_off_grams: Optional[Estimate]


@dataclass(frozen=True)
class Finished:
    """After the additions, at serving temperature. None: cannot be given; a note says why."""

    grams: Optional[Estimate]
    water_percent: Optional[Estimate]
    fat_percent: Optional[Estimate]
    water_flashed_grams: Optional[Estimate]
    water_activity_at_serving: Optional[Estimate]
    syrup_solids_percent: Optional[Estimate]
    brix_of_syrup_phase: Optional[Estimate]
    glass_transition_celsius: Optional[Estimate]
    freezing_celsius: Optional[Estimate]
    millilitres: Optional[Estimate]
    mixed_celsius: Optional[float]
    undissolved_sugar_grams: Optional[float]
    sucrose_supersaturation: Optional[float]
    lactose_supersaturation: Optional[float]


@dataclass(frozen=True)
class Stage:
    """Names of the stage table used."""

    table: Optional[str]
    by_temperature: Optional[str]
    by_consistency: Optional[str]
    sea_level_celsius: Optional[float]
    plain_syrup_celsius: Optional[float]
    finished_by_consistency: Optional[str]


@dataclass(frozen=True)
class SetAnswer:
    """How it sits at the serving temperature."""

    celsius: Optional[float]
    viscosity_pa_s: Optional[Estimate]
    gel_modulus_pa: Optional[Estimate]
    firmness_pa_s: Optional[Estimate]
    word: Optional[str]
    word_if_thinner: Optional[str]
    word_if_thicker: Optional[str]
    slump_to_half_seconds: Optional[Estimate]
    stands_millimetres: Optional[Estimate]
    pours_from_celsius: Optional[Estimate]
    pour_celsius: Optional[float]
    pours: Optional[str]
    holds_a_cut: Optional[str]
    too_hard_to_cut: Optional[bool]
    freezer_celsius: Optional[float]
    freezer_ice_percent_of_water: Optional[float]
    freezer_word: Optional[str]
    milk_grams: Optional[float]
    firmness_with_milk_pa_s: Optional[Estimate]
    word_with_milk: Optional[str]


@dataclass(frozen=True)
class GrainingAt:
    """Whether sugar may crystallize at one temperature, and why."""

    celsius: Optional[float]
    risk: Optional[str]
    reason: Optional[str]
    sucrose_supersaturation: Optional[Estimate]
    lactose_supersaturation: Optional[Estimate]
    crystallizable_percent: Optional[Estimate]
    hindering_percent: Optional[float]


@dataclass(frozen=True)
class WayToClear:
    """A change of the batch after which the sugar stays dissolved."""

    change: Optional[str]
    grams: Optional[float]
    thermometer_celsius: Optional[float]
    sentence: Optional[str]


@dataclass(frozen=True)
class Graining:
    """Whether it may grain, at serving and in storage, and what would clear that."""

    at_serving: GrainingAt
    in_storage: GrainingAt
    ways_to_clear: Tuple[WayToClear, ...]


@dataclass(frozen=True)
class GrowthLimit:
    """A water activity below which a group does not grow."""

    water_activity: Optional[float]
    group: Optional[str]


@dataclass(frozen=True)
class Keeping:
    """Screening figures for keeping; not a shelf life: follow your food code and a tested process."""

    celsius: Optional[float]
    water_activity: Optional[Estimate]
    equilibrium_relative_humidity_percent: Optional[Estimate]
    can_grow: Optional[str]
    too_cold_for_growth: bool
    limits: Tuple[GrowthLimit, ...]
    limits_source: Optional[str]


@dataclass(frozen=True)
class Prediction:
    """The answer to a batch. `raw` is the whole answer as it came, with keys that this class may not know."""

    title: str
    status: str
    cooked: Cooked
    finished: Finished
    stage: Stage
    set: SetAnswer
    graining: Graining
    keeping: Keeping
    cautions: Tuple[str, ...]
    notes: Tuple[str, ...]
    raw: Dict[str, Any]


@dataclass(frozen=True)
class Reply:
    """The answer to a question. `answer` has the keys of the JSON answer, which depend on the question.

    `prediction` is that of the batch as it is to be cooked, where there is one; `raw` is the whole reply."""

    ask: str
    title: str
    status: str
    question: str
    answer: Dict[str, Any]
    prediction: Optional[Prediction]
    cautions: Tuple[str, ...]
    notes: Tuple[str, ...]
    raw: Dict[str, Any]


def typed(kind, answer):
    """A dataclass from the keys of its fields; keys that it does not have are left to `raw`."""
    values = {}
    for field in fields(kind):
        part = globals().get(re.sub(r"^(Tuple|Optional)\[|, \.\.\.\]$|\]$", "", field.type))
        value = answer.get(field.name)
        if part is Estimate:
            value = estimate(*(answer.get(field.name + end) for end in ("", "_low", "_high")))
        elif is_dataclass(part):
            value = (tuple(typed(part, one) for one in value or ()) if field.type.startswith("Tuple")
                     else None if value is None and field.type.startswith("Optional") else typed(part, value or {}))
        elif field.type.startswith("Tuple"):
            value = tuple(value or ())
        elif field.name == "raw":
            value = answer
        values[field.name] = value
    return kind(**values)


def estimate(*numbers):
    """A value with its interval; an end that cannot be given is NaN, and if nothing can, it is None."""
    if all(number is None for number in numbers):
        return None
    return Estimate(*(math.nan if number is None else number for number in numbers))
