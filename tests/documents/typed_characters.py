"""How much somebody types for a full service of a version 2 gun: by `stripdown log`, and as events written by hand.

Called by ``make docs``; it puts both counts into docs/visit-folder.md. Each command enters what the last answer printed as next,
with what a reading of it needs; the readings are made up.
"""

from __future__ import annotations

import datetime
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import takewhile
from pathlib import Path

from stripdown.bench.visit import Visit
from stripdown.files.toml_text import list_entry
from stripdown.files.visit import load_visit
from stripdown.files.visit_log import append_to_log
from stripdown.files.visit_template import visit_template
from stripdown.procedures.plan import Plan, PlannedStep
from stripdown.procedures.steps import StepKind
from stripdown.studies.service_job import study_job
from stripdown.studies.service_log import log_done
from stripdown.words.log import next_go

_FOLDER = "rack7"
_DAY = datetime.date(2026, 5, 3)
_START, _END = "<!-- typed -->", "<!-- end -->"


@dataclass(frozen=True)
class Typed:
    """What was counted."""

    steps: int
    commands: tuple[str, ...]
    by_hand: str

    @property
    def characters(self) -> int:
        """Characters of all commands, each with its Enter."""
        return sum(len(command) + 1 for command in self.commands)


def count(*, by_place: bool = False) -> Typed:
    """Do a full service as it is printed, go by go or a place at a time, and write the same log by hand."""
    commands = [f'stripdown visit new {_FOLDER} --variation "version 2" --job "full service"']
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / _FOLDER
        place.mkdir()
        for name, text in visit_template(variation="version 2", job="full service").items():
            (place / name).write_text(text, encoding="utf-8")
        visit = load_visit(place)
        plan = study_job(visit).plan
        steps = len(plan.steps)
        while plan.steps:
            answers = list(answers_to(plan, _at_one_place(plan) if by_place else next_go(plan)))
            entered = log_done(visit, answers, when=_DAY)
            append_to_log(place, entered.events)
            commands.append(f"stripdown log {_FOLDER} done {' '.join(_shell(one) for one in answers)}")
            visit, plan = entered.study.job, entered.study.plan
        assert load_visit(place).events == visit.events
    return Typed(steps=steps, commands=tuple(commands), by_hand="\n".join(_by_hand(visit)))


def _at_one_place(plan: Plan) -> list[PlannedStep]:
    return list(takewhile(lambda step: step.place == plan.steps[0].place, plan.steps))


def answers_to(plan: Plan, go: list[PlannedStep]) -> Iterator[str]:
    """The numbers of the next steps, and behind a check what its number is."""
    first = 1
    for step in go:
        check = plan.procedure.checks[step.key] if step.kind in {StepKind.MAKE, StepKind.AS_FOUND} else None
        if check is None or check.reading is None:
            continue
        yield f"{first}-{step.number}" if first < step.number else str(step.number)
        value = check.reading.low if check.reading.high is None else check.reading.high
        yield f"{1.0 if value is None else value:g} {check.reading.unit}"
        first = step.number + 1
    last = go[-1].number
    if first <= last:
        yield f"{first}-{last}" if first < last else str(last)


def _shell(answer: str) -> str:
    return f'"{answer}"' if " " in answer else answer


def _by_hand(visit: Visit) -> Iterator[str]:
    """The events as somebody had to write them before."""
    yield '[visit]\ntitle = "Rack 7"\n\n[variation]\nlayout = "version 2"\n\n[request]\njob = "full service"\n'
    for event in visit.events:
        said = {
            "number": event.number,
            "when": event.when,
            "action": event.action,
            "check": event.check,
            "part": event.part,
            "kind": event.kind,
            "value": event.value,
            "passed": event.passed,
        }
        yield from (*list_entry("event", {name: value for name, value in said.items() if value is not None}), "")


def sentence(go_by_go: Typed, by_place: Typed) -> str:
    """What the page says."""
    return (
        f"A full service of a version 2 gun has {go_by_go.steps} steps. Entered go by go, as they are printed, they take "
        f"{len(go_by_go.commands)} commands of {go_by_go.characters} characters in all ({_each(go_by_go, go_by_go.characters)} a "
        f"step); a place at a time {len(by_place.commands)} commands of {by_place.characters} "
        f"({_each(by_place, by_place.characters)}). The same log written by hand has {len(go_by_go.by_hand)} "
        f"({_each(go_by_go, len(go_by_go.by_hand))} a step)."
    )


def _each(typed: Typed, characters: int) -> str:
    return f"{characters / typed.steps:.0f}"


def page(text: str, said: str) -> str:
    """The page with the counts between their marks."""
    before, _, rest = text.partition(_START)
    _, _, after = rest.partition(_END)
    return f"{before}{_START}\n{said}\n{_END}{after}"


if __name__ == "__main__":
    target = Path(sys.argv[1])
    told = sentence(count(), count(by_place=True))
    target.write_text(page(target.read_text(encoding="utf-8"), told), encoding="utf-8")
