"""Has a ring gone hard or soft, beside a new one on the same tester?"""

from __future__ import annotations

import enum
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, Final

from stripdown.core.part_condition.basis import Basis
from stripdown.core.part_condition.parameters import (
    GREATEST_CHANGE,
    POINTS,
    TEST_TOLERANCE,
    USUAL_GREATEST_CHANGE,
    USUAL_TEST_TOLERANCE,
    HardnessScale,
)
from stripdown.errors import InputError, OutOfRange
from stripdown.quantities import Q, check_value


class HardnessChange(enum.Enum):
    """What the change means for the ring."""

    AS_NEW = "as new, as far as the test can show"
    WATCH = "changed: look again next time"
    REJECT = "hardened: replace"
    REJECT_SOFT = "softened: replace, and ask what it met"


BASIS: Final = Basis(
    footing="published",
    source="ewing_o_ring_hardness",
    place="compare with a new ring on the same tester: Shore M of a small O-ring can differ by 20 points from Shore A of a flat "
    "sheet, with no conversion. That 5 points are the tolerance of the test is published too; the limit of 10 is an estimate",
    holds_for="Used and new ring of one size and compound, one tester, one temperature, several places round each ring.",
    caution="A shift of size or a hard bench under one ring only shows as hardness. Hard or flat means replace: rubber is cheap.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class HardnessComparison:
    """A used ring beside a new one.

    Parameters
    ----------
    new_mean, used_mean
        Mean reading, a number on the scale.
    test_tolerance
        Change in points, a number, that the test cannot show.
    greatest_change
        Change in points, a number, from which a ring is replaced.
    scale
        What the tester shows.
    finding
        What the change means.
    notes
        What to know, one sentence each.
    basis
        What the answer rests on.
    """

    scale: HardnessScale
    new_mean: Annotated[float, POINTS]
    used_mean: Annotated[float, POINTS]
    change: Annotated[float, Q("1", label="change of hardness in points")]
    standard_uncertainty: Annotated[float | None, Q("1", label="standard uncertainty of the change in points")]
    test_tolerance: Annotated[float, TEST_TOLERANCE]
    greatest_change: Annotated[float, GREATEST_CHANGE]
    finding: HardnessChange
    notes: tuple[str, ...]
    basis: Basis


def compare_hardness(
    *,
    new: Sequence[float],
    used: Sequence[float],
    scale: HardnessScale,
    used_scale: HardnessScale | None = None,
    test_tolerance: float = USUAL_TEST_TOLERANCE,
    greatest_change: float = USUAL_GREATEST_CHANGE,
) -> HardnessComparison:
    """Compare a used ring with a new one of the same size, read on the same tester.

    Parameters
    ----------
    new
        Readings of the new ring, each a number on the scale.
    used
        Readings of the used ring, each a number on the scale.
    scale
        What the tester shows.
    used_scale
        Scale of the used ring's readings if it was another; it is refused then. None is the same.
    test_tolerance
        Change in points, a number, that the test cannot tell from none.
    greatest_change
        Change in points, a number, from which the ring is replaced.

    Returns
    -------
    HardnessComparison

    Raises
    ------
    OutOfRange
        For an impossible or missing reading, or limits in the wrong order.
    InputError
        For readings on two scales.

    Notes
    -----
    Means are compared; the uncertainty is that of the difference of two means, known from three readings each.

    References
    ----------
    ewing_o_ring_hardness; lubricant_compatibility, tolerance of the test.
    """
    if used_scale is not None and used_scale is not scale:
        raise InputError(
            f"The new ring was read in {scale.value}, the used one in {used_scale.value}: there is no conversion.",
            field="used_scale",
            value=used_scale.value,
            hint="Read both rings on the same tester.",
        )
    for name, readings in (("new", new), ("used", used)):
        _check_readings(name, readings)
    check_value("test_tolerance", test_tolerance, TEST_TOLERANCE)
    check_value("greatest_change", greatest_change, GREATEST_CHANGE)
    if greatest_change < test_tolerance:
        raise OutOfRange(
            f"greatest_change = {greatest_change:g} is below test_tolerance = {test_tolerance:g}: the test could not show it.",
            field="greatest_change",
            value=greatest_change,
            limits=(test_tolerance, None),
            hint="Use 5 points for the test and 10 for the limit, or your own in that order.",
        )
    new_mean, used_mean = math.fsum(new) / len(new), math.fsum(used) / len(used)
    change = used_mean - new_mean
    return HardnessComparison(
        scale=scale,
        new_mean=new_mean,
        used_mean=used_mean,
        change=change,
        standard_uncertainty=_uncertainty(new, used),
        test_tolerance=test_tolerance,
        greatest_change=greatest_change,
        finding=_finding(change, test_tolerance, greatest_change),
        notes=_notes(new, used, scale),
        basis=BASIS,
    )


def _check_readings(name: str, readings: Sequence[float]) -> None:
    if not readings:
        raise OutOfRange(f"{name}: there is no reading.", field=name, hint="Three to five readings round the ring are usual.")
    for reading in readings:
        check_value(name, reading, POINTS)


def _finding(change: float, tolerance: float, greatest: float) -> HardnessChange:
    if abs(change) <= tolerance:
        return HardnessChange.AS_NEW
    if abs(change) <= greatest:
        return HardnessChange.WATCH
    return HardnessChange.REJECT if change > 0.0 else HardnessChange.REJECT_SOFT


def _uncertainty(new: Sequence[float], used: Sequence[float]) -> float | None:
    if min(len(new), len(used)) < 3:
        return None
    return math.sqrt(_variance_of_mean(new) + _variance_of_mean(used))


def _variance_of_mean(readings: Sequence[float]) -> float:
    mean = math.fsum(readings) / len(readings)
    return math.fsum((reading - mean) ** 2 for reading in readings) / (len(readings) - 1) / len(readings)


def _notes(new: Sequence[float], used: Sequence[float], scale: HardnessScale) -> tuple[str, ...]:
    notes = []
    if min(len(new), len(used)) < 3:
        notes.append("Fewer than three readings of a ring say nothing of their scatter.")
    if scale in {HardnessScale.SHORE_A, HardnessScale.IRHD}:
        notes.append(f"{scale.value} is meant for flat pieces: on a round ring the number is good for comparison only.")
    return tuple(notes)
