"""The steps of a plan as lines of the service sheet, and the tables that one fills in on the way."""

from __future__ import annotations

import itertools
from collections.abc import Collection, Iterator, Mapping

from stripdown.procedures.plan import Plan, PlannedStep
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.steps import StepKind
from stripdown.reports.bench_times import hands_time, waiting_time
from stripdown.reports.content import Named
from stripdown.reports.service_content import Blank, FoundReading, SheetStep, ShimFace, ShimGear, Stage
from stripdown.reports.source_marks import SourceMarks

_SHIMS = "_shims_"
_INTO_TABLE = "Write it into the table of readings as found."


def stages(plan: Plan, marks: SourceMarks, *, reckoned: Collection[str] = ()) -> tuple[Stage, ...]:
    """The steps, those that follow one another at one place together."""
    return tuple(
        Stage(place=place, steps=tuple(_step(plan.procedure, step, marks, reckoned) for step in steps))
        for place, steps in itertools.groupby(plan.steps, key=lambda step: step.place)
    )


def waits(plan: Plan) -> tuple[Named, ...]:
    """After which steps one has to wait."""
    return tuple(Named(name=f"after step {step.number}", text=f"{_wait(step)} ({step.name})") for step in plan.waits)


def found_readings(plan: Plan, marks: SourceMarks) -> tuple[FoundReading, ...]:
    """The table of readings as found."""
    return (
        *(
            FoundReading(
                name=plan.procedure.checks[step.key].name,
                step=str(step.number),
                blank=_blank(plan.procedure, step.key),
                mark=marks.of(step),
            )
            for step in plan.steps
            if step.kind is StepKind.AS_FOUND
        ),
        *(FoundReading(name=plan.procedure.checks[late.check].name, too_late=sentence(late.reason)) for late in plan.too_late),
    )


def shim_map(plan: Plan, in_place: Mapping[str, str]) -> tuple[ShimGear, ...]:
    """Which shim came from which face of which gear, to be filled in."""
    parts = {key: part for key, part in plan.procedure.parts.items() if part.is_labelled}
    if not any(part in parts or parts.keys() & plan.procedure.close((part,)) for part in _touched(plan)):
        return ()
    gears: dict[str, list[ShimFace]] = {}
    for key, part in parts.items():
        gear, shims, face = key.partition(_SHIMS)
        name, side = (gear, face) if shims else (part.name, "")
        gears.setdefault(name.replace("_", " "), []).append(ShimFace(face=side.replace("_", " "), now=in_place.get(key, "")))
    return tuple(ShimGear(gear=gear, faces=tuple(faces)) for gear, faces in gears.items())


def sentence(words: str) -> str:
    """Words with a capital at the front and a full stop at the end."""
    plain = words.strip()
    return f"{plain[:1].upper()}{plain[1:]}{'' if plain.endswith(('.', '!', '?')) else '.'}" if plain else ""


def _touched(plan: Plan) -> Iterator[str]:
    for step in plan.steps:
        if step.kind is not StepKind.AS_FOUND:
            yield from (part for part, _ in plan.procedure.touches(step.step))


def _step(procedure: Procedure, step: PlannedStep, marks: SourceMarks, reckoned: Collection[str]) -> SheetStep:
    is_check = step.kind in {StepKind.MAKE, StepKind.AS_FOUND}
    check = procedure.checks.get(step.key) if is_check else None
    blank = _blank(procedure, step.key) if step.kind is StepKind.MAKE else None
    into_table = (_INTO_TABLE,) if step.kind is StepKind.AS_FOUND else ()
    expect = check.expect if check is not None else ""
    return SheetStep(
        number=step.number,
        kind=step.kind,
        name=step.name[:1].upper() + step.name[1:],
        purpose=step.purpose,
        how=" ".join(filter(None, (sentence(step.not_before), sentence(step.how), _reckoned(step, reckoned), *into_table))),
        method="" if step.method is None or check is None or len(check.methods) < 2 else step.method.name,
        trial=_trial(step.trial),
        cautions=tuple(sentence(caution) for caution in step.cautions),
        expect=sentence(expect),
        mark=marks.of(step),
        blank=blank,
        time=hands_time(step.minutes),
        wait=_wait(step) if step.wait > 0.0 else "",
    )


def _reckoned(step: PlannedStep, reckoned: Collection[str]) -> str:
    if not step.calculator:
        return ""
    done = " Reckoned above for what was measured." if step.calculator in reckoned else ""
    return f"Reckon with: stripdown {step.calculator}.{done}"


def _blank(procedure: Procedure, check: str) -> Blank | None:
    reading = procedure.checks[check].reading
    if reading is None:
        return None
    has_limits = reading.low is not None or reading.high is not None
    return Blank(label=reading.label, unit=reading.unit, limits=reading.band if has_limits else "")


def _trial(parts: tuple[str, ...]) -> str:
    if not parts:
        return ""
    return f"Trial closing: {', '.join(parts)} on for this, and off again afterwards."


def _wait(step: PlannedStep) -> str:
    return f"wait {waiting_time(step.wait)}{f', {step.wait_for}' if step.wait_for else ''}"
