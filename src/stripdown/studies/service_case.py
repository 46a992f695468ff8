"""A whole case: what was found, what changed and how sure that is, what explains it, and whether the gun may be used."""

from __future__ import annotations

import enum
from dataclasses import dataclass

from stripdown.bench.gun import Assumed, Gun
from stripdown.bench.strings import LeftOut, ReadingString
from stripdown.core.interior_ballistics.result import Shot
from stripdown.core.shot_statistics import DayFactor, EnergyLimit, StringComparison, StringStatistics
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
    key
        By which rows, sentences and verdicts name it: unlike that of any other string of its session.
    """

    reading: ReadingString
    statistics: StringStatistics
    key: str = ""

    @property
    def file(self) -> str:
        """Readings file that holds it, without folders; empty if there is none."""
        return self.reading.file


class UnsaidKind(enum.Enum):
    """What cannot be said of a case."""

    NO_STRING_BEFORE = "what the work changed, without a string before it"
    NO_STRING_AFTER = "whether the gun may be used, without a string after the work"
    NO_OCCASION = "anything from a string that says neither before nor after"
    NOTHING_COMPARES = "how much was gained, since no string compares with another"
    NO_PARTNER = "what changed for a string without a partner"
    NO_BALL = "the energy of a string that does not say its ball"
    NO_LIMIT = "whether the gun may be used, without a limit"
    NO_CAUSE = "what cost the velocity"
    NO_VERDICT = "whether the gun keeps to the limit"


@dataclass(frozen=True, slots=True, kw_only=True)
class Unsaid:
    """One thing that cannot be said.

    Parameters
    ----------
    kind
        What it is.
    string
        The string that it is about; None if it is about the whole case.
    reason
        Why, where the question itself was refused; empty otherwise.
    """

    kind: UnsaidKind
    string: StringOfCase | None = None
    reason: str = ""


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
    is_at_muzzle
        Whether both were brought to the muzzle, because they were read at different distances.
    reference
        What lay between the days by a reference gun: the string after was brought to the day before by it; None without one.
    between_days
        What is taken to lie between two days in themselves, in the interval: standard deviation of one day, share of the speed.
    moved
        Statistics of both where they compare, if one was read elsewhere or on another day than they are compared at; else None.
    """

    before: StringOfCase
    after: StringOfCase
    comparison: StringComparison | None
    obstacles: tuple[str, ...]
    cautions: tuple[str, ...]
    moved: tuple[StringStatistics, StringStatistics] | None = None
    is_at_muzzle: bool = False
    reference: DayFactor | None = None
    between_days: float = 0.0

    @property
    def statistics(self) -> tuple[StringStatistics, StringStatistics]:
        """What is said of both, at the place where they compare."""
        return self.moved or (self.before.statistics, self.after.statistics)


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
        Simulated shots of the matched model with the cause that is named first, and without; None if nothing was explained.
    unsaid
        What cannot be said, and why: no string before, no string after, no limit.
    left_out
        Lines of the readings' file that were not counted.
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
    unsaid: tuple[Unsaid, ...]
    left_out: tuple[LeftOut, ...]
    sources: tuple[str, ...]
    program_version: str
    input_digest: str
    notes: tuple[str, ...] = ()
    invented: bool = False
