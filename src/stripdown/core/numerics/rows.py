"""Records as rows of a structured array, so that a kernel reads ``p.spring.rate`` and a batch is one array.

The dtype is made from the record's own fields: reordering or renaming a field changes the type that Numba compiles for,
so old machine code can never read a field by its old place. Switches and choices become integers. A kernel names the record
in its signature, so that the type checker knows every field it reads, though what it gets is a row.
"""

from __future__ import annotations

import dataclasses
import functools
from collections.abc import Mapping, Sequence
from typing import Annotated, Any, get_args, get_origin, get_type_hints

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stripdown.core.numerics.compiled import compiler_is_off
from stripdown.errors import InputError

Rows = NDArray[np.void]
Vector = NDArray[np.float64]
Counts = NDArray[np.int64]


class Fields:
    """Base of those declarations of rows that no record stands behind: constants, modes, workspaces. Never instantiated."""


@dataclasses.dataclass(frozen=True, slots=True)
class Shape:
    """Mark of a field that is an array: its sizes, as numbers or by a name that `row_dtype` is told.

    Parameters
    ----------
    sizes
        One for each dimension.
    """

    sizes: tuple[int | str, ...]


def row_dtype(record_type: type, **sizes: int) -> np.dtype[np.void]:
    """Dtype of the rows of a record type.

    Parameters
    ----------
    record_type
        Class made by `stripdown.quantities.parameters`, or derived from `Fields`.
    **sizes
        What the names in the shapes of its arrays stand for.

    Returns
    -------
    numpy.dtype
        Nested, aligned: float64 for float and `Vector`, int64 for `Counts`, int, bool and Enum.
    """
    return _dtype(record_type, tuple(sizes.items()))


def blank_rows(dtype: np.dtype[np.void], count: int = 1) -> Rows:
    """Make rows of zeros.

    Parameters
    ----------
    dtype
        From `row_dtype`.
    count
        Number of rows.

    Returns
    -------
    numpy.ndarray
        Shape (count,). With the compiler off a `numpy.recarray`, of which Python too reads a field by its name.
    """
    rows = np.zeros(count, dtype=dtype)
    return rows.view(np.recarray) if compiler_is_off() else rows


def pack(record: Any) -> Rows:
    """Turn one record into an array of one row.

    Parameters
    ----------
    record
        Instance of a class made by `stripdown.quantities.parameters`.

    Returns
    -------
    numpy.ndarray
        Shape (1,).
    """
    return pack_many([record])


def pack_many(records: Sequence[Any]) -> Rows:
    """Turn records of one type into rows.

    Parameters
    ----------
    records
        At least one record.

    Returns
    -------
    numpy.ndarray
        Shape (n,).
    """
    rows = blank_rows(row_dtype(type(records[0])), len(records))
    for index, record in enumerate(records):
        rows[index] = _as_tuple(record)
    return rows


def vary(record: Any, count: int, variations: Mapping[str, ArrayLike]) -> Rows:
    """Repeat one record, with some leaves drawn from arrays.

    Parameters
    ----------
    record
        The record to start from.
    count
        Number of rows.
    variations
        Dotted path of a leaf (``"spring.rate"``) to values, shape (count,) or scalar, SI.

    Returns
    -------
    numpy.ndarray
        Shape (count,).

    Raises
    ------
    InputError
        For a path that the record does not have, or an array of another length.
    """
    rows = np.repeat(pack(record), count)
    for path, values in variations.items():
        column = rows
        for name in path.split("."):
            if column.dtype.names is None or name not in column.dtype.names:
                message = f"There is no quantity called {path!r} to vary."
                raise InputError(message, field=path, hint="Paths look like 'spring.rate' or 'ball.mass'.")
            column = column[name]
        if column.dtype.names is not None:
            message = f"{path!r} is a whole part, not a quantity to vary."
            raise InputError(message, field=path, hint=f"It has {', '.join(f'{path}.{name}' for name in column.dtype.names)}.")
        given = np.asarray(values, dtype=np.float64)
        if given.shape not in {(), (count,)}:
            message = f"{path!r} has values of shape {given.shape}, but {count} shots were asked for."
            raise InputError(message, field=path, hint=f"Give one number or {count} numbers.")
        column[...] = given
    return rows


@functools.cache  # to read the annotations of a record takes as long as twenty shots
def _dtype(record_type: Any, sizes: tuple[tuple[str, int], ...]) -> np.dtype[np.void]:
    named = dict(sizes)
    fields: list[tuple[str, Any] | tuple[str, Any, tuple[int, ...]]] = []
    for name, hint in get_type_hints(record_type, include_extras=True).items():
        bare, *extras = get_args(hint) if get_origin(hint) is Annotated else (hint,)
        shape = next((extra for extra in extras if isinstance(extra, Shape)), None)
        if shape is not None:
            lengths = tuple(size if isinstance(size, int) else named[size] for size in shape.sizes)
            fields.append((name, np.float64 if bare == Vector else np.int64, lengths))
        elif isinstance(bare, type) and (dataclasses.is_dataclass(bare) or issubclass(bare, Fields)):
            fields.append((name, row_dtype(bare, **named)))
        else:
            fields.append((name, np.float64 if bare is float else np.int64))
    return np.dtype(fields, align=True)


def _as_tuple(record: Any) -> tuple[Any, ...]:
    values: list[Any] = []
    for field in dataclasses.fields(record):
        value = getattr(record, field.name)
        values.append(_as_tuple(value) if dataclasses.is_dataclass(value) else value)
    return tuple(values)
