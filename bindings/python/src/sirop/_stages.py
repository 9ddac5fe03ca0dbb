"""Stage tables, the words of the set, and the limits of growth."""

from __future__ import annotations

import ctypes
from dataclasses import dataclass
from typing import Optional, Tuple

from ._answers import GrowthLimit
from ._calls import (E_NAME, NORMAL_HPA, check, int32, listed, name_bytes, number, shown_range, text_call,
                     text_or_none, unknown)
from ._errors import RangeError
from ._library import CRange, library
from ._mixtures import c_masses, masses
from ._types import Grams, Range


def table_bytes(table):
    return None if table is None else name_bytes("table", table)


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
    stage_table_source(table)  # complains of an unknown table
    return text_or_none(library.sirop_stage_name(table_bytes(table), int32("index", index)))


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


def stage_of_temperature(celsius: float, pressure_hpa: float = NORMAL_HPA, table: Optional[str] = None) -> str:
    """What a table calls a temperature in °C in a kitchen, such as "between soft ball and firm ball"."""
    arguments = {"celsius": number("celsius", celsius), "pressure_hpa": number("pressure_hpa", pressure_hpa)}
    stage_table_source(table)  # complains of an unknown table
    return text_call(library.sirop_stage_of_temperature, table_bytes(table), *arguments.values(), arguments=arguments)


def stage_of_mixture(grams: Grams, table: Optional[str] = None) -> str:
    """The stage that a mixture is by its consistency in cold water."""
    stage_table_source(table)  # complains of an unknown table
    values = masses(grams)
    return text_call(library.sirop_stage_of_mixture, table_bytes(table), c_masses(values), len(values),
                     arguments={"grams": values})


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


# --- words of the set -----------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class SetWord:
    """A word of the set, what it means, and the firmness, in Pa s, from which and up to which it is said."""

    word: str
    meaning: str
    firmness_pa_s: Range


def set_word(index: int) -> Optional[str]:
    """The words of the set, from the thinnest, 0, on; None after the last."""
    return text_or_none(library.sirop_set_word(int32("index", index)))


def set_word_meaning(index: int) -> Optional[str]:
    """What a word of the set means; None for an index that does not exist."""
    return text_or_none(library.sirop_set_word_meaning(int32("index", index)))


def set_word_firmness_pa_s(index: int) -> Range:
    """The firmness, in Pa s, from which and up to which a word of the set is said."""
    found = CRange()
    if library.sirop_set_word_firmness_pa_s(int32("index", index), ctypes.byref(found)) != 0:
        raise RangeError(f"index: {index} is outside the accepted range, 0 to {len(listed(set_word)) - 1}")
    return Range(found.low, found.high)


def set_word_of(firmness_pa_s: float) -> int:
    """The index of the word for a firmness in Pa s, such as the property firmness_pa_s."""
    value, index = number("firmness_pa_s", firmness_pa_s), ctypes.c_int32()
    if library.sirop_set_word_of(value, ctypes.byref(index)) != 0:
        raise RangeError(f"firmness_pa_s: {value!r} is outside the accepted range, {shown_range(0.0, None)}")
    return index.value


def set_words() -> Tuple[SetWord, ...]:
    """The words of the set, from the thinnest to the hardest."""
    return tuple(SetWord(word, set_word_meaning(index), set_word_firmness_pa_s(index))
                 for index, word in enumerate(listed(set_word)))


# --- growth ---------------------------------------------------------------------------------------------------------


def growth_limit(index: int) -> Optional[GrowthLimit]:
    """The published limits of growth, from the highest water activity, 0, on; None after the last."""
    activity = ctypes.c_double()
    group = library.sirop_growth_limit(int32("index", index), ctypes.byref(activity))
    return None if group is None else GrowthLimit(activity.value, group.decode())


def growth_limits() -> Tuple[GrowthLimit, ...]:
    """The published limits of growth. Screening figures: follow your food code and a tested process."""
    return listed(growth_limit)
