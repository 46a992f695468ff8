"""Signs that the shots of a string do not belong together, and what to say of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from stripdown.core.shot_statistics.drift import DriftTest
from stripdown.core.shot_statistics.first_shot import FirstShotTest
from stripdown.core.shot_statistics.moments import Centred
from stripdown.core.shot_statistics.outliers import Outlier
from stripdown.core.shot_statistics.two_heaps import TwoHeapsTest

_ENOUGH: Final = 10  # shots to judge a gun by: common practice, no source


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
    """

    outliers: tuple[Outlier, ...]
    drift: DriftTest | None
    two_heaps: TwoHeapsTest | None
    first_shot: FirstShotTest | None


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
    notes = [*_too_little(sample), *_not_together(signs)]
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


def _not_together(signs: StringSigns) -> list[str]:
    notes = []
    if signs.outliers:
        shots = ", ".join(str(outlier.index + 1) for outlier in sorted(signs.outliers, key=lambda outlier: outlier.index))
        which = f"Shot {shots} does" if len(signs.outliers) == 1 else f"Shots {shots} do"
        notes.append(f"{which} not belong with the others. Counted all the same: set a shot aside only for a reason.")
    if signs.drift is not None and signs.drift.has_drift:
        way = "wander" if not signs.drift.is_steady_trend else "rise" if signs.drift.slope > 0 else "fall"
        notes.append(
            f"The shots {way} along the string: the interval of the mean is too narrow, and the next shot may lie beyond."
        )
    if signs.two_heaps is not None and signs.two_heaps.has_two_heaps:
        heaps = f"{signs.two_heaps.slow_count} slow and {signs.two_heaps.fast_count} fast"
        notes.append(f"The shots fall into two heaps, {heaps}: mean and standard deviation describe neither.")
    if signs.first_shot is not None and signs.first_shot.is_low:
        notes.append("The first shot is low against the others.")
    return notes
