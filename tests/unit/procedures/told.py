"""Reads the scenarios whose answers were written by hand, and asks the program for its own: only what it offers to everybody.

What a field of a scenario means stands at the head of each file of scenarios; one function below asks for each. What no scenario
can know is asked for under these names, each in one place: `stripdown.api.Arrival` and `arrival=`, `Method.fires`, `Plan.becomes`
(feature to choice), `Plan.wait_hours`, `PlannedStep.grades` (parts), `.seen`, `.short`, `.cautions[].harm`, `Check.readings`.
"""

from __future__ import annotations

import dataclasses
import datetime
import functools
import inspect
import itertools
import json
import re
import tempfile
import tomllib
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fnmatch import fnmatch
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

import stripdown.api
from stripdown.cli.main import main
from stripdown.errors import InputError
from stripdown.procedures.checks import Method
from stripdown.procedures.loading import load_procedures
from stripdown.procedures.plan import Plan, PlannedStep, plan
from stripdown.procedures.standing import CheckStanding, Standing, standing
from stripdown.procedures.steps import StepKind

FOLDER = Path(__file__).parent
FILES = ("energy", "as_found", "waits", "hands", "becomes")
UNDER_POWER = frozenset(
    {
        "do:settle_spring",
        "make:feeding",
        "make:first_cycles",
        "make:first_power",
        "make:hop_zero",
        "make:motor_height",
        "make:oil_shot_out",
        "make:over_spin",
        "make:pad_settled",
        "make:rate_and_current",
        "make:rubber_run_in",
        "make:second_proof",
        "make:selector_function",
        "make:sound",
        "make:string_automatic",
        "make:string_hop_off",
        "make:string_hop_set",
    }
)
"""Steps that run the gun whatever the method, written by hand and not taken from the data."""


_BEGAN = datetime.datetime(2026, 5, 4, 9, 0, tzinfo=datetime.timezone(datetime.timedelta(hours=2)))
"""When a work that cures was done, in the scenarios that carry a plan out."""


@dataclass(frozen=True)
class Told:
    """One scenario on one gun, and what the program is asked for it."""

    scenario: Mapping[str, Any]
    variation: tuple[str, ...]
    name: str

    @functools.cached_property
    def events(self) -> tuple[Mapping[str, Any], ...]:
        """The log: of a gun that was proved whole, or blank; then the scenario's own events."""
        log = [*(proved_log(self.variation) if self.scenario.get("log", "proved") == "proved" else ())]
        failing = self.scenario.get("failing", ())
        log = [{**event, "passed": False} if event.get("check") in failing else event for event in log]
        own = list(self.scenario.get("events", ()))
        log += [{"number": number, **event} for number, event in enumerate(own, start=len(log) + 1)]
        return (*log, *_carried(self, log)) if "carried" in self.scenario else tuple(log)

    @functools.cached_property
    def request(self) -> Mapping[str, Any]:
        """What is asked for, with what the named job asks for."""
        job = load_procedures().named_job(self.scenario["job"], self.variation) if "job" in self.scenario else None
        return {
            field: [*(getattr(job, field) if job else ()), *self.scenario.get(field, ())]
            for field in ("work", "wanted", "as_found")
        }

    @functools.cached_property
    def plan(self) -> Plan:
        """The program's plan."""
        return plan(
            load_procedures(),
            events=self.events,
            variation=self.variation,
            **self.request,
            **_arrival(self.scenario, self.variation, plan),
        )

    @functools.cached_property
    def now(self) -> Mapping[str, CheckStanding]:
        """How every check stands, by the program."""
        return standing(
            load_procedures(), self.events, variation=self.variation, **_arrival(self.scenario, self.variation, standing)
        )

    @functools.cached_property
    def judged(self) -> Mapping[str, Any]:
        """What `standing` prints as data of a job with that log."""
        choices = load_procedures().variation(self.variation).choices
        lines = ["[job]", 'title = "A gun"', "[variation]", *_fields(choices)]
        if "arrival" in self.scenario:
            said = _said_arrival(self.scenario, self.variation)
            lines += ["[arrival]", *_fields(said)] if said.keys() - {"off"} else ["[start]", *_fields({"parts_off": said["off"]})]
        for event in self.events:
            lines += ["[[event]]", *_fields(event)]
        with tempfile.TemporaryDirectory() as folder:
            file = Path(folder, "job.toml")
            file.write_text("\n".join(lines) + "\n", encoding="utf-8")
            answer = CliRunner().invoke(main, ["standing", str(file), "--json"])
        assert answer.exit_code == 0, answer.output
        judged: Mapping[str, Any] = json.loads(answer.stdout)
        return judged

    @functools.cached_property
    def steps(self) -> list[str]:
        """The plan's steps, each as its kind and key."""
        return [str(step.step) for step in self.plan.steps]

    def step(self, name: str) -> PlannedStep:
        """The plan's first step of that name."""
        assert name in self.steps, f"the plan has no step {name}"
        return self.plan.steps[self.steps.index(name)]


