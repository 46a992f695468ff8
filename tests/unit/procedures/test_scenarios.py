"""What the bench answers: scenarios whose answers were written by hand before the program was asked.

The answers stand in scenarios.toml. They are the trade's rules, common practice without a source.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

import pytest

from stripdown.procedures.loading import load_procedures
from stripdown.procedures.plan import Plan, plan
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.request import Request
from stripdown.procedures.standing import Standing, standing
from stripdown.procedures.steps import Step, StepKind
from stripdown.procedures.touches import Touch
from tests.unit.procedures.told import proved_log

SCENARIOS: tuple[Mapping[str, Any], ...] = tuple(
    tomllib.loads((Path(__file__).parent / "scenarios.toml").read_text(encoding="utf-8"))["scenario"]
)
TOUCHED = [pytest.param(one, id=one["key"]) for one in SCENARIOS if "touch" in one]
DONE = [pytest.param(one, id=one["key"]) for one in SCENARIOS if "did" in one]
BECOMING = [pytest.param(one, id=one["key"]) for one in SCENARIOS if "becomes" in one]
PLANNED = [pytest.param(one, id=one["key"]) for one in SCENARIOS if "work" in one]


def _complete(variation: tuple[str, ...]) -> list[Mapping[str, Any]]:
    """The log of a gun that was proved whole, with what was out when it left put in again."""
    log = list(proved_log(variation))
    for part in ("battery", "magazine"):
        log.append({"number": len(log) + 1, "action": "put_back", "part": part})
    return log


def _planned(scenario: Mapping[str, Any]) -> Plan:
    procedures, variation = load_procedures(), tuple(scenario["variation"])
    request = Request(
        work=tuple(scenario["work"]), wanted=tuple(scenario.get("wanted", ())), as_found=tuple(scenario.get("as_found", ()))
    )
    if "job" in scenario:
        request = request.with_job(procedures.named_job(scenario["job"], variation))
    log = [] if scenario.get("unproved") else _complete(variation)
    for check in scenario.get("failed", ()):
        opened = [{"action": "open_up", "part": part} for part in procedures.procedure(variation).checks[check].off]
        for event in (*opened, {"check": check, "passed": False}):
            log.append({"number": len(log) + 1, **event})
    return plan(
        procedures,
        work=request.work,
        wanted=request.wanted,
        as_found=request.as_found,
        events=log,
        variation=variation,
        arrival=scenario.get("arrival"),
    )


def _opening(procedure: Procedure, parts: Iterable[str]) -> frozenset[str]:
    """What a technician spoils on the way to some parts."""
    return procedure.spoiled_by((part, Touch.REFIT) for part in procedure.close(parts) - set(parts))


@pytest.mark.parametrize("scenario", TOUCHED)
def test_a_touch_undoes_what_the_trade_says_and_nothing_that_it_spares(scenario: Mapping[str, Any]) -> None:
    """By itself, a touch makes stale what the hand-written answer names, and leaves what it says still holds."""
    procedure = load_procedures().procedure(scenario["variation"])
    spoiled = procedure.spoiled_by((part, Touch(kind)) for part, kind in scenario["touch"])
    assert set(scenario["stale"]) - spoiled == set()
    assert set(scenario["fresh"]) & spoiled == set()
    assert {*scenario["stale"], *scenario["fresh"]} <= procedure.checks.keys()


@pytest.mark.parametrize("scenario", TOUCHED)
def test_the_log_of_a_touch_says_what_is_stale(scenario: Mapping[str, Any]) -> None:
    """After the gun was proved, opened and touched, the standing from the log alone agrees with the hand-written answer."""
    variation = tuple(scenario["variation"])
    procedure = load_procedures().procedure(variation)
    log = _complete(variation)
    parts = list(dict.fromkeys(part for part, _ in scenario["touch"]))
    moves = [{"action": "open_up", "part": part} for part in parts]
    touches = [{"part": part, "kind": kind} for part, kind in scenario["touch"]]
    for event in (*moves, *touches):
        log.append({"number": len(log) + 1, **event})
    now = standing(load_procedures(), log, variation=variation)
    opened = _opening(procedure, parts) | procedure.spoiled_by((part, Touch.REFIT) for part in parts)
    stale = set(scenario["stale"]) - procedure.guards
    assert {key for key in stale if now[key].standing is not Standing.STALE} == set()
    assert {key for key in scenario["fresh"] if now[key].standing is not Standing.FRESH} - opened == set()


@pytest.mark.parametrize("scenario", DONE)
def test_the_log_of_work_that_makes_another_gun_says_what_must_be_proved_on_it(scenario: Mapping[str, Any]) -> None:
    """Opened as the old gun and worked upon, it stands as the new one: with its own checks, and without those that went."""
    variation = tuple(scenario["variation"])
    procedure = load_procedures().procedure(variation)
    log = list(proved_log(variation))
    off: frozenset[str] = frozenset()
    for action in scenario["did"]:
        needed = procedure.off(Step(StepKind.DO, action))
        moves = [{"action": "open_up", "part": part} for part in sorted(needed)]
        for event in (*moves, {"action": action}):
            log.append({"number": len(log) + 1, **event})
        off |= needed
    now = standing(load_procedures(), log, variation=variation)
    opened = procedure.spoiled_by((part, Touch.REFIT) for part in off)
    assert {key for key in scenario["stale"] if now[key].standing is Standing.FRESH or not now[key].is_owed} == set()
    assert {key for key in scenario["fresh"] if now[key].standing is not Standing.FRESH} - opened == set()
    assert set(scenario.get("gone", ())) & now.keys() == set()
    assert set(scenario.get("gone", ())) <= procedure.checks.keys()


@pytest.mark.parametrize("scenario", BECOMING)
def test_a_plan_for_another_gun_opens_once_and_ends_with_that_gun(scenario: Mapping[str, Any]) -> None:
    """Nothing is taken off twice, and the plan is of the gun that the hand-written answer names."""
    found, procedures = _planned(scenario), load_procedures()
    was = procedures.variation(scenario["variation"])
    feature_of = {choice.key: feature.key for feature in procedures.features for choice in feature.choices}
    becomes = {feature_of[choice]: choice for choice in scenario["becomes"]}
    assert found.openings == 1
    assert found.guns[0].variation == was.name
    assert {key: choice.key for key, choice in found.procedure.choices.items()} == {**was.choices, **becomes}


@pytest.mark.parametrize("scenario", PLANNED)
def test_a_plan_proves_again_what_the_work_spoils_and_no_more(scenario: Mapping[str, Any]) -> None:
    """On a gun on which everything was proved, the plan makes what the hand-written answer names and leaves the rest."""
    made = [step.key for step in _planned(scenario).steps if step.kind is StepKind.MAKE]
    assert set(scenario["makes"]) - set(made) == set()
    assert set(scenario["leaves"]) & set(made) == set()


@pytest.mark.parametrize("scenario", PLANNED)
def test_a_plan_keeps_the_order_of_the_trade(scenario: Mapping[str, Any]) -> None:
    """Each chain of steps of the hand-written answer stands in the plan in its order, and no step that it rules out."""
    steps = [str(step.step) for step in _planned(scenario).steps]
    assert set(scenario.get("without", ())) & set(steps) == set()
    for chain in scenario["order"]:
        places = [steps.index(name) if name in steps else -1 for name in chain]
        assert -1 not in places, f"missing: {[name for name in chain if name not in steps]}"
        assert places == sorted(places), f"not in order: {sorted(zip(places, chain, strict=True))}"


def test_every_scenario_of_the_trade_is_there() -> None:
    """No scenario lost its question: each asks what a touch undoes or what a plan does."""
    keys = [one["key"] for one in SCENARIOS]
    assert len(keys) == len(set(keys)) >= 14
    assert {one["key"] for one in SCENARIOS if "touch" not in one and "work" not in one} == set()


@pytest.mark.parametrize(
    "variation", ["version 2", "version 3, quick change, electronic, ported", "latch deleted, teeth off at release"]
)
def test_closing_up_asks_for_the_whole_release_list(variation: str) -> None:
    """The job that releases a gun wants every check of the release list, and no other."""
    procedures = load_procedures()
    wanted = procedures.named_job("release", variation).wanted
    assert set(wanted) == procedures.procedure(variation).release_list
