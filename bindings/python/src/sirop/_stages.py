"""Stage tables, the words of the set, and the limits of growth."""

from __future__ import annotations

import ctypes
from array import array
from dataclasses import dataclass, replace
from typing import Optional, Tuple

from ._answers import GrowthLimit
from ._arrays import Columns, Indices, Ranges, of_mixtures, of_numbers
from ._calls import (E_NAME, NORMAL_HPA, check, int32, listed, name_bytes, number, shown_range, text_call,
                     text_or_none, unknown)
from ._errors import RangeError
from ._library import CRange, CStagePlace, library
from ._mixtures import c_masses, masses
from ._types import Grams, Mixtures, Numbers, Range


def table_bytes(table):
    return None if table is None else name_bytes("table", table)


def known_table(table):
    """The name of a table for C, or a complaint if there is none of that name."""
    stage_table_source(table)
    return table_bytes(table)


def no_index(index, name_of):
    """The exception for an index past the end of a list."""
    return RangeError(f"index: {index} is outside the accepted range, 0 to {len(listed(name_of)) - 1}")


def stage_table_name(index: int) -> Optional[str]:
    """The names of the stage tables, from 0 on; None after the last."""
    return text_or_none(library.sirop_stage_table_name(int32("index", index)))


def stage_tables() -> Tuple[str, ...]:
    """The names of all stage tables; the first, "us 2004", is the default."""
    return listed(stage_table_name)


def stage_table_source(table: Optional[str] = None) -> str:
    """Where a stage table was published."""
    found = library.sirop_stage_table_source(table_bytes(table))
    if found is None:
        raise unknown("table", table, stage_tables())
    return found.decode()


def stage_name(index: int, table: Optional[str] = None) -> Optional[str]:
    """The names of a table's stages, from 0 on; None after the last."""
    return text_or_none(library.sirop_stage_name(known_table(table), int32("index", index)))


def unknown_stage(table, stage):
    """The exception for a table or, if that exists, a stage that does not."""
    try:
        return unknown("stage", stage, listed(lambda index: stage_name(index, table)))
    except KeyError as why:
        return why


def stage_range_celsius(stage: str, table: Optional[str] = None) -> Range:
    """The temperatures, in °C, of a stage: of plain sugar syrup at sea level."""
    found = CRange()
    status = library.sirop_stage_range_celsius(table_bytes(table), name_bytes("stage", stage), ctypes.byref(found))
    if status == E_NAME:
        raise unknown_stage(table, stage) from None
    check(status, "stage_range_celsius", {})
    return Range(found.low, found.high)


@dataclass(frozen=True)
class TableStage:
    """A stage of a table, and its temperatures in °C: of plain sugar syrup at sea level."""

    name: str
    celsius: Range


def stages(table: Optional[str] = None) -> Tuple[TableStage, ...]:
    """The stages of a table, "us 2004" if None."""
    return tuple(TableStage(name, stage_range_celsius(name, table))
                 for name in listed(lambda index: stage_name(index, table)))


# --- places in a table ----------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class StagePlace:
    """Where something lies in a stage table; str() gives its name, such as "between soft ball and firm ball".

    `lower` and `upper` are indices of stage_name: the same index in a stage, two between two stages. Below the first
    stage `lower` is -1, above a stage `upper` is the count of stages."""

    lower: int
    upper: int
    #: 0 fine, 1 computed outside a fitted range; negative where there is no answer
    status: int
    name: str

    def __str__(self) -> str:
        return self.name


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
        return StagePlace(lower, upper, status, "" if status < 0 else stage_place_text(lower, upper, self.table))


def stage_place_text(lower: int, upper: int, table: Optional[str] = None) -> str:
    """The name of a place in a table, such as "between soft ball and firm ball"; the indices as in a StagePlace."""
    name, lower, upper = known_table(table), int32("lower", lower), int32("upper", upper)
    try:
        return text_call(library.sirop_stage_place_text, name, lower, upper)
    except RangeError:
        last = len(listed(lambda index: stage_name(index, table))) - 1
        raise RangeError(f"lower, upper: {lower}, {upper} is no place in the table; accepted: a stage, 0 to {last}, "
                         f"twice, or one and the next, -1 being below the first and {last + 1} above any") from None


def stage_place(c_function, table, *inputs, arguments):
    """Calls sirop_stage_of_...(table, inputs..., place)."""
    found = CStagePlace()
    status = c_function(table_bytes(table), *inputs, ctypes.byref(found))
    if status == E_NAME:
        known_table(table)  # complains of it
    check(status, c_function.__name__[len("sirop_"):], arguments)
    return StagePlace(found.lower, found.upper, found.status, stage_place_text(found.lower, found.upper, table))


def stage_of_temperature(celsius: float, pressure_hpa: float = NORMAL_HPA, table: Optional[str] = None) -> StagePlace:
    """Which stage a table means by a temperature in °C in a kitchen; str() of it is its name."""
    arguments = {"celsius": number("celsius", celsius), "pressure_hpa": number("pressure_hpa", pressure_hpa)}
    return stage_place(library.sirop_stage_of_temperature, table, *arguments.values(), arguments=arguments)