def read() -> list[Told]:
    """Every scenario of the five files, once for each gun for which it holds."""
    told = []
    for file in FILES:
        for scenario in tomllib.loads((FOLDER / f"{file}_scenarios.toml").read_text(encoding="utf-8"))["scenario"]:
            guns = scenario.get("variations") or [scenario["variation"]]
            for job, (number, gun) in itertools.product(scenario.get("jobs", [""]), enumerate(guns, start=1)):
                name = "-".join([scenario["key"], *([job] if job else []), *([str(number)] if len(guns) > 1 else [])])
                told.append(Told({**scenario, "job": job} if job else scenario, tuple(gun), name))
    return told


@functools.cache
def proved_log(variation: tuple[str, ...]) -> tuple[Mapping[str, Any], ...]:
    """The log of a gun on which every check but the guards was made and passed: a plan for all of them, carried out."""
    procedures = load_procedures()
    procedure = procedures.procedure(variation)
    whole = plan(procedures, wanted=set(procedure.checks) - procedure.guards, variation=variation)
    events = (_event(step.kind, step.key) for step in whole.steps if step.kind is not StepKind.AS_FOUND)
    return tuple({"number": number, **event} for number, event in enumerate(events, start=1))


def _carried(told: Told, log: Sequence[Mapping[str, Any]]) -> Iterator[dict[str, Any]]:
    """What is entered when the plan for the request is carried out as `carried` says."""
    said = told.scenario["carried"]
    procedures = load_procedures()
    whole = plan(
        procedures, events=log, variation=told.variation, **told.request, **_arrival(told.scenario, told.variation, plan)
    )
    steps = [step for step in whole.steps if step.kind is not StepKind.AS_FOUND]
    last = max(place for place, step in enumerate(steps) if fnmatch(str(step.step), said["upto"]))
    moment = _BEGAN
    for number, step in enumerate(steps[: last + 1], start=len(log) + 1):
        when = moment.date() if said.get("days") else moment
        event = {"number": number, **_event(step.kind, step.key), "when": when}
        if fnmatch(str(step.step), said["from"]):
            event |= {"value": said["value"]} if "value" in said else {}
            moment = _BEGAN + datetime.timedelta(hours=said.get("hours", 0))
        yield event


def _event(kind: StepKind, key: str) -> dict[str, Any]:
    if kind in {StepKind.TAKE_OFF, StepKind.PUT_BACK}:
        return {"action": kind.value, "part": key}
    return {"check": key, "passed": True} if kind is StepKind.MAKE else {"action": key}


def _said_arrival(scenario: Mapping[str, Any], variation: tuple[str, ...]) -> dict[str, Any]:
    said = dict(scenario.get("arrival", {}))
    if "down_to" in said:
        procedure = load_procedures().procedure(variation)
        said["off"] = sorted({*said.get("off", ()), *procedure.close([said.pop("down_to")])})
    return said


