"""Normal, Student and chi-square distributions under the names used here; SciPy is loaded at the first call."""

from __future__ import annotations

import functools
import math
from typing import Any

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


@functools.cache
def _special() -> Any:
    # a quarter of a second that listing limits or showing help must not pay
    from scipy import special  # noqa: PLC0415

    return special


def normal_below(x: float) -> float:
    """Chance that a standard normal number lies below a value.

    Parameters
    ----------
    x
        Pure number; infinity is allowed.

    Returns
    -------
    float
        Probability, 0 to 1.
    """
    return float(_special().ndtr(x))


def normal_quantile(chance: float) -> float:
    """Value below which a standard normal number lies with a stated chance.

    Parameters
    ----------
    chance
        Probability, between 0 and 1.

    Returns
    -------
    float
        Pure number.
    """
    return float(_special().ndtri(chance))


def normal_below_each(x: Array) -> Array:
    """Chance that a standard normal number lies below each of many values.

    Parameters
    ----------
    x
        Pure numbers.

    Returns
    -------
    array
        Probability, 0 to 1, same shape.
    """
    return np.asarray(_special().ndtr(x), dtype=np.float64)


def t_above(x: float, degrees_of_freedom: float) -> float:
    """Chance that Student's t lies above a value.

    Parameters
    ----------
    x
        Pure number; infinity is allowed.
    degrees_of_freedom
        A number above zero; infinite for the normal distribution.

    Returns
    -------
    float
        Probability, 0 to 1.
    """
    if math.isinf(degrees_of_freedom):
        return normal_below(-x)
    return float(_special().stdtr(degrees_of_freedom, -x))


def t_quantile(chance: float, degrees_of_freedom: float) -> float:
    """Value below which Student's t lies with a stated chance.

    Parameters
    ----------
    chance
        Probability, between 0 and 1.
    degrees_of_freedom
        A number above zero; infinite for the normal distribution.

    Returns
    -------
    float
        Pure number.
    """
    if math.isinf(degrees_of_freedom):
        return normal_quantile(chance)
    return float(_special().stdtrit(degrees_of_freedom, chance))


def noncentral_t_quantile(chance: float, degrees_of_freedom: float, shift: float) -> float:
    """Value below which noncentral t lies with a stated chance.

    Parameters
    ----------
    chance
        Probability, between 0 and 1.
    degrees_of_freedom
        A number above zero.
    shift
        Noncentrality, a pure number.

    Returns
    -------
    float
        Pure number.
    """
    return float(_special().nctdtrit(degrees_of_freedom, shift, chance))


def chi_square_quantile(chance: float, degrees_of_freedom: float) -> float:
    """Value below which chi-square lies with a stated chance.

    Parameters
    ----------
    chance
        Probability, between 0 and 1.
    degrees_of_freedom
        A number above zero.

    Returns
    -------
    float
        Pure number.
    """
    return 2.0 * float(_special().gammaincinv(degrees_of_freedom / 2.0, chance))


def chi_square_upper_quantile(chance: float, degrees_of_freedom: float) -> float:
    """Value above which chi-square lies with a stated chance, exact where that chance is tiny.

    Parameters
    ----------
    chance
        Probability, between 0 and 1.
    degrees_of_freedom
        A number above zero.

    Returns
    -------
    float
        Pure number.
    """
    return 2.0 * float(_special().gammainccinv(degrees_of_freedom / 2.0, chance))


def chi_square_above_each(x: Array, degrees_of_freedom: float) -> Array:
    """Chance that chi-square lies above each of many values.

    Parameters
    ----------
    x
        Pure numbers.
    degrees_of_freedom
        A number above zero.

    Returns
    -------
    array
        Probability, 0 to 1, same shape.
    """
    return np.asarray(_special().gammaincc(degrees_of_freedom / 2.0, np.asarray(x) / 2.0), dtype=np.float64)
