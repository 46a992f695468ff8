from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from stripdown.bench.strings import ChronographSession, ReadingString
from stripdown.catalogue.limits import load_limits, own_site_rule
from stripdown.core.shot_statistics import (
    Chronograph,
    EnergyLimit,
    FireMode,
    HopState,
    LimitScope,
    MeasuredState,
    PredictedState,
    StringConditions,
    reading_from_muzzle,
)
from stripdown.errors import InputError
from stripdown.studies.case_strings import verdict_on
from stripdown.studies.session_answers import study_verdict
from stripdown.studies.verdict import FiredString, gun_verdict
from tests.fired_strings import HEAVY, LIGHT, fire, muzzle_speeds, sound_gun, sound_parameters

BALLS = (LIGHT, 0.28e-3, HEAVY)


_STEADY = np.linspace(-1.5, 1.5, 10)[[4, 8, 1, 6, 0, 9, 3, 5, 7, 2]]  # in an order without drift


def _string(
    mass: float | None = LIGHT,
    *,
    mode: FireMode | None = FireMode.SEMI,
    distance: float | None = 0.0,
    speeds: tuple[float, ...] | None = None,
) -> FiredString:
    """Ten shots of the sound gun, at the muzzle unless read elsewhere."""
    if speeds is None:
        middle = float(muzzle_speeds(sound_parameters(), [mass or LIGHT])[0])
        if distance:
            middle = reading_from_muzzle(middle, ball_mass=mass or LIGHT, distance=distance).speed
        speeds = tuple(middle * (1.0 + 0.004 * step) for step in _STEADY)
    return FiredString(speeds=speeds, conditions=StringConditions(ball_mass=mass, fire_mode=mode, distance=distance))


def _limit(energy: float, *, at: float | None = 0.0, scope: LimitScope = LimitScope.EVERY_SHOT) -> EnergyLimit:
    return EnergyLimit(name="made up", energy=energy, measuring_distance=at, scope=scope)


def test_a_ball_is_measured_or_predicted_and_never_both() -> None:
    """Fired masses are judged by their strings, the others by the model; the limit lies far above."""
    found = gun_verdict(sound_gun(), strings=[_string()], limit=_limit(2.0), ball_masses=BALLS)
    assert [(ball.ball_mass, ball.measured is None, ball.predicted is None) for ball in found.balls] == [
        (LIGHT, False, True),
        (0.28e-3, True, False),
        (HEAVY, True, False),
    ]
    assert found.balls[0].measured is not None
    assert found.balls[0].measured.state is MeasuredState.UNDER
    assert found.state is MeasuredState.UNSAID
    assert any("never a pass" in note for note in found.notes)


@pytest.mark.parametrize("energy", [0.5, 0.9, 1.0, 1.05, 1.1, 2.0, 90.0])
def test_a_prediction_never_says_under(energy: float) -> None:
    """However far the limit is away, a predicted ball is worth firing at best; no word of its states allows a gun."""
    found = gun_verdict(sound_gun(), strings=[_string()], limit=_limit(energy), ball_masses=BALLS)
    for ball in found.balls:
        if ball.predicted is not None:
            assert isinstance(ball.predicted.state, PredictedState)
            assert "pass" not in ball.predicted.state.value
            assert "prove" in ball.predicted.state.value or "over" in ball.predicted.state.value


def test_only_strings_for_every_ball_make_a_gun_under() -> None:
    """With each ball fired and under, so is the gun; one close or over is what counts."""
    strings = [_string(mass) for mass in BALLS]
    assert gun_verdict(sound_gun(), strings=strings, limit=_limit(2.0), ball_masses=BALLS).state is MeasuredState.UNDER
    close = gun_verdict(sound_gun(), strings=strings, limit=_limit(1.085), ball_masses=BALLS)
    assert close.state is MeasuredState.CLOSE
    assert close.match is None
    assert gun_verdict(sound_gun(), strings=strings, limit=_limit(0.9), ball_masses=BALLS).state is MeasuredState.OVER


def test_balls_worth_firing_come_nearest_first_without_those_expected_over() -> None:
    """The likeliest to exceed is fired first; what is expected over needs no string to be refused."""
    found = gun_verdict(sound_gun(), strings=[_string()], limit=_limit(1.05), ball_masses=(0.12e-3, *BALLS, 0.48e-3))
    chances = {ball.ball_mass: ball.predicted.chance_exceeds for ball in found.balls if ball.predicted is not None}
    assert [chances[mass] for mass in found.worth_firing] == sorted((chances[mass] for mass in found.worth_firing), reverse=True)
    over = {
        ball.ball_mass
        for ball in found.balls
        if ball.predicted is not None and ball.predicted.state is PredictedState.EXPECTED_OVER
    }
    assert over
    assert over.isdisjoint(found.worth_firing)


