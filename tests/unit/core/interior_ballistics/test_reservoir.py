"""The reservoir launch: what it takes, what it refuses, and how each choice moves the speed."""

from __future__ import annotations

from typing import Any

import pytest

from stripdown.core.interior_ballistics.reservoir import simulate_reservoir_launch
from stripdown.core.interior_ballistics.result import EventKind, Outcome, Shot
from stripdown.errors import OutOfRange
from tests.properties.invariants import check_air, check_arrays, check_events, check_mass

LAUNCH: dict[str, Any] = {
    "reservoir_pressure": 5e5,
    "reservoir_volume": 25e-6,
    "bore_diameter": 6.05e-3,
    "travel": 0.35,
    "ball_mass": 0.2e-3,
}


def launch(**changes: Any) -> Shot:
    """The launch with some of its arguments changed, holding to the rules that every shot keeps."""
    shot = simulate_reservoir_launch(**(LAUNCH | changes))
    check_mass(shot)
    check_air(shot)
    check_arrays(shot)
    check_events(shot)
    return shot


def speed(**changes: Any) -> float:
    """Muzzle speed in m/s."""
    return launch(**changes).figures.muzzle_speed


def test_a_launch_is_a_shot_with_its_piston_held() -> None:
    """The ball starts at once and leaves; nothing lands, nothing rests, the held piston does no work."""
    shot = launch()
    assert shot.outcome is Outcome.LEFT_MUZZLE
    assert {event.kind for event in shot.events} == {EventKind.BALL_STARTS, EventKind.BALL_LEAVES_MUZZLE}
    assert shot.ledger.spring_work == shot.ledger.slam == shot.ledger.seal_drag == 0.0
    assert shot.figures.time_to_rest is None


@pytest.mark.parametrize("changes", [{}, {"passage_area": 17e-6}, {"heat": True}, {"ball_diameter": 5.95e-3}])
def test_the_ledger_of_a_launch_closes(changes: dict[str, Any]) -> None:
    """What the air gives is found again, within five tolerances of what the reservoir held."""
    shot = launch(tolerance=1e-6, **changes)
    held = LAUNCH["reservoir_pressure"] * LAUNCH["reservoir_volume"] / 0.4
    assert abs(shot.ledger.residual) < 5e-6 * held


def test_each_loss_slows_the_ball() -> None:
    """Inertia of the gas, of the air ahead, friction, a gap, heat, a passage: each alone costs speed."""
    best = {"gas_inertia": False, "air_ahead_inertia": False}
    fastest = speed(**best)
    for loss in (
        {"gas_inertia": True},
        {"air_ahead_inertia": True},
        {"friction_force": 0.5},
        {"ball_diameter": 5.9e-3},
        {"passage_area": 10e-6},
        {"pressure_ahead": 2e5},
    ):
        assert speed(**(best | loss)) < fastest, loss


def test_a_wider_passage_and_a_better_edge_are_faster() -> None:
    """Speed grows with the passage's area and its discharge coefficient, which act as their product."""
    assert speed(passage_area=8e-6) < speed(passage_area=16e-6) < speed(passage_area=32e-6)
    assert speed(passage_area=16e-6, discharge_coefficient=0.5) == pytest.approx(speed(passage_area=8e-6), rel=1e-9)


def test_a_ball_behind_vacuum_flies_against_nothing() -> None:
    """An evacuated barrel is allowed, with one volume and with two, and is faster than a full one."""
    assert speed(pressure_ahead=0.0) > speed()
    assert speed(pressure_ahead=0.0, passage_area=17e-6) > speed(passage_area=17e-6)


def test_too_little_pressure_leaves_the_ball_where_it_is() -> None:
    """A reservoir at the pressure ahead moves nothing: an outcome."""
    assert launch(reservoir_pressure=101325.0).outcome is Outcome.DID_NOT_MOVE
    assert launch(reservoir_pressure=105e3, friction_force=5.0).outcome is Outcome.DID_NOT_MOVE


def test_a_ball_may_stay_on_its_long_way() -> None:
    """A small reservoir and much friction end in the barrel."""
    shot = launch(reservoir_volume=1e-6, travel=2.0, friction_force=1.0)
    assert shot.outcome is Outcome.STAYED_IN_BARREL
    assert 0.0 < float(shot.ball_position[-1]) < 2.0


def test_a_fast_launch_is_computed_and_noted() -> None:
    """Beyond Mach 0.6 the launch is still computed, with the range as a note."""
    shot = launch(reservoir_pressure=30e5, reservoir_volume=1e-3)
    assert shot.figures.muzzle_speed > 210.0
    assert any("Mach" in note for note in shot.notes)
    assert not launch(reservoir_pressure=2e5).notes


@pytest.mark.parametrize("size", [1e-3, 1.0, 1e3])
def test_any_size_launches_alike(size: float) -> None:
    """All lengths and the time scaled together, with mass by the volume, leave the speed alone, from a straw to a tower."""
    alike = speed(reservoir_volume=25e-6 * size**3, bore_diameter=6.05e-3 * size, travel=0.35 * size, ball_mass=0.2e-3 * size**3)
    assert alike == pytest.approx(speed(), rel=1e-5)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("reservoir_pressure", 0.0),
        ("reservoir_volume", -1e-6),
        ("reservoir_temperature", 0.0),
        ("bore_diameter", float("nan")),
        ("travel", 0.0),
        ("ball_mass", float("inf")),
        ("passage_area", 0.0),
        ("discharge_coefficient", -1.0),
        ("pressure_ahead", -1.0),
        ("friction_force", -0.1),
        ("volume_behind_ball", -1e-9),
        ("ball_diameter", 7e-3),
    ],
)
def test_what_cannot_be_is_refused_by_name(name: str, value: float) -> None:
    """A size that is not positive, a number that is none, a ball that does not pass: named, with its limits."""
    with pytest.raises(OutOfRange, match=name) as caught:
        simulate_reservoir_launch(**(LAUNCH | {name: value}))
    assert caught.value.field == name
