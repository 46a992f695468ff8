"""Stopping exactly at events: closed forms for when, order for which, and what counts as an event."""

from __future__ import annotations

import math

import numpy as np
import pytest

from stripdown.core.numerics import stiff
from tests.stiff_problems import GUARDS, Vector, integrate

GRAVITY = 9.81
HEIGHT = 2.0


def fall(point: Vector) -> tuple[float, ...]:
    """A body at height point[0] with speed point[1], and its energy lost to nothing."""
    return (point[1], -GRAVITY)


def ground(point: Vector) -> tuple[float, ...]:
    """Negative above the ground."""
    return (-point[0],)


def clock(_: Vector) -> tuple[float, ...]:
    """Time itself, beside something that decays, so that steps have a length of their own."""
    return (1.0, -_[1])


@pytest.mark.parametrize("tolerance", [1e-3, 1e-5, 1e-7, 1e-9])
def test_a_falling_body_lands_when_it_must(tolerance: float) -> None:
    """The ground is met at sqrt(2h/g), within the tolerance times the height at the start of the last step."""
    run = integrate(fall, (HEIGHT, 0.0), end=5.0, tolerance=tolerance, guards=ground)
    assert run.code == stiff.EVENT_REACHED
    assert run.happenings[0].hit == (0,)
    assert run.happenings[0].time == pytest.approx(math.sqrt(2.0 * HEIGHT / GRAVITY), rel=tolerance)
    assert abs(run.end[0]) <= tolerance * HEIGHT


def test_a_step_ends_on_the_far_side_of_its_event() -> None:
    """The guard is not negative where it hits, so that the same event cannot be met again by rounding."""
    run = integrate(fall, (HEIGHT, 0.0), end=5.0, tolerance=1e-4, guards=ground)
    assert ground(run.end)[0] >= 0.0


def test_a_bouncing_ball_keeps_time_and_energy() -> None:
    """Bounces follow each other at 2 v/g, each with the share of energy that the floor returns."""
    restitution = 0.8

    def bounce(state: Vector, _: tuple[int, ...]) -> float:
        state[0] = 0.0
        state[1] *= -restitution
        return float(0.1 * abs(state[1]) / GRAVITY)

    run = integrate(fall, (HEIGHT, 0.0), end=5.6, tolerance=1e-8, guards=ground, act=bounce)
    first = math.sqrt(2.0 * HEIGHT / GRAVITY)
    expected = first * (1.0 + 2.0 * np.cumsum(restitution ** np.arange(1, 30)))
    times = np.array([happening.time for happening in run.happenings])
    assert times[0] == pytest.approx(first, rel=1e-7)
    assert times[1:] == pytest.approx(expected[: len(times) - 1], rel=1e-6)
    assert len(times) == 1 + int(np.searchsorted(expected, 5.6))
    energies = np.array([0.5 * happening.state[1] ** 2 for happening in run.happenings])
    assert energies == pytest.approx(GRAVITY * HEIGHT * restitution ** (2.0 * np.arange(len(energies))), rel=1e-5)


def test_a_bounce_costs_few_steps() -> None:
    """A free flight between two bounces is a parabola, which the method follows in a handful of steps."""

    def bounce(state: Vector, _: tuple[int, ...]) -> float:
        state[0] = 0.0
        state[1] *= -0.8
        return float(0.1 * abs(state[1]) / GRAVITY)

    run = integrate(fall, (HEIGHT, 0.0), end=5.0, tolerance=1e-6, guards=ground, act=bounce)
    assert run.steps <= 8 * (len(run.happenings) + 1)


def _two_clocks(apart: float, *, tolerance: float = 1e-6) -> list[tuple[int, ...]]:
    """Hits of two guards, the first of which is due later than the second."""

    def guards(point: Vector) -> tuple[float, ...]:
        return (point[0] - 1.0 - apart, point[0] - 1.0)

    run = integrate(clock, (0.0, 1.0), end=2.0, tolerance=tolerance, guards=guards, act=lambda _, __: math.inf)
    assert run.code == stiff.END_REACHED
    return [happening.hit for happening in run.happenings]


