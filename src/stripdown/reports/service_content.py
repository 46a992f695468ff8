"""What the service sheet says, as frozen records of words: the template only lays out."""

from __future__ import annotations

from dataclasses import dataclass

from stripdown.procedures.standing import Standing
from stripdown.procedures.steps import StepKind
from stripdown.reports.content import Named, Picture


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """A place to write a reading into.

    Parameters
    ----------
    label
        What is read.
    unit
        Its unit; empty for words.
    limits
        Within what it passes; empty for nothing.
    """

    label: str
    unit: str = ""
    limits: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetStep:
    """One step with its box.

    Parameters
    ----------
    number
        Its place in the plan.
    kind
        What kind of step.
    name
        What to do.
    purpose
        Why it is there; empty where it is plain.
    how
        How it is done.
    method
        What that way of doing it is called; empty for none.
    trial
        What a trial closing puts on and takes off again; empty for none.
    cautions
        What can hurt.
    expect
        What passes; empty for nothing.
    mark
        Mark of where the figures come from, explained at the foot; empty for none.
    blank
        Where the reading goes; None where there is none, or where it goes into the table of readings as found.
    time
        Time of the hands; empty if nobody knows.
    wait
        How long to wait afterwards, and for what; empty for not.
    """

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
    """Steps that follow one another at one place.

    Parameters
    ----------
    place
        Name of the place.
    steps
        The steps.
    """

    place: str
    steps: tuple[SheetStep, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundReading:
    """A row of the table of readings as found.

    Parameters
    ----------
    name
        What is read.
    step
        Number of its step; empty if it is too late.
    blank
        Where it goes; None if it is too late, or if one only sees whether it passes.
    too_late
        Why it can no longer be taken; empty if it can.
    mark
        Mark of where its limits come from.
    """

    name: str
    step: str = ""
    blank: Blank | None = None
    too_late: str = ""
    mark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShimFace:
    """One face of one gear.

    Parameters
    ----------
    face
        Which.
    now
        What lies there by the log; empty if the log does not say.
    """

    face: str
    now: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShimGear:
    """One gear of the shim map.

    Parameters
    ----------
    gear
        Which.
    faces
        Its faces.
    """

    gear: str
    faces: tuple[ShimFace, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reckoning:
    """One answer of a calculator.

    Parameters
    ----------
    name
        What was asked about.
    answer
        The answer in a line.
    lines
        What belongs to it, part by part.
    details
        The figures behind it, and what they are held against.
    notes
        What follows for the bench, one sentence each.
    holds_for
        Range of validity.
    footing
        How well it is known.
    source
        On whose word.
    caution
        What can make it wrong, or do harm.
    picture
        The same, drawn; None if there is nothing to draw.
    """

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
    """A check without which the gun does not leave the bench.

    Parameters
    ----------
    name
        Its name.
    standing
        How it stands now.
    letter
        Letter of that standing.
    reason
        Why it stands so.
    steps
        Numbers of the steps that prove it; empty if the plan does not.
    """

    name: str
    standing: Standing
    letter: str
    reason: str
    steps: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReleasePart:
    """What must be true before the gun leaves.

    Parameters
    ----------
    blocks
        What forbids it whatever this plan does.
    overridden
        Rejects that somebody lets pass, with the reason.
    to_prove
        Checks that the plan proves.
    left_open
        Checks that are not fresh and that the plan does not prove.
    holding
        Names of checks that are fresh and stay so.
    undisturbed
        Names of checks that nobody made, and that nothing has disturbed: they owe nothing.
    remark
        Who decides.
    """

    blocks: tuple[str, ...]
    overridden: tuple[Named, ...]
    to_prove: tuple[ReleaseLine, ...]
    left_open: tuple[ReleaseLine, ...]
    holding: tuple[str, ...]
    undisturbed: tuple[str, ...]
    remark: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ServiceRestsOn:
    """What the sheet rests on.

    Parameters
    ----------
    marks
        Mark and what it means: where limits and figures come from.
    understood
        How the job's files were understood.
    program
        Name and version.
    input_digest
        Of the job's files together, hexadecimal.
    """

    marks: tuple[Named, ...]
    understood: tuple[str, ...]
    program: str
    input_digest: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ServiceSheet:
    """Everything that the service sheet says.

    Parameters
    ----------
    title
        What the job is called.
    running_title
        The same with the gun's name, for every further page.
    gun, gun_note
        Its name, and remarks.
    variation
        What gun it is.
    is_invented
        Whether gun or figures are made up.
    invented_words
        What is then printed on every page.
    asked
        The request: work, checks, readings.
    amount
        How much it is, in one line.
    stops
        What must be known before one begins: what blocks release, what is too late.
    tools, consumables
        What to lay out.
    waits
        Step, and how long one has to wait after it.
    conditions
        What has to be alike before and after, to be written down twice; empty without a reading as found.
    found
        Readings as found.
    shims
        Gear by gear; empty if no shim is touched.
    reckoned
        What the calculators say.
    stages
        The steps.
    release
        What must be true before the gun leaves.
    picture
        How the checks of this plan stand; None if there are none.
    rests_on
        What the sheet rests on.
    """

    title: str
    running_title: str
    gun: str
    gun_note: str
    variation: str
    is_invented: bool
    invented_words: str
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
