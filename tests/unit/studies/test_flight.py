"""Lift is fitted and not assumed; bands keep what was seen; what cannot be is questioned or refused."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest

from stripdown.core.exterior_ballistics import FlightParameters, LiftLaw, Wind, integrate_flight
from stripdown.core.shot_statistics import reading_from_muzzle
from stripdown.errors import InputError, OutOfRange, OutsideValidity
from stripdown.studies.flight import FlightStudy, study_flight
from stripdown.studies.hop_setting import flattest_hop, furthest_hop
from stripdown.studies.lift import FLAT_DROP, Sighting, SightingKind, fit_lift, flat_to, with_lift
from stripdown.studies.muzzle import Stance, muzzle_state
from tests.fired_strings import sound_gun

LEVEL = Stance(elevation=0.0)


@pytest.fixture(scope="module")
def prior() -> FlightStudy:
    """A level shot whose lift nobody has fitted."""
    return study_flight(sound_gun(), stance=LEVEL, energies=(0.5, 1e-4, 5.0))


@pytest.fixture(scope="module")
def fitted() -> FlightStudy:
    """A level shot that flies flat to 35 m, with sights and a side wind."""
    stance = dataclasses.replace(LEVEL, zero=25.0)
    return study_flight(sound_gun(), stance=stance, sightings=(flat_to(35.0),), flattest_to=40.0)


def _flown(factor: float, elevation: float = 0.0) -> FlightParameters:
    level = muzzle_state(sound_gun()).launched(Stance(elevation=elevation))
    return dataclasses.replace(level, laws=dataclasses.replace(level.laws, lift_factor=factor))


def _seen_at(parameters: FlightParameters, distance: float) -> Sighting:
    height = integrate_flight(parameters, until=distance).end.position[2] - parameters.launch.z
    return Sighting(kind=SightingKind.HEIGHT, height=height, distance=distance)


@pytest.mark.parametrize("factor", [0.3, 1.0, 2.5])
def test_a_known_lift_is_found_again_from_one_drop(factor: float) -> None:
    """With a known elevation one height tells it."""
    truth = _flown(factor, 0.01)
    found = fit_lift(_flown(1.0), sightings=[_seen_at(truth, 38.0)], elevation=0.01)
    assert found.factor == pytest.approx(factor, rel=1e-4)
    assert found.misses == pytest.approx([0.0], abs=1e-6)


def test_lift_and_elevation_are_found_from_two() -> None:
    """A near and a far height, neither of them on the level."""
    truth = _flown(1.7, 0.008)
    found = fit_lift(_flown(1.0), sightings=[_seen_at(truth, 15.0), _seen_at(truth, 40.0)], elevation=None)
    assert found.factor == pytest.approx(1.7, rel=1e-3)
    assert found.elevation == pytest.approx(0.008, abs=1e-5)
    assert found.is_elevation_fitted


def test_the_highest_point_tells_the_lift() -> None:
    """Its height over the muzzle is enough where the barrel is level."""
    truth = _flown(2.0)
    height = integrate_flight(truth).apex.position[2] - truth.launch.z
    found = fit_lift(_flown(1.0), sightings=[Sighting(kind=SightingKind.APEX, height=height)], elevation=0.0)
    assert found.factor == pytest.approx(2.0, rel=1e-3)


def test_one_sighting_without_an_elevation_is_refused() -> None:
    """Lift and a barrel that points up look the same; the same place twice is one sighting."""
    for sightings in ([flat_to(35.0)], [flat_to(35.0), flat_to(35.0)]):
        with pytest.raises(InputError, match="cannot tell lift from elevation"):
            fit_lift(_flown(1.0), sightings=sightings, elevation=None)


def test_what_no_lift_gives_is_refused() -> None:
    """Fifty metres up at ten; and without spin nothing can be fitted."""
    with pytest.raises(InputError, match="No lift between"):
        fit_lift(_flown(1.0), sightings=[Sighting(kind=SightingKind.HEIGHT, height=50.0, distance=10.0)], elevation=0.0)
    still = _flown(1.0)
    still = dataclasses.replace(still, launch=dataclasses.replace(still.launch, spin_y=0.0))
    with pytest.raises(InputError, match="without backspin"):
        fit_lift(still, sightings=[flat_to(35.0)], elevation=0.0)
    with pytest.raises(OutOfRange, match="distance"):
        fit_lift(_flown(1.0), sightings=[flat_to(-3.0)], elevation=0.0)


def test_a_wide_miss_of_many_sightings_is_kept() -> None:
    """Three heights that contradict one another are met in the mean, and what is left is told."""
    truth = _flown(1.5)
    seen = [_seen_at(truth, 20.0), _seen_at(truth, 30.0), dataclasses.replace(_seen_at(truth, 40.0), height=0.5)]
    found = fit_lift(_flown(1.0), sightings=seen, elevation=0.0)
    assert max(map(abs, found.misses)) > 0.02


def test_the_path_passes_what_was_seen(fitted: FlightStudy) -> None:
    """Ten centimetres below the muzzle at 35 m is what flat to 35 m means; the band has no width there."""
    assert fitted.path.at_distance(35.0).position[2] == pytest.approx(1.5 - FLAT_DROP, abs=1e-3)
    low, high = fitted.band.at(35.0)[:2]
    assert (low, high) == pytest.approx((-FLAT_DROP, -FLAT_DROP), abs=2e-3)
    assert fitted.questions == ()


def test_the_band_holds_the_path_and_what_was_fitted_narrows_it(prior: FlightStudy, fitted: FlightStudy) -> None:
    """The path lies in it at every distance; laws of lift that differ threefold differ threefold in their multiplier."""
    for study in (prior, fitted):
        for place, height in zip(study.passings.distance, study.passings.position[:, 2] - 1.5, strict=True):
            low, high = study.band.at(float(place))[:2]
            assert math.isnan(height) or low - 1e-6 <= height <= high + 1e-6
    wide, narrow = (study.band.at(40.0)[1] - study.band.at(40.0)[0] for study in (prior, fitted))
    assert narrow < 0.1 * wide
    assert len(fitted.band.laws) == 9
    by_law = dict(zip(fitted.band.laws, fitted.band.factors, strict=True))
    ratio = by_law[next(iter(by_law))] / by_law[next(pair for pair in by_law if pair[1] is LiftLaw.SAWICKI)]
    assert ratio == pytest.approx(3.0, rel=0.05)  # 1.5·S over 0.5·S at a small spin ratio
    assert np.all(prior.band.factors == 1.0)


def test_a_prior_is_marked_as_one(prior: FlightStudy) -> None:
    """No sighting: multiplier one, no uncertainty, and the wide band says what it is worth."""
    assert prior.lift.factor == 1.0
    assert prior.lift.factor_uncertainty is None
    assert prior.lift.is_elevation_told
    assert not fit_lift(_flown(1.0), sightings=(), elevation=None).is_elevation_told
    assert not prior.lift.sightings


def test_energies_fall_in_turn(prior: FlightStudy) -> None:
    """Further with the least drag; none where it lands with more; at the muzzle where it has less from the start."""
    half, hardly, never = prior.levels
    assert half.distance is not None
    assert half.furthest is not None
    assert half.distance < half.furthest
    state = prior.path.at_distance(half.distance)
    assert prior.path.energy(state) == pytest.approx(0.5, abs=1e-9)
    assert hardly.distance is None
    assert never.distance == 0.0


def test_a_chronograph_shows_less_and_its_ratio_leads_back(prior: FlightStudy) -> None:
    """As the readings' own machinery has it."""
    for one in prior.readings:
        expected = reading_from_muzzle(
            prior.muzzle.speed, ball_mass=prior.muzzle.ball.mass, distance=one.distance, flight=prior.muzzle.flight
        )
        assert one.speed == expected.speed
        assert one.speed / one.ratio == pytest.approx(prior.muzzle.speed)


