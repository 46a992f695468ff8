"""Facts that were measured or seen to be true, what they are about, and how they are made."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from stripdown.procedures.cautions import Caution
from stripdown.procedures.touches import PartTouch, Touch
from stripdown.references.provenance import Provenance


@dataclass(frozen=True, slots=True, kw_only=True)
class Exemption:
    """Kinds of touch of a part that do a check no harm."""

    part: str
    kinds: frozenset[Touch]
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Method:
    """One way to make a check."""

    name: str
    how: str
    short: str = ""
    tools: tuple[str, ...] = ()
    minutes: float = 0.0
    off: tuple[str, ...] = ()
    on: tuple[str, ...] = ()
    unless: tuple[str, ...] = ()
    is_for_spring_at_rest: bool = False
    fires: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """The number that decides a check."""

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

    def furthest(self, values: Iterable[float]) -> float:
        """Of several values the one that is judged: furthest from the middle of the limits, or nearest to the only limit."""
        middle = [limit for limit in (self.low, self.high) if limit is not None]
        if len(middle) == 1:
            return (min if self.high is None else max)(values)
        return max(values, key=lambda value: abs(value - sum(middle) / 2.0)) if middle else next(iter(values))

    def holds(self, value: float) -> bool:
        """Whether a reading lies within the limits."""
        slack = 1e-9 * abs(value)  # a limit that was typed in another unit is the same limit
        return (self.low is None or value >= self.low - slack) and (self.high is None or value <= self.high + slack)


@dataclass(frozen=True, slots=True, kw_only=True)
class PartialReading:
    """One of several numbers of one making: in the unit of the check's reading it is judged with its like, else noted."""

    key: str
    label: str
    unit: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FollowUp:
    """How much use after its work a check falls due."""

    least: int
    most: int
    unit: str

    @property
    def words(self) -> str:
        """The use as one says it."""
        return f"{self.least} to {self.most} {self.unit}" if self.least < self.most else f"{self.least} {self.unit}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """A fact about the gun that holds until a part on which it rests is disturbed in a way that matters.

    What ``compares`` (a number, a recording) is read before it is disturbed, under conditions that are ``alike`` both times: with
    the same ``settings`` of parts, and ``without`` what would come off anyway. ``follow_up`` says after how much use it is due.
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
    cautions: tuple[Caution, ...] = ()
    expect: str = ""
    seen: str = ""
    reading: Reading | None = None
    readings: tuple[PartialReading, ...] = ()
    provenance: Provenance | None = None
    calculator: str = ""
    compares: bool = False
    alike: tuple[str, ...] = ()
    settings: tuple[str, ...] = ()
    without: tuple[str, ...] = ()
    follow_up: FollowUp | None = None
    fires: str = ""
    proved_first: tuple[str, ...] = ()
    spared_back: tuple[str, ...] = ()
    holds_until_run: bool = False
    is_leaving: bool = False

    def is_spoiled_by(self, touch: PartTouch) -> bool:
        """Whether touching a part in some way makes it stale, by itself."""
        part, kind = touch
        if part not in self.about or kind is Touch.INSPECT:
            return False
        return not any(spared.part == part and kind in spared.kinds for spared in self.exempt)
