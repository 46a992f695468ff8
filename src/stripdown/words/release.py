"""What is said of release: what keeps a gun on the bench, what its log should not have, what to tick before it leaves."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from stripdown.procedures.curing import TooSoon
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.standing import CheckStanding, Standing
from stripdown.procedures.steps import StepKind
from stripdown.studies.forbidden_touches import TouchLevel
from stripdown.studies.service_job import Block, BlockKind, JobStudy, LogFinding, Release
from stripdown.words.answer import Answer, Cell, Column, Sentence, Table
from stripdown.words.sentences import as_sentence, waiting_time
from stripdown.words.signs import SIGNS

_REMARK = Sentence(
    key="who_decides",
    full=(
        "This list is help for the technician. Whether the gun may be fired, and where, is decided by the site's own chronograph "
        "and marshal, by local rules and by the law."
    ),
)
REMARK = Answer(key="remark", title="", lead=(_REMARK,))
UNTIL = "It blocks release until it is replaced, or overridden with a reason."


def release_answer(study: JobStudy) -> Answer:
    """Say whether a gun may leave as it lies there, and what keeps it; the checks themselves stand in their own tables."""
    procedure, release = study.job.procedure, study.release
    others = [block for block in release.blocks if block.kind is not BlockKind.CHECK]
    count = len(release.blocks)
    if release.is_ready:
        verdict = "Nothing blocks release."
    elif release.blocks:
        verdict = f"Not ready to leave: {count} thing{'s' if count > 1 else ''} block{'' if count > 1 else 's'} release."
    else:
        verdict = "Nothing is proved: the log has no check that holds, so nothing says that the gun may leave."
    return Answer(
        key="release",
        title="Release",
        lead=(
            *finding_sentences(study.job.procedure_of_log, release.findings),
            *overridden_sentences(procedure, release),
            Sentence(key="verdict", full=verdict),
        ),
        notes=(*(block_sentence(procedure, block) for block in others), _REMARK),
    )


def release_sentences(study: JobStudy) -> Mapping[str, tuple[Sentence, ...]]:
    """What is said of each block, override and finding."""
    procedure, release = study.job.procedure, study.release
    return {
        "blocks": tuple(block_sentence(procedure, block) for block in release.blocks),
        "overridden": overridden_sentences(procedure, release),
        "findings": finding_sentences(study.job.procedure_of_log, release.findings),
    }


def open_at_release(study: JobStudy) -> Iterator[Answer]:
    """What the plan does not settle: rejects in the gun, checks that it leaves open, rejects that stay."""
    plan, release = study.plan, study.release
    procedure = plan.procedure
    rejects = [block_sentence(procedure, one) for one in release.blocks if one.kind is BlockKind.REJECT]
    if rejects:
        said = tuple(replace(one, full=f"{one.full} {UNTIL}") for one in rejects)
        yield Answer(key="rejects", title="Rejects that are still in the gun: they block release", notes=said)
    never = [key for key, one in plan.left_open.items() if one.standing is Standing.NEVER]
    others = [key for key in plan.left_open if key not in never]
    if others:
        yield Answer(key="left_open", title="", tables=(_checks(study, "not fresh: blocks release", others),))
    if never:
        rows = tuple(
            (Cell(text=procedure.checks[key].name, small=as_sentence(plan.left_open[key].reason), key=key),) for key in never
        )
        yield Answer(
            key="never_made",
            title="Never made, and not made by this plan either: blocks release until each is ticked",
            tables=(Table(key="never_made", columns=(Column(head=""),), rows=rows),),
        )
    if release.overridden:
        said = overridden_sentences(procedure, release)
        yield Answer(key="overridden", title="Rejects that stay in the gun, and why", notes=said)


def proved_at_release(study: JobStudy) -> Iterator[Answer]:
    """What the plan proves, and what it leaves alone."""
    plan, known = study.plan, study.job.known
    made = {step.key for step in plan.steps if step.kind is StepKind.MAKE}
    wanted = plan.procedure.release_list | frozenset(plan.request.wanted)
    listed = [key for key in plan.procedure.checks if key in wanted]
    if made & set(listed):
        proved = [key for key in listed if key in made]
        yield Answer(key="to_prove", title="", tables=(_checks(study, "to be proved", proved),))
    rest = [key for key in listed if key not in made and key not in plan.left_open]
    fresh = [key for key in rest if key in known and known[key].standing is Standing.FRESH]
    alone = {
        "undisturbed": ("Never made, and disturbed by neither log nor plan", [key for key in rest if key not in fresh]),
        "holding": ("Fresh, and left alone by this plan", fresh),
    }
    said = tuple(
        Sentence(key=key, full=f"{words}: {', '.join(plan.procedure.checks[one].name for one in checks)}.", about=tuple(checks))
        for key, (words, checks) in alone.items()
        if checks
    )
    if said:
        yield Answer(key="left_alone", title="", lead=said)


def block_sentence(procedure: Procedure, block: Block) -> Sentence:
    """Say what keeps a gun on the bench."""
    about = (block.key, *block.parts) if block.key else block.parts
    if block.kind is BlockKind.PARTS_OFF:
        names = ", ".join(procedure.parts[part].name for part in block.parts)
        return Sentence(key=block.kind.value, full=f"Not all is back: {names}.", about=about)
    if block.touch is not None:
        part = procedure.parts[block.touch.part]
        harmed = f"The {part.name} {part.was} touched by {block.touch.fluid} (event {block.event})"
        full = f"{harmed}, and neither looked at since nor replaced."
        return Sentence(key=block.kind.value, full=full, about=about)
    cause = block.standing or block.grade
    return Sentence(key=block.kind.value, full=as_sentence(cause.reason if cause is not None else ""), about=about)


def overridden_sentences(procedure: Procedure, release: Release) -> tuple[Sentence, ...]:
    """Say which rejects leave all the same, and on whose word."""
    return tuple(_overridden(procedure, block) for block in release.overridden)


def finding_sentences(procedure: Procedure, findings: Iterable[LogFinding]) -> tuple[Sentence, ...]:
    """Say what in the log should not be; what several parts have in common is said once."""
    return tuple({said.full: said for said in (_finding(procedure, one) for one in findings)}.values())


def _overridden(procedure: Procedure, block: Block) -> Sentence:
    said = block_sentence(procedure, block)
    who = "" if block.grade is None else block.grade.record.who
    full = f"{said.full.removesuffix('.')} ({who})." if who else said.full
    return Sentence(key="overridden", full=f"Overridden: {full}", about=said.about)


def _finding(procedure: Procedure, one: LogFinding) -> Sentence:
    level = one.level.value.capitalize()
    if one.touch is not None:
        work = " or ".join(f"{procedure.actions[key].name} [{key}]" for key in one.work)
        over = "" if one.level is not TouchLevel.ERROR else f" Look at it and grade it{f', or {work}' if work else ''}."
        return Sentence(key=one.kind.value, full=f"{level}: {one.touch.sentence}{over}", about=(one.touch.part, *one.work))
    if one.too_soon is not None:
        return _too_soon(procedure, level, one.too_soon)
    names = " and ".join(procedure.checks[guard].name for guard in one.guards)
    step = "" if one.step is None else procedure.named(one.step)
    said = f"{level}: Event {one.event}: {step}, and the log does not have this before it: {names}."
    return Sentence(key=one.kind.value, full=said, about=one.guards)


def _too_soon(procedure: Procedure, level: str, one: TooSoon) -> Sentence:
    """What did not wait; a making of it proves nothing."""
    action = procedure.actions[one.work]
    waited = f"{waiting_time(one.hours)} after event {one.since} ({action.name}), {action.wait_for}"
    said = f"{level}: Event {one.event}: {procedure.named(one.step)}, and by the log it did not wait {waited}."
    again = " Make it again when it has cured." if one.step.kind is StepKind.MAKE else ""
    return Sentence(key="too_soon", full=f"{said}{again}", about=(one.work, one.step.key))


def _checks(study: JobStudy, head: str, keys: list[str]) -> Table:
    """Checks by their sign, with how they stand, the steps that make them, and room to tick and sign."""
    plan, known = study.plan, study.job.known
    columns = (
        *(Column(head=words) for words in ("", head, "now", "step")),
        Column(head="fresh", by_hand="tick"),
        Column(head="initials", by_hand="line"),
    )
    rows = []
    for key in keys:
        standing = known[key].standing if key in known else Standing.NEVER
        steps = [str(step.number) for step in plan.steps if step.kind is StepKind.MAKE and step.key == key]
        rows.append(
            (
                Cell(text=SIGNS[standing].letter, key=standing.value),
                Cell(text=plan.procedure.checks[key].name, key=key),
                Cell(text=_stands(plan.procedure, key, known.get(key))),
                Cell(text=", ".join(steps) or "none", is_strong=bool(steps)),
                Cell(text=""),
                Cell(text=""),
            )
        )
    return Table(key="checks", columns=columns, rows=tuple(rows))


def _stands(procedure: Procedure, check: str, known: CheckStanding | None) -> str:
    """How a check stands, in a word and with the reason, which may begin with that word itself."""
    if known is None or known.standing is Standing.NEVER:
        return as_sentence(f"never {procedure.checks[check].proved}")
    if known.standing is Standing.FRESH:
        return "Fresh now; the plan undoes it."  # else it would not be made again
    word = known.standing.value
    return as_sentence(known.reason if known.reason.startswith(word) else f"{word}: {known.reason}")
