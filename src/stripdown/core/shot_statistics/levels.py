"""Shares, confidences and levels: numbers between 0 and 1, and the sides of a bound."""

from __future__ import annotations

from stripdown.errors import OutOfRange


def check_share(field: str, value: float) -> None:
    """Refuse a share or a level outside 0 to 1, both ends excluded.

    Parameters
    ----------
    field
        Name of the argument.
    value
        Its value, a pure number.

    Raises
    ------
    OutOfRange
        If it is not strictly between 0 and 1.
    """
    if not 0.0 < value < 1.0:
        raise OutOfRange(
            f"{field} = {value!r} is not between 0 and 1.",
            field=field,
            value=value,
            unit="1",
            limits=(0.0, 1.0),
            hint="Write 0.95 for 95 %.",
        )


def check_sides(sides: int) -> None:
    """Refuse a number of sides other than one or two.

    Parameters
    ----------
    sides
        The number asked for.

    Raises
    ------
    OutOfRange
        If it is neither 1 nor 2.
    """
    if sides not in (1, 2):
        raise OutOfRange(f"sides = {sides!r} makes no sense.", field="sides", value=sides, limits=(1, 2), hint="Use 1 or 2.")