def stage_of_temperature_n(celsius: Numbers, pressure_hpa: Numbers = NORMAL_HPA,
                           table: Optional[str] = None) -> StagePlaces:
    """stage_of_temperature of n temperatures, or in n kitchens; each argument is one number for all, or n."""
    found = of_numbers(StagePlaces, library.sirop_stage_of_temperature_n, first=(known_table(table),),
                       celsius=celsius, pressure_hpa=pressure_hpa)
    return replace(found, table=table)


def stage_of_mixture(grams: Grams, table: Optional[str] = None) -> StagePlace:
    """The stage that a mixture is by its consistency in cold water."""
    values = masses(grams)
    return stage_place(library.sirop_stage_of_mixture, table, c_masses(values), len(values),
                       arguments={"grams": values})


def stage_of_mixture_n(grams: Mixtures, table: Optional[str] = None,
                       components: Optional[int] = None) -> StagePlaces:
    """stage_of_mixture of n mixtures; `grams` as in boiling_point_celsius_n."""
    found = of_mixtures(StagePlaces, library.sirop_stage_of_mixture_n, grams, components,
                        first=(known_table(table),))
    return replace(found, table=table)


def celsius_for_stage(stage: str, grams: Grams, pressure_hpa: float = NORMAL_HPA, table: Optional[str] = None) -> Range:
    """The temperatures, in °C, between which a mixture, boiled down, has the consistency of a stage."""
    values, found = masses(grams), CRange()
    pressure_hpa = number("pressure_hpa", pressure_hpa)
    status = library.sirop_celsius_for_stage(table_bytes(table), name_bytes("stage", stage), c_masses(values),
                                             len(values), pressure_hpa, ctypes.byref(found))
    if status == E_NAME:
        raise unknown_stage(table, stage) from None
    check(status, "celsius_for_stage", {"grams": values, "pressure_hpa": pressure_hpa})
    return Range(found.low, found.high)


def celsius_for_stage_n(stage: str, grams: Mixtures, pressure_hpa: Numbers = NORMAL_HPA, table: Optional[str] = None,
                        components: Optional[int] = None) -> Ranges:
    """celsius_for_stage of n mixtures; `grams` and `pressure_hpa` as in boiling_point_celsius_n."""
    stage_range_celsius(stage, table)  # complains of an unknown name
    return of_mixtures(Ranges, library.sirop_celsius_for_stage_n, grams, components,
                       first=(table_bytes(table), name_bytes("stage", stage)), pressure_hpa=pressure_hpa)


# --- words of the set -----------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class TextureWord:
    """A word of the set, what it means, and the firmness, in Pa s, from which and up to which it is said."""

    word: str
    meaning: str
    firmness_pa_s: Range


def texture_word(index: int) -> Optional[str]:
    """The words of the set, from the thinnest, 0, on; None after the last."""
    return text_or_none(library.sirop_texture_word(int32("index", index)))


def texture_word_meaning(index: int) -> Optional[str]:
    """What a word of the set means; None for an index that does not exist."""
    return text_or_none(library.sirop_texture_word_meaning(int32("index", index)))


def texture_word_firmness_pa_s(index: int) -> Range:
    """The firmness, in Pa s, from which and up to which a word of the set is said."""
    found = CRange()
    if library.sirop_texture_word_firmness_pa_s(int32("index", index), ctypes.byref(found)) != 0:
        raise no_index(index, texture_word)
    return Range(found.low, found.high)


def texture_word_of(firmness_pa_s: float) -> int:
    """The index of the word for a firmness in Pa s, such as the property firmness_pa_s."""
    value, index = number("firmness_pa_s", firmness_pa_s), ctypes.c_int32()
    if library.sirop_texture_word_of(value, ctypes.byref(index)) != 0:
        raise RangeError(f"firmness_pa_s: {value!r} is outside the accepted range, {shown_range(0.0, None)}")
    return index.value


def texture_word_of_n(firmness_pa_s: Numbers) -> Indices:
    """texture_word_of of n firmnesses."""
    return of_numbers(Indices, library.sirop_texture_word_of_n, firmness_pa_s=firmness_pa_s)


def texture_words() -> Tuple[TextureWord, ...]:
    """The words of the set, from the thinnest to the hardest."""
    return tuple(TextureWord(word, texture_word_meaning(index), texture_word_firmness_pa_s(index))
                 for index, word in enumerate(listed(texture_word)))


# --- growth ---------------------------------------------------------------------------------------------------------


def growth_group(index: int) -> Optional[str]:
    """The groups of the published limits of growth, from the highest water activity, 0, on; None after the last."""
    return text_or_none(library.sirop_growth_group(int32("index", index)))


def growth_limit(index: int) -> GrowthLimit:
    """A published limit of growth: the group, and the water activity below which it does not grow."""
    activity = ctypes.c_double()
    if library.sirop_growth_limit(int32("index", index), ctypes.byref(activity)) != 0:
        raise no_index(index, growth_group)
    return GrowthLimit(activity.value, growth_group(index))


def growth_limits() -> Tuple[GrowthLimit, ...]:
    """The published limits of growth. Screening figures: follow your food code and a tested process."""
    return tuple(map(growth_limit, range(len(listed(growth_group)))))


def growth_limits_source() -> str:
    """Where the limits of growth were published."""
    return library.sirop_growth_limits_source().decode()
