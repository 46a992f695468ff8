"""Mean, scatter and lag-one autocorrelation of numbers, to the last digits that doubles allow."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from numbers import Real

import numpy as np

from stripdown.errors import OutOfRange


@dataclass(frozen=True, slots=True)
class Centred:
    """Numbers as a mean and the deviations from it.

    Parameters
    ----------
    values
        The numbers, in the order given.
    mean
        Arithmetic mean.
    deviations
        Number minus mean, divided by `scale`.
    scale
        Power of two near the largest number: dividing by it loses no digit, and squares neither overflow nor vanish.
    """

    values: tuple[float, ...]
    mean: float
    deviations: tuple[float, ...]
    scale: float

    @property
    def count(self) -> int:
        """How many numbers there are."""
        return len(self.values)

    @property
    def sum_of_squares(self) -> float:
        """Sum of squared deviations, divided by the square of `scale`."""
        return math.fsum(deviation * deviation for deviation in self.deviations)

    @property
    def scaled_deviation(self) -> float:
        """Sample standard deviation divided by `scale`; zero for a single number."""
        return math.sqrt(self.sum_of_squares / (self.count - 1)) if self.count > 1 else 0.0

    @property
    def standard_deviation(self) -> float | None:
        """Sample standard deviation (divisor n - 1); None for a single number."""
        return self.scaled_deviation * self.scale if self.count > 1 else None

    @property
    def is_constant(self) -> bool:
        """Whether all numbers are equal."""
        return min(self.values) == max(self.values)


def finite_numbers(values: Iterable[float] | object, *, field: str, at_least: int = 1) -> tuple[float, ...]:
    """Take numbers from any sequence.

    Parameters
    ----------
    values
        List, tuple, array or any other sequence of numbers, any unit.
    field
        What they are, for the message.
    at_least
        How many are needed.

    Returns
    -------
    tuple of float

    Raises
    ------
    OutOfRange
        If there are too few, or one is not a finite number.
    """
    if isinstance(values, (str, bytes)):
        raise OutOfRange(f"{field} must be numbers, not one text.", field=field, value=values, hint="Read the text first.")
    if np.ma.isMaskedArray(values):
        hint = "Set shots aside with a reason instead: set_aside={place: reason}."
        raise OutOfRange(f"{field} has a mask, and a reading that is not counted needs a reason.", field=field, hint=hint)
    if not isinstance(values, Iterable) or isinstance(values, Mapping):
        raise OutOfRange(
            f"{field} is {type(values).__name__}, not a sequence of numbers.",
            field=field,
            value=values,
            hint="Give a list such as [91.2, 90.8, 91.5].",
        )
    numbers = []
    for position, value in enumerate(values, start=1):
        try:
            number = float(value)
        except (TypeError, ValueError, OverflowError):
            number = math.nan
        if not math.isfinite(number):
            raise OutOfRange(
                f"Number {position} of {field} is {value!r}.",
                field=f"{field}[{position - 1}]",
                value=value,
                hint="Every reading must be a finite number; leave out those that failed.",
            )
        numbers.append(number)
    if len(numbers) < at_least:
        raise OutOfRange(
            f"{field} has {len(numbers)} {'reading' if len(numbers) == 1 else 'readings'}.",
            field=field,
            value=len(numbers),
            limits=(at_least, None),
            hint=f"At least {at_least} {'is' if at_least == 1 else 'are'} needed.",
        )
    return tuple(numbers)


def check_uncertainty(field: str, value: float) -> None:
    """Refuse what is no standard uncertainty.

    Parameters
    ----------
    field
        What it is called, for the message.
    value
        A standard uncertainty, in any unit.

    Raises
    ------
    OutOfRange
        If it is not a finite number, or below zero.
    """
    given: object = value  # whatever a script hands over
    if isinstance(given, bool) or not isinstance(given, Real) or not 0.0 <= value < math.inf:
        raise OutOfRange(
            f"{field} = {value!r} is no standard uncertainty.",
            field=field,
            value=value,
            limits=(0.0, None),
            hint="It is a number, zero or more; zero if it is not known.",
        )


def centre(values: tuple[float, ...]) -> Centred:
    """Split numbers into their mean and the deviations from it.

    Parameters
    ----------
    values
        One finite number or more.

    Returns
    -------
    Centred

    Notes
    -----
    Sums are exact to one rounding. The mean as a double is off by up to half a unit in its last place; the
    deviations are taken from it and then centred once more, so their squares do not carry that error.
    """
    largest = max(abs(value) for value in values)
    scale = math.ldexp(1.0, math.frexp(largest)[1] - 1) if largest > 0 else 1.0
    scaled = [value / scale for value in values]
    mean = math.fsum(scaled) / len(scaled)
    rough = [value - mean for value in scaled]
    rest = math.fsum(rough) / len(rough)
    deviations = tuple(deviation - rest for deviation in rough)
    if min(values) == max(values):
        mean, deviations = scaled[0], (0.0,) * len(values)
    return Centred(values=values, mean=mean * scale, deviations=deviations, scale=scale)


def lag_one_autocorrelation(sample: Centred) -> float | None:
    """Correlation of each number with the one before it.

    Parameters
    ----------
    sample
        Numbers in the order in which they were taken.

    Returns
    -------
    float or None
        Pure number: sum of products of neighbouring deviations over the sum of squared deviations; None for fewer than two
        numbers, or when all are equal.

    References
    ----------
    nist_strd, univariate summary statistics, definition of the certified values.
    """
    squares = sample.sum_of_squares
    if sample.count < 2 or squares == 0.0:
        return None
    pairs = zip(sample.deviations[:-1], sample.deviations[1:], strict=True)
    return math.fsum(before * after for before, after in pairs) / squares


def median(values: tuple[float, ...]) -> float:
    """Middle number, or the mean of the middle two.

    Parameters
    ----------
    values
        One finite number or more.

    Returns
    -------
    float
        In the unit of the numbers.
    """
    ordered = sorted(values)
    half = len(ordered) // 2
    if len(ordered) % 2:
        return ordered[half]
    return ordered[half - 1] + 0.5 * (ordered[half] - ordered[half - 1])