def _arrival(scenario: Mapping[str, Any], variation: tuple[str, ...], asked: Callable[..., Any]) -> dict[str, Any]:
    """How the gun came, as the program takes it."""
    said = _said_arrival(scenario, variation)
    if not said:
        return {}
    if "arrival" not in inspect.signature(asked).parameters:
        assert not {"ran", "troubles"} & said.keys(), "the program cannot be told how the gun arrived"
        return {"parts_off": said["off"]}
    fields: dict[str, Any] = {field: tuple(value) if isinstance(value, list) else value for field, value in said.items()}
    return {"arrival": stripdown.api.Arrival(**fields)}


def fires(step: PlannedStep, told: Told) -> bool:
    """Whether a step runs the gun under power: by the list above, or by what the data says of check, work and method."""
    procedure = told.plan.procedure
    entry = {StepKind.DO: procedure.actions, StepKind.MAKE: procedure.checks, StepKind.AS_FOUND: procedure.checks}
    where = entry.get(step.kind, {}).get(step.key)
    name = f"make:{step.key}" if step.kind is StepKind.AS_FOUND else str(step.step)
    return name in UNDER_POWER or bool(getattr(where, "fires", "")) or bool(getattr(step.method, "fires", ""))


def _hours_waited(made: Plan) -> float:
    """Hours that the waits of a plan take when those that can run side by side do."""
    return float(made.wait_hours)  # type: ignore[attr-defined,unused-ignore]


def _not_before(step: PlannedStep) -> str:
    """What a step says of a wait that is not over; empty if it may be done now."""
    return str(step.not_before)


def _found(word: str, text: str) -> bool:
    return re.search(word, text, re.IGNORECASE) is not None


def _texts(step: PlannedStep) -> str:
    return "\n".join([step.name, step.how, *map(str, step.cautions), str(step.expect)])


def _matching(told: Told, pattern: str) -> Iterator[PlannedStep]:
    return (step for step in told.plan.steps if fnmatch(str(step.step), pattern))


def _unknown(told: Told, keys: Iterable[str]) -> list[str]:
    return sorted({key for key in keys if key not in told.plan.procedure.checks})


# One function for each field of an answer: what the scenario says, against what the program says.


def _touch(told: Told, _: object) -> None:
    procedure = load_procedures().procedure(told.variation)
    spoiled = procedure.spoiled_by((part, stripdown.api.Touch(kind)) for part, kind in told.scenario["touch"])
    assert set(told.scenario.get("stale", ())) - spoiled == set()
    assert set(told.scenario.get("fresh", ())) & spoiled == set()
    assert {*told.scenario.get("stale", ()), *told.scenario.get("fresh", ())} <= procedure.checks.keys()


def _stands(told: Told, keys: Sequence[str], want: Standing) -> None:
    if "touch" not in told.scenario:
        assert {key: told.now[key].standing for key in keys} == dict.fromkeys(keys, want)


def _makes(told: Told, keys: Sequence[str]) -> None:
    assert [key for key in keys if f"make:{key}" not in told.steps] == []


def _leaves(told: Told, keys: Sequence[str]) -> None:
    assert [key for key in keys if f"make:{key}" in told.steps] == []


def _order(told: Told, chains: Sequence[Sequence[str]]) -> None:
    for chain in chains:
        assert [name for name in chain if name not in told.steps] == []
        places = [told.steps.index(name) for name in chain]
        assert places == sorted(places), f"not in order: {sorted(zip(places, chain, strict=True))}"


def _without(told: Told, patterns: Sequence[str]) -> None:
    assert [str(step.step) for pattern in patterns for step in _matching(told, pattern)] == []


def _has(told: Told, patterns: Sequence[str]) -> None:
    assert [pattern for pattern in patterns if not any(_matching(told, pattern))] == []