def test_a_reading_wins_over_the_prediction() -> None:
    """The speed is moved to the muzzle, the spin ratio stays."""
    predicted, read = muzzle_state(sound_gun()), muzzle_state(sound_gun(), reading=90.0, read_at=1.0)
    assert 93.0 < read.speed < 95.0
    assert read.spin_ratio == pytest.approx(predicted.spin_ratio)
    assert read.predicted_speed == predicted.speed


def test_an_absurd_climb_is_questioned() -> None:
    """Four metres up at 40 m: no player leaves it so. A multiplier far from one is questioned too."""
    seen = (Sighting(kind=SightingKind.HEIGHT, height=4.0, distance=40.0),)
    assert study_flight(sound_gun(), stance=LEVEL, sightings=seen).questions == ("climbs",)
    sinks = (_seen_at(_flown(0.1), 35.0),)
    assert study_flight(sound_gun(), stance=LEVEL, sightings=sinks).questions == ("factor",)


def test_two_sightings_side_by_side_are_questioned() -> None:
    """A metre apart they hardly tell lift from elevation."""
    truth = _flown(1.2, 0.004)
    seen = (_seen_at(truth, 24.0), _seen_at(truth, 25.0))
    assert "sightings_too_near" in study_flight(sound_gun(), sightings=seen).questions


