"""The one root of a rising function."""

from __future__ import annotations

from collections.abc import Callable

_HALVINGS = 200  # far more than a double has bits; the loop ends when the interval cannot be halved any more


def rising_root(function: Callable[[float], float], low: float, high: float) -> float:
    """Find where a rising function crosses zero, by halving.

    Parameters
    ----------
    function
        Of one number, a number: below zero at `low`, above zero at `high`, rising or flat between.
    low, high
        Ends of the interval to search, numbers of any unit.

    Returns
    -------
    float
        The crossing, in the unit of the ends, to the last bit or nearly; an end if there is no crossing inside.
    """
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        if not low < middle < high:
            break
        if function(middle) < 0.0:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)