def _never_before(told: Told, pairs: Sequence[tuple[str, str]]) -> None:
    for late, early in pairs:
        before = itertools.takewhile(lambda name, early=early: not fnmatch(name, early), told.steps)  # type: ignore[misc]
        assert [name for name in before if fnmatch(name, late)] == [], f"before any {early}"


def _by_hand(told: Told, names: Sequence[str]) -> None:
    for name in names:
        step = told.step(name)
        assert hasattr(step.method, "fires"), f"no method of {name} says whether it fires"
        assert not fires(step, told)


def _no_shots_before(told: Told, names: Sequence[str] | str) -> None:
    for name in [names] if isinstance(names, str) else names:
        assert "fires" in {field.name for field in dataclasses.fields(Method)}, "no method says whether it fires"
        place = told.plan.steps.index(told.step(name))
        assert [str(step.step) for step in told.plan.steps[:place] if fires(step, told)] == []


def _quiet_after(told: Told, names: Sequence[str]) -> None:
    for name in names:
        place = told.plan.steps.index(told.step(name))
        assert [str(step.step) for step in told.plan.steps[place + 1 :] if fires(step, told)] == []


def _ends_without(told: Told, parts: Sequence[str]) -> None:
    """A part is off when the plan is done: nothing puts it back after it came off or the gun was left unloaded."""
    for part in parts:
        last = [name for name in told.steps if name in {f"take_off:{part}", f"put_back:{part}", "make:left_unloaded"}]
        assert last, f"nothing of the plan says where {part} is"
        assert last[-1] != f"put_back:{part}"


def _alike(told: Told, keys: Sequence[str]) -> None:
    """Magazine and battery are where they were when the same thing was read as found."""
    off = set(_said_arrival(told.scenario, told.variation).get("off", ())) & {"magazine", "battery"}
    state: dict[str, set[str]] = {}
    for step in told.plan.steps:
        if step.kind in {StepKind.TAKE_OFF, StepKind.PUT_BACK} and step.key in {"magazine", "battery"}:
            off ^= {step.key}
        state[str(step.step)] = set(off)
    assert [key for key in keys if f"as_found:{key}" not in state] == []
    assert [key for key in keys if state[f"as_found:{key}"] != state.get(f"make:{key}")] == []


def _takes(told: Told, keys: Sequence[str]) -> None:
    assert [key for key in keys if f"as_found:{key}" not in told.steps] == []


def _spares(told: Told, keys: Sequence[str]) -> None:
    assert _unknown(told, keys) == []
    assert [key for key in keys if f"as_found:{key}" in told.steps] == []


def _lost(told: Told, keys: Sequence[str]) -> None:
    assert set(keys) - {one.check for one in told.plan.too_late} == set()
    assert all(one.reason for one in told.plan.too_late)


def _said(told: Told, words: Mapping[str, Sequence[str]]) -> None:
    for name, sought in words.items():
        text = _texts(told.step(name))
        assert [word for word in sought if not _found(word, text)] == [], name


def _unsaid(told: Told, words: Mapping[str, Sequence[str]]) -> None:
    for pattern, sought in words.items():
        steps = list(_matching(told, pattern))
        assert steps, f"no step is {pattern}"
        assert [(str(step.step), word) for step in steps for word in sought if _found(word, _texts(step))] == []


def _refused(told: Told, words: Sequence[str]) -> None:
    with pytest.raises(InputError) as refusal:
        _ = told.plan
    assert [word for word in words if not _found(word, str(refusal.value))] == []


def _finding(told: Told, words: Sequence[str]) -> None:
    text = "\n".join(map(str, told.judged["findings"]))
    assert [word for word in words if not _found(word, text)] == [], text


def _no_finding(told: Told, words: Sequence[str]) -> None:
    text = "\n".join(map(str, told.judged["findings"]))
    assert [word for word in words if _found(word, text)] == [], text


