"""What one looks at or measures on a part, and the grade that follows."""

from __future__ import annotations

import enum
from collections.abc import Mapping
from dataclasses import dataclass

from stripdown.errors import InputError
from stripdown.procedures.documents import plain_words
from stripdown.references.provenance import Provenance
from stripdown.tables.nearest import nearest_name
from stripdown.units import from_si, parse, unit_named


class Grade(enum.Enum):
    """What is to become of a part."""

    SOUND = "sound"
    WATCH = "watch"
    REJECT = "reject"

    @property
    def meaning(self) -> str:
        """What one does about it."""
        return _MEANING[self]


_MEANING: Mapping[Grade, str] = {
    Grade.SOUND: "keep it",
    Grade.WATCH: "keep it, note it, look again next time",
    Grade.REJECT: "replace or mend it before release",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class GradeLimits:
    """Limits of a measured value. At the limit is within it; beyond it the next grade begins."""

    label: str
    unit: str
    watch_below: float | None = None
    watch_above: float | None = None
    reject_below: float | None = None
    reject_above: float | None = None
    provenance: Provenance

    def grade(self, value: float) -> Grade:
        """Grade of a value."""
        if _beyond(value, self.reject_below, self.reject_above):
            return Grade.REJECT
        return Grade.WATCH if _beyond(value, self.watch_below, self.watch_above) else Grade.SOUND

    def words(self, grade: Grade) -> str:
        """The limits of one grade as one reads them; empty where it has none."""
        if grade is Grade.SOUND:
            low = self.watch_below if self.watch_below is not None else self.reject_below
            high = self.watch_above if self.watch_above is not None else self.reject_above
            if low is not None and high is not None:
                return f"{low:g} to {self._shown(high)}"
            return f"at most {self._shown(high)}" if high is not None else f"at least {self._shown(low)}"
        is_watch = grade is Grade.WATCH
        below, above = (self.watch_below, self.watch_above) if is_watch else (self.reject_below, self.reject_above)
        sides = (("below", below), ("above", above))
        return " or ".join(f"{side} {self._shown(limit)}" for side, limit in sides if limit is not None)

    def _shown(self, limit: float | None) -> str:
        return f"{limit:g} {unit_named(self.unit).shown}".rstrip()


@dataclass(frozen=True, slots=True, kw_only=True)
class AppearanceTerm:
    """One word for how a surface looks, and the grade that this bench gives it."""

    key: str
    name: str
    family: str
    grade: Grade
    note: str = ""
    set_by: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Vocabulary:
    """Words of a standard for how a surface looks."""

    key: str
    name: str
    note: str
    terms: tuple[AppearanceTerm, ...]
    provenance: Provenance

    def term(self, words: str) -> AppearanceTerm:
        """A word of the vocabulary."""
        wanted = plain_words(words)
        for term in self.terms:
            if wanted in {plain_words(term.key), plain_words(term.name)}:
                return term
        hint = nearest_name(plain_words(words), [term.key for term in self.terms])
        raise InputError(f'"{words}" is no word of {self.name}.', field="value", value=words, hint=hint)


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """One thing to look at or to measure on one part.

    Parameters
    ----------
    key
        Stable name; a part has it once.
    part
        Key of the part.
    name
        What is looked at.
    see
        What to look for, or what to measure.
    how
        How one does it.
    tools
        With what.
    sound, watch, reject
        What each grade looks like; watch may be empty.
    limits
        Limits of the measured value; None where the eye or the hand decides.
    vocabulary
        Words of a standard that may be written down instead of a grade; None where there is none.
    grids
        Keys of tables of limits for new parts that stand beside it.
    work
        Actions to ask for if it is rejected, the likeliest first.
    prove
        Checks to ask for if it is rejected and no work is certain.
    set_by
        Name and version of the set of limits that last had a say.
    provenance
        Where the grades come from.
    """

    key: str
    part: str
    name: str
    see: str
    how: str = ""
    tools: tuple[str, ...] = ()
    sound: str = ""
    watch: str = ""
    reject: str = ""
    limits: GradeLimits | None = None
    vocabulary: Vocabulary | None = None
    grids: tuple[str, ...] = ()
    work: tuple[str, ...] = ()
    prove: tuple[str, ...] = ()
    set_by: str = ""
    provenance: Provenance

    def words(self, grade: Grade) -> str:
        """What a grade looks like here, limits included.

        Parameters
        ----------
        grade
            Any.

        Returns
        -------
        str
            Empty if this look never gives it.
        """
        text = {Grade.SOUND: self.sound, Grade.WATCH: self.watch, Grade.REJECT: self.reject}[grade]
        band = self.limits.words(grade) if self.limits is not None else ""
        return f"{band}: {text}" if band and text else band or text


def grade_value(look: Look, value: float | str, unit: str | None = None) -> Grade:
    """Grade of what was measured, or of what was seen in words of a standard.

    Parameters
    ----------
    look
        What was looked at.
    value
        A number, in `unit`; or a word of the look's vocabulary.
    unit
        Unit of the value; None takes the unit of the limits.

    Returns
    -------
    Grade

    Raises
    ------
    InputError
        If the value is no number or word that this look can grade.
    """
    if isinstance(value, str) and look.vocabulary is not None and not value.strip()[:1].isdigit():
        return look.vocabulary.term(value).grade
    if look.limits is None:
        raise InputError(
            f"{look.name}: {value} cannot be graded, for the eye or the hand decides here.",
            field="value",
            value=value,
            hint=f"Write the grade: {', '.join(grade.value for grade in Grade)}.",
        )
    wanted = unit_named(look.limits.unit)
    in_si = parse(f"{value} {unit or ''}".strip(), wanted.si, bare_unit=wanted.name, field=look.limits.label)
    return look.limits.grade(from_si(in_si, wanted.name))


def _beyond(value: float, low: float | None, high: float | None) -> bool:
    slack = 1e-9 * abs(value)  # a limit that was typed in another unit is the same limit
    return (low is not None and value < low - slack) or (high is not None and value > high + slack)
