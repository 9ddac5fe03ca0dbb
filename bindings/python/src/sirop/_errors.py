"""One exception class for each error code of the C API, and the warning of an extrapolation."""

from __future__ import annotations

from typing import ClassVar, Dict, Type

from ._table import CODES

__all__ = ["SiropError", "GeneralError", "RangeError", "UnknownNameError", "BufferTooSmallError", "BatchError",
           "NullPointerError", "OutOfMemoryError", "ImpossibleError", "ExtrapolationWarning", "error_class"]


class SiropError(Exception):
    """Any failure that the library reports. `code` is the status code of the C API."""

    code: ClassVar[int] = CODES["E_GENERAL"]

    def __init_subclass__(cls, code: str) -> None:
        cls.code = CODES[code]

    def __str__(self) -> str:
        # KeyError would show the text in quotes.
        return Exception.__str__(self)


class GeneralError(SiropError, RuntimeError, code="E_GENERAL"):
    """A failure without a code of its own, or with one that this package does not know."""


class RangeError(SiropError, ValueError, code="E_RANGE"):
    """An argument is outside its range, infinite or not a number."""


class UnknownNameError(SiropError, KeyError, code="E_NAME"):
    """No such component, ingredient, table, property or argument."""


class BufferTooSmallError(SiropError, BufferError, code="E_BUFFER"):
    """A text did not fit its buffer. The package makes its buffers large enough, so this is not expected."""


class BatchError(SiropError, ValueError, code="E_BATCH"):
    """The batch file or the question is refused. The message is the reason: place, value, what is accepted."""

    @property
    def place(self) -> str:
        """Which key is refused, such as "pan[2].grams"; "" if none is named."""
        return str(self).partition(": ")[0] if ": " in str(self) else ""

    @property
    def reason(self) -> str:
        """The message without the place."""
        return str(self)[len(self.place) and len(self.place) + 2:]


class NullPointerError(SiropError, TypeError, code="E_NULL"):
    """A required pointer is null. The package passes none, so this is not expected."""


class OutOfMemoryError(SiropError, MemoryError, code="E_MEMORY"):
    """The library could not get the memory that it needs."""


class ImpossibleError(SiropError, ValueError, code="E_IMPOSSIBLE"):
    """The question has no answer within the model."""


class ExtrapolationWarning(UserWarning):
    """The result was computed outside the fitted range of a model."""


CLASSES: Dict[int, Type[SiropError]] = {
    kind.code: kind for kind in (GeneralError, RangeError, UnknownNameError, BufferTooSmallError, BatchError,
                                 NullPointerError, OutOfMemoryError, ImpossibleError)}


def error_class(code: int) -> Type[SiropError]:
    """The exception class of a negative status code; an unknown code is a general failure."""
    return CLASSES.get(code, GeneralError)
