"""Batches and questions that are put together by calls, and their answers."""

from __future__ import annotations

import ctypes
import json
import threading
import weakref
from typing import Callable, NoReturn, Optional, Union

from ._batch import batch_bytes, typed
from ._calls import c_masses, check, int32, masses, maybe_bytes, name_bytes, number, text_call
from ._doors import Prediction, Reply
from ._errors import ImpossibleError, NullPointerError, UnknownNameError, error_class
from ._library import library
from ._types import BatchLike, Grams, Self

__all__ = ["Batch", "Question", "Answer"]
WHERE = {"pan": 0, "off_heat": 1, "neighbours": 2}


class Handle:
    """Something that the library holds until it is closed or forgotten.  One call at a time gets at it."""

    def __init__(self, pointer: int, free: Callable[[int], None]) -> None:
        self._pointer = pointer
        self._lock = threading.Lock()
        self._free = weakref.finalize(self, free, pointer)

    def _open(self):
        """The pointer, to be used while the lock is held."""
        if not self._free.alive:
            raise NullPointerError(f"this {type(self).__name__} is closed")
        return self._pointer

    def close(self) -> None:
        """Gives its memory back; what is closed cannot be used any more. Closing twice does nothing."""
        with self._lock:
            self._free()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *exception: object) -> None:
        self.close()

    def __reduce__(self) -> NoReturn:
        raise TypeError(f"a {type(self).__name__} cannot be copied or pickled")


class Answer(Handle):
    """The answer to a batch or a question, to be asked by the keys of the JSON answer joined by dots.

    Such as "cooked.water_percent_low", "set.word" or "cautions.0"; that to a question has "answer.reason" and
    "prediction.set.word". `status` is 1 if it is an extrapolation."""

    status: int

    def __init__(self, pointer: int, status: int) -> None:
        super().__init__(pointer, library.sirop_answer_free)
        self.status = status

    def _found(self, c_function, key, result, what):
        with self._lock:
            status = c_function(self._open(), name_bytes("key", key), ctypes.byref(result))
        if status < 0:
            raise self._failure(status, key, what)
        return result.value

    def number(self, key: str) -> float:
        """The number of a key; true is 1, false is 0. Raises ImpossibleError where the answer says null."""
        return self._found(library.sirop_answer_number, key, ctypes.c_double(), "number")

    def count(self, key: str = "") -> int:
        """How many there are under a key: elements of a list, keys of an object."""
        return self._found(library.sirop_answer_count, key, ctypes.c_int32(), "list or object")

    def report(self) -> str:
        """The whole answer as a report for the cook, with its cautions."""
        with self._lock:
            return text_call(library.sirop_answer_report, self._open(), warns=False)

    def text(self, key: str = "") -> str:
        """The text of a key, and of anything else its JSON text; without a key the whole answer."""
        with self._lock:
            try:
                return text_call(library.sirop_answer_text, self._open(), name_bytes("key", key), warns=False)
            except UnknownNameError as why:
                raise self._failure(why.code, key, "value") from None

    @staticmethod
    def _failure(status, key, what):
        if status == ImpossibleError.code:
            return ImpossibleError(f"{key}: cannot be given; the answer's notes may say why")
        return error_class(status)(f'key: the answer has no such {what} as "{key}"; accepted: keys of the answer '
                                   'joined by dots, such as "cooked.grams" or "answer.reason"')


class Asked(Handle):
    """What is put together by calls and then asked.  `_refusal_of` is the C function that knows a call's refusal."""

    def _call(self, c_function, *arguments):
        """A call on it; the exception of a failure has the library's reason."""
        with self._lock:
            pointer = self._open()
            status = c_function(pointer, *arguments)
            reason = self._reason(pointer) if status < 0 else ""
        if status < 0:
            raise error_class(status)(reason or f"{c_function.__name__[len('sirop_'):]} failed")
        return status

    def _answer(self, c_function, *arguments):
        """The Answer that a call gives."""
        pointer = ctypes.c_void_p()
        status = self._call(c_function, *arguments, ctypes.byref(pointer))
        answer = Answer(pointer.value, status)
        check(status, type(self).__name__, {})
        return answer

    def _reason(self, pointer):
        # It may quote a text that is no UTF-8.
        return self._refusal_of(pointer).decode("utf-8", "replace")

    def refusal(self) -> str:
        """Why the last call on it was refused, in one line; "" if it was not."""
        with self._lock:
            return self._reason(self._open())


