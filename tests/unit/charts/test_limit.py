from __future__ import annotations

from typing import Any

import pytest

from stripdown.charts.limit import creep_against_limit
from stripdown.charts.render import to_spec
from stripdown.charts.themes import PAPER, SCREEN
from stripdown.core.shot_statistics import FireMode, MeasuredState
from stripdown.studies.verdict import GunVerdict
from tests.synthetic_verdicts import AFTER, make_verdict, measured, predicted
from tests.unit.charts.specs import table_with, tables

_MIXED = make_verdict(measured(), predicted(0.28e-3, 85.0), predicted(0.40e-3, 72.0))


def _points(verdict: GunVerdict, *fields: str) -> list[dict[str, Any]]:
    return table_with(creep_against_limit(verdict, theme=PAPER), *fields)


def test_a_measured_string_has_mean_bound_and_guard_band() -> None:
    """100 m/s with 0.20 g are 1 J; bound and guard band are those of the verdict."""
    verdict = _MIXED.balls[0].measured
    assert verdict is not None
    point = _points(_MIXED, "bound", "acceptance")[0]
    assert point["energy"] == pytest.approx(1.0, abs=1e-3)
    assert point["bound"] == pytest.approx(verdict.tolerance_energy, abs=1e-4)
    assert point["acceptance"] == pytest.approx(verdict.acceptance_energy, abs=1e-4)
    assert point["limit"] == 1.1


def test_a_prediction_is_a_band_of_two_standard_uncertainties() -> None:
    """For a single shot, prediction and scatter together."""
    forecast = _MIXED.balls[1].predicted
    assert forecast is not None
    point = _points(_MIXED, "low", "high")[0]
    assert point["energy"] == pytest.approx(0.5 * 0.28e-3 * 85.0**2, abs=1e-4)
    reach = 2 * forecast.energy_standard_uncertainty
    assert (point["low"], point["high"]) == pytest.approx((forecast.energy - reach, forecast.energy + reach), abs=1e-3)


def test_no_prediction_looks_like_a_measured_string() -> None:
    """Open and grey, without shape or colour of a state; no prediction carries a measured state's words."""
    states = {state.value for state in MeasuredState}
    assert not states & {row["state"] for row in _points(_MIXED, "low", "high")}
    panel = to_spec(creep_against_limit(_MIXED, theme=PAPER))["hconcat"][0]
    open_marks = [layer for layer in panel["layer"] if layer["mark"].get("fill") == "white"]
    assert len(open_marks) == 1
    assert {"shape", "color"}.isdisjoint(open_marks[0]["encoding"])


def test_states_differ_in_shape_and_not_only_in_colour() -> None:
    """Under, close and over on a grey print."""
    fast = tuple(speed + 6.0 for speed in AFTER)
    near = tuple(speed + 4.2 for speed in AFTER)
    verdict = make_verdict(measured(), measured(0.2001e-3, speeds=near), measured(0.2002e-3, speeds=fast))
    shown = [ball.measured.state for ball in verdict.balls if ball.measured is not None]
    assert shown == [MeasuredState.UNDER, MeasuredState.CLOSE, MeasuredState.OVER]
    layers = to_spec(creep_against_limit(verdict, theme=PAPER))["hconcat"][0]["layer"]
    scale = next(layer["encoding"]["shape"]["scale"] for layer in layers if "shape" in layer["encoding"])
    assert scale["domain"] == [state.value for state in shown]
    assert len(set(scale["range"])) == 3


def test_semi_and_automatic_stand_apart_on_one_scale() -> None:
    """Two panels whose energies can be compared by eye."""
    verdict = make_verdict(measured(), measured(fire_mode=FireMode.AUTOMATIC), predicted(0.40e-3, 72.0))
    spec = to_spec(creep_against_limit(verdict, theme=SCREEN))
    assert [panel["title"]["text"] for panel in spec["hconcat"]] == ["Energy on semi, J", "Energy on automatic, J"]
    domains = {
        tuple(layer["encoding"]["y"]["scale"]["domain"])
        for panel in spec["hconcat"]
        for layer in panel["layer"]
        if "scale" in layer["encoding"].get("y", {})
    }
    assert len(domains) == 1


def test_the_limit_and_every_mark_lie_inside_the_picture() -> None:
    """Also when the gun is far below its limit."""
    verdict = make_verdict(measured(speeds=[50.0, 51.0, 49.0, 50.5]))
    spec = to_spec(creep_against_limit(verdict, theme=PAPER))
    y = next(layer["encoding"]["y"] for layer in spec["hconcat"][0]["layer"] if "scale" in layer["encoding"].get("y", {}))
    low, high = y["scale"]["domain"]
    assert low < 0.25
    assert high > 1.1


def test_one_shot_has_no_bound_and_can_be_drawn() -> None:
    """Nothing is known of its scatter."""
    point = _points(make_verdict(measured(speeds=[100.0])), "bound")[0]
    assert (point["bound"], point["acceptance"], point["state"]) == (None, None, "cannot be said")


def test_predictions_alone_can_be_drawn() -> None:
    """A gun of which only the model speaks."""
    chart = creep_against_limit(make_verdict(predicted(0.28e-3, 85.0)), theme=PAPER)
    assert any("low" in row for table in tables(chart) for row in table)


def test_the_picture_is_told_in_words() -> None:
    """Measured and predicted are told apart by word."""
    told = to_spec(creep_against_limit(_MIXED, theme=PAPER))["description"]
    assert "0.20 g on semi measured 1.00 J, under the limit" in told
    assert "0.28 g on semi predicted 1.01 J, worth a string: only that can prove it" in told
