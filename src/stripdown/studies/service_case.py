"""A whole case: what was found, what changed and how sure that is, what explains it, and whether the gun may be used."""

from __future__ import annotations

from dataclasses import dataclass

from stripdown.bench.gun import Assumed, Gun
from stripdown.bench.strings import LeftOut, ReadingString
from stripdown.core.interior_ballistics.result import Shot
from stripdown.core.shot_statistics import EnergyLimit, StringComparison, StringStatistics
from stripdown.studies.loss_causes import LossExplanation
from stripdown.studies.verdict import GunVerdict


@dataclass(frozen=True, slots=True, kw_only=True)
class StringOfCase:
    """One string with what it says.

    Parameters
    ----------
    reading
        As read from the file: speeds, conditions, lines.
    statistics
        Mean, scatter, intervals and signs.
    file
        Readings file that holds it, without folders.
    """

    reading: ReadingString
    statistics: StringStatistics
    file: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ComparisonOfCase:
    """One string before beside one after.

    Parameters
    ----------
    before, after
        The strings.
    comparison
        Difference with interval; None if they do not compare.
    obstacles
        Why they do not compare; empty if they do.
    cautions
        What weakens the comparison.
    """

    before: StringOfCase
    after: StringOfCase
    comparison: StringComparison | None
    obstacles: tuple[str, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class CaseStudy:
    """Everything that a sheet for the gun's owner rests on.

    Parameters
    ----------
    title
        What the case is called.
    gun
        As its file has it after the work.
    assumed
        What the gun's file leaves out.
    found, done
        Free text of the technician: what was found, what was done; one paragraph each entry.
    before, after
        Strings of each occasion; empty if there is none.
    comparisons
        Pairs with the same ball, hop-up and selector.
    explanation
        What may have cost the velocity; None with the reason among `unsaid`.
    verdict
        Against the limit; None with the reason among `unsaid`.
    limit
        The limit; None if none was named.
    shot_before, shot_after
        Simulated shots of the matched model with the likeliest cause, and without; None if nothing was explained.
    unsaid
        What cannot be said, and why: no string before, no string after, no limit.
    left_out
        Lines of the readings' file that were not counted.
    cautions
        What must be heeded with this gun.
    sources
        Keys of the register that the case rests on.
    program_version
        Of this program.
    input_digest
        Of the case's files together.
    notes
        What was assumed about the case, and how the readings were understood.
    invented
        Whether gun or figures are made up.
    """

    title: str
    gun: Gun
    assumed: tuple[Assumed, ...]
    found: tuple[str, ...]
    done: tuple[str, ...]
    before: tuple[StringOfCase, ...]
    after: tuple[StringOfCase, ...]
    comparisons: tuple[ComparisonOfCase, ...]
    explanation: LossExplanation | None
    verdict: GunVerdict | None
    limit: EnergyLimit | None
    shot_before: Shot | None
    shot_after: Shot | None
    unsaid: tuple[str, ...]
    left_out: tuple[LeftOut, ...]
    cautions: tuple[str, ...]
    sources: tuple[str, ...]
    program_version: str
    input_digest: str
    notes: tuple[str, ...] = ()
    invented: bool = False
