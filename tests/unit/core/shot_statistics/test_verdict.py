"""A measured string and a predicted speed against a limit: numbers, states, and what is said beside them."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.shot_statistics import (
    Chronograph,
    DecisionRule,
    EnergyLimit,
    FireMode,
    LimitScope,
    MeasuredState,
    PredictedState,
    limit_forecast,
    limit_from_speed,
    limit_verdict,
    tolerance_factor,
)
from stripdown.errors import OutOfRange

BALL = 0.2e-3
MUZZLE = EnergyLimit(name="1 J at the muzzle", energy=1.0, measuring_distance=0.0)
SOUND = (97.1, 96.8, 97.4, 97.0, 96.9, 97.3, 97.2, 96.7, 97.1, 97.0)
_KNOWN = Chronograph(standard_uncertainty=0.2)


def _string(mean: float, scatter: float) -> list[float]:
    """Ten shots with this mean and standard deviation."""
    pattern = (1, -1, 0.5, -0.5, 0, 1, -1, -0.5, 0.5, 0)
    norm = math.sqrt(sum(x * x for x in pattern) / 9)
    return [mean + scatter * x / norm for x in pattern]


def test_far_below_is_under() -> None:
    """A sound string well below the limit is under, and all three numbers say so."""
    found = limit_verdict(_string(90.0, 0.3), ball_mass=BALL, limit=MUZZLE, distance=0.0, chronograph=_KNOWN)
    assert found.state is MeasuredState.UNDER
    assert found.notes == ()
    assert found.mean_energy < 1.0
    assert found.tolerance_energy is not None
    assert found.mean_energy < found.tolerance_energy < 1.0
    assert found.chance_next_exceeds == pytest.approx(0.0, abs=1e-6)


def test_just_below_is_close_although_the_mean_is_under() -> None:
    """The mean of a string never decides that a gun is under."""
    found = limit_verdict(_string(99.2, 0.4), ball_mass=BALL, limit=MUZZLE, distance=0.0)
    assert found.mean_energy < 1.0
    assert found.shots_over == 0
    assert found.state is MeasuredState.CLOSE


def test_one_shot_over_is_over() -> None:
    """A gun that exceeded the limit once is over it, whatever its mean."""
    found = limit_verdict([*SOUND, 100.5], ball_mass=BALL, limit=MUZZLE, distance=0.0)
    assert (found.state, found.shots_over) == (MeasuredState.OVER, 1)


def test_a_single_shot_says_over_or_nothing() -> None:
    """From one shot nobody can say that the next one stays under."""
    low = limit_verdict([80.0], ball_mass=BALL, limit=MUZZLE, distance=0.0)
    assert (low.state, low.chance_next_exceeds, low.guard_band) == (MeasuredState.UNSAID, None, None)
    assert limit_verdict([101.0], ball_mass=BALL, limit=MUZZLE, distance=0.0).state is MeasuredState.OVER


def test_the_three_numbers_are_what_their_names_say() -> None:
    """Mean, tolerance bound and t-predictive chance, without an instrument, are the textbook's."""
    stats = pytest.importorskip("scipy.stats")
    found = limit_verdict(_string(98.0, 0.5), ball_mass=BALL, limit=MUZZLE, distance=0.0)
    bound = 98.0 + 0.5 * tolerance_factor(10, content=0.95, confidence=0.95, sides=1)
    assert found.tolerance_speed == pytest.approx(bound)
    assert found.tolerance_energy == pytest.approx(0.5 * BALL * bound**2)
    assert found.chance_next_exceeds == pytest.approx(stats.t.sf(2.0 / (0.5 * math.sqrt(1.1)), 9))
    assert found.mean_energy == pytest.approx(0.5 * BALL * (98.0**2 + 0.25 * 0.9))


@given(st.floats(0.05, 2.0), st.floats(0.0, 1.5), st.floats(0.005, 0.2))
def test_a_mean_on_the_guard_band_has_the_accepted_chance(scatter: float, uncertainty: float, chance: float) -> None:
    """The guard band is where the chance of the next shot is just accepted."""
    rule = DecisionRule(accepted_chance=chance)
    chronograph = Chronograph(standard_uncertainty=uncertainty)
    first = limit_verdict(_string(90.0, scatter), ball_mass=BALL, limit=MUZZLE, distance=0.0, chronograph=chronograph, rule=rule)
    assert first.acceptance_energy is not None
    assert first.guard_band == pytest.approx(1.0 - first.acceptance_energy)
    edge = math.sqrt(2.0 * first.acceptance_energy / BALL)
    if edge < 1.0:
        return
    again = limit_verdict(_string(edge, scatter), ball_mass=BALL, limit=MUZZLE, distance=0.0, chronograph=chronograph, rule=rule)
    assert again.chance_next_exceeds == pytest.approx(chance, rel=1e-6)