@pytest.mark.parametrize("apart", [0.0, 1e-15, 1e-13, 1e-12])
def test_events_within_a_picosecond_hit_together_in_the_order_of_the_table(apart: float) -> None:
    """Two guards that are due at the same moment, but for rounding, are reported in one stop, lower number first."""
    assert _two_clocks(apart) == [(0, 1)]


@pytest.mark.parametrize("apart", [1e-5, 1e-3, 0.3])
def test_events_apart_hit_in_the_order_of_time(apart: float) -> None:
    """Two guards that are due one after the other stop the run twice, whatever their numbers."""
    assert _two_clocks(apart) == [(1,), (0,)]


def test_only_guards_that_were_reached_have_hit() -> None:
    """Of three guards that change sign over one long step only the first to do so hits."""
    run = integrate(
        clock,
        (0.0, 0.0),
        end=10.0,
        tolerance=1e-6,
        first_step=8.0,
        guards=lambda point: (point[0] - 3.0, point[0] - 2.0, point[0] - 4.0),
    )
    assert run.happenings[0].hit == (1,)
    assert run.times[-1] == pytest.approx(2.0, rel=1e-5)
    assert GUARDS == 3


def test_a_guard_that_is_zero_at_the_start_has_not_happened() -> None:
    """A ball thrown up from the ground meets the ground when it comes back, not as it leaves."""
    run = integrate(fall, (0.0, 4.905), end=5.0, tolerance=1e-6, guards=ground, first_step=1e-3)
    assert [happening.hit for happening in run.happenings] == [(0,)]
    assert run.times[-1] == pytest.approx(1.0, rel=1e-6)


def test_an_event_one_rounding_ahead_is_met() -> None:
    """A guard that is negative by a single rounding at the start hits at once, at no cost in time."""
    run = integrate(lambda _: (-1.0,), (1.0 + math.ulp(1.0),), end=2.0, guards=lambda point: (1.0 - point[0],))
    assert run.code == stiff.EVENT_REACHED
    assert run.times[-1] < 1e-12
    assert run.end[0] <= 1.0


def test_an_event_one_rounding_after_another_is_met() -> None:
    """An event that leaves a second guard negative by a single rounding, far from time zero, does not end the run."""

    def put_back(state: Vector, hit: tuple[int, ...]) -> float:
        if 0 in hit:
            state[0] = 1.0 - math.ulp(0.5)
            state[1] = -5.0
        return math.inf

    run = integrate(
        lambda _: (1.0, 1.0),
        (0.0, 0.0),
        end=3.0,
        tolerance=1e-6,
        guards=lambda point: (point[1] - 1.0, point[0] - 1.0),
        act=put_back,
    )
    assert run.code == stiff.END_REACHED
    assert [happening.hit for happening in run.happenings][-1] == (1,)


def test_what_an_event_does_to_the_state_is_kept() -> None:
    """After a jump the run goes on from the new state, and the jump is no error of the step."""
    run = integrate(
        lambda point: (1.0, -point[1]),
        (0.0, 1.0),
        end=2.0,
        tolerance=1e-8,
        guards=lambda point: (point[0] - 1.0,),
        act=_add_one,
    )
    expected = (math.exp(-1.0) + 1.0) * math.exp(-1.0)
    assert run.end[1] == pytest.approx(expected, rel=1e-7)


def _add_one(state: Vector, _: tuple[int, ...]) -> float:
    state[1] += 1.0
    return math.inf


def test_an_inactive_guard_costs_nothing() -> None:
    """Guards that stay negative leave the run as it is without them."""
    watched = integrate(clock, (0.0, 1.0), end=2.0, tolerance=1e-6, guards=lambda point: (point[0] - 5.0, -1.0, -1e-300))
    alone = integrate(clock, (0.0, 1.0), end=2.0, tolerance=1e-6)
    assert watched.evaluations == alone.evaluations
    assert np.array_equal(watched.states, alone.states)
