"""Signs that the shots of a string do not belong together, and what to say of them."""

from __future__ import annotations

import dataclasses
import enum
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from stripdown.core.shot_statistics.drift import DriftTest, drift_test
from stripdown.core.shot_statistics.fast_tail import FastTailTest, fast_tail_test
from stripdown.core.shot_statistics.first_shot import FirstShotTest, first_shot_test
from stripdown.core.shot_statistics.moments import Centred
from stripdown.core.shot_statistics.outliers import Outlier, name_outliers
from stripdown.core.shot_statistics.two_heaps import TwoHeapsTest, two_heaps_test

OUTLIER_LEVEL: Final = 0.05  # false alarms of the outlier test: naming a shot costs nothing, since it stays in
SYMPTOM_LEVEL: Final = 0.01  # false alarms of each look for drift, heaps, low first shot: each sends somebody to look
TAIL_LEVEL: Final = 0.025  # false alarms of the look for a fast tail: it costs ten more shots, and not seeing it costs an eye
_ENOUGH: Final = 10  # shots to judge a gun by: common practice, no source


class Unsteady(enum.Enum):
    """Why the next shot may not be what the shots of a string so far say of it."""

    DRIFT = "the shots drift"
    TWO_HEAPS = "the shots fall into two heaps"
    FAST_TAIL = "fast shots reach far above the others"


@dataclass(frozen=True, slots=True, kw_only=True)
class StringSigns:
    """What was looked for in a string; None where there were too few shots to look.

    Parameters
    ----------
    outliers
        Shots that do not belong with the others, farthest first.
    drift
        Rising, falling or wandering.
    two_heaps
        A slow and a fast heap.
    first_shot
        The first shot against the others; None also if it was set aside.
    fast_tail
        Now and then a shot far above the others.
    """

    outliers: tuple[Outlier, ...]
    drift: DriftTest | None
    two_heaps: TwoHeapsTest | None
    first_shot: FirstShotTest | None
    fast_tail: FastTailTest | None = None

    @property
    def unsteady(self) -> tuple[Unsteady, ...]:
        """Why a string is no ground for saying what the next shot does."""
        found = {
            Unsteady.DRIFT: self.drift is not None and self.drift.has_drift,
            Unsteady.TWO_HEAPS: self.two_heaps is not None and self.two_heaps.has_two_heaps,
            Unsteady.FAST_TAIL: (self.fast_tail is not None and self.fast_tail.has_fast_tail)
            or any(outlier.is_fast for outlier in self.outliers),
        }
        return tuple(sign for sign, is_there in found.items() if is_there)


def look_for_signs(sample: Centred, *, places: Sequence[int] | None = None, resolution: float = 0.0) -> StringSigns:
    """Look for all signs that the shots of a string do not belong together.

    Parameters
    ----------
    sample
        The readings that count, in the order in which they were fired.
    places
        Place of each in its string, from 0; None if none was set aside.
    resolution
        Smallest step of the readings, in their unit; 0 if not known.

    Returns
    -------
    StringSigns
    """
    where = range(sample.count) if places is None else places
    outliers = name_outliers(sample.values, level=OUTLIER_LEVEL, resolution=resolution)
    return StringSigns(
        outliers=tuple(dataclasses.replace(outlier, index=where[outlier.index]) for outlier in outliers),
        drift=drift_test(sample, level=SYMPTOM_LEVEL),
        two_heaps=two_heaps_test(sample, level=SYMPTOM_LEVEL, resolution=resolution),
        first_shot=first_shot_test(sample.values, level=SYMPTOM_LEVEL) if where[0] == 0 else None,
        fast_tail=fast_tail_test(sample, level=TAIL_LEVEL, resolution=resolution),
    )


def string_notes(sample: Centred, signs: StringSigns) -> tuple[str, ...]:
    """Sentences that must stand beside the numbers of a string.

    Parameters
    ----------
    sample
        The readings that count.
    signs
        What was found in them.

    Returns
    -------
    tuple of str
        One sentence each, most telling first; empty for a sound string of ten shots or more.
    """
    notes = [*_too_little(sample), *_not_together(signs, sample.count)]
    return tuple(notes)


def _too_little(sample: Centred) -> list[str]:
    if sample.count == 1:
        return ["One shot shows no scatter: nothing can be said of the next one."]
    notes = []
    if sample.count < _ENOUGH:
        notes.append(f"{sample.count} shots are few: the intervals are wide, and drift or heaps would hardly show.")
    if sample.is_constant:
        notes.append("All readings are equal: the chronograph's steps are coarser than the scatter, or one reading was copied.")
    return notes


def _not_together(signs: StringSigns, count: int) -> list[str]:
    notes = []
    if signs.outliers:
        shots = ", ".join(str(outlier.index + 1) for outlier in sorted(signs.outliers, key=lambda outlier: outlier.index))
        which = f"Shot {shots} does" if len(signs.outliers) == 1 else f"Shots {shots} do"
        notes.append(f"{which} not belong with the others. Counted all the same: set a shot aside only for a reason.")
    if signs.drift is not None and signs.drift.has_drift:
        way = "wander" if not signs.drift.is_steady_trend else "rise" if signs.drift.slope > 0 else "fall"
        wider = (
            f"its mean is only as well known as that of {count / signs.drift.inflation:.1f} shots"
            if signs.drift.inflation > 1.0
            else "the interval of the mean is too narrow"
        )
        notes.append(f"The shots {way} along the string: {wider}, and the next shot may lie beyond.")
    if signs.two_heaps is not None and signs.two_heaps.has_two_heaps:
        heaps = f"{signs.two_heaps.slow_count} slow and {signs.two_heaps.fast_count} fast"
        notes.append(f"The shots fall into two heaps, {heaps}: mean and standard deviation describe neither.")
    if signs.fast_tail is not None and signs.fast_tail.has_fast_tail:
        notes.append("The fast shots reach farther out than the slow ones: the next shot may be faster than the intervals say.")
    if signs.first_shot is not None and signs.first_shot.is_low:
        notes.append("The first shot is low against the others.")
    return notes
