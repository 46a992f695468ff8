from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from stripdown.bench.completion import complete
from stripdown.core.shot_statistics import HopState
from stripdown.errors import InputError
from stripdown.files.gun import load_gun
from stripdown.quantities import replace_at
from stripdown.studies.match_chronograph import (
    MAKE_MASS,
    choose_numbers,
    doubted,
    match_chronograph,
    predict_speeds,
    tolerance_ends,
)
from stripdown.studies.observation import Observation
from tests.fired_strings import HEAVY, LIGHT, SOUND_FILE, fire, muzzle_speeds, sound_gun, sound_parameters


def _string(mass: float, hop: HopState | None = None) -> Observation:
    return Observation(
        ball_mass=mass, muzzle_speed=100.0, standard_error=0.1, scatter=0.4, common_uncertainty=0.0, count=10, hop=hop
    )


@pytest.mark.parametrize(
    ("strings", "names"),
    [
        ([_string(LIGHT)], ["spring.rate"]),
        ([_string(LIGHT), _string(LIGHT)], ["spring.rate"]),
        ([_string(LIGHT), _string(HEAVY)], ["spring.rate", "leaks.piston_seal"]),
        (
            [_string(LIGHT), _string(0.28e-3), _string(HEAVY)],
            ["spring.rate", "leaks.piston_seal", "nozzle.discharge_coefficient"],
        ),
        (
            [_string(LIGHT, HopState.OFF), _string(LIGHT, HopState.SET), _string(HEAVY, HopState.OFF)],
            ["spring.rate", "leaks.piston_seal", "hop_up.normal_force"],
        ),
    ],
    ids=["one", "one twice", "two", "three", "both hop states"],
)
def test_strings_carry_at_most_three_numbers(strings: list[Observation], names: list[str]) -> None:
    """One mass carries one, two carry two, a third mass or both states of the hop-up a third."""
    assert [number.path for number in choose_numbers(strings)] == names


def test_the_fit_meets_strings_of_its_own_model() -> None:
    """A spring a tenth stiffer than written is found, and the model then shoots as the strings do."""
    stiff = replace_at(sound_parameters(), "spring.rate", 1.1 * sound_parameters().spring.rate)
    match = match_chronograph(sound_gun(), strings=fire(stiff, [LIGHT, HEAVY], None))
    work = match.fitted[0]
    assert work.low < stiff.spring.rate < work.high
    assert match.predicted == pytest.approx(muzzle_speeds(stiff, [LIGHT, HEAVY]), rel=0.01)
    assert match.misfit < 2.0
    assert 0.0 < work.learnt < 1.0


def test_a_prediction_is_sure_where_it_was_fired_and_widens_away() -> None:
    """At the fired masses it is the reading; a ball in between is known better than one outside."""
    strings = fire(sound_parameters(), [LIGHT, HEAVY], None)
    match = match_chronograph(sound_gun(), strings=strings)
    expected = predict_speeds(match, ball_masses=[LIGHT, 0.28e-3, HEAVY, 0.12e-3])
    at_light, between, at_heavy, outside = expected.standard_uncertainty / expected.muzzle_speed
    assert at_light < 1.5 * strings[0].relative_error
    assert max(at_light, at_heavy) < between < outside
    assert expected.muzzle_speed[0] == pytest.approx(strings[0].muzzle_speed, rel=0.002)


def test_one_mass_says_little_of_another() -> None:
    """A single string leaves a heavy ball twice as open as two strings do."""
    one = match_chronograph(sound_gun(), strings=fire(sound_parameters(), [LIGHT], None))
    two = match_chronograph(sound_gun(), strings=fire(sound_parameters(), [LIGHT, 0.36e-3], None))
    far = [predict_speeds(match, ball_masses=[HEAVY]).standard_uncertainty[0] for match in (one, two)]
    assert far[0] > 2.0 * far[1]
    assert any("One ball mass shows one number only" in note for note in one.notes)


def test_what_the_instrument_adds_to_all_strings_does_not_average_out() -> None:
    """With a chronograph of one per cent every prediction is known to one per cent at best."""
    strings = [
        Observation(
            ball_mass=string.ball_mass,
            muzzle_speed=string.muzzle_speed,
            standard_error=string.standard_error,
            scatter=string.scatter,
            common_uncertainty=0.01 * string.muzzle_speed,
            count=string.count,
        )
        for string in fire(sound_parameters(), [LIGHT, 0.25e-3, 0.32e-3, HEAVY], None)
    ]
    expected = predict_speeds(match_chronograph(sound_gun(), strings=strings), ball_masses=[0.28e-3])
    # And what a make of ball differs by.
    assert 0.0095 < expected.standard_uncertainty[0] / expected.muzzle_speed[0] < 0.014