def test_uncertainty_of_ball_and_instrument_raises_the_chance() -> None:
    """Both widen what the next shot may be; a heavier ball counts half as a share of speed."""
    string = _string(98.0, 0.4)
    bare = limit_verdict(string, ball_mass=BALL, limit=MUZZLE, distance=0.0)
    known = limit_verdict(
        string, ball_mass=BALL, limit=MUZZLE, distance=0.0, chronograph=_KNOWN, ball_mass_uncertainty=0.01 * BALL
    )
    assert known.common_uncertainty == pytest.approx(math.hypot(0.2, 98.0 * 0.005))
    assert bare.chance_next_exceeds is not None
    assert known.chance_next_exceeds is not None
    assert known.chance_next_exceeds > bare.chance_next_exceeds


def test_the_measuring_point_matters() -> None:
    """The same string at the muzzle is over a limit that holds there, and under one that is measured a metre off."""
    string = _string(101.0, 0.1)
    italian = EnergyLimit(name="1 J at one metre", energy=1.0, measuring_distance=1.0)
    assert limit_verdict(string, ball_mass=BALL, limit=MUZZLE, distance=0.0).state is MeasuredState.OVER
    found = limit_verdict(string, ball_mass=BALL, limit=italian, distance=0.0)
    assert found.state is MeasuredState.UNDER
    assert found.mean_speed < 98.0


def test_a_far_chronograph_hides_energy() -> None:
    """Readings from two metres are brought back to the muzzle before they are judged."""
    string = _string(97.0, 0.1)
    assert limit_verdict(string, ball_mass=BALL, limit=MUZZLE, distance=0.0).state is MeasuredState.UNDER
    assert limit_verdict(string, ball_mass=BALL, limit=MUZZLE, distance=2.0).state is MeasuredState.OVER


def test_a_bare_number_is_a_limit_without_a_measuring_point() -> None:
    """It is held at the muzzle, and that is said; so is a chronograph without a distance."""
    found = limit_verdict(SOUND, ball_mass=BALL, limit=1.0)
    assert found.measuring_distance == 0.0
    said = " ".join(found.notes)
    assert "does not say where it is measured" in said
    assert "distance of the chronograph was not said" in said
    assert "taken at its word" in said


def test_a_limit_by_area_depends_on_the_ball() -> None:
    """The larger the ball, the higher the limit."""
    japan = EnergyLimit(name="by area", energy_per_area=3.5e4, measuring_distance=1.0)
    assert japan.energy_for(0.006) == pytest.approx(3.5 * math.pi * 0.3**2)
    assert japan.energy_for(0.00595) < japan.energy_for(0.006)


def test_a_speed_rule_holds_for_every_ball_by_its_energy() -> None:
    """350 ft/s on 0.20 g is 1.138 J, and a heavier ball must then be slower."""
    energy = limit_from_speed(350 * 0.3048, BALL)
    limit = EnergyLimit(name="site", energy=energy)
    assert energy == pytest.approx(1.138, abs=5e-4)
    assert limit.speed_for(0.4e-3, 0.00595) == pytest.approx(350 * 0.3048 / math.sqrt(2))


@pytest.mark.parametrize(
    ("scope", "mode", "can", "expected"),
    [
        (LimitScope.EVERY_SHOT, None, None, True),
        (LimitScope.AUTOMATIC_GUN, FireMode.SEMI, True, True),
        (LimitScope.AUTOMATIC_GUN, FireMode.SEMI, None, None),
        (LimitScope.AUTOMATIC_GUN, FireMode.SEMI, False, False),
        (LimitScope.SINGLE_SHOT_GUN, FireMode.AUTOMATIC, None, False),
        (LimitScope.SINGLE_SHOT_GUN, FireMode.SEMI, False, True),
        (LimitScope.SEMI_FIRE, FireMode.SEMI, True, True),
        (LimitScope.AUTOMATIC_FIRE, FireMode.SEMI, True, False),
        (LimitScope.AUTOMATIC_FIRE, None, True, None),
    ],
)
def test_semi_and_automatic_are_judged_apart(
    scope: LimitScope,
    mode: FireMode | None,
    can: bool | None,  # noqa: FBT001
    expected: bool | None,  # noqa: FBT001
) -> None:
    """A limit for guns counts what the gun can do, one for shots what the selector was on."""
    limit = EnergyLimit(name="x", energy=1.0, scope=scope)
    assert limit.applies(fire_mode=mode, can_fire_automatic=can) is expected