def test_joule_creep_is_seen() -> None:
    """A limit just above what a light ball has is expected to be exceeded by a heavier one."""
    energy = 0.5 * LIGHT * float(muzzle_speeds(sound_parameters(), [LIGHT])[0]) ** 2
    found = gun_verdict(sound_gun(), strings=[_string()], limit=_limit(1.02 * energy), ball_masses=(LIGHT, 0.25e-3))
    heavier = found.balls[1].predicted
    assert heavier is not None
    assert heavier.energy > energy
    assert heavier.chance_exceeds > 0.05


def test_semi_and_automatic_stay_apart() -> None:
    """Each selector position has its own balls; semi comes first."""
    strings = [_string(mode=FireMode.AUTOMATIC), _string(mode=FireMode.SEMI)]
    found = gun_verdict(sound_gun(), strings=strings, limit=_limit(2.0), ball_masses=BALLS)
    assert [ball.fire_mode for ball in found.balls] == [FireMode.SEMI] * 3 + [FireMode.AUTOMATIC] * 3


def test_a_limit_for_automatic_does_not_judge_semi() -> None:
    """Strings that the limit is not for are left out and counted; with no other string there is nothing to say."""
    limit = _limit(2.0, scope=LimitScope.AUTOMATIC_FIRE)
    both = [_string(mode=FireMode.AUTOMATIC), _string(mode=FireMode.SEMI)]
    found = gun_verdict(sound_gun(), strings=both, limit=limit, ball_masses=[LIGHT])
    assert [ball.fire_mode for ball in found.balls] == [FireMode.AUTOMATIC]
    assert any("1 strings are not what this limit is for" in note for note in found.notes)
    with pytest.raises(InputError, match="No string was fired in a way that the limit"):
        gun_verdict(sound_gun(), strings=[_string()], limit=limit)


def test_what_was_not_said_of_the_gun_is_said_of_the_verdict() -> None:
    """A limit for guns that can fire automatic, and nobody said whether this one can."""
    limit = load_limits()["uk_automatic"].limit
    found = gun_verdict(sound_gun(), strings=[_string()], limit=limit, ball_masses=[LIGHT])
    assert any("Whether the limit is for this gun was not said" in note for note in found.notes)
    assert any("No string was fired on automatic" in note for note in found.notes)
    said = gun_verdict(sound_gun(), strings=[_string()], limit=limit, ball_masses=[LIGHT], can_fire_automatic=True)
    assert not any("was not said" in note for note in said.notes)


def test_an_unsaid_distance_is_the_limits_own_point_for_strings_and_predictions_alike() -> None:
    """Readings whose distance nobody said stand at the measuring point: predictions from them are no lower than they say.

    Once they were taken to stand at the muzzle for predictions, which hid 8 % of energy a metre.
    """
    limit = _limit(1.2, at=1.0)
    found = {}
    for said in (1.0, None):
        string = dataclasses.replace(
            _string(distance=1.0), conditions=StringConditions(ball_mass=LIGHT, fire_mode=FireMode.SEMI, distance=said)
        )
        found[said] = gun_verdict(sound_gun(), strings=[string], limit=limit, ball_masses=BALLS)
    for one, other in zip(found[1.0].balls, found[None].balls, strict=True):
        if one.predicted is not None and other.predicted is not None:
            assert other.predicted.energy == pytest.approx(one.predicted.energy, rel=1e-9)
        else:
            assert one.measured is not None
            assert other.measured is not None
            assert other.measured.mean_energy == pytest.approx(one.measured.mean_energy, rel=1e-9)


def test_a_limit_at_a_metre_allows_more_at_the_muzzle() -> None:
    """The same gun is nearer to a limit at the muzzle than to the same energy measured a metre away."""
    chances = [
        gun_verdict(sound_gun(), strings=[_string()], limit=_limit(1.06, at=at), ball_masses=BALLS).balls[1] for at in (0.0, 1.0)
    ]
    assert chances[0].predicted is not None
    assert chances[1].predicted is not None
    assert chances[0].predicted.chance_exceeds > 5.0 * chances[1].predicted.chance_exceeds


