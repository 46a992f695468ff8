from __future__ import annotations

import dataclasses

import pytest

from stripdown.charts.joule_creep import joule_creep
from stripdown.charts.themes import SCREEN
from stripdown.core.interior_ballistics.result import Outcome
from stripdown.core.shot_statistics import EnergyLimit
from stripdown.studies.joule_creep import JouleCreep
from tests.synthetic_studies import make_creep
from tests.unit.charts.specs import tables


def _picture(creep: JouleCreep, speed_unit: str = "m/s") -> list[list[dict[str, object]]]:
    return tables(joule_creep(creep, speed_unit=speed_unit, theme=SCREEN))


def test_points_are_grams_joules_and_speeds() -> None:
    """Three balls with energies given: their speeds follow from E = m v² / 2."""
    points = _picture(make_creep([0.20e-3, 0.25e-3, 0.40e-3], [1.0, 1.05, 1.02]))[0]
    assert [point["mass"] for point in points] == [0.2, 0.25, 0.4]
    assert [point["energy"] for point in points] == [1.0, 1.05, 1.02]
    assert points[0]["speed"] == pytest.approx(100.0, abs=0.005)


def test_speed_is_in_feet_when_asked() -> None:
    """100 m/s are 328.08 ft/s."""
    assert _picture(make_creep([0.20e-3], [1.0]), "ft/s")[0][0]["speed"] == pytest.approx(328.08, abs=0.005)


def test_the_subtitle_names_the_ball_with_most_energy() -> None:
    """The peak may lie at any mass; here at 0.25 g."""
    chart = joule_creep(make_creep([0.20e-3, 0.25e-3, 0.40e-3], [1.0, 1.05, 1.02]), speed_unit="m/s", theme=SCREEN)
    most = "most energy: 1.05 J with the 0.25 g ball, 5 % more than with 0.20 g"
    assert chart.to_dict()["title"]["subtitle"] == [f"Rack 7, predicted; {most}"]


def test_a_ball_that_stays_is_a_cross_and_not_a_point_of_the_curve() -> None:
    """Its energy of zero would pull the curve down to where nothing was fired."""
    creep = make_creep([0.20e-3, 0.40e-3], [1.0, 0.0], [Outcome.LEFT_MUZZLE, Outcome.STAYED_IN_BARREL])
    chart = joule_creep(creep, speed_unit="m/s", theme=SCREEN)
    curve, crosses = tables(chart)[:2]
    assert [point["mass"] for point in curve] == [0.2]
    assert [point["mass"] for point in crosses] == [0.4]
    assert "cross: this ball does not leave the muzzle" in chart.to_dict()["title"]["subtitle"]


def test_no_ball_that_leaves_is_said() -> None:
    """The picture can be drawn and says what it shows."""
    chart = joule_creep(make_creep([0.2e-3], [0.0], [Outcome.DID_NOT_MOVE]), speed_unit="m/s", theme=SCREEN)
    assert chart.to_dict()["title"]["subtitle"] == ["Rack 7, predicted; no ball leaves the muzzle"]


def test_numbers_are_thinned_where_they_would_collide() -> None:
    """Of forty balls only ends, peak and lowest are numbered; of nine all."""
    masses = [0.2e-3 + 0.005e-3 * index for index in range(40)]
    energies = [1.0 + 0.001 * index * (30 - index) for index in range(40)]
    numbered = [point["numbered"] for point in _picture(make_creep(masses, energies))[0]]
    assert [index for index, shown in enumerate(numbered) if shown] == [0, 15, 39]
    assert all(point["numbered"] for point in _picture(make_creep(masses[:9], energies[:9]))[0])


def test_a_small_change_does_not_look_like_a_slope() -> None:
    """One per cent of creep takes no more than a tenth of the panel's height."""
    chart = joule_creep(make_creep([0.2e-3, 0.3e-3], [1.0, 1.01]), speed_unit="m/s", theme=SCREEN)
    low, high = chart.to_dict()["vconcat"][0]["layer"][0]["encoding"]["y"]["scale"]["domain"]
    assert 0.01 / (high - low) < 0.1


def test_a_limit_is_a_line_across_the_energies() -> None:
    """Where it lies the picture has room for it, and the key says what it is; the speeds have no such line."""
    creep = dataclasses.replace(make_creep([0.2e-3, 0.3e-3], [1.0, 1.01]), limit=EnergyLimit(name="wood", energy=1.5))
    chart = joule_creep(creep, speed_unit="m/s", theme=SCREEN).to_dict()
    energy, speed = chart["vconcat"]
    rules = [[layer for layer in panel["layer"] if layer["mark"]["type"] == "rule"] for panel in (energy, speed)]
    assert [len(some) for some in rules] == [1, 0]
    assert [{"limit": 1.5}] in chart["datasets"].values()
    domains = [
        layer["encoding"]["y"]["scale"]["domain"] for layer in energy["layer"] if "scale" in layer["encoding"].get("y", {})
    ]
    assert all(low < 1.0 and high > 1.5 for low, high in domains)
    assert "straight line: limit 1.50 J" in chart["title"]["subtitle"]
