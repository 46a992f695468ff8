"""Are the values that a batch of shots is to be run with possible, each by itself and beside the others?"""

from __future__ import annotations

import enum
import math
from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.errors import OutOfRange
from stripdown.quantities import Leaf, check_rules, leaves, replace_at

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
    OutOfRange
        For a value beyond its limits, for a switch or choice that there is not, and for two values that cannot both be true:
        with path, value and the number of the shot.
    """
    _check_columns(parameters, columns)
    _check_rows(parameters, columns, count)


def _check_columns(parameters: ShotParameters, columns: Columns) -> None:
    known = {leaf.path: leaf for leaf in leaves(type(parameters))}
    for path, column in columns.items():
        leaf = known[path]
        wrong = np.flatnonzero(~_is_possible(leaf, column))
        if wrong.size:
            value = float(column[wrong[0]])
            raise OutOfRange(
                f"{path} = {value:g} (shot {int(wrong[0]) + 1}) is impossible.",
                field=path,
                value=value,
                unit=None if leaf.quantity is None else leaf.quantity.unit,
                limits=_limits(leaf),
                hint=_what_would_be_right(leaf),
            )


def _is_possible(leaf: Leaf, column: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Which values of a column the leaf can take; a row has whole numbers for switches, choices and counts."""
    if leaf.quantity is None:
        return np.isin(column, list(_choices(leaf)))
    low, high = _limits(leaf)
    within = (column >= low) & (column <= high)
    return within if leaf.type is float else within & (column == np.trunc(column))


def _limits(leaf: Leaf) -> tuple[float, float]:
    if leaf.quantity is None:
        return min(_choices(leaf)), max(_choices(leaf))
    low, high = leaf.quantity.low, leaf.quantity.high
    return -math.inf if low is None else low, math.inf if high is None else high


def _choices(leaf: Leaf) -> dict[int, str]:
    """The numbers that stand for a switch or a choice, each with its word."""
    if issubclass(leaf.type, enum.IntEnum):
        return {int(member): member.name.lower() for member in leaf.type}
    return {0: "no", 1: "yes"}


def _what_would_be_right(leaf: Leaf) -> str:
    if leaf.quantity is None:
        return f"It must be one of {', '.join(f'{number} ({word})' for number, word in _choices(leaf).items())}."
    low, high = _limits(leaf)
    return f"It must {'lie' if leaf.type is float else 'be a whole number'} between {low:g} and {high:g}."


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
