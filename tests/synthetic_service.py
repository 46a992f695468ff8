"""A made-up gun with few parts and checks, its plan and its log, for charts and sheets: nothing in it is a fact of the trade."""

from __future__ import annotations

from collections.abc import Mapping
from types import SimpleNamespace
from typing import TYPE_CHECKING, cast

from stripdown.procedures.actions import Action
from stripdown.procedures.cautions import Caution
from stripdown.procedures.checks import Check, Method, Reading
from stripdown.procedures.parts import Part
from stripdown.procedures.plan import Plan, plan_from
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.request import Request
from stripdown.procedures.standing import CheckStanding, Standing
from stripdown.procedures.touches import Touch
from stripdown.references.provenance import Footing, Provenance
from stripdown.studies.calculators import Answered
from stripdown.studies.service_job import Block, BlockKind, JobStudy, Release

if TYPE_CHECKING:
    from stripdown.bench.visit import Visit
    from stripdown.procedures.grading import StandingGrade

_PRACTICE = Provenance(footing=Footing.COMMON_PRACTICE, source=None, where="")
_PUBLISHED = Provenance(footing=Footing.PUBLISHED, source="iso_3601_1", where="table 1")
_PLACES = {"range": "trap", "gun": "gun on the mat", "cylinder": "cylinder group", "gears": "gear train", "desk": "desk"}


def _parts() -> tuple[Part, ...]:
    shims = tuple(
        Part(
            key=f"{gear}_shims_{face}",
            name=f"{gear}'s {face} shims",
            place="gears",
            in_front=("shell",),
            is_plural=True,
            is_labelled=True,
        )
        for gear in ("sector", "bevel")
        for face in ("left", "right")
    )
    return (
        Part(
            key="battery",
            name="battery",
            place="gun",
            off="Part the connector.",
            care=(Caution("Pull on the housing."),),
            minutes=1.0,
        ),
        Part(
            key="shell",
            name="upper shell half",
            place="gears",
            in_front=("battery",),
            off="Undo the screws crosswise.",
            back="Screws crosswise.",
            care=(Caution("The springs fly: a hand over them."),),
            care_back=(Caution("Nothing may be pinched."),),
            tools=("screwdriver",),
            minutes=4.0,
            needs=("made_safe",),
        ),
        Part(key="bearing", name="bevel's left bearing", place="gears", in_front=("bevel_shims_left",)),
        Part(key="cylinder", name="cylinder", place="cylinder", in_front=("shell",)),
        *shims,
    )


def _checks() -> tuple[Check, ...]:
    return (
        Check(
            key="made_safe",
            name="gun made safe",
            place="gun",
            about=("battery",),
            off=("battery",),
            methods=(Method(name="look", how="Look and feel.", tools=("torch",), minutes=2.0),),
            cautions=(Caution("Eye protection."),),
            expect="The spring is at rest.",
        ),
        Check(
            key="pack",
            name="shim pack of the bevel gear",
            proved="chosen",
            place="gears",
            about=("bearing", "bevel_shims_left", "bevel_shims_right"),
            off=("shell",),
            is_for_release=True,
            methods=(Method(name="by play", how="Measure the play.", tools=("feeler gauge",), minutes=9.0),),
        ),
        Check(
            key="float",
            name="axial float in the trial closing",
            proved="measured",
            place="gears",
            about=("bearing", "bevel_shims_left"),
            rests_on=("pack",),
            off=("shell",),
            on=("shell",),
            dry=("shell",),
            is_for_release=True,
            methods=(Method(name="feeler", how="Close it without the piston.", tools=("feeler gauge",), minutes=6.0),),
            expect="Turns freely.",
            reading=Reading(label="axial float", unit="mm", low=0.05, high=0.15),
            provenance=_PRACTICE,
        ),
        Check(
            key="seal",
            name="seal of the cylinder",
            place="cylinder",
            about=("cylinder",),
            off=("shell",),
            is_for_release=True,
            methods=(Method(name="finger", how="Push against a finger."),),
            expect="Holds.",
            provenance=_PUBLISHED,
        ),
        Check(
            key="string",
            name="chronograph string",
            proved="fired",
            place="range",
            about=("cylinder", "shell"),
            on=("battery", "shell"),
            needs=(),
            is_for_release=True,
            methods=(Method(name="ten shots", how="Ten shots.", tools=("chronograph",), minutes=5.0),),
            cautions=(Caution("Muzzle in the trap."),),
            reading=Reading(label="mean speed", unit="m/s", high=100.0),
            provenance=_PRACTICE,
        ),
        Check(
            key="verdict",
            name="verdict on the limit",
            place="desk",
            rests_on=("string",),
            is_for_release=True,
            methods=(Method(name="at the desk", how="Reckon it."),),
        ),
        Check(key="label", name="label of the battery", place="gun", about=("battery",), is_for_release=True),
    )


