"""A batch that is put together by calls, and its answer."""

from __future__ import annotations

import ctypes
import json
import threading
import weakref
from typing import Optional, Union

from ._answers import Prediction, typed
from ._batch import batch_bytes
from ._calls import check, int32, name_bytes, number, text_call
from ._errors import ImpossibleError, NullPointerError, UnknownNameError, error_class
from ._library import library
from ._mixtures import c_masses, masses
from ._types import BatchLike, Grams

WHERE = {"pan": 0, "off_heat": 1, "neighbours": 2}


class Handle:
    """Something that the library holds until it is closed or forgotten.  One call at a time gets at it."""

    def __init__(self, pointer, free):
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

    def __exit__(self, *exception: object) -> None:
        self.close()

    def __reduce__(self):
        raise TypeError(f"a {type(self).__name__} cannot be copied or pickled")


class Answer(Handle):
    """The answer to a batch, to be asked by the keys of the JSON answer joined by dots.

    Such as "cooked.water_percent_low", "set.word" or "cautions.0". `status` is 1 if it is an extrapolation."""

    status: int

    def __init__(self, pointer: int, status: int) -> None:
        super().__init__(pointer, library.sirop_answer_free)
        self.status = status

    def __enter__(self) -> Answer:
        return self

    def number(self, key: str) -> float:
        """The number of a key. Raises ImpossibleError where the answer says null."""
        value = ctypes.c_double()
        with self._lock:
            status = library.sirop_answer_number(self._open(), name_bytes("key", key), ctypes.byref(value))
        if status < 0:
            raise self._failure(status, key)
        return value.value

    def text(self, key: str = "") -> str:
        """The text of a key, and of anything else its JSON text; without a key the whole answer."""
        with self._lock:
            try:
                return text_call(library.sirop_answer_text, self._open(), name_bytes("key", key), warns=False)
            except UnknownNameError as why:
                raise self._failure(why.code, key) from None

    @staticmethod
    def _failure(status, key):
        if status == ImpossibleError.code:
            return ImpossibleError(f"{key}: cannot be given; the answer's notes may say why")
        return error_class(status)(f'key: the answer has no such value as "{key}"; accepted: keys of the answer '
                                   'joined by dots, such as "cooked.grams"')


class Batch(Handle):
    """A batch that is put together by calls instead of a batch file.

    Without a pressure it is 1013.25 hPa, and it is served at 20 °C. A `with` block closes it."""

    def __init__(self) -> None:
        pointer = ctypes.c_void_p()
        check(library.sirop_batch_new(ctypes.byref(pointer)), "Batch", {})
        super().__init__(pointer.value, library.sirop_batch_free)

    def __enter__(self) -> Batch:
        return self

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

    def _call(self, c_function, *arguments):
        """A call on the batch; the exception of a failure has the library's reason."""
        with self._lock:
            pointer = self._open()
            status = c_function(pointer, *arguments)
            reason = library.sirop_batch_refusal(pointer).decode() if status < 0 else ""
        if status < 0:
            raise error_class(status)(reason or f"{c_function.__name__[len('sirop_'):]} failed")
        return status

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

    def refusal(self) -> str:
        """Why the last call on this batch was refused, in one line; "" if it was not."""
        with self._lock:
            return library.sirop_batch_refusal(self._open()).decode()

    def answer(self, table: Optional[str] = None) -> Answer:
        """What the batch will be when it is cold, to be asked key by key."""
        pointer = ctypes.c_void_p()
        status = self._call(library.sirop_batch_predict, None if table is None else name_bytes("table", table),
                            ctypes.byref(pointer))
        answer = Answer(pointer.value, status)
        check(status, "Batch.answer", {})
        return answer

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
