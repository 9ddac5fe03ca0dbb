"""The main job: a batch file in, the answer out, as text or as typed objects."""

from __future__ import annotations

import json
import math
import os
import pathlib
import re
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from typing import Optional

from . import _doors
from ._calls import int32, maybe_bytes, text_call
from ._doors import Prediction, Reply
from ._errors import BatchError, UnknownNameError
from ._library import library
from ._types import BatchLike, Estimate

__all__ = ["predict", "report", "predict_json", "predict_report", "predict_card", "ask", "ask_json", "ask_report"]


def batch_bytes(batch):
    """A batch file as UTF-8: from a mapping, from JSON text, or from a file named by a path or by "....json"."""
    if isinstance(batch, Mapping):
        try:
            text = json.dumps(batch, ensure_ascii=False, allow_nan=False, default=plain)
        except ValueError:
            where = first_not_finite(batch, "")
            if where is None:
                raise
            raise BatchError(f"{where} is not a finite number") from None
        return text.encode("utf-8", "surrogatepass")
    if isinstance(batch, os.PathLike) or (isinstance(batch, str) and batch.endswith(".json")):
        return pathlib.Path(batch).read_bytes()
    if isinstance(batch, str):
        return batch.encode("utf-8", "surrogatepass")
    if isinstance(batch, (bytes, bytearray)):
        return bytes(batch)
    raise TypeError(f"batch: a mapping, a JSON text or a path is wanted, not {type(batch).__name__}")


def plain(value):
    """What json does not know: other mappings, sequences such as tuples of numpy numbers, and numbers."""
    if isinstance(value, Mapping):
        return dict(value)
    if hasattr(value, "__index__"):
        return value.__index__()
    if hasattr(value, "__float__"):
        return value.__float__()
    if hasattr(value, "__iter__") and not isinstance(value, (bytes, bytearray)):
        return list(value)
    raise TypeError(f"batch: {value!r} cannot be written as JSON")


def first_not_finite(value, place):
    """Place and value of the first number that JSON cannot hold, such as "pan[0].grams: nan"."""
    if isinstance(value, Mapping):
        inside = ((f"{place}.{key}" if place else str(key), item) for key, item in value.items())
    elif isinstance(value, (list, tuple)):
        inside = ((f"{place}[{index}]", item) for index, item in enumerate(value))
    else:
        bad = hasattr(value, "__float__") and not math.isfinite(value)
        return f"{place}: {value!r}" if bad else None
    return next(filter(None, (first_not_finite(item, where) for where, item in inside)), None)


def predict_text(c_function, batch, table, *more):
    content = batch_bytes(batch)
    try:
        return text_call(c_function, content, len(content), maybe_bytes("table", table), *more)
    except UnknownNameError:
        raise UnknownNameError(f'table: there is no stage table {table!r}; accepted: a name such as "us 2004" or '
                               '"us 1918"') from None


def predict_json(batch: BatchLike, table: Optional[str] = None) -> str:
    """What a batch will be when it is cold, as JSON text. `table`: the stage table, "us 2004" if None."""
    return predict_text(library.sirop_predict_json, batch, table)


def predict_report(batch: BatchLike, table: Optional[str] = None) -> str:
    """What a batch will be when it is cold, as a report for the cook, with its cautions."""
    return predict_text(library.sirop_predict_report, batch, table)


def predict_card(batch: BatchLike, table: Optional[str] = None, columns: int = 72) -> str:
    """A card to cook by: cautions, ingredients, where to stop, what it becomes, in some 25 lines of `columns`
    characters (24 to 200)."""
    return predict_text(library.sirop_predict_card, batch, table, int32("columns", columns))


def predict(batch: BatchLike, table: Optional[str] = None) -> Prediction:
    """What a batch will be when it is cold.

    `batch`: a batch file as a mapping, as JSON text, or as the path of a file (a path object, or a text that ends in
    .json). Raises BatchError with the reason if it is refused. Show people the answer's `cautions`."""
    return typed(Prediction, json.loads(predict_json(batch, table)))


def ask_json(question: BatchLike) -> str:
    """Answers a question, such as to which temperature to cook, as JSON text."""
    content = batch_bytes(question)
    return text_call(library.sirop_ask_json, content, len(content))


def ask_report(question: BatchLike) -> str:
    """Answers a question, such as to which temperature to cook, as a report for the cook, with its cautions."""
    content = batch_bytes(question)
    return text_call(library.sirop_ask_report, content, len(content))


def ask(question: BatchLike) -> Reply:
    """Answers a question (docs/questions.md): to which temperature, how to rescue, what instead, and so on.

    `question`: a mapping, JSON text, or the path of a file, as for predict. Raises BatchError with the reason if it is
    refused. Show people the reply's `cautions`."""
    return typed(Reply, json.loads(ask_json(question)))


def report(batch: BatchLike, table: Optional[str] = None) -> str:
    """The same as predict_report."""
    return predict_report(batch, table)


# --- the answer as typed objects ------------------------------------------------------------------------------------


def typed(kind, answer):
    """A dataclass from the keys of its fields; keys that it does not have are left to `raw`."""
    values = {}
    for field in fields(kind):
        part = vars(_doors).get(re.sub(r"^(Tuple|Optional)\[|, \.\.\.\]$|\]$", "", field.type))
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