def test_the_hop_up_is_off_for_strings_that_say_so() -> None:
    """The same speeds with the hop-up off leave the model of a set hop-up slower."""
    strings = fire(sound_parameters(), [HEAVY], None, hop=HopState.OFF)
    match = match_chronograph(sound_gun(), strings=strings)
    off = predict_speeds(match, ball_masses=[HEAVY], hop=HopState.OFF).muzzle_speed[0]
    pressed = predict_speeds(match, ball_masses=[HEAVY], hop=HopState.SET).muzzle_speed[0]
    assert off == pytest.approx(strings[0].muzzle_speed, rel=0.002)
    assert pressed < off


def test_without_a_string_there_is_nothing_to_fit() -> None:
    """The message says what to do."""
    with pytest.raises(InputError, match="There is no string to fit to"):
        match_chronograph(sound_gun(), strings=[])


def test_numbers_that_cannot_be_told_apart_are_named(rng: np.random.Generator) -> None:
    """Work and leak at the cylinder are both shown by two masses; what the strings hardly say is said."""
    match = match_chronograph(sound_gun(), strings=fire(sound_parameters(), [LIGHT, 0.21e-3], rng))
    assert match.correlation.shape == (2, 2)
    assert any("say almost nothing of the leak at the cylinder" in note for note in match.notes)


def test_a_tolerance_that_would_jam_the_ball_is_not_tried(tmp_path: Path) -> None:
    """A ball that passes its bore by less than both tolerances: the gun is matched all the same."""
    file = tmp_path / "tight.toml"
    text = SOUND_FILE.read_text(encoding="utf-8").replace('bore = "6.05 mm"', 'bore = "5.955 mm"')
    file.write_text(text, encoding="utf-8")
    gun = load_gun(file)
    parameters = complete(gun).parameters
    low, high = tolerance_ends(parameters)["barrel.bore"]
    assert low == parameters.barrel.bore < high
    match = match_chronograph(gun, strings=fire(parameters, [LIGHT], None))
    assert match.predicted == pytest.approx(muzzle_speeds(parameters, [LIGHT]), rel=0.01)


def test_a_ball_that_would_halve_what_is_open_is_named_once() -> None:
    """From one light string a heavy ball would; once it was fired, none would."""
    masses = [LIGHT, 0.25e-3, 0.30e-3, 0.36e-3, HEAVY]
    one = predict_speeds(match_chronograph(sound_gun(), strings=fire(sound_parameters(), [LIGHT], None)), ball_masses=masses)
    assert one.second is not None
    assert one.second.ball_mass in (0.36e-3, HEAVY)
    assert one.second.open_then <= 0.5 * one.second.open_now
    both = match_chronograph(sound_gun(), strings=fire(sound_parameters(), [LIGHT, one.second.ball_mass], None))
    two = predict_speeds(both, ball_masses=masses)
    assert two.second is None
    then = np.median(two.standard_uncertainty[1:4] / two.muzzle_speed[1:4])
    assert then == pytest.approx(one.second.open_then, rel=0.35)


def test_another_make_of_ball_is_open_though_its_mass_lies_between_two_that_were_fired() -> None:
    """What a make differs by remains, with whatever other balls were fired; the ball that was fired is the reading."""
    strings = fire(sound_parameters(), [LIGHT, 0.28e-3, 0.32e-3, HEAVY], None)
    expected = predict_speeds(match_chronograph(sound_gun(), strings=strings), ball_masses=[0.28e-3, 0.30e-3])
    fired, other = expected.standard_uncertainty / expected.muzzle_speed
    assert fired < 1.5 * strings[1].relative_error
    # A share of the mass is about four tenths of it as a share of speed; the fired balls have makes of their own.
    assert 0.4 * MAKE_MASS < other < 1.2 * MAKE_MASS


def test_what_nobody_can_measure_is_open_by_its_own_spread() -> None:
    """A doubted number spans a factor either way, whatever is written; another one its tolerance."""
    ends = tolerance_ends(sound_parameters())
    for path, spread in doubted().items():
        low, high = ends[path]
        assert high / low == pytest.approx(np.exp(2.0 * spread), rel=1e-9), path
    low, high = ends["piston.seal_drag"]
    assert high - low == pytest.approx(2.0)