def _blocks(told: Told, words: Sequence[str]) -> None:
    text = "\n".join(map(str, told.judged["blocks"]))
    assert [word for word in words if not _found(word, text)] == [], text


def _no_block(told: Told, words: Sequence[str]) -> None:
    text = "\n".join(map(str, told.judged["blocks"]))
    assert [word for word in words if _found(word, text)] == [], text


def _is_ready(told: Told, answer: object) -> None:
    assert told.judged["is_ready"] is answer, told.judged["blocks"]


def _fields(table: Mapping[str, Any]) -> list[str]:
    """The lines of a table of TOML."""
    return [
        f"{key} = {value.isoformat() if isinstance(value, datetime.date) else json.dumps(value)}" for key, value in table.items()
    ]


def _waits(told: Told, hours: float) -> None:
    assert _hours_waited(told.plan) == pytest.approx(hours)


def _ready(told: Told, hours: Mapping[str, float]) -> None:
    began = max(event["when"] for event in told.events if "when" in event)
    for name, wait in hours.items():
        day = (began + datetime.timedelta(hours=wait)).date().isoformat() if isinstance(began, datetime.datetime) else "never"
        said = _not_before(told.step(name))
        assert _found(rf"\b{wait:g} h", said) or day in said, f"{name}: {said!r}"


def _free(told: Told, names: Sequence[str]) -> None:
    assert {name: _not_before(told.step(name)) for name in names} == dict.fromkeys(names, "")


def _due(told: Told, words: Mapping[str, Sequence[str]]) -> None:
    for key, sought in words.items():
        assert told.now[key].standing is not Standing.FRESH, f"{key} is not owed"
        assert [word for word in sought if not _found(word, str(told.now[key]))] == [], key


def _becomes(told: Told, choices: Mapping[str, str]) -> None:
    assert dict(choices).items() <= dict(told.plan.becomes).items()  # type: ignore[attr-defined,unused-ignore]


def _off_before(told: Told) -> list[set[str]]:
    """What is off when each step begins, by the log and the steps before it."""
    off = set(_said_arrival(told.scenario, told.variation).get("off", ()))
    states = []
    moves: list[tuple[object, str]] = [(event.get("action"), event.get("part", "")) for event in told.events]
    moves += [(step.kind.value, step.key) for step in told.plan.steps]
    for kind, part in moves:
        states.append(set(off))
        off = off | {part} if kind == "take_off" else off - {part} if kind == "put_back" else off
    return states[len(told.events) :]


def _off_at(told: Told, parts: Mapping[str, Sequence[str]]) -> None:
    states = _off_before(told)
    for name, sought in parts.items():
        for step, off in zip(told.plan.steps, states, strict=True):
            assert str(step.step) != name or set(sought) - off == set(), name
        told.step(name)


def _in_hand(told: Told, parts: Sequence[str]) -> None:
    """Each part is graded, and only where it is off the gun or comes off."""
    states = _off_before(told)
    for part in parts:
        at = [
            (step, off)
            for step, off in zip(told.plan.steps, states, strict=True)
            if part in step.grades  # type: ignore[attr-defined,unused-ignore]
        ]
        assert at, f"{part} is graded nowhere"
        assert [str(step.step) for step, off in at if part not in off and str(step.step) != f"take_off:{part}"] == []


def _seen(told: Told, patterns: Sequence[str]) -> None:
    for step in (step for pattern in patterns for step in _matching(told, pattern)):
        assert 0 < len(step.seen.split()) <= 4, str(step.step)  # type: ignore[attr-defined,unused-ignore]


def _short(told: Told, patterns: Sequence[str]) -> None:
    _has(told, patterns)
    for step in (step for pattern in patterns for step in _matching(told, pattern)):
        assert 0 < len(step.short) < len(step.how), str(step.step)  # type: ignore[attr-defined,unused-ignore]


