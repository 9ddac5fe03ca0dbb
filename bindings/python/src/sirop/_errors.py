"""One exception class for each error code of the C API, and the warning of an extrapolation."""

from __future__ import annotations

from typing import ClassVar, Dict, Type

from ._table import CODES

__all__ = ["SiropError", "GeneralError", "RangeError", "UnknownNameError", "BufferTooSmallError", "BatchError",
           "NullPointerError", "OutOfMemoryError", "ImpossibleError", "ExtrapolationWarning", "error_class"]


class SiropError(Exception):
    """Any failure that the library reports. `code` is the status code of the C API."""

    code: ClassVar[int] = CODES["E_GENERAL"]

    def __str__(self) -> str:
        # KeyError would show the text in quotes.
        return Exception.__str__(self)


class GeneralError(SiropError, RuntimeError):
    """A failure without a code of its own, or with one that this package does not know."""

    code: ClassVar[int] = CODES["E_GENERAL"]


class RangeError(SiropError, ValueError):
    """An argument is outside its range, infinite or not a number."""

    code: ClassVar[int] = CODES["E_RANGE"]


class UnknownNameError(SiropError, KeyError):
    """No such component, ingredient, table, property or argument."""

    code: ClassVar[int] = CODES["E_NAME"]


class BufferTooSmallError(SiropError, BufferError):
    """A text did not fit its buffer. The package makes its buffers large enough, so this is not expected."""

    code: ClassVar[int] = CODES["E_BUFFER"]


class BatchError(SiropError, ValueError):
    """The batch file or the question is refused. The message is the reason: place, value, what is accepted."""

    code: ClassVar[int] = CODES["E_BATCH"]


class NullPointerError(SiropError, TypeError):
    """A required pointer is null. The package passes none, so this is not expected."""

    code: ClassVar[int] = CODES["E_NULL"]


class OutOfMemoryError(SiropError, MemoryError):
    """The library could not get the memory that it needs."""

    code: ClassVar[int] = CODES["E_MEMORY"]


class ImpossibleError(SiropError, ValueError):
    """The question has no answer within the model."""

    code: ClassVar[int] = CODES["E_IMPOSSIBLE"]


class ExtrapolationWarning(UserWarning):
    """The result was computed outside the fitted range of a model."""


CLASSES: Dict[int, Type[SiropError]] = {
    kind.code: kind for kind in (GeneralError, RangeError, UnknownNameError, BufferTooSmallError, BatchError,
                                 NullPointerError, OutOfMemoryError, ImpossibleError)}


def error_class(code: int) -> Type[SiropError]:
    """The exception class of a negative status code; an unknown code is a general failure."""
    return CLASSES.get(code, GeneralError)
