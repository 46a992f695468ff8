"""Facts that were measured or seen to be true, what they are about, and how they are made."""

from __future__ import annotations

from dataclasses import dataclass

from stripdown.procedures.touches import PartTouch, Touch
from stripdown.references.provenance import Provenance


@dataclass(frozen=True, slots=True, kw_only=True)
class Exemption:
    """Kinds of touch of a part that do a check no harm.

    Parameters
    ----------
    part
        Key of the part.
    kinds
        Kinds of touch that spoil nothing.
    reason
        Why.
    """

    part: str
    kinds: frozenset[Touch]
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Method:
    """One way to make a check.

    Parameters
    ----------
    name
        What it is called.
    how
        What one does.
    tools
        What it takes.
    minutes
        How long it takes, in min.
    """

    name: str
    how: str
    tools: tuple[str, ...] = ()
    minutes: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """The number that decides a check.

    Parameters
    ----------
    label
        What is read.
    unit
        Unit in which it is written down.
    low, high
        Limits in that unit; None where there is none.
    """

    label: str
    unit: str
    low: float | None = None
    high: float | None = None

    @property
    def band(self) -> str:
        """The limits as one reads them."""
        if self.low is not None and self.high is not None:
            return f"{self.low:g} to {self.high:g} {self.unit}"
        if self.high is not None:
            return f"at most {self.high:g} {self.unit}"
        return f"at least {self.low:g} {self.unit}" if self.low is not None else f"in {self.unit}, without a limit"

    def holds(self, value: float) -> bool:
        """Whether a reading lies within the limits.

        Parameters
        ----------
        value
            Reading, in the unit of this record.

        Returns
        -------
        bool
        """
        slack = 1e-9 * abs(value)  # a limit that was typed in another unit is the same limit
        return (self.low is None or value >= self.low - slack) and (self.high is None or value <= self.high + slack)


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """A fact about the gun that holds until a part on which it rests is disturbed in a way that matters.

    Parameters
    ----------
    key
        Stable name.
    name
        How it reads in a sentence.
    fact
        What is true when it passes.
    proved
        How making it reads after "was": proved, chosen, measured.
    place
        Key of the place at the bench.
    about
        Parts whose touching spoils it, in every kind but looking.
    exempt
        What is spared from that, each with its reason.
    rests_on
        Checks without which its outcome means nothing.
    off, on
        Parts that must be off, and on, while it is made.
    dry
        Those of `on` that its making puts on and takes off again itself: a trial closing.
    touches
        What its making disturbs besides.
    needs
        Guards: checks that must be fresh when it is made.
    is_for_release
        Whether a gun leaves the bench only with it fresh, once it was spoiled.
    remedies
        Actions that may mend what makes it fail, the likeliest first.
    methods
        Ways to make it, the best first.
    cautions
        What can hurt while it is made.
    expect
        What passes, in words.
    reading
        The number that decides; None where the eye or the hand does.
    provenance
        Standing and source of what passes; None in made-up procedures.
    calculator
        Command that reckons what the check needs (``"seal leak"``); empty for none.
    """

    key: str
    name: str
    fact: str = ""
    proved: str = "proved"
    place: str = ""
    about: tuple[str, ...] = ()
    exempt: tuple[Exemption, ...] = ()
    rests_on: tuple[str, ...] = ()
    off: tuple[str, ...] = ()
    on: tuple[str, ...] = ()
    dry: tuple[str, ...] = ()
    touches: tuple[PartTouch, ...] = ()
    needs: tuple[str, ...] = ()
    is_for_release: bool = False
    remedies: tuple[str, ...] = ()
    methods: tuple[Method, ...] = ()
    cautions: tuple[str, ...] = ()
    expect: str = ""
    reading: Reading | None = None
    provenance: Provenance | None = None
    calculator: str = ""

    def is_spoiled_by(self, touch: PartTouch) -> bool:
        """Whether touching a part in some way makes it stale, by itself.

        Parameters
        ----------
        touch
            Part and kind.

        Returns
        -------
        bool
        """
        part, kind = touch
        if part not in self.about or kind is Touch.INSPECT:
            return False
        return not any(spared.part == part and kind in spared.kinds for spared in self.exempt)