def test_a_ball_of_two_grams_is_questioned() -> None:
    """Possible, and a slip of the decimal point more likely."""
    assert "ball" in study_flight(sound_gun(), stance=LEVEL, ball_mass=2e-3).questions


def test_sights_meet_the_path_at_their_zero(fitted: FlightStudy) -> None:
    """The line starts at the sights and crosses the ball's path at 25 m."""
    assert fitted.sight_line is not None
    start, slope = fitted.sight_line
    assert start == fitted.stance.sight_height
    assert start + slope * 25.0 == pytest.approx(fitted.path.at_distance(25.0).position[2] - 1.5, abs=1e-9)


def test_the_flattest_setting_is_flatter_than_its_neighbours(fitted: FlightStudy) -> None:
    """Ten per cent more or less spin, with the best elevation for each, strays further; and the path strays as told."""
    hop = fitted.hop
    assert hop is not None
    flown = integrate_flight(hop.parameters, until=40.0)
    places = np.arange(5.0, 40.1, 0.5)
    strays = np.abs(flown.along(places).position[:, 2] - 1.5 - fitted.stance.sight_height)
    assert strays.max() == pytest.approx(hop.deviation, abs=2e-3)
    for share in (0.9, 1.1):
        heights = []
        for tilt in np.linspace(hop.elevation - 0.01, hop.elevation + 0.01, 81):
            launch = hop.parameters.launch
            speed = math.hypot(launch.speed_x, launch.speed_z)
            other = dataclasses.replace(
                hop.parameters,
                launch=dataclasses.replace(
                    launch, speed_x=speed * math.cos(tilt), speed_z=speed * math.sin(tilt), spin_y=launch.spin_y * share
                ),
            )
            path = integrate_flight(other, until=40.0).along(places).position[:, 2]
            heights.append(float(np.abs(path - 1.5 - fitted.stance.sight_height).max()))
        assert min(heights) > hop.deviation


def test_a_wider_window_is_kept_further() -> None:
    """And the deviation stays in it."""
    parameters = _flown(1.0)
    near, far = (furthest_hop(parameters, window=window, sight_height=0.06) for window in (0.10, 0.25))
    assert near is not None
    assert far is not None
    assert near.reach < far.reach
    assert near.deviation <= 0.10
    slow = dataclasses.replace(parameters, launch=dataclasses.replace(parameters.launch, speed_x=3.0))
    assert furthest_hop(slow, window=0.25, sight_height=0.06) is None


def test_a_stretch_that_is_too_short_or_too_long_is_refused() -> None:
    """With what would be right."""
    with pytest.raises(InputError, match="ends beyond"):
        flattest_hop(_flown(1.0), to=3.0, sight_height=0.06)
    with pytest.raises(InputError, match="no hop setting carries"):
        flattest_hop(_flown(1.0), to=250.0, sight_height=0.06)


def test_wind_blows_the_ball_and_leaves_the_fit_alone() -> None:
    """From the right it drifts to the left; more of it, further."""
    drifts = [study_flight(sound_gun(), stance=LEVEL, wind=Wind(across=wind)).passings.position[6, 1] for wind in (0.0, 2.0, 4.0)]
    assert drifts[0] == 0.0
    assert 0.0 < drifts[1] < drifts[2]


@pytest.mark.parametrize(
    ("how", "said"),
    [
        ({"distances": (-5.0,)}, "behind the shooter"),
        ({"stance": Stance(elevation=0.0, zero=149.0)}, "the ball is down"),
        ({"stance": Stance(muzzle_height=-1.0)}, "muzzle"),
        ({"energies": (-1.0,)}, "energies"),
        ({"hottest": 1e5}, "hottest"),
    ],
)
def test_what_cannot_be_is_refused(how: dict[str, object], said: str) -> None:
    """By name, with what would be right."""
    with pytest.raises(OutOfRange, match=said):
        study_flight(sound_gun(), **how)  # type: ignore[arg-type]


def test_a_ball_too_fast_for_the_laws_is_refused() -> None:
    """Above Mach 0.9."""
    with pytest.raises(OutsideValidity, match="mach"):
        study_flight(sound_gun(), stance=LEVEL, reading=330.0)


def test_with_lift_keeps_the_speed() -> None:
    """Only its direction turns."""
    level = _flown(1.0)
    lifted = with_lift(level, dataclasses.replace(fit_lift(level, sightings=(), elevation=0.02), factor=1.5))
    assert math.hypot(lifted.launch.speed_x, lifted.launch.speed_z) == pytest.approx(level.launch.speed_x)
    assert math.atan2(lifted.launch.speed_z, lifted.launch.speed_x) == pytest.approx(0.02)
    assert lifted.laws.lift_factor == 1.5
