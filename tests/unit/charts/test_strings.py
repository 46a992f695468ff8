from __future__ import annotations

import math
from typing import Any

import pytest

from stripdown.charts.render import to_spec
from stripdown.charts.strings import string_in_order
from stripdown.charts.themes import PAPER
from stripdown.core.shot_statistics import LimitVerdict, StringStatistics, analyse_string, limit_verdict
from stripdown.units import Scale
from tests.synthetic_verdicts import AFTER, LIMIT
from tests.unit.charts.specs import table_with, tables


def _shots(string: StringStatistics, verdict: LimitVerdict | None = None, scale: Scale = "metric") -> list[dict[str, Any]]:
    return table_with(string_in_order(string, verdict=verdict, name="after", scale=scale, theme=PAPER), "shot", "speed")


def _words(string: StringStatistics, verdict: LimitVerdict | None = None) -> list[str]:
    chart = string_in_order(string, verdict=verdict, name="after", scale="metric", theme=PAPER)
    return list(dict.fromkeys(row["words"] for table in tables(chart) for row in table if "words" in row))


def test_shots_stand_in_their_order_as_read() -> None:
    """Without a limit nothing is moved."""
    shots = _shots(analyse_string(AFTER, ball_mass=0.2e-3))
    assert [shot["shot"] for shot in shots] == [1, 2, 3, 4, 5]
    assert [shot["speed"] for shot in shots] == list(AFTER)


def test_speeds_are_in_feet_when_asked() -> None:
    """100 m/s are 328.08 ft/s."""
    assert _shots(analyse_string(AFTER, ball_mass=0.2e-3), scale="imperial")[0]["speed"] == pytest.approx(328.084, abs=1e-3)


def test_with_a_limit_all_stand_at_its_measuring_point() -> None:
    """A ball read 2 m from the muzzle was faster there: the first shot is moved by the ratio of the means."""
    string = analyse_string(AFTER, ball_mass=0.2e-3)
    verdict = limit_verdict(AFTER, ball_mass=0.2e-3, limit=LIMIT, distance=2.0)
    shots = _shots(string, verdict)
    assert shots[0]["speed"] == pytest.approx(100.0 * verdict.mean_speed / string.mean, abs=1e-3)
    assert shots[0]["speed"] > 101.0


def test_the_limit_is_written_at_its_speed_for_this_ball() -> None:
    """1.1 J with 0.20 g are sqrt(2 · 1.1 / 0.0002) m/s."""
    verdict = limit_verdict(AFTER, ball_mass=0.2e-3, limit=LIMIT, distance=0.0)
    words = _words(analyse_string(AFTER, ball_mass=0.2e-3), verdict)
    assert f"limit {math.sqrt(2 * 1.1 / 0.2e-3):.1f} m/s" in words
    assert any(word.startswith("bound ") and "95 % of all shots are under" in word for word in words)
    assert any(word.startswith("mean 100.0 m/s (") for word in words)


def test_without_a_limit_no_limit_is_drawn() -> None:
    """Mean and the two ends between which most shots lie."""
    words = _words(analyse_string(AFTER, ball_mass=0.2e-3))
    assert not any("limit" in word for word in words)
    assert len([word for word in words if word.startswith("95 % of all shots")]) == 2


def test_one_shot_has_a_mean_and_nothing_else() -> None:
    """No interval can be drawn, and nothing fails."""
    assert _words(analyse_string([100.0], ball_mass=0.2e-3)) == ["mean 100.0 m/s"]


def test_outliers_are_ringed_and_said_to_count() -> None:
    """The seventh shot does not belong; it stays in the picture."""
    string = analyse_string([100.0, 100.4, 99.7, 100.1, 99.9, 100.2, 92.0, 100.0, 99.8, 100.3], ball_mass=0.2e-3)
    assert [outlier.index for outlier in string.outliers] == [6]
    shots = _shots(string)
    assert [shot["shot"] for shot in shots if shot["kind"] != "counted"] == [7]
    spec = to_spec(string_in_order(string, name="after", scale="metric", theme=PAPER))
    assert "ringed: does not belong with the others, counted all the same" in spec["title"]["subtitle"]


def test_a_shot_set_aside_keeps_its_number_and_does_not_squeeze_the_others() -> None:
    """40 m/s is drawn at the edge of a picture of shots about 100 m/s; the places of the others do not move up."""
    string = analyse_string([100.0, 40.0, 101.0, 99.0, 100.0], ball_mass=0.2e-3, set_aside={1: "two balls at once"})
    shots = _shots(string)
    aside = next(shot for shot in shots if shot["kind"] == "set aside")
    assert (aside["shot"], aside["speed"], aside["text"]) == (2, 40.0, "40.0 m/s")
    assert aside["place"] > 90.0
    assert [shot["shot"] for shot in shots if shot["kind"] == "counted"] == [1, 3, 4, 5]


def test_ten_thousand_shots_become_a_picture_of_hundreds() -> None:
    """The slowest and the fastest stay."""
    speeds = [100.0 + 0.1 * ((7 * index) % 11) for index in range(10_000)]
    speeds[5000] = 103.0
    shots = _shots(analyse_string(speeds, ball_mass=0.2e-3))
    assert len(shots) <= 400 + 10
    assert max(shot["speed"] for shot in shots) == 103.0
    assert min(shot["speed"] for shot in shots) == 100.0


def test_equal_readings_can_be_drawn() -> None:
    """No scatter is no division by zero."""
    shots = _shots(analyse_string([100.0] * 5, ball_mass=0.2e-3))
    assert {shot["place"] for shot in shots} == {100.0}