def _harm(told: Told, kinds: Mapping[str, str]) -> None:
    for name, kind in kinds.items():
        harms = [str(caution.harm) for caution in told.step(name).cautions]  # type: ignore[attr-defined,unused-ignore]
        assert any(_found(kind, harm) for harm in harms), f"{name}: {harms}"


def _once(told: Told, patterns: Sequence[str]) -> None:
    assert {pattern: len(list(_matching(told, pattern))) for pattern in patterns} == dict.fromkeys(patterns, 1)


def _has_checks(told: Told, keys: Sequence[str]) -> None:
    assert set(keys) - told.now.keys() == set()


def _no_checks(told: Told, keys: Sequence[str]) -> None:
    assert set(keys) & told.now.keys() == set()


def _several(told: Told, counts: Mapping[str, int]) -> None:
    for key, count in counts.items():
        assert len(told.plan.procedure.checks[key].readings) == count, key  # type: ignore[attr-defined,unused-ignore]


def _tools(told: Told, words: Mapping[str, Sequence[str]]) -> None:
    for pattern, sought in words.items():
        texts = [
            "\n".join([*step.tools, *(step.method.tools if step.method else ()), _texts(step)])
            for step in _matching(told, pattern)
        ]
        assert any(all(_found(word, text) for word in sought) for text in texts), pattern


def _complaint(told: Told, key: str) -> None:
    tree = stripdown.api.load_complaints().trees(told.variation)[key]
    for question in tree.questions:
        text = f"{question.ask}\n{question.how}"
        assert [word for word in told.scenario.get("unasked", ()) if _found(word, text)] == [], question.key
    whole = "\n".join(f"{question.ask}\n{question.how}" for question in tree.questions)
    assert [word for word in told.scenario.get("asked", ()) if not _found(word, whole)] == []
    unrequested = set(told.scenario.get("unrequested", ()))
    for finding in (finding for question in tree.questions for finding in question.findings):
        assert finding.request is None or unrequested & {*finding.request.as_found} == set(), finding.key


ASKED: Mapping[str, Callable[[Told, Any], None]] = {
    "touch": _touch,
    "stale": functools.partial(_stands, want=Standing.STALE),
    "fresh": functools.partial(_stands, want=Standing.FRESH),
    "never": functools.partial(_stands, want=Standing.NEVER),
    "failed": functools.partial(_stands, want=Standing.FAILED),
    "makes": _makes,
    "leaves": _leaves,
    "order": _order,
    "without": _without,
    "has": _has,
    "not_before": _never_before,
    "by_hand": _by_hand,
    "no_shots_before": _no_shots_before,
    "quiet_after": _quiet_after,
    "ends_without": _ends_without,
    "alike": _alike,
    "takes": _takes,
    "spares": _spares,
    "lost": _lost,
    "said": _said,
    "unsaid": _unsaid,
    "refused": _refused,
    "finding": _finding,
    "no_finding": _no_finding,
    "blocks": _blocks,
    "no_block": _no_block,
    "is_ready": _is_ready,
    "waits": _waits,
    "ready": _ready,
    "free": _free,
    "due": _due,
    "becomes": _becomes,
    "off_at": _off_at,
    "in_hand": _in_hand,
    "once": _once,
    "has_checks": _has_checks,
    "no_checks": _no_checks,
    "seen": _seen,
    "short": _short,
    "harm": _harm,
    "several": _several,
    "tools": _tools,
    "complaint": _complaint,
}
QUESTION = frozenset(
    {
        "key",
        "says",
        "point",
        "variation",
        "variations",
        "arrival",
        "log",
        "events",
        "job",
        "work",
        "wanted",
        "as_found",
        "unasked",
        "carried",
        "asked",
        "jobs",
        "failing",
        "unrequested",
    }
)


def ask(told: Told) -> None:
    """Ask the program everything that a scenario answers."""
    for field, answer in told.scenario.items():
        if field not in QUESTION:
            ASKED[field](told, answer)