@pytest.mark.parametrize(
    "setting", [{"chronograph": Chronograph(relative_uncertainty=0.01)}, {"ball_mass_uncertainty": 4e-6}], ids=["speed", "mass"]
)
def test_what_is_not_known_widens_the_verdict(setting: dict[str, object]) -> None:
    """An uncertain chronograph or ball raises the tolerance bound, and the chance of a prediction below the limit."""
    limit = _limit(1.12)
    sure = gun_verdict(sound_gun(), strings=[_string()], limit=limit, ball_masses=BALLS)
    unsure = gun_verdict(sound_gun(), strings=[_string()], limit=limit, ball_masses=BALLS, **setting)  # type: ignore[arg-type]
    assert sure.balls[0].measured is not None
    assert unsure.balls[0].measured is not None
    assert (unsure.balls[0].measured.tolerance_energy or 0.0) > (sure.balls[0].measured.tolerance_energy or 0.0)
    assert sure.balls[1].predicted is not None
    assert unsure.balls[1].predicted is not None
    assert unsure.balls[1].predicted.chance_exceeds > sure.balls[1].predicted.chance_exceeds


def test_the_last_digit_of_equal_readings_counts_as_scatter() -> None:
    """Ten times 102 m/s, read to the whole metre: what the steps hide is in the bound."""
    equal = FiredString(
        speeds=(102.0,) * 10,
        conditions=StringConditions(ball_mass=LIGHT, fire_mode=FireMode.SEMI, distance=0.0),
        resolution=1.0,
    )
    measured = gun_verdict(sound_gun(), strings=[equal], limit=_limit(1.2), ball_masses=[LIGHT]).balls[0].measured
    assert measured is not None
    assert measured.common_uncertainty == pytest.approx(1.0 / 12**0.5)
    assert any("taken at its word" in note for note in measured.notes)


def test_without_ball_or_string_there_is_no_verdict() -> None:
    """Each has its message."""
    with pytest.raises(InputError, match="no string fired after the work"):
        gun_verdict(sound_gun(), strings=[], limit=_limit(1.0))
    with pytest.raises(InputError, match="does not say which ball"):
        gun_verdict(sound_gun(), strings=[_string(None)], limit=_limit(1.0))


def test_strings_without_hop_up_predict_balls_without_it() -> None:
    """What a pressed hop-up takes is not taken from balls of a string that was fired without."""
    string = dataclasses.replace(_string(), conditions=dataclasses.replace(_string().conditions, hop=HopState.OFF))
    off = gun_verdict(sound_gun(), strings=[string], limit=_limit(2.0), ball_masses=BALLS).balls[2].predicted
    unsaid = gun_verdict(sound_gun(), strings=[_string()], limit=_limit(2.0), ball_masses=BALLS).balls[2].predicted
    assert off is not None
    assert unsaid is not None
    assert fire(sound_parameters(), [LIGHT], None, hop=HopState.OFF)[0].muzzle_speed > 0
    assert off.energy > unsaid.energy * 0.99


def test_a_sites_rule_by_speed_holds_every_ball_to_its_energy() -> None:
    """350 ft/s on 0.20 g is 1.138 J, with a heavy ball too."""
    rule = own_site_rule(speed="350 ft/s", ball_mass="0.20 g", measured_at="0 m")
    found = gun_verdict(sound_gun(), strings=[_string(HEAVY)], limit=rule, ball_masses=[HEAVY]).balls[0].measured
    assert found is not None
    assert found.limit_energy == pytest.approx(0.5 * 0.2e-3 * (350 * 0.3048) ** 2)
    assert found.limit_speed == pytest.approx(350 * 0.3048 / 2**0.5)


def test_a_verdict_names_the_string_that_it_came_from() -> None:
    """Two strings alike in ball, selector and count: each finds what was said of it, and no other."""
    fast, slow = (
        ReadingString(
            label="",
            conditions=StringConditions(ball_mass=LIGHT, fire_mode=FireMode.SEMI, distance=0.0),
            speeds=tuple(middle + step for step in (0.1, -0.2, 0.0, 0.2, -0.1)),
            resolution=0.1,
        )
        for middle in (110.0, 90.0)
    )
    study = study_verdict(sound_gun(), ChronographSession(strings=(fast, slow)), limit=_limit(1.0), ball_masses=[LIGHT])
    found = [verdict_on(string, study.verdict) for string in study.strings]
    assert [None if one is None else one.state for one in found] == [MeasuredState.OVER, MeasuredState.UNDER]
    assert len({string.key for string in study.strings}) == 2
