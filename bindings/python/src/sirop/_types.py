"""What goes in and comes out: the dataclasses of numbers, and the names of the argument types."""

from __future__ import annotations

import os
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Mapping, Optional, Sequence, Union

if TYPE_CHECKING:
    from typing_extensions import Buffer, Self

    from ._properties import ComponentName, PropertyName  # the names that the library has
else:
    Buffer = Self = Any  # before Python 3.12 and 3.11
    PropertyName = ComponentName = str

# What arguments may be.
Grams = Union[Mapping[str, float], Sequence[float], Buffer]
Numbers = Union[float, Sequence[float], Buffer]
Mixtures = Union[Sequence[Grams], Sequence[float], Buffer]
BatchLike = Union[Mapping[str, Any], str, bytes, "os.PathLike[str]"]


@dataclass(frozen=True)
class Estimate:
    """A number with its interval, which is the models' uncertainty. float() gives the value."""

    value: float
    low: float
    high: float
    #: 0 fine, 1 computed outside a fitted range; None where the answer has one status for the whole.
    status: Optional[int] = None

    @property
    def extrapolated(self) -> Optional[bool]:
        """True if it was computed outside the fitted range of a model; None if that is not known of this number."""
        return None if self.status is None else self.status == 1

    def __float__(self) -> float:
        return self.value


@dataclass(frozen=True)
class Range:
    """An inclusive range; `value in range` tests it."""

    low: float
    high: float

    def __contains__(self, value: float) -> bool:
        return self.low <= value <= self.high
