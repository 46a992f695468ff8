from __future__ import annotations

import dataclasses

from stripdown.core.interior_ballistics.result import Event, EventKind, Outcome, Shot
from stripdown.core.parts.cylinder import PortSlot
from stripdown.quantities import replace_at
from stripdown.words.milestones import key, milestones
from tests.synthetic_shots import make_shot


def test_moments_are_numbered_in_order_of_time(healthy: Shot) -> None:
    """Of the synthetic shot: the ball starts, leaves hop-up and muzzle, then the piston lands; its rest is not marked."""
    assert [(mark.number, mark.words, mark.time) for mark in milestones(healthy)] == [
        (1, "ball starts", 6.0e-3),
        (2, "ball leaves the hop-up", 6.6e-3),
        (3, "ball leaves the muzzle", 10.0e-3),
        (4, "piston lands", 12.5e-3),
    ]


def test_a_bounce_is_not_a_second_landing(healthy: Shot) -> None:
    """Only the first of each sort is marked."""
    bouncing = dataclasses.replace(healthy, events=(*healthy.events, Event(EventKind.PISTON_LANDS, 15e-3)))
    assert milestones(bouncing) == milestones(healthy)


def test_of_several_ports_the_last_end_counts_and_of_no_slots_none(healthy: Shot) -> None:
    """Compression starts where the seal has passed the last slot; a ring without slots has an edge, and nothing happens there."""
    ends = tuple(
        Event(kind, time)
        for kind, time in (
            (EventKind.PORT_1_ENDS, 2e-3),
            (EventKind.PORT_2_ENDS, 3e-3),
            (EventKind.PORT_3_ENDS, 4e-3),
        )
    )
    slot = PortSlot(start=0.002, length=0.008, width=0.004, count=1)
    parameters = healthy.parameters
    for number in (1, 2):
        parameters = replace_at(parameters, f"cylinder.port_{number}", slot)
    ported = dataclasses.replace(healthy, parameters=parameters, events=(*ends, *healthy.events))
    assert milestones(ported)[0].words == "seal past the port"
    assert milestones(ported)[0].time == 3e-3
    blind = dataclasses.replace(healthy, events=(*ends, *healthy.events))
    assert milestones(blind) == milestones(healthy)


def test_a_ball_that_does_not_move_has_no_moments() -> None:
    """Only the piston's landing is left to mark."""
    assert [mark.words for mark in milestones(make_shot(outcome=Outcome.DID_NOT_MOVE))] == ["piston lands"]


def test_the_key_explains_every_number(healthy: Shot) -> None:
    """Number, words and time, a few to a line."""
    assert key(milestones(healthy)) == [
        "1 ball starts (6.0 ms) · 2 ball leaves the hop-up (6.6 ms) · 3 ball leaves the muzzle (10.0 ms)",
        "4 piston lands (12.5 ms)",
    ]