def test_a_string_on_semi_does_not_prove_automatic_fire() -> None:
    """The note asks for a string on automatic."""
    limit = EnergyLimit(name="x", energy=1.3, measuring_distance=0.0, scope=LimitScope.AUTOMATIC_GUN)
    found = limit_verdict(SOUND, ball_mass=BALL, limit=limit, distance=0.0, fire_mode=FireMode.SEMI)
    assert any("on automatic too" in note for note in found.notes)


def test_a_quoted_law_says_so() -> None:
    """A law that nobody here has read is marked."""
    law = EnergyLimit(name="x", energy=1.3, measuring_distance=0.0, is_law=True)
    assert any("not read" in note for note in limit_verdict(SOUND, ball_mass=BALL, limit=law, distance=0.0).notes)


def test_a_ball_off_by_ten_is_remarked() -> None:
    """Two grams are possible, and hardly meant."""
    found = limit_verdict(SOUND, ball_mass=2e-3, limit=MUZZLE, distance=0.0)
    assert any("2 g is unusual" in note for note in found.notes)


def test_drift_is_said_beside_the_verdict() -> None:
    """A climbing gun may be under now and over in ten shots."""
    climbing = [90.0 + 0.5 * place for place in range(10)]
    assert any("drift" in note for note in limit_verdict(climbing, ball_mass=BALL, limit=MUZZLE, distance=0.0).notes)


@pytest.mark.parametrize("amounts", [{}, {"energy": 0.0}, {"energy": 1.0, "energy_per_area": 1e4}, {"energy": math.nan}])
def test_a_limit_has_one_amount(amounts: dict[str, float]) -> None:
    """None, nothing, two, or no number: refused."""
    with pytest.raises(OutOfRange, match="one amount"):
        EnergyLimit(name="x", **amounts)  # type: ignore[arg-type]


@pytest.mark.parametrize("speeds", [[], [0.0, 98.0], [-3.0]])
def test_speeds_that_cannot_be_are_refused(speeds: list[float]) -> None:
    """A verdict needs shots that flew."""
    with pytest.raises(OutOfRange):
        limit_verdict(speeds, ball_mass=BALL, limit=MUZZLE)


def test_a_set_aside_shot_is_not_judged_and_is_mentioned() -> None:
    """It cannot make a gun over, and nobody overlooks it."""
    found = limit_verdict([*SOUND, 120.0], ball_mass=BALL, limit=MUZZLE, distance=0.0, set_aside={10: "lamp flickered"})
    assert found.shots_over == 0
    assert any("1 of 11 shots" in note for note in found.notes)


def test_a_forecast_never_says_under() -> None:
    """States of measurement and forecast share neither member nor word."""
    assert not {state.value for state in MeasuredState} & {state.value for state in PredictedState}
    assert not any("pass" in state.value for state in (*MeasuredState, *PredictedState))


@pytest.mark.parametrize(
    ("speed", "state"),
    [(90.0, PredictedState.WORTH_FIRING), (98.0, PredictedState.DOUBTFUL), (104.0, PredictedState.EXPECTED_OVER)],
)
def test_a_forecast_says_what_is_worth_firing(speed: float, state: PredictedState) -> None:
    """Far under, near, and over."""
    found = limit_forecast(speed, standard_uncertainty=2.0, scatter=0.4, ball_mass=BALL, limit=MUZZLE)
    assert found.state is state
    assert found.energy == pytest.approx(0.5 * BALL * speed**2)


def test_a_forecast_needs_a_speed() -> None:
    """A ball that stays in the barrel has no energy to hold against a limit."""
    with pytest.raises(OutOfRange, match="impossible"):
        limit_forecast(0.0, standard_uncertainty=1.0, scatter=0.4, ball_mass=BALL, limit=MUZZLE)
