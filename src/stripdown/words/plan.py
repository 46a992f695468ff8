"""What is said of a plan: how much it is, what to fetch, its steps, what it leaves open; on paper also what to fill in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from stripdown.procedures.plan import Plan, PlannedStep
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.steps import StepKind
from stripdown.studies.service_job import BlockKind, JobStudy
from stripdown.words.answer import Answer, Blank, Cell, Column, Named, Sentence, Step, Table
from stripdown.words.calculators import answers_of_job, step_calculator
from stripdown.words.energy import energy_sentences
from stripdown.words.falling_due import falling_due_answer
from stripdown.words.release import REMARK, UNTIL, block_sentence, finding_sentences, open_at_release, proved_at_release
from stripdown.words.sentences import as_sentence, capital, caution_sentence, hands_time, waiting_time
from stripdown.words.sources import SourceMarks
from stripdown.words.standing import gun_sentence

_LIMITS = Sentence(
    key="plan_limits",
    full=(
        "The plan follows the rules of the trade as written in the procedures; the gun's own manual, local law and a qualified "
        "person come first."
    ),
)
_MOST_NAMED = 6
_PASSED_OR_NOT = ("passed", "not")
_CONDITIONS = (
    "day and time",
    "temperature",
    "pack and its voltage",
    "ball batch, weighed",
    "chronograph, distance",
    "shots before it",
)
_SHIMS = "_shims_"
_INTO_TABLE = "Write it into the table of readings as found."


def plan_answer(study: JobStudy) -> Answer:
    """Say what is left to do for a job, in order, and what stays open."""
    plan = study.plan
    marks = SourceMarks(plan)
    parts = (
        _before(study),
        Answer(key="asked", title="", named=tuple(_asked(plan))),
        *(_listed(key, title, some) for key, title, some in _to_fetch(plan) if some),
        Answer(key="waits", title="Waits" if plan.waits else "", named=tuple(_waits(plan))),
        Answer(key="calculated", title="Calculated for this job", parts=answers_of_job(study.answered)),
        Answer(
            key="steps",
            title="Steps",
            steps=planned_steps(study, plan.steps, marks),
            notes=(_LIMITS,),
        ),
        falling_due_answer(plan.procedure, plan.falling_due),
        Answer(key="release", title="Release", parts=(*open_at_release(study), REMARK)),
    )
    return Answer(
        key="plan",
        title=study.job.title,
        lead=(
            gun_sentence(study),
            Sentence(key="amount", full=_amount(plan)),
            *_becoming(plan),
            *energy_sentences(plan.energy),
            *(Sentence(key="understood", full=note) for note in study.job.notes),
        ),
        parts=tuple(part for part in parts if _says_something(part)),
    )


def planned_steps(study: JobStudy, steps: Iterable[PlannedStep], marks: SourceMarks | None = None) -> tuple[Step, ...]:
    """Some steps of a plan as they are printed."""
    known = marks or SourceMarks(study.plan)
    return tuple(_step(study.plan.procedure, step, known, study) for step in steps)


def bench_sheet(study: JobStudy) -> Answer:
    """Say the same on paper, with what is filled in by hand on the way: head, readings, shims, release."""
    plan, answer = study.plan, plan_answer(study)
    marks = SourceMarks(plan)
    found = tuple(_found(plan, marks))
    shims = tuple(_shim_faces(study))
    parts = [
        Answer(key="head", title="", tables=(_form("head", "date", "technician", "rounds fired"),)),
        *(_on_paper(part, plan.procedure) for part in answer.parts if part.key != "release"),
        Answer(key="as_found", title="Readings as found", tables=(_found_table(found),)) if found else None,
        _conditions() if any(row[3].blank is not None for row in found) else None,
        _shim_map(shims) if shims else None,
        Answer(
            key="release",
            title="Release",
            parts=(*open_at_release(study), *proved_at_release(study), REMARK),
            tables=(_form("signed", "released by", "date"),),
        ),
    ]
    if made_or_open(plan):
        parts.append(Answer(key="graph", title="How the checks of this plan stand before it", pictures=("plan",)))
    parts.append(_rests_on(study, marks))
    return replace(answer, parts=tuple(part for part in parts if part is not None), pictures=())


def made_or_open(plan: Plan) -> frozenset[str]:
    """The checks that a plan makes or leaves open, and those that were wanted; all others hold."""
    made = {step.key for step in plan.steps if step.kind is StepKind.MAKE}
    return frozenset(made | plan.left_open.keys() | set(plan.request.wanted))


def _rests_on(study: JobStudy, marks: SourceMarks) -> Answer:
    notes = " ".join(study.job.notes)
    understood = (Named(key="understood", name="How the job was understood", text=notes),) if notes else ()
    return Answer(key="rests_on", title="What this sheet rests on", rests_on=(*marks.explained(), *understood))


def _says_something(part: Answer) -> bool:
    return bool(part.lead or part.named or part.steps or part.parts or part.notes or part.key == "release")


def _amount(plan: Plan) -> str:
    if not plan.steps:
        return "Nothing is left to do for this request."
    times = {0: "nothing is taken off", 1: "opened once", 2: "opened twice"}
    opened = times.get(plan.openings, f"opened {plan.openings} times")
    moves = _counted(plan.moves, "part off or back", "parts off or back")
    words = [
        f"{_counted(len(plan.steps), 'step')}, {opened}: {moves}, {_counted(plan.makings, 'check')} to make.",
    ]
    waits = plan.wait_hours
    waiting = f", and {waiting_time(waits)} of waiting, some of it beside other work" if waits else ""
    hands = hands_time(plan.minutes)
    if hands or waits:
        words.append(f"About {hands or 'no time'} of the hands{waiting}.")
    if any(step.not_before for step in plan.steps):
        words.append('Earlier work may still be curing: see the steps that say "not before".')
    if plan.openings > 1:
        words.append("What is asked for cannot be done in one opening.")
    return " ".join(words)


def _becoming(plan: Plan) -> Iterator[Sentence]:
    """What gun it will be, and from which step on."""
    changes = [f"from step {step.number}, {step.becomes}" for step in plan.steps if step.becomes]
    if changes:
        full = (
            f"The work makes another gun of it: {'; '.join(changes)}. Up to there each step is that of the gun as it is; after "
            "it, what goes back and what is proved is that of the new one."
        )
        yield Sentence(key="becomes", full=full, about=tuple(plan.becomes))
    done = {step.key for step in plan.steps if step.kind is StepKind.DO}
    gone = [key for key in plan.request.work if key not in done and key not in plan.guns[-1].actions]
    if changes and gone:
        names = "; ".join(plan.procedure.actions[key].name for key in gone)
        yield Sentence(key="left_out", full=f"Left out, since what it is done on goes: {names}.", about=tuple(gone))


def _purpose(step: PlannedStep) -> str:
    """Why a step is there, and what it changes of the gun for good."""
    changed = f"from here on: {step.becomes}" if step.becomes else ""
    if step.leaves:
        changed = "it stays out: the gun that this will be has none"
    if step.arrives:
        changed = "the gun has one from now on"
    return "; ".join(words for words in (step.purpose, changed) if words)


def _counted(count: int, one: str, many: str = "") -> str:
    return f"{count} {one if count == 1 else many or f'{one}s'}"


def _before(study: JobStudy) -> Answer:
    """What forbids release whatever this plan does, and what can no longer be read."""
    plan, procedure = study.plan, study.plan.procedure
    rejects = [block_sentence(procedure, one).full for one in study.release.blocks if one.kind is BlockKind.REJECT]
    said = [Sentence(key="reject", full=f"Reject that is still in the gun: {words} {UNTIL}") for words in rejects]
    if plan.left_open:
        count, them = len(plan.left_open), "it" if len(plan.left_open) == 1 else "them"
        names = ", ".join(procedure.checks[key].name for key in plan.left_open)
        which = names if count <= _MOST_NAMED else f"{count} checks, named in the release list"
        full = f"Not fresh, and not proved by this plan: {which}. The gun does not leave without {them}."
        said.append(Sentence(key="left_open", full=full, about=tuple(plan.left_open)))
    said += [Sentence(key="too_late", full=f"Too late: {late.reason}", about=(late.check, late.part)) for late in plan.too_late]
    findings = finding_sentences(study.job.procedure_of_log, study.release.findings)
    return (
        Answer(key="before", title="Before you begin", lead=(*said, *findings))
        if said or findings
        else Answer(key="before", title="")
    )


def _asked(plan: Plan) -> Iterator[Named]:
    procedure, request = plan.procedure, plan.request
    if request.work:
        names = "; ".join(procedure.actions[key].name for key in request.work)
        yield Named(name="work", text=as_sentence(names), key="work")
    brought = sorted(procedure.with_brought(request.work) - set(request.work))
    if brought:
        yield Named(name="with it", text=as_sentence("; ".join(procedure.actions[key].name for key in brought)), key="brought")
    if plan.remedies:
        because = "; ".join(
            f"{procedure.actions[action].name}, since the {procedure.checks[check].name} did not pass"
            for action, check in plan.remedies.items()
        )
        yield Named(name="added", text=as_sentence(because), key="added")
    for name, key, checks in (("to be fresh", "wanted", request.wanted), ("as found", "as_found", request.as_found)):
        if checks:
            yield Named(name=name, text=as_sentence(", ".join(procedure.checks[one].name for one in checks)), key=key)


def _to_fetch(plan: Plan) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    yield "tools", "Tools", plan.tools
    yield "consumables", "What is used up", plan.consumables


def _listed(key: str, title: str, some: tuple[str, ...]) -> Answer:
    """Things in one sentence, and each by itself as what the sentence is about."""
    return Answer(key=key, title=title, lead=(Sentence(key=key, full=as_sentence(", ".join(some)), about=some),))


def _waits(plan: Plan) -> Iterator[Named]:
    for step in plan.waits:
        yield Named(name=f"after step {step.number}", text=f"{_wait(step)} ({step.name})", key=step.step.name)


def _wait(step: PlannedStep) -> str:
    return f"wait {waiting_time(step.wait)}{f', {step.wait_for}' if step.wait_for else ''}"


def _step(procedure: Procedure, step: PlannedStep, marks: SourceMarks, study: JobStudy) -> Step:
    is_check = step.kind in {StepKind.MAKE, StepKind.AS_FOUND}
    check = procedure.checks.get(step.key) if is_check else None
    trial = f"Trial closing: {', '.join(step.trial)} on for this check, and off again." if step.trial else ""
    return Step(
        number=step.number,
        key=step.step.name,
        kind=step.kind.value,
        name=capital(step.name),
        place=capital(step.place or "at the bench"),
        purpose=_purpose(step),
        how=as_sentence(step.how),
        method="" if step.method is None else capital(step.method.name),
        not_before=as_sentence(step.not_before),
        trial=trial,
        cautions=tuple(caution_sentence(one.words, harm=one.harm) for one in step.cautions),
        alike=_alike(study.plan, step),
        expect=f"Passes: {as_sentence(check.expect)}" if check is not None and check.expect else "",
        seen=step.seen,
        short=step.short,
        grades=_to_grade(step, study),
        mark=marks.of(step),
        blank=_blank(procedure, step.key) if check is not None else None,
        time=hands_time(step.minutes),
        wait=as_sentence(_wait(step)) if step.wait > 0.0 else "",
        calculator=step.calculator,
        calculator_name=step_calculator(step.calculator) if step.calculator else "",
        is_calculated=step.calculator in {one.key for one in study.answered},
    )


def _to_grade(step: PlannedStep, study: JobStudy) -> str:
    """Which parts are graded at a step: those in the hand at which there is something to look at, and nobody has yet."""
    job = study.job
    if not study.plan.request.is_graded:
        return ""
    sheet = job.inspection.sheet(job.variation)
    done = {(one.part, one.look) for one in job.graded if one.number > job.after}
    left = {part: [look.name for look in sheet.looks.get(part, ()) if (part, look.key) not in done] for part in step.grades}
    said = [f"{study.plan.procedure.parts[part].name} ({', '.join(looks)})" for part, looks in left.items() if looks]
    return f"Grade in the hand: {'; '.join(said)}." if said else ""


def _alike(plan: Plan, step: PlannedStep) -> str:
    """What must be the same before and after; of a proof, only where there is a before."""
    if not step.alike:
        return ""
    alike = "; ".join(step.alike)
    if step.kind is StepKind.AS_FOUND:
        return f"Write down, for the proof afterwards: {alike}."
    first = next((one.number for one in plan.steps if one.kind is StepKind.AS_FOUND and one.key == step.key), None)
    if first is not None:
        return f"As in step {first}, or it does not compare: {alike}."
    return f"As in event {step.read_before}, or it does not compare: {alike}." if step.read_before is not None else ""


def _blank(procedure: Procedure, check: str) -> Blank:
    reading = procedure.checks[check].reading
    if reading is None:
        return Blank(choices=_PASSED_OR_NOT)
    each = ", ".join(one.label for one in procedure.checks[check].readings)
    has_limits = reading.low is not None or reading.high is not None
    limits = reading.band if has_limits else ""
    label = f"{capital(reading.label)} ({each})" if each else capital(reading.label)
    return Blank(label=label, unit=reading.unit, limits=limits, choices=_PASSED_OR_NOT)


def _on_paper(part: Answer, procedure: Procedure) -> Answer:
    """A reading as found is written into its table, and not beside its step; a method is named if there are others."""
    steps = []
    for step in part.steps:
        check = procedure.checks.get(step.key.partition(":")[2])
        has_others = check is not None and len(check.methods) > 1
        shown = step if has_others else replace(step, method="")
        is_found = step.kind == StepKind.AS_FOUND.value
        steps.append(replace(shown, how=f"{step.how} {_INTO_TABLE}".strip(), blank=None) if is_found else shown)
    return replace(part, steps=tuple(steps))


def _form(key: str, *heads: str) -> Table:
    """Lines to write upon, each with what belongs there."""
    return Table(key=key, columns=tuple(Column(head=head, by_hand="line") for head in heads), rows=(_empty(len(heads)),))


def _empty(count: int) -> tuple[Cell, ...]:
    return (Cell(text=""),) * count


def _found(plan: Plan, marks: SourceMarks) -> Iterator[tuple[Cell, ...]]:
    """The rows of the table of readings as found: step, what, limits, reading, remarks."""
    for step in plan.steps:
        if step.kind is StepKind.AS_FOUND:
            blank = _blank(plan.procedure, step.key)
            name = f"{plan.procedure.checks[step.key].name} {marks.of(step)}".strip()
            limits = Cell(text=blank.label, small=blank.limits)
            yield (
                Cell(text=str(step.number), is_strong=True),
                Cell(text=name, key=step.key),
                limits,
                Cell(text="", blank=blank),
                Cell(text=""),
            )
    for late in plan.too_late:
        name = plan.procedure.checks[late.check].name
        yield (
            Cell(text="–"),
            Cell(text=name, small=as_sentence(late.reason), key=late.check),
            Cell(text=""),
            Cell(text="too late"),
            Cell(text=""),
        )


def _found_table(rows: tuple[tuple[Cell, ...], ...]) -> Table:
    columns = (
        *(Column(head=head) for head in ("step", "what", "limits")),
        Column(head="read", by_hand="line"),
        Column(head="remarks", by_hand="line"),
    )
    return Table(key="as_found", columns=columns, rows=rows)


def _conditions() -> Answer:
    columns = (Column(head=""), *(Column(head=one, by_hand="line") for one in _CONDITIONS))
    rows = tuple((Cell(text=when, is_strong=True), *_empty(len(_CONDITIONS))) for when in ("before", "after"))
    alike = Sentence(key="alike", full="Before and after compare only if these are alike: write them down both times.")
    return Answer(key="conditions", title="", lead=(alike,), tables=(Table(key="conditions", columns=columns, rows=rows),))


def _shim_faces(study: JobStudy) -> Iterator[tuple[Cell, ...]]:
    """Which shim came from which face of which gear, if the plan comes near one."""
    plan = study.plan
    parts = {key: part for key, part in plan.procedure.parts.items() if part.is_labelled}
    if not any(part in parts or parts.keys() & plan.procedure.close((part,)) for part in _touched(plan)):
        return
    for key, part in parts.items():
        gear, shims, face = key.partition(_SHIMS)
        name, side = (gear, face) if shims else (part.name, "")
        lying = ", ".join(sorted(study.labels.get(key, ())))
        yield (
            Cell(text=name.replace("_", " "), is_strong=True, key=key),
            Cell(text=side.replace("_", " ")),
            Cell(text=lying) if lying else Cell(text="", small="not known"),
            *_empty(2),
        )


def _shim_map(rows: tuple[tuple[Cell, ...], ...]) -> Answer:
    said = "Each shim belongs to one face of one gear. Write down what came out, in its order, before anything is mixed."
    columns = (
        *(Column(head=head) for head in ("gear", "face", "by the log")),
        *(Column(head=head, by_hand="line") for head in ("came out", "goes in")),
    )
    table = Table(key="shim_map", columns=columns, rows=rows)
    return Answer(key="shim_map", title="Shim map", lead=(Sentence(key="shim_map", full=said),), tables=(table,))


def _touched(plan: Plan) -> Iterator[str]:
    for step in plan.steps:
        if step.kind is not StepKind.AS_FOUND:
            yield from (part for part, _ in plan.procedure.touches(step.step))
