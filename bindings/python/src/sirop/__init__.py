"""sirop: from ingredients and cook temperature to the water, stage and set of a syrup, caramel or sauce.

The unit stands in every name; temperatures are points in °C.  Each property of the catalogue is a function of its
own, such as density_g_per_ml(grams, celsius): properties() lists them.  Functions may be called from any number of
threads at once.  Hot sugar burns and steam bursts: show people the cautions of an answer."""

from __future__ import annotations

from . import _arrays, _batch, _catalogue, _doors, _errors, _handles, _properties, _types
from ._arrays import *  # noqa: F403
from ._batch import *  # noqa: F403
from ._catalogue import *  # noqa: F403
from ._doors import *  # noqa: F403  the functions of the C API and the answer's classes
from ._errors import *  # noqa: F403
from ._handles import *  # noqa: F403
from ._properties import *  # noqa: F403  one function for each property of the catalogue
from ._types import *  # noqa: F403
from ._types import BatchLike as BatchLike
from ._types import ComponentName as ComponentName
from ._types import Grams as Grams
from ._types import Mixtures as Mixtures
from ._types import Numbers as Numbers
from ._types import PropertyName as PropertyName

__version__ = _doors.version()

__all__ = []  # in the form that type checkers read
__all__ += _types.__all__
__all__ += _arrays.__all__
__all__ += _doors.__all__
__all__ += _catalogue.__all__
__all__ += _batch.__all__
__all__ += _handles.__all__
__all__ += _errors.__all__
__all__ += _properties.__all__
