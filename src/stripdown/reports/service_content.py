"""What the service sheet says, as frozen records of words: the template only lays out."""

from __future__ import annotations

from dataclasses import dataclass

from stripdown.procedures.standing import Standing
from stripdown.procedures.steps import StepKind
from stripdown.reports.content import Named, Picture


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """A place to write a reading into."""

    label: str
    unit: str = ""
    limits: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetStep:
    """One step with its box."""

    number: int
    kind: StepKind
    name: str
    purpose: str = ""
    how: str = ""
    method: str = ""
    trial: str = ""
    cautions: tuple[str, ...] = ()
    expect: str = ""
    mark: str = ""
    blank: Blank | None = None
    time: str = ""
    wait: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """Steps that follow one another at one place."""

    place: str
    steps: tuple[SheetStep, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundReading:
    """A row of the table of readings as found."""

    name: str
    step: str = ""
    blank: Blank | None = None
    too_late: str = ""
    mark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShimFace:
    """One face of one gear."""

    face: str
    now: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShimGear:
    """One gear of the shim map."""

    gear: str
    faces: tuple[ShimFace, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reckoning:
    """One answer of a calculator."""

    name: str
    answer: str
    lines: tuple[Named, ...] = ()
    details: tuple[Named, ...] = ()
    notes: tuple[str, ...] = ()
    holds_for: str
    footing: str
    source: str
    caution: str
    picture: Picture | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ReleaseLine:
    """A check without which the gun does not leave the bench."""

    name: str
    standing: Standing
    letter: str
    reason: str
    steps: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReleasePart:
    """What must be true before the gun leaves."""

    blocks: tuple[str, ...]
    overridden: tuple[Named, ...]
    to_prove: tuple[ReleaseLine, ...]
    left_open: tuple[ReleaseLine, ...]
    holding: tuple[str, ...]
    undisturbed: tuple[str, ...]
    remark: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ServiceRestsOn:
    """What the sheet rests on."""

    marks: tuple[Named, ...]
    understood: tuple[str, ...]
    program: str
    input_digest: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ServiceSheet:
    """Everything that the service sheet says."""

    title: str
    gun: str
    gun_note: str
    variation: str
    asked: tuple[Named, ...]
    amount: str
    stops: tuple[str, ...]
    tools: tuple[str, ...]
    consumables: tuple[str, ...]
    waits: tuple[Named, ...]
    conditions: tuple[str, ...]
    found: tuple[FoundReading, ...]
    shims: tuple[ShimGear, ...]
    reckoned: tuple[Reckoning, ...]
    stages: tuple[Stage, ...]
    release: ReleasePart
    picture: Picture | None
    rests_on: ServiceRestsOn
