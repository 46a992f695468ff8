"""Are the values that a batch of shots is to be run with possible, each by itself and beside the others?"""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.errors import InputError, OutOfRange
from stripdown.quantities import check_rules, leaves, replace_at

Columns = Mapping[str, NDArray[np.float64]]

# Sections with rules between their fields; rows that vary none of these need no second look.
_RULED = ("ball.diameter", "barrel.", "hop_up.top_friction", "hop_up.floor_friction", "cylinder.stroke", "cylinder.port_")


def check_variations(parameters: ShotParameters, columns: Columns, count: int) -> None:
    """Hold every row of a batch against limits, and against the rules between fields.

    Parameters
    ----------
    parameters
        The gun to start from, itself checked.
    columns
        Values by dotted path, SI, shape (n,) or (1,); the paths are known to exist.
    count
        Number of shots.

    Raises
    ------
    InputError
        With path, value and the number of the shot.
    OutOfRange
        For two values that cannot both be true, with the number of the shot.
    """
    _check_columns(parameters, columns)
    _check_rows(parameters, columns, count)


def _check_columns(parameters: ShotParameters, columns: Columns) -> None:
    quantities = {leaf.path: leaf.quantity for leaf in leaves(type(parameters))}
    for path, column in columns.items():
        quantity = quantities[path]
        low = -math.inf if quantity is None or quantity.low is None else quantity.low
        high = math.inf if quantity is None or quantity.high is None else quantity.high
        wrong = np.flatnonzero(~((column >= low) & (column <= high)))
        if wrong.size:
            value = float(column[wrong[0]])
            message = f"{path} = {value:g} (shot {int(wrong[0]) + 1}) is impossible."
            raise InputError(
                message, field=path, value=value, limits=(low, high), hint=f"It must lie between {low:g} and {high:g}."
            )


def _check_rows(parameters: ShotParameters, columns: Columns, count: int) -> None:
    """Hold every row against the rules between fields, such as a ball that must pass its bore."""
    ruled = {path: np.broadcast_to(column, (count,)) for path, column in columns.items() if path.startswith(_RULED)}
    if not ruled:
        return
    # Most batches repeat few combinations of these many times, and a record is slow to make: each combination is looked at once.
    _, firsts = np.unique(np.column_stack(list(ruled.values())), axis=0, return_index=True)
    for index in sorted(int(first) for first in firsts):
        row = parameters
        for path, column in ruled.items():
            row = replace_at(row, path, float(column[index]))
        try:
            check_rules(row)
        except OutOfRange as reason:
            raise OutOfRange(
                f"In shot {index + 1}, {reason.message}",
                field=reason.field,
                value=reason.value,
                unit=reason.unit,
                limits=reason.limits,
                hint=reason.hint,
            ) from reason
