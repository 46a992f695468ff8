"""Records as rows of a structured array, so that a kernel reads ``p.spring.rate`` and a batch is one array.

The dtype is made from the record's own fields: reordering or renaming a field changes the type that Numba compiles for,
so old machine code can never read a field by its old place. Switches and choices become integers.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence
from typing import Any, get_type_hints

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stripdown.errors import InputError

Rows = NDArray[np.void]


def row_dtype(record_type: type) -> np.dtype[np.void]:
    """Dtype of the rows of a record type.

    Parameters
    ----------
    record_type
        Class made by `stripdown.quantities.parameters`.

    Returns
    -------
    numpy.dtype
        Nested, aligned: float64 for float, int64 for int, bool and Enum.
    """
    fields: list[tuple[str, Any]] = []
    for name, bare in get_type_hints(record_type).items():
        if dataclasses.is_dataclass(bare) and isinstance(bare, type):
            fields.append((name, row_dtype(bare)))
        else:
            fields.append((name, np.float64 if bare is float else np.int64))
    return np.dtype(fields, align=True)


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
    rows = np.empty(len(records), dtype=row_dtype(type(records[0])))
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
        given = np.asarray(values, dtype=np.float64)
        if given.shape not in {(), (count,)}:
            message = f"{path!r} has values of shape {given.shape}, but {count} shots were asked for."
            raise InputError(message, field=path, hint=f"Give one number or {count} numbers.")
        column[...] = given
    return rows


def _as_tuple(record: Any) -> tuple[Any, ...]:
    values: list[Any] = []
    for field in dataclasses.fields(record):
        value = getattr(record, field.name)
        values.append(_as_tuple(value) if dataclasses.is_dataclass(value) else value)
    return tuple(values)
