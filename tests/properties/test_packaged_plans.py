"""Plans on the packaged data for requests at random: they can be done, leave nothing stale, and are safe at each step."""

from __future__ import annotations

import random
from collections import Counter

import pytest

from stripdown.procedures.loading import load_procedures
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.standing import Standing, standing
from stripdown.procedures.steps import Step, StepKind
from tests.packaged_requests import Planned, asked, planned, replayed


def _judge(one: Planned, seed: object) -> str:
    """Do a plan step by step; what forbids a step, or what is missing at the end, fails."""
    if one.plan is None:
        return _refused(one)
    book = replayed(one)  # parts reachable, guards fresh, moves that are moves: at every step
    gun = one.procedure_after
    due = {*gun.checks.keys() & set(one.wanted), *(gun.release_list & book.spoiled)}
    assert book.off <= gun.left_out, (seed, book.off)
    assert due <= book.fresh, (seed, due - book.fresh)
    done = {step.key for step in one.steps if step.kind is StepKind.DO}
    assert {key for key in one.work if key in gun.actions or one.procedure.actions[key].becomes} <= done, seed
    after = standing(load_procedures(), one.whole_log, variation=one.variation)
    assert {key for key, stands in after.items() if stands.standing is Standing.FRESH} == book.fresh, seed
    _readings_come_first(one, seed)
    _declared_orders_hold(one, seed)
    return "one opening" if one.plan.visited == 1 else "searched"


def _refused(one: Planned) -> str:
    """The packaged data hold no circle of their own: only a guard that is wanted after the gun is closed cannot be."""
    assert set(one.wanted) & one.procedure.guards, one
    assert one.refused.startswith("This cannot be done in any order: "), one.refused
    assert any(f'"prove: {one.procedure.checks[guard].name}" before' in one.refused for guard in one.procedure.guards), (
        one.refused
    )
    return "refused"


def _readings_come_first(one: Planned, seed: object) -> None:
    """What is asked for, or compares and is proved after it was disturbed, is read before anything but the way to it disturbs it.

    Else the log has it already, or it is told as too late.
    """
    assert one.plan is not None
    both = one.plan.procedure  # of the gun that it was and the one that it will be
    places = {step: number for number, step in enumerate(one.steps) if step.kind is StepKind.AS_FOUND}
    told = {step.key for step in places} | {late.check for late in one.plan.too_late}
    assert set(one.as_found) <= told, seed
    for step, place in places.items():
        spoilers = {before for before in one.steps[:place] if step.key in both.spoils(before)}
        way_in = {Step(StepKind.TAKE_OFF, part) for part in one.procedure.off(step)}
        assert all(_is_of_the_apparatus(both, before) for before in spoilers - way_in), (seed, step, spoilers)
    for key, check in one.procedure.checks.items():
        makings = [number for number, step in enumerate(one.steps) if step == Step(StepKind.MAKE, key)]
        is_disturbed = any(key in both.spoils(step) for step in one.steps[: makings[-1]]) if makings else False
        if check.compares and is_disturbed and key not in told:
            assert any(event.check == key for event in one.log), (seed, key)
        if key in told - set(one.as_found):
            assert check.compares, (seed, key)
            assert makings, (seed, key)


def _is_of_the_apparatus(procedure: Procedure, step: Step) -> bool:
    """Whether a step changes only balls or chronograph: what is read as found is read with the new ones."""
    return {part for part, _ in procedure.touches(step)} <= {"ball_batch", "chronograph"}


def _declared_orders_hold(one: Planned, seed: object) -> None:
    """From where the last reading as found is fired, or all is back for it: what was proved for its sake is proved again."""
    places: dict[Step, list[int]] = {}
    backs = next((place for place, step in enumerate(one.steps) if step.kind is not StepKind.PUT_BACK), 0)
    fired = (at for at, step in enumerate(one.steps) if step.kind is StepKind.AS_FOUND and one.procedure.fires(step))
    begins = max(fired, default=backs - 1) + 1
    for position, step in enumerate(one.steps[begins:]):
        places.setdefault(step, []).append(position)
    for order in set(one.procedure.order) & set(one.procedure_after.order):
        if order.then.key in one.procedure.left_out:
            continue  # pack and magazine go in whenever something is fired, which asks for its proofs itself
        if order.first in places and order.then in places:
            assert max(places[order.first]) < min(places[order.then]), (seed, order)


def test_plans_on_the_packaged_data_can_be_done_and_leave_nothing_stale() -> None:
    """Random variations, requests and guns half stripped; the few that are refused want a guard on a closed gun."""
    outcomes = Counter(_judge(planned(seed), seed) for seed in range(100))
    assert outcomes["one opening"] >= 80
    assert outcomes["refused"] >= 1


@pytest.mark.slow
@pytest.mark.parametrize("block", range(4))
def test_plans_on_the_packaged_data_can_be_done_and_leave_nothing_stale_on_many(block: int) -> None:
    """As above, on two thousand requests."""
    outcomes = Counter(_judge(planned(seed), seed) for seed in range(10_000 + 500 * block, 10_500 + 500 * block))
    assert outcomes["one opening"] >= 400


def test_a_search_on_the_packaged_data_keeps_the_same_promises() -> None:
    """A reading as found of a check that is wanted as well, made stale on the way to another: a circle that one search opens."""
    one = asked(load_procedures().variation("version 2"), (), ("pre_engagement",), ("pre_engagement", "battery_state"))
    assert _judge(one, "a battery read out of the gun") == "searched"


@pytest.mark.parametrize("seed", range(40))
def test_a_job_with_work_that_makes_another_gun_is_one_opening(seed: int) -> None:
    """Any changes of any gun with any named job: opened as the old gun, closed as the new one, with all proved that it must."""
    chance = random.Random(seed)  # noqa: S311  not for secrets
    procedures = load_procedures()
    variation = procedures.variation({one.key: chance.choice(one.choices).key for one in procedures.features})
    procedure = procedures.procedure(variation)
    changes: dict[str, list[str]] = {}
    for key, action in procedure.actions.items():
        if procedure.after((key,)) is not procedure:
            changes.setdefault(next(iter(action.becomes)), []).append(key)
    work = tuple(chance.choice(changes[feature]) for feature in chance.sample(sorted(changes), chance.randint(1, 3)))
    job = chance.choice(list(procedures.named_jobs(variation).values()))
    one = asked(variation, tuple(dict.fromkeys((*job.work, *work))), job.wanted, job.as_found)
    assert one.plan is not None
    assert one.plan.openings == 1
    assert one.plan.guns[-1] is one.procedure_after
    assert set(one.plan.becomes) == {feature for key in work for feature in procedure.actions[key].becomes}
    _judge(one, seed)
