"""What is said of how the checks of a gun stand, and of what keeps it on the bench; terminal, sheet and picture share it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from stripdown.procedures.procedure import Procedure
from stripdown.procedures.standing import CheckStanding, Standing
from stripdown.studies.service_job import Block, BlockKind, JobStudy, LogFinding, Release
from stripdown.words.answer import Answer, Cell, Column, Sentence, Table
from stripdown.words.sentences import as_sentence

GRAPH_TITLE = "How the checks stand"
RELEASE_REMARK = Sentence(
    key="who_decides",
    full=(
        "This list is help for the technician. Whether the gun may be fired, and where, is decided by the site's own chronograph "
        "and marshal, by local rules and by the law."
    ),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sign:
    """How a standing is told: a letter for pictures, a mark that every keyboard has, and what it means."""

    letter: str
    mark: str
    words: str


SIGNS: Mapping[Standing, Sign] = MappingProxyType(
    {
        Standing.FRESH: Sign(letter="✓", mark="+", words="proved, and nothing has undone it since"),
        Standing.STALE: Sign(letter="↻", mark="~", words="proved once, and undone since: prove it again"),
        Standing.FAILED: Sign(letter="×", mark="x", words="did not pass when it was made last"),
        Standing.NEVER: Sign(letter="–", mark="-", words="not made yet"),
    }
)
_URGENT_FIRST = (Standing.FAILED, Standing.STALE, Standing.FRESH, Standing.NEVER)
_COLUMNS = (Column(head=""), Column(head=""))


def standing_answer(study: JobStudy, *, with_all: bool = False) -> Answer:
    """Say how every check of a job stands, and what blocks release."""
    known, release_list = study.job.known.values(), study.job.procedure.release_list
    never = [one for one in known if one.standing is Standing.NEVER]
    made = [one for one in known if one.standing is not Standing.NEVER]
    groups = {
        "on_the_list": ("On the release list", [one for one in made if one.check in release_list]),
        "besides": ("Besides", [one for one in made if one.check not in release_list]),
    }
    if with_all:
        groups["disturbed"] = ("Never made, and disturbed by what is in the log", [one for one in never if one.is_owed])
        groups["undisturbed"] = ("Never made, and disturbed by nothing in the log", [one for one in never if not one.is_owed])
    else:
        groups["disturbed"] = ("", [one for one in never if one.is_owed and one.check in release_list])
    parts = [
        Answer(key=key, title=title, tables=(_standings(study.job.procedure, some),)) if title else _named(study, key, some)
        for key, (title, some) in groups.items()
        if some
    ]
    return Answer(
        key="standing",
        title=study.job.title,
        lead=tuple(_head(study)),
        parts=(*parts, release_answer(study)),
        pictures=("standing",),
    )


def release_answer(study: JobStudy) -> Answer:
    """Say whether a gun may leave as it lies there, and what keeps it; the checks themselves stand in their own tables."""
    procedure, release = study.job.procedure, study.release
    others = [block for block in release.blocks if block.kind is not BlockKind.CHECK]
    count = len(release.blocks)
    verdict = (
        "Nothing blocks release."
        if release.is_ready
        else f"Not ready to leave: {count} thing{'s' if count > 1 else ''} block{'' if count > 1 else 's'} release."
    )
    return Answer(
        key="release",
        title="Release",
        lead=(
            *finding_sentences(procedure, release),
            *overridden_sentences(procedure, release),
            Sentence(key="verdict", full=verdict),
        ),
        notes=(*(block_sentence(procedure, block) for block in others), RELEASE_REMARK),
    )


def release_sentences(study: JobStudy) -> Mapping[str, tuple[Sentence, ...]]:
    """What is said of each block, override and finding."""
    procedure, release = study.job.procedure, study.release
    return {
        "blocks": tuple(block_sentence(procedure, block) for block in release.blocks),
        "overridden": overridden_sentences(procedure, release),
        "findings": finding_sentences(procedure, release),
    }


def gun_sentence(study: JobStudy) -> Sentence:
    """Say which gun it is, and whether it is made up."""
    made_up = " Gun and events are invented." if study.is_invented else ""
    return Sentence(key="gun", full=f"{study.job.gun_name or 'Gun'}: {study.job.variation.name}.{made_up}")


def block_sentence(procedure: Procedure, block: Block) -> Sentence:
    """Say what keeps a gun on the bench."""
    about = (block.key, *block.parts) if block.key else block.parts
    if block.kind is BlockKind.PARTS_OFF:
        names = ", ".join(procedure.parts[part].name for part in block.parts)
        return Sentence(key=block.kind.value, full=f"Not all is back: {names}.", about=about)
    cause = block.standing or block.grade
    return Sentence(key=block.kind.value, full=as_sentence(cause.reason if cause is not None else ""), about=about)


def overridden_sentences(procedure: Procedure, release: Release) -> tuple[Sentence, ...]:
    """Say which rejects leave all the same, and on whose word."""
    return tuple(_overridden(procedure, block) for block in release.overridden)


def _overridden(procedure: Procedure, block: Block) -> Sentence:
    said = block_sentence(procedure, block)
    who = "" if block.grade is None else block.grade.record.who
    full = f"{said.full.removesuffix('.')} ({who})." if who else said.full
    return Sentence(key="overridden", full=f"Overridden: {full}", about=said.about)


def finding_sentences(procedure: Procedure, release: Release) -> tuple[Sentence, ...]:
    """Say what in the log should not be; what several parts have in common is said once."""
    return tuple({said.full: said for said in (_finding(procedure, one) for one in release.findings)}.values())


def _finding(procedure: Procedure, one: LogFinding) -> Sentence:
    level = one.level.value.capitalize()
    if one.touch is not None:
        return Sentence(key=one.kind.value, full=f"{level}: {one.touch.sentence}", about=(one.touch.part,))
    names = " and ".join(procedure.checks[guard].name for guard in one.guards)
    step = "" if one.step is None else procedure.named(one.step)
    said = f"{level}: Event {one.event}: {step}, and the log does not have this before it: {names}."
    return Sentence(key=one.kind.value, full=said, about=one.guards)


def stands(procedure: Procedure, check: str, known: CheckStanding | None, *, is_to_prove: bool = True) -> str:
    """How a check stands, in a word and with the reason, which may begin with that word itself."""
    if known is None or known.standing is Standing.NEVER:
        return as_sentence(f"never {procedure.checks[check].proved}")
    if known.standing is Standing.FRESH and is_to_prove:
        return "Fresh now; the plan undoes it."  # else it would not be made again
    word = known.standing.value
    return as_sentence(known.reason if known.reason.startswith(word) else f"{word}: {known.reason}")


def standings_told(procedure: Procedure, signs: Mapping[str, Standing], *, title: str = GRAPH_TITLE) -> str:
    """The graph of checks in words, for who cannot see it."""
    groups = []
    for one in Standing:
        names = [procedure.checks[key].name for key, sign in signs.items() if sign is one]
        if names:
            groups.append(f"{one.value} ({len(names)}): {', '.join(names)}")
    return ". ".join([title, *groups])


def graph_key(
    standings: Collection[Standing], *, has_lines: bool, has_broken_lines: bool, has_boxes: bool
) -> tuple[tuple[str, str], ...]:
    """The lines of the key to the graph of checks: what each explains (a standing, "line", "box"), and the words."""
    lines = [
        (one.value, f"{one.value}: {sign.words} ({sum(other is one for other in standings)})") for one, sign in SIGNS.items()
    ]
    if has_lines:
        lines.append(("line", f"right rests on left{'; broken: the left one does not hold' if has_broken_lines else ''}"))
    if has_boxes:
        lines.append(("box", "to be made, or made again"))
    return tuple(lines)


def _head(study: JobStudy) -> Iterator[Sentence]:
    procedure = study.job.procedure
    yield gun_sentence(study)
    off = [key for key in procedure.parts if key in study.job.parts_off]
    if off:
        names = ", ".join(procedure.parts[part].name for part in off)
        yield Sentence(key="parts_off", full=f"Off now: {names}.", about=tuple(off))
    yield Sentence(key="signs", full=f"Signs: {', '.join(f'{SIGNS[one].mark} {one.value}' for one in _URGENT_FIRST)}.")


def _standings(procedure: Procedure, some: Iterable[CheckStanding]) -> Table:
    rows = [
        (
            Cell(text=f"{SIGNS[one.standing].mark} {one.standing.value}", key=one.standing.value),
            Cell(text=_told(procedure.checks[one.check].name, one.reason), key=one.check),
        )
        for one in sorted(some, key=lambda one: _URGENT_FIRST.index(one.standing))
    ]
    return Table(key="standings", columns=_COLUMNS, rows=tuple(rows))


def _named(study: JobStudy, key: str, some: Iterable[CheckStanding]) -> Answer:
    keys = tuple(one.check for one in some)
    names = "; ".join(study.job.procedure.checks[check].name for check in keys)
    said = f"{SIGNS[Standing.NEVER].mark} Never made, and disturbed by what is in the log: {names}."
    return Answer(key=key, title="", lead=(Sentence(key=key, full=said, about=keys),))


def _told(name: str, reason: str) -> str:
    """Name and reason, without saying the name twice."""
    start = f"the {name} "
    return f"{name} {reason[len(start) :]}" if reason.startswith(start) else f"{name}: {reason}"