class Batch(Asked):
    """A batch that is put together by calls instead of a batch file.

    Without a pressure it is 1013.25 hPa, and it is served at 20 °C. A `with` block closes it."""

    _refusal_of = library.sirop_batch_refusal

    def __init__(self) -> None:
        pointer = ctypes.c_void_p()
        check(library.sirop_batch_new(ctypes.byref(pointer)), "Batch", {})
        super().__init__(pointer.value, library.sirop_batch_free)

    @classmethod
    def read(cls, text: BatchLike) -> Batch:
        """The batch of a batch file: a mapping, JSON text, or the path of a file."""
        content, pointer = batch_bytes(text), ctypes.c_void_p()
        status = library.sirop_batch_read(content, len(content), ctypes.byref(pointer))
        if not pointer.value:
            check(status, "Batch.read", {})
        batch = cls.__new__(cls)
        Handle.__init__(batch, pointer.value, library.sirop_batch_free)
        if status < 0:  # then it holds nothing but the reason
            raise error_class(status)(batch.refusal())
        return batch

    def add(self, ingredient: str, grams: float, celsius: float = 20.0, where: Union[str, int] = "pan") -> Batch:
        """Adds an ingredient of the pantry: to the "pan", "off_heat", or to the "neighbours" that touch it.

        `celsius` counts off the heat only. Gives back the batch, so that calls can be chained."""
        self._call(library.sirop_batch_add, place(where), name_bytes("ingredient", ingredient),
                   number("grams", grams), number("celsius", celsius))
        return self

    def add_mixture(self, name: str, grams: Grams, celsius: float = 20.0, where: Union[str, int] = "pan") -> Batch:
        """Adds an ingredient of any composition: the grams of each component."""
        values = masses(grams)
        self._call(library.sirop_batch_add_mixture, place(where), name_bytes("name", name), c_masses(values),
                   len(values), number("celsius", celsius))
        return self

    def set(self, field: str, value: float) -> Batch:
        """Sets "thermometer_celsius" (what it shows when the cook ends), "pressure_hpa", "serve_celsius" ..."""
        self._call(library.sirop_batch_set, name_bytes("field", field), number("value", value))
        return self

    def text(self) -> str:
        """The batch as a batch file, which Batch.read and predict take."""
        with self._lock:
            return text_call(library.sirop_batch_text, self._open())

    def answer(self, table: Optional[str] = None) -> Answer:
        """What the batch will be when it is cold, to be asked key by key."""
        return self._answer(library.sirop_batch_predict, maybe_bytes("table", table))

    def predict(self, table: Optional[str] = None) -> Prediction:
        """What the batch will be when it is cold, as sirop.predict gives it."""
        with self.answer(table) as answer:
            return typed(Prediction, json.loads(answer.text()))


def place(where):
    if isinstance(where, str):
        if where not in WHERE:
            raise UnknownNameError(f'where: there is no "{where}"; accepted: {", ".join(WHERE)}')
        return WHERE[where]
    return int32("where", where)


# --- questions ------------------------------------------------------------------------------------------------------


class Question(Asked):
    """A question (docs/questions.md) that is put together by calls: its kind, then its keys joined by dots.

    Such as "wanted.water_percent" or "with.0": a list grows by its next index. A `with` block closes it."""

    _refusal_of = library.sirop_question_refusal

    def __init__(self, kind: str) -> None:
        pointer = ctypes.c_void_p()
        status = library.sirop_question_new(name_bytes("kind", kind), ctypes.byref(pointer))
        check(status, "Question", {"kind": kind})
        super().__init__(pointer.value, library.sirop_question_free)

    def set_number(self, key: str, value: float) -> Question:
        """Sets a key to a number; one that was set before is replaced. Gives back the question."""
        self._call(library.sirop_question_set_number, name_bytes("key", key), number("value", value))
        return self

    def set_truth(self, key: str, yes: bool) -> Question:
        """Sets a key to true or false."""
        if not isinstance(yes, int):
            raise TypeError(f"yes: {yes!r} is neither True nor False")
        self._call(library.sirop_question_set_truth, name_bytes("key", key), bool(yes))
        return self

    def set_text(self, key: str, text: str) -> Question:
        """Sets a key to a text, such as the name of an ingredient or a word of the set."""
        self._call(library.sirop_question_set_text, name_bytes("key", key), name_bytes("text", text))
        return self

    def set_batch(self, key: str, batch: Batch) -> Question:
        """Sets a key to a copy of a batch; the question's own is "batch"."""
        if not isinstance(batch, Batch):
            raise TypeError(f"batch: {batch!r} is not a Batch; Batch.read makes one")
        with batch._lock:
            self._call(library.sirop_question_set_batch, name_bytes("key", key), batch._open())
        return self

    def set(self, key: str, value: Union[bool, float, str, Batch]) -> Question:
        """Sets a key to a number, a text, a truth or a batch, whichever the value is."""
        if isinstance(value, bool):
            return self.set_truth(key, value)
        if isinstance(value, str):
            return self.set_text(key, value)
        if isinstance(value, Batch):
            return self.set_batch(key, value)
        return self.set_number(key, value)

    def ask(self) -> Answer:
        """The answer, to be asked key by key; the question can be changed and asked again."""
        return self._answer(library.sirop_question_ask)

    def reply(self) -> Reply:
        """The answer, as sirop.ask gives it."""
        with self.ask() as answer:
            return typed(Reply, json.loads(answer.text()))
