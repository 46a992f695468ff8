"""Plans on procedures that are made up at random: they can be done, they leave nothing stale, and none is cheaper."""

from __future__ import annotations

import graphlib
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.errors import ProcedureError
from stripdown.procedures.events import AS_FOUND, Event
from stripdown.procedures.happenings import Happening, happenings
from stripdown.procedures.needed import Situation, needed_steps
from stripdown.procedures.order import order_of, shortest_circle
from stripdown.procedures.plan import plan_from
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.request import Request
from stripdown.procedures.search import find_steps
from stripdown.procedures.sequence import sequence
from stripdown.procedures.standing import Standing, standings
from stripdown.procedures.steps import Step, StepKind
from tests.exhaustive_plans import cheapest
from tests.made_up_procedures import made_up_log, made_up_procedure, made_up_situation, some

_MOVES = {StepKind.TAKE_OFF, StepKind.PUT_BACK}


def _compare(seed: int) -> str:
    chance = random.Random(seed)  # noqa: S311  not for secrets
    procedure = made_up_procedure(chance)
    situation = made_up_situation(procedure, chance)
    best = cheapest(procedure, situation)
    try:
        found = find_steps(procedure, situation)
    except ProcedureError:
        assert best is None, seed
        return "refused"
    cost = (sum(step.kind is StepKind.MAKE for step in found.steps), sum(step.kind in _MOVES for step in found.steps))
    assert cost == best, seed
    has_circle = bool(shortest_circle(order_of(procedure, needed_steps(procedure, situation))))
    assert has_circle == (found.visited > 1), seed
    return "searched" if has_circle else "one opening"


@pytest.mark.parametrize("block", range(4))
def test_no_plan_is_cheaper(block: int) -> None:
    """Makings and moves equal those of exhaustive search, and what is refused cannot be done at all."""
    outcomes = [_compare(1000 * block + seed) for seed in range(100)]
    assert {"refused", "searched", "one opening"} <= set(outcomes)


@pytest.mark.slow
@pytest.mark.parametrize("block", range(20))
def test_no_plan_is_cheaper_on_many(block: int) -> None:
    """As above, on ten thousand procedures."""
    outcomes = [_compare(100_000 + 1000 * block + seed) for seed in range(500)]
    assert {"refused", "searched", "one opening"} <= set(outcomes)


def _planned(seed: int) -> tuple[Procedure, list[Event], Request, list[Step], dict[str, str]] | None:
    """A log at random, a request at random, and the plan from where the log ends."""
    chance = random.Random(seed)  # noqa: S311  not for secrets
    procedure = made_up_procedure(chance)
    log = made_up_log(procedure, chance, entries=chance.randint(0, 12))
    done = happenings(procedure, log)
    request = Request(
        work=some(chance, procedure.actions, 0.5),
        wanted=some(chance, procedure.checks, 0.3),
        as_found=some(chance, procedure.checks, 0.2),
    )
    off = done[-1].off_after if done else frozenset[str]()
    try:
        plan = plan_from(procedure, request, off=off, known=standings(procedure, done))
    except ProcedureError:
        return None
    return procedure, log, request, [step.step for step in plan.steps], dict(plan.remedies)


def _as_events(steps: list[Step], first: int) -> list[Event]:
    events = []
    for number, step in enumerate(steps, start=first):
        if step.kind in _MOVES:
            events.append(Event(number=number, action=step.kind.value, part=step.key))
        elif step.kind is StepKind.DO:
            events.append(Event(number=number, action=step.key))
        else:
            kind = AS_FOUND if step.kind is StepKind.AS_FOUND else None
            events.append(Event(number=number, check=step.key, passed=True, kind=kind))
    return events


@given(st.integers(0, 10**9))
def test_a_plan_ends_with_everything_fresh_that_should_be(seed: int) -> None:
    """Done step by step and entered in the log, a plan is allowed at each step, and ends with what was asked for."""
    made = _planned(seed)
    if made is None:
        return
    procedure, log, request, steps, _ = made
    before = happenings(procedure, log)
    whole = happenings(procedure, [*log, *_as_events(steps, len(log) + 1)])
    after = standings(procedure, whole)
    spoiled = {check for step in steps for check in procedure.spoils(step)}
    assert not whole or not whole[-1].off_after
    assert set(request.work) <= {step.key for step in steps if step.kind is StepKind.DO}
    for check in {*request.wanted, *(procedure.release_list & spoiled)}:
        assert after[check].standing is Standing.FRESH, (seed, check)
    _readings_come_first(procedure, steps, before)


def _readings_come_first(procedure: Procedure, steps: list[Step], before: tuple[Happening, ...]) -> None:
    for position, step in enumerate(steps):
        if step.kind is StepKind.AS_FOUND:
            assert not any(step.key in procedure.spoils(earlier) for earlier in steps[:position]), (step, before)


@given(st.integers(0, 10**9))
def test_no_making_can_be_left_out(seed: int) -> None:
    """Without any one making the rest of a plan leaves something that should be fresh, or cannot be done."""
    made = _planned(seed)
    if made is None:
        return
    procedure, log, request, steps, remedies = made
    due = {*request.wanted, *(procedure.release_list & {check for step in steps for check in procedure.spoils(step)})}
    for position, step in enumerate(steps):
        if step.kind is not StepKind.MAKE:
            continue
        rest = steps[:position] + steps[position + 1 :]
        after = standings(procedure, happenings(procedure, [*log, *_as_events(rest, len(log) + 1)]))
        assert any(after[check].standing is not Standing.FRESH for check in due), (seed, step, remedies)


def test_a_request_without_circle_takes_one_state() -> None:
    """The work of planning is the least set and one order, unless a circle asks for a search."""
    visited = []
    for seed in range(300):
        chance = random.Random(seed)  # noqa: S311  not for secrets
        procedure = made_up_procedure(chance)
        try:
            visited.append(find_steps(procedure, made_up_situation(procedure, chance)).visited)
        except ProcedureError:
            continue
    assert sum(count == 1 for count in visited) > 0.8 * len(visited)
    assert max(visited) <= 500


def test_a_circle_is_one_for_the_standard_library_too() -> None:
    """Python's own topological sorter finds a circle where one is found here, and takes every sequence as an order."""
    for seed in range(200):
        chance = random.Random(seed)  # noqa: S311  not for secrets
        procedure = made_up_procedure(chance)
        after = order_of(procedure, needed_steps(procedure, made_up_situation(procedure, chance)))
        sorter = graphlib.TopologicalSorter({step: [one for one in after if step in after[one]] for step in after})
        try:
            sorter.prepare()
        except graphlib.CycleError:
            assert shortest_circle(after), seed
            continue
        assert not shortest_circle(after), seed
        offered: set[Step] = set()
        for step in sequence(procedure, after):
            offered.update(sorter.get_ready())
            assert step in offered, seed
            sorter.done(step)
        assert not sorter.is_active()


def test_what_is_asked_for_twice_over_is_planned_once() -> None:
    """The same request gives the same plan, to the step."""
    chance = random.Random(7)  # noqa: S311  not for secrets
    procedure = made_up_procedure(chance)
    situation = made_up_situation(procedure, chance)
    assert find_steps(procedure, situation) == find_steps(procedure, Situation(**_fields(situation)))


def _fields(situation: Situation) -> dict[str, frozenset[str]]:
    return {name: frozenset(getattr(situation, name)) for name in Situation.__slots__}
