"""`stripdown log`: enter what was done, what failed, grades and remarks into a visit's log, and take the last answer back."""

from __future__ import annotations

import dataclasses
import datetime
from collections.abc import Callable, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Final

import click

from stripdown.bench.visit import Visit
from stripdown.cli.ending import Shown, end, shown_options
from stripdown.cli.examples import ExampleCommand
from stripdown.errors import InputError
from stripdown.files.visit import load_visit
from stripdown.files.visit_log import append_to_log
from stripdown.plain.log import entered_fields, log_fields
from stripdown.studies.service_job import study_job
from stripdown.studies.service_log import Entered, log_done, log_failed, log_graded, log_note, log_touched, log_undo
from stripdown.words.log import entered_answer, log_answer

_ACTS: Final = ("done", "failed", "touched", "graded", "note", "undo")


@click.command(
    cls=ExampleCommand,
    examples=[
        "stripdown log my_visit done 1-12",
        'stripdown log my_visit done 13-15 "0.10 mm" 16',
        'stripdown log my_visit failed 13 "13 N"',
        'stripdown log my_visit done "bond the bevel gear\'s left bearing"',
        "stripdown log my_visit graded piston pick_up_tooth watch",
        'stripdown log my_visit touched "piston ring" replace',
        'stripdown log my_visit note "grip screw was loose"',
        "stripdown log my_visit undo",
        "stripdown log my_visit",
    ],
)
@click.argument("where", metavar="WHERE", type=click.Path(path_type=Path))
@click.argument("act", metavar="[ACT]", required=False, type=click.Choice(_ACTS))
@click.argument("words", metavar="[WORDS]...", nargs=-1)
@click.option("--who", default="", envvar="STRIPDOWN_WHO", show_envvar=True, metavar="NAME", help="Who did it.")
@click.option("--when", metavar="DAY", help='Day or moment, if it is not now: 2026-05-03, "2026-05-03 14:30".')
@click.option(
    "--after",
    type=click.IntRange(min=0),
    metavar="NUMBER",
    help="For what was forgotten, done or failed: the entry after which it happened, 0 for before the first.",
)
@click.option("--how", is_flag=True, help="Also say how each of the next steps is done.")
@shown_options()
def log(
    where: Path,
    act: str | None,
    *,
    words: tuple[str, ...],
    who: str,
    when: str | None,
    after: int | None,
    how: bool,
    shown: Shown,
) -> None:
    """Enter into the log of a visit, and say what comes next: ACT is done, failed, touched, graded, note or undo; or list it.

    WHERE is the folder of a visit (docs/visit-folder.md), or a job file. Steps are named by their numbers in the plan as printed
    last (1-12), by key or in words; behind a step stands what was read there. undo takes the last answer back as a whole. What is
    in the file stays as it is; what cannot have happened is refused, and nothing is entered then.
    """
    visit = load_visit(where)
    how_shown = dataclasses.replace(shown, in_full=frozenset({"how"} if how else ()))
    if act is None:
        study = study_job(visit)
        end(how_shown, answer=lambda: log_answer(study), plain=lambda: log_fields(study))
        return
    moment = datetime.datetime.now().astimezone() if when is None else _moment(when)
    if act in {"done", "failed"}:
        happened = None if when is None and after is not None else moment  # of what was forgotten nobody knows the hour
        found = (log_done if act == "done" else log_failed)(visit, words, when=happened, who=who, after=after)
    elif after is not None:
        raise InputError(f"--after means nothing for {act}.", field="--after", value=after, hint="It is for done and failed.")
    else:
        found = _ENTER[act](visit, words, moment, who)
    append_to_log(where, found.events, found.grades)
    end(
        how_shown,
        answer=lambda: entered_answer(found),
        plain=lambda: entered_fields(found),
    )


def _touched(visit: Visit, words: tuple[str, ...], when: datetime.date, who: str) -> Entered:
    if len(words) < 2:
        hint = 'Write a part and how it was touched: touched "piston ring" replace.'
        raise InputError("touched says too little.", field="WORDS", value=" ".join(words), hint=hint)
    return log_touched(visit, words[0], words[1], " ".join(words[2:]), when=when, who=who)


def _graded(visit: Visit, words: tuple[str, ...], when: datetime.date, who: str) -> Entered:
    if not words:
        hint = "Write a part, what was looked at, and its grade: graded piston pick_up_tooth watch."
        raise InputError("graded says too little.", field="WORDS", hint=hint)
    return log_graded(visit, words[0], words[1:], when=when, who=who)


def _undo(visit: Visit, words: tuple[str, ...], when: datetime.date, who: str) -> Entered:
    if words:
        hint = "It takes back the last answer, whatever it was: write undo alone."
        raise InputError("undo takes no words.", field="WORDS", value=" ".join(words), hint=hint)
    return log_undo(visit, when=when, who=who)


_ENTER: Final[Mapping[str, Callable[[Visit, tuple[str, ...], datetime.date, str], Entered]]] = MappingProxyType(
    {
        "touched": _touched,
        "graded": _graded,
        "note": lambda visit, words, when, who: log_note(visit, " ".join(words), when=when, who=who),
        "undo": _undo,
    }
)


def _moment(typed: str) -> datetime.date:
    """A day, or a moment by the clock of this computer where it names no offset."""
    try:
        return datetime.date.fromisoformat(typed.strip())
    except ValueError:
        pass
    try:
        return datetime.datetime.fromisoformat(typed.strip()).astimezone()
    except ValueError:
        hint = "Write it as 2026-05-03, or 2026-05-03 14:30."
        raise InputError(f'--when: "{typed}" is no day.', field="--when", value=typed, hint=hint) from None