def made_procedure() -> Procedure:
    """Five places, eight parts with the shims of two gears, seven checks, one guard, a trial closing and a wait."""
    bond = Action(
        key="bond",
        name="bond the bevel's left bearing",
        place="gears",
        touches=(("bearing", Touch.BOND),),
        off=("bevel_shims_left",),
        how="A trace on the race only.",
        tools=("pick",),
        consumables=("bearing bond",),
        minutes=8.0,
        wait=24.0,
        wait_for="until the bond has cured",
        cautions=(Caution("Gloves and air."),),
        provenance=_PRACTICE,
    )
    return Procedure(
        parts={part.key: part for part in _parts()},
        checks={check.key: check for check in _checks()},
        actions={"bond": bond},
        places=_PLACES,
        variation="made-up box, fixed guide",
    )


def made_standings() -> dict[str, CheckStanding]:
    """One check of each standing at least."""
    states = {
        "made_safe": (Standing.STALE, "stale since the battery was put back on 3 May."),
        "pack": (Standing.FRESH, "the shim pack of the bevel gear was chosen on 1 May."),
        "float": (Standing.STALE, "stale since the bevel's left bearing was bonded on 3 May."),
        "seal": (Standing.FAILED, "the seal of the cylinder did not pass on 2 May."),
        "string": (Standing.NEVER, "the chronograph string was never fired."),
        "verdict": (Standing.NEVER, "the verdict on the limit was never proved."),
        "label": (Standing.FRESH, "the label of the battery was proved on 1 May."),
    }
    return {key: CheckStanding(check=key, standing=state, reason=reason) for key, (state, reason) in states.items()}


def made_plan(*, off: frozenset[str] = frozenset()) -> Plan:
    """Bond a bearing, with the string as found and the verdict wanted, on the gun of `made_standings`."""
    request = Request(work=("bond",), wanted=("verdict",), as_found=("string",))
    return plan_from(made_procedure(), request, off=off, known=made_standings())


def made_rejects(said: str = "") -> tuple[Block, Block]:
    """A part that was graded a reject, and another that somebody let pass."""
    bearing = _reject("bearing", f"the bevel's left bearing was graded reject{said} for play (grade 8).", "")
    why = f'for its bore and leaves all the same, because: "passed{said}".'
    return bearing, _reject("cylinder", f"the cylinder was graded reject {why}", f"who{said}")


def _reject(part: str, reason: str, who: str) -> Block:
    grade = SimpleNamespace(reason=reason, record=SimpleNamespace(who=who, part=part))
    return Block(kind=BlockKind.REJECT, key="play", parts=(part,), event=8, grade=cast("StandingGrade", grade))


def made_study(
    *,
    plan: Plan | None = None,
    known: Mapping[str, CheckStanding] | None = None,
    is_in_order: bool = False,
    title: str = "made-up bearing",
    gun: str = "Brackenmoor 07",
    notes: tuple[str, ...] = ("Made up.",),
    answered: tuple[Answered, ...] = (),
    labels: str = "A1",
    said: str = "",
) -> JobStudy:
    """The made-up gun as a study: a reject that blocks, one that was let pass, and shims of which the log knows one face."""
    made = made_plan() if plan is None else plan
    standings = made_standings() if known is None else known
    job = SimpleNamespace(
        title=title,
        gun_name=gun,
        invented=True,
        digest="0123456789abcdef" * 4,
        notes=notes,
        procedure=made.procedure,
        procedure_of_log=made.procedure,
        log=(),
        variation=SimpleNamespace(name=made.procedure.variation),
        known=standings,
        energy=made.energy,
        parts_off=frozenset[str](),
    )
    blocking, passed = made_rejects(said)
    release = Release(
        blocks=() if is_in_order else (blocking,), overridden=() if is_in_order else (passed,), findings=(), is_proved=True
    )
    return JobStudy(
        job=cast("Visit", job),
        plan=made,
        release=release,
        answered=answered,
        labels={"bevel_shims_left": frozenset({labels, "A2"})},
    )
