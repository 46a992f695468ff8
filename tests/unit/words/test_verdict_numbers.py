from __future__ import annotations

import pytest

from stripdown.core.shot_statistics import FireMode, HopState, Interval, StringConditions
from stripdown.quantities import Q
from stripdown.words.numbers import (
    amount_of_fault,
    balls,
    chance,
    change_of_energy,
    change_of_speed,
    energy_or_dash,
    fired_with,
    range_of_fault,
    share_changed,
    speed_range,
    speed_unit,
)

_AREA = Q("m2", label="leak", shown="mm2")


@pytest.mark.parametrize(
    ("probability", "written"),
    [
        (0.0, "<0.1 %"),
        (0.0009, "<0.1 %"),
        (0.0214, "2.1 %"),
        (0.0999, "10.0 %"),
        (0.25, "25 %"),
        (0.994, "99.4 %"),
        (0.9995, ">99.9 %"),
        (1.0, ">99.9 %"),
    ],
)
def test_a_chance_is_never_written_as_none_or_certain(probability: float, written: str) -> None:
    """Nobody is told 0 % or 100 %."""
    assert chance(probability) == written


def test_changes_carry_their_sign_and_their_interval() -> None:
    """With a true minus; in feet when asked; a change that rounds to nothing has no sign."""
    assert change_of_speed(19.5, Interval(18.7, 20.3), "m/s") == ("+19.5 m/s", "+18.7 to +20.3")
    assert change_of_speed(-1.0, Interval(-2.0, 0.02), "m/s") == ("−1.0 m/s", "−2.0 to 0.0")
    assert change_of_speed(20.0, Interval(19.0, 21.0), "ft/s") == ("+66 ft/s", "+62 to +69")
    assert change_of_energy(-0.2, Interval(-0.3, -0.1)) == ("−0.20 J", "−0.30 to −0.10")
    assert share_changed(0.244) == "+24 %"


def test_ranges_name_their_unit_once() -> None:
    """Speeds to a tenth, amounts to two figures."""
    assert speed_range(Interval(80.94, 82.61), "m/s") == "80.9 to 82.6 m/s"
    assert speed_range(Interval(80.94, 82.61), "m/s", with_unit=False) == "80.9 to 82.6"
    assert range_of_fault(4.64e-6, 4.93e-6, _AREA, "metric") == "4.6 to 4.9 mm²"
    assert amount_of_fault(4.77e-6, _AREA, "metric") == "4.8 mm²"
    assert balls([0.2e-3, 0.25e-3]) == "0.20, 0.25 g"


def test_only_what_was_said_of_a_string_is_written() -> None:
    """Ball, hop-up, selector; nothing for what nobody said."""
    said = StringConditions(ball_mass=0.2e-3, hop=HopState.OFF, fire_mode=FireMode.SEMI)
    assert fired_with(said) == "0.20 g, hop-up off, semi"
    assert fired_with(StringConditions(fire_mode=FireMode.AUTOMATIC)) == "automatic"
    assert fired_with(StringConditions()) == ""


def test_no_energy_without_a_ball() -> None:
    """A dash, not a zero."""
    assert energy_or_dash(None) == "–"
    assert energy_or_dash(1.0) == "1.00 J"


def test_the_scale_chooses_the_unit_of_speeds() -> None:
    """Metres for the one, feet for the other."""
    assert (speed_unit("metric"), speed_unit("imperial")) == ("m/s", "ft/s")
