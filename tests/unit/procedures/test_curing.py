"""Waits by time: days and moments, what did not wait, what falls due later."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from typing import Any

import pytest

from stripdown.procedures.curing import still_curing, too_soon
from stripdown.procedures.events import read_events
from stripdown.procedures.happenings import Happening, happenings
from stripdown.procedures.loading import load_procedures
from stripdown.procedures.moments import When, entered_when, hours_between, is_later
from stripdown.procedures.plan import plan
from stripdown.procedures.procedure import Procedure
from stripdown.studies.cures import cure_hours

_BONDED = ({"action": "open_up", "part": "spur_gear"}, {"action": "open_up", "part": "piston"})


def _bonded(bond: Mapping[str, Any], seen: str | None) -> tuple[Procedure, tuple[Happening, ...]]:
    """A bearing bonded as said, and its seat looked at."""
    procedure = load_procedures().procedure("version 2")
    fields = [*_BONDED, {"action": "bond_bevel_bearing_left", **bond}, {"check": "bearings_seated", "passed": True, "when": seen}]
    log = read_events({"number": number, **one} for number, one in enumerate(fields, start=1))
    return procedure, happenings(procedure, log)


@pytest.mark.parametrize(
    ("earlier", "later", "hours"),
    [
        ("2026-05-03", "2026-05-03", (0.0, 24.0)),
        ("2026-05-03", "2026-05-04", (0.0, 48.0)),
        ("2026-05-03", "2026-05-05", (24.0, 72.0)),
        ("2026-05-03T10:00+02:00", "2026-05-03T09:00+00:00", (1.0, 1.0)),
        ("2026-05-03T10:00+02:00", "2026-05-04", (14.0, 38.0)),
        ("2026-05-03", "2026-05-04T06:00+02:00", (6.0, 30.0)),
    ],
)
def test_a_day_may_mean_any_hour_of_it(earlier: str, later: str, hours: tuple[float, float]) -> None:
    """Hours at least and at most, reckoned by hand."""
    one, other = entered_when(earlier), entered_when(later)
    assert one is not None
    assert other is not None
    assert hours_between(one, other) == pytest.approx(hours)


def test_moments_of_one_day_have_an_order_and_days_have_not() -> None:
    """Ten in the morning is before noon; a day alone is neither before nor after an hour of it."""
    day, noon = datetime.date(2026, 5, 3), datetime.datetime(2026, 5, 3, 12, tzinfo=datetime.UTC)
    assert is_later(noon, noon.replace(hour=10))
    pairs: list[tuple[When | None, When | None]] = [(noon, day), (day, noon), (day, day), (None, day), (day, None)]
    assert not any(is_later(one, other) for one, other in pairs)
    assert is_later(datetime.date(2026, 5, 4), noon)


@pytest.mark.parametrize(
    ("bond", "seen", "hours"),
    [
        ({"when": "2026-05-03T10:00+02:00"}, "2026-05-03T11:00+02:00", (24.0, 1.0)),
        ({"when": "2026-05-03T10:00+02:00"}, "2026-05-04T10:00+02:00", None),
        ({"when": "2026-05-03"}, "2026-05-03T23:00+02:00", (24.0, 23.0)),
        ({"when": "2026-05-03"}, "2026-05-03", (24.0, 24.0)),
        ({"when": "2026-05-03"}, "2026-05-04", None),
        ({"when": "2026-05-03"}, None, None),
        ({}, "2026-05-03", None),
        ({"when": "2026-05-03T10:00+02:00", "value": "quick epoxy"}, "2026-05-03T10:30+02:00", (1.0, 0.5)),
        ({"when": "2026-05-03T10:00+02:00", "value": "quick epoxy"}, "2026-05-03T12:00+02:00", None),
        ({"when": "2026-05-03T10:00+02:00", "fluids": [{"fluid": "five-minute epoxy"}]}, "2026-05-03T12:00+02:00", None),
    ],
)
def test_a_bond_that_did_not_cure_is_found_out(
    bond: Mapping[str, Any], seen: str | None, hours: tuple[float, float] | None
) -> None:
    """By the hours that its adhesive needs, 24 if nobody said which; what nobody wrote down is nobody's fault."""
    procedure, log = _bonded(bond, seen)
    found = too_soon(procedure, log, hours=cure_hours(one.event for one in log))
    assert [(one.event, one.since, one.hours, round(one.passed, 6)) for one in found] == ([(4, 3, *hours)] if hours else [])


def test_what_dries_in_minutes_is_dry_when_it_is_entered() -> None:
    """Ten steps entered at one moment at the end of the day are no ten findings."""
    procedure = load_procedures().procedure("version 2")
    steps = plan(load_procedures(), work=["clean_gears", "clean_shell"], variation="version 2").steps
    fields = [
        {"action": one.step.kind.value, "part": one.key}
        if one.step.kind.value in {"take_off", "put_back"}
        else {"action": one.key}
        for one in steps
        if one.step.kind.value in {"take_off", "put_back", "do"}
    ]
    log = read_events({"number": number, "when": "2026-05-03T18:00+02:00", **one} for number, one in enumerate(fields, start=1))
    assert too_soon(procedure, happenings(procedure, log)) == ()


def test_a_wait_that_the_log_shows_to_be_over_is_not_told() -> None:
    """A day after the bond, by the moments; what it waits for keeps its place in the order."""
    procedure, log = _bonded({"when": "2026-05-03T10:00+02:00"}, "2026-05-04T10:00+02:00")
    words = {step.key: one.words for step, one in still_curing(procedure, log).items()}
    assert words["trial_float"] == ""
    early = still_curing(procedure, log[:-1])
    assert {one.words[:32] for one in early.values()} == {"not before 24 h have passed sinc"}


@pytest.mark.parametrize("variation", ["version 2", "version 3, quick change"])
def test_a_new_spring_owes_its_second_proof(variation: str) -> None:
    """From the step that fits it, after 500 to 1000 cycles; not if the plan settles and proves it."""
    once = plan(load_procedures(), work=["replace_main_spring"], variation=variation)
    [owed] = [one for one in once.falling_due if one.check == "second_proof"]
    assert owed.step == next(one.number for one in once.steps if one.key == "replace_main_spring")
    assert owed.follow_up.words == "500 to 1000 cycles"
    twice = plan(load_procedures(), work=["replace_main_spring", "settle_spring"], wanted=["second_proof"], variation=variation)
    assert "second_proof" not in {one.check for one in twice.falling_due}
