"""Results that carry arrays stay as they were computed: read-only when made, and after a pickle or a copy."""

from __future__ import annotations

import dataclasses
from typing import Any, TypeVar

import numpy as np

_T = TypeVar("_T", bound=type)


def keeps_arrays(record: _T) -> _T:
    """Make the arrays of a frozen dataclass read-only, whenever one is made, unpickled or copied.

    Parameters
    ----------
    record
        A frozen dataclass with slots.

    Returns
    -------
    type
        The same class.
    """
    made, restored = record.__init__, record.__setstate__  # type: ignore[misc, attr-defined]

    def __init__(self: Any, *args: Any, **fields: Any) -> None:  # noqa: N807  it stands in for that of the class
        made(self, *args, **fields)
        _close(self)

    def __setstate__(self: Any, state: Any) -> None:  # noqa: N807
        restored(self, state)
        _close(self)

    record.__init__ = __init__  # type: ignore[misc]
    record.__setstate__ = __setstate__  # type: ignore[attr-defined]
    return record


def _close(made: Any) -> None:
    for field in dataclasses.fields(made):
        value = getattr(made, field.name)
        if isinstance(value, np.ndarray):
            value.flags.writeable = False
