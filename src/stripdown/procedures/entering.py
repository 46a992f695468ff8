"""What a technician answers, in few words, becomes events: steps of the plan by number or by name, each with what was read."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from stripdown.errors import InputError
from stripdown.procedures.checks import Check
from stripdown.procedures.events import AS_FOUND, Event, read_event
from stripdown.procedures.grading import GradeRecord, read_grades
from stripdown.procedures.inspection import InspectionSheet
from stripdown.procedures.looks import Grade
from stripdown.procedures.names import named_steps, part_named, step_named
from stripdown.procedures.plan import Plan
from stripdown.procedures.steps import Step, StepKind
from stripdown.tables.nearest import nearest_entry, plain_words

_NUMBERS = re.compile(r"\d+(?:\s*[-–]\s*\d+)?(?:\s*,\s*\d+(?:\s*[-–]\s*\d+)?)*")
_SAID = re.compile(r"(?P<field>string|note)\s*=\s*(?P<text>.+)", re.DOTALL)
_ON = re.compile(r"\s+on\s+", re.IGNORECASE)
_CHECKS = frozenset({StepKind.MAKE, StepKind.AS_FOUND})


@dataclass(frozen=True, slots=True)
class Moment:
    """When something was entered, by whom, and under which number.

    Parameters
    ----------
    number
        The first number that is free.
    when
        Day or moment; None if nobody said.
    who
        Who did it.
    after
        Of a late entry, number of the event after which it happened; zero for before the first, None if it is in time.
    """

    number: int
    when: datetime.date | None = None
    who: str = ""
    after: int | None = None


@dataclass(frozen=True, slots=True)
class _Answer:
    """A step, what was read or used, and what else was said of it."""

    step: Step
    values: tuple[str, ...] = ()
    said: tuple[tuple[str, str], ...] = ()

    @property
    def value(self) -> str:
        """All that was read or used, in one text."""
        return " ".join(self.values)


def done(plan: Plan, answers: Sequence[str], moment: Moment, *, has_failed: bool = False) -> tuple[Event, ...]:
    """Events for steps that were done, or checks that failed: numbers of the plan, or names; a value stands behind its step."""
    found = tuple(_answers(plan, answers))
    if not found:
        hint = "Write numbers of the plan, as 1-12, or the words of a step."
        raise InputError("no step was named.", field="step", hint=hint)
    fields = [_fields(plan, answer, has_failed=has_failed) for answer in found]
    return _numbered(fields, moment)


def remark(text: str, moment: Moment) -> tuple[Event, ...]:
    """An event that only says something."""
    if not text.strip():
        raise InputError("the note is empty.", field="note", hint="Write what you saw, in quotes.")
    return _numbered([{"note": text.strip()}], moment)


def touch(plan: Plan, part: str, kind: str, value: str, moment: Moment) -> tuple[Event, ...]:
    """An event that tells how a part was touched, and with what."""
    named = part_named(plan.procedure, part)
    plan.procedure.part(named)
    used = _used(plan, value, frozenset({named})) if value else {}
    return _numbered([{"part": named, "kind": kind, **used}], moment)


def graded(
    sheet: InspectionSheet, given: Iterable[GradeRecord], parts: str, words: Sequence[str], moment: Moment
) -> tuple[GradeRecord, ...]:
    """Grades of one look at a part, or of each that has none yet: a grade or what was measured, and what else was seen."""
    named = sheet.parts_named(parts)
    if not words:
        raise InputError("no grade was given.", field="grade", hint=f"Write {', '.join(one.value for one in Grade)}, or a value.")
    said, *rest = words
    known = {one.value: one for one in Grade}
    already = {(record.part, record.look) for record in given}
    if said in known:
        looks = [(part.key, look.key) for part in named for look in sheet.looks[part.key] if (part.key, look.key) not in already]
        if not looks:
            raise InputError(
                f'"{parts}" was graded at every look already.', field="part", hint="Name the look to grade it again."
            )
    else:
        looks = [(part.key, _look(sheet, part.key, said)) for part in named]
        if not rest:
            raise InputError(f'no grade was given for "{said}".', field="grade", hint=f"Write {', '.join(known)}, or a value.")
        said, *rest = rest
    outcome = {"grade": said} if said in known else {"value": said}
    shared = {name: one for name, one in (("when", moment.when), ("who", moment.who), ("note", " ".join(rest))) if one}
    return read_grades(
        {"number": number, **shared, "part": part, "look": look, **outcome, **_act(number, moment)}
        for number, (part, look) in enumerate(looks, start=moment.number)
    )


def _look(sheet: InspectionSheet, part: str, words: str) -> str:
    """Key of the look that is called so."""
    looks = {look.key: look.name for look in sheet.looks[part]}
    called = [key for key, name in looks.items() if plain_words(words) in {plain_words(key), plain_words(name)}]
    if len(called) != 1:
        name = sheet.procedure.parts[part].name
        raise InputError(f'"{words}" is no look at the {name}.', field="look", value=words, hint=nearest_entry(words, looks))
    return called[0]


def undone(events: Sequence[Event], grades: Sequence[GradeRecord], moment: Moment) -> tuple[Event, ...]:
    """Events that take back the last act whole: all that one answer entered, the last of it first."""
    gone = {event.supersedes for event in events if event.supersedes is not None}
    acts: dict[int, list[int]] = {}
    entries: list[Event | GradeRecord] = [*events, *grades]
    for one in entries:
        if one.number not in gone and not (isinstance(one, Event) and one.is_withdrawal):
            acts.setdefault(one.number if one.act is None else one.act, []).append(one.number)
    if not acts:
        raise InputError("there is nothing to take back: the log is empty.", field="undo")
    last = max(acts.values(), key=max)
    return _numbered([{"supersedes": number} for number in sorted(last, reverse=True)], moment)


def _numbered(fields: Iterable[Mapping[str, Any]], moment: Moment) -> tuple[Event, ...]:
    shared: dict[str, Any] = {name: said for name, said in (("when", moment.when), ("who", moment.who)) if said}
    if moment.after is not None:
        shared["after"] = moment.after
    return tuple(
        read_event({"number": number, **shared, **one, **_act(number, moment)}, position=number)
        for number, one in enumerate(fields, start=moment.number)
    )


def _act(number: int, moment: Moment) -> dict[str, int]:
    """What joins an entry with the first of its act, which is its own."""
    return {} if number == moment.number else {"act": moment.number}


def _answers(plan: Plan, answers: Sequence[str]) -> Iterator[_Answer]:
    """Steps in the order in which they were named, each with what stands behind it."""
    open_: _Answer | None = None  # the step for which a value may follow
    for typed in answers:
        words = typed.strip()
        field = _SAID.fullmatch(words)
        if _NUMBERS.fullmatch(words):
            steps = [Step(step.kind, step.key) for number in _listed(words) for step in [_numbered_step(plan, number)]]
        elif open_ is not None and field is not None:
            open_ = replace(open_, said=(*open_.said, (field["field"], field["text"].strip())))
            continue
        elif (step := _step(plan, words)) is not None:
            steps = [step]
        elif open_ is not None and len(open_.values) < _most_values(plan, open_.step):
            open_ = replace(open_, values=(*open_.values, words))
            continue
        else:
            raise _no_step(plan, words)
        if open_ is not None:
            yield open_
        *whole, last = steps
        yield from (_Answer(step) for step in whole)
        open_ = _Answer(last)
    if open_ is not None:
        yield open_


def _most_values(plan: Plan, step: Step) -> int:
    """How many values may stand behind a step: one, or as many as its check reads."""
    return max(len(plan.procedure.checks[step.key].readings), 1) if step.kind in _CHECKS else 1


def _listed(words: str) -> Iterator[int]:
    """Numbers of a list such as ``1-12, 14``."""
    for one in re.split(r"\s*,\s*", words):
        first, _, last = re.sub(r"\s*[-–]\s*", "-", one).partition("-")
        if last and int(last) < int(first):
            raise InputError(f'"{one}" runs backwards.', field="step", value=one, hint=f"Write {last}-{first}.")
        yield from (
            range(int(first), int(last or first) + 1) if int(last or first) - int(first) < 10**4 else (int(first), int(last))
        )


def _numbered_step(plan: Plan, number: int) -> Step:
    if not 1 <= number <= len(plan.steps):
        count = len(plan.steps)
        hint = f"Its steps are 1 to {count}, as printed now." if count else "Nothing is left to do in it."
        raise InputError(f"the plan has no step {number}.", field="step", value=number, hint=hint)
    return plan.steps[number - 1].step


def _step(plan: Plan, words: str) -> Step | None:
    """A step by its words: one of the plan if it has one that is called so, else any that this gun knows."""
    called = step_named(plan.procedure, words)
    is_said_found = plain_words(words).startswith(plain_words(AS_FOUND))
    if called is None or called.kind not in _CHECKS or (is_said_found and called.kind is StepKind.AS_FOUND):
        return called
    same = [step.step for step in plan.steps if step.kind in _CHECKS and step.key == called.key]
    return called if called in same or not same else same[0]


def _no_step(plan: Plan, words: str) -> InputError:
    here = {step.step.name: step.name for step in plan.steps}
    hint = nearest_entry(words, {**here, **{key: name for key, name in named_steps(plan.procedure).items() if key not in here}})
    return InputError(f'no step of this gun is called "{words}".', field="step", value=words, hint=hint)


def _fields(plan: Plan, answer: _Answer, *, has_failed: bool) -> dict[str, Any]:
    """The fields of the event that an answer makes."""
    step, said = answer.step, dict(answer.said)
    if step.kind in _CHECKS:
        check = plan.procedure.checks[step.key]
        kind = {"kind": AS_FOUND} if step.kind is StepKind.AS_FOUND else {}
        return {"check": step.key, **kind, **_outcome(plan, check, answer, has_failed=has_failed), **said}
    if has_failed:
        hint = "Write done, or a note; a check can fail."
        raise InputError(
            f'"{plan.procedure.named(step)}" is no check, and cannot fail.', field="step", value=str(step), hint=hint
        )
    if "string" in said:
        raise InputError(f'"{plan.procedure.named(step)}" is no check: a string proves none.', field="string", value=str(step))
    if step.kind is StepKind.DO:
        touched = frozenset(part for part, _ in plan.procedure.touches(step))
        return {"action": step.key, **(_used(plan, answer.value, touched) if answer.value else {}), **said}
    is_labelled = plan.procedure.parts[step.key].is_labelled
    value = {("value" if is_labelled else "note"): answer.value} if answer.value else {}
    return {"action": step.kind.value, "part": step.key, **value, **said}


def _outcome(plan: Plan, check: Check, answer: _Answer, *, has_failed: bool) -> dict[str, Any]:
    """What was read, or only whether it passed; a number that decides is asked for."""
    if check.reading is None:
        return {"passed": not has_failed, **({"note": answer.value} if answer.value else {})}
    if len(answer.values) > 1:
        return _several(check, answer, has_failed=has_failed)
    has_limits = check.reading.low is not None or check.reading.high is not None
    if answer.value:
        return {"value": answer.value, **({} if has_limits and not has_failed else {"passed": not has_failed})}
    if has_failed:
        return {"passed": False}
    number = next((f"{one.number} " for one in plan.steps if one.step == answer.step), "")
    each = " ".join([f'"… {check.reading.unit}"'] * max(len(check.readings), 1))
    hint = f"Write the reading behind it: {number}{each}. Nothing was entered."
    raise InputError(
        f'"{plan.procedure.named(answer.step)}" wants its {check.reading.label} ({check.reading.band}).',
        field="value",
        value=str(answer.step),
        hint=hint,
    )


def _several(check: Check, answer: _Answer, *, has_failed: bool) -> dict[str, Any]:
    """Several readings of one check, in the order in which it names them."""
    names = ", ".join(one.label for one in check.readings)
    if len(answer.values) != len(check.readings):
        message = f'"{check.name}" has {len(check.readings)} readings ({names}), and {len(answer.values)} were given.'
        raise InputError(
            message, field="value", value=answer.value, hint="Give all of them in that order, or the judged one alone."
        )
    readings = {one.key: value for one, value in zip(check.readings, answer.values, strict=True)}
    return {"readings": readings, **({"passed": False} if has_failed else {})}


def _used(plan: Plan, value: str, touched: frozenset[str]) -> dict[str, Any]:
    """What was used, as one value; or several fluids, each with its parts: "water on piston; alcohol on cylinder"."""
    fluids = []
    for one in value.split(";"):
        fluid, *parts = _ON.split(one.strip(), maxsplit=1)
        named = [part_named(plan.procedure, part.strip()) for part in re.split(r",| and ", parts[0])] if parts else []
        if not fluid or not named or not set(named) <= touched:
            return {"value": value}
        fluids.append({"fluid": fluid, "parts": named})
    return {"fluids": fluids}
