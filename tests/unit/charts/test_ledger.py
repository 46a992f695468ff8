from __future__ import annotations

import itertools
import json

import pytest

from stripdown.charts.ledger import ledger_at_a_glance, names_apart
from stripdown.charts.themes import PAPER, SCREEN, Theme
from stripdown.core.interior_ballistics.result import Outcome, Shot
from tests.synthetic_shots import make_shot
from tests.unit.charts.specs import shape, table_with, tables


def _picture(shots: list[Shot], names: list[str], theme: Theme = SCREEN) -> list[list[dict[str, object]]]:
    return tables(ledger_at_a_glance(shots, names=names, speed_unit="m/s", theme=theme))


def test_the_bar_is_as_long_as_what_was_put_in(healthy: Shot) -> None:
    """Its segments follow each other without gap, the ball's first, and end at 2.19 J."""
    segments = [row for row in _picture([healthy], ["healthy"])[0] if row["group"] not in {"leak", "gap"}]
    assert segments[0]["band"] == "ball, flight"
    assert segments[0]["start"] == 0.0
    assert segments[-1]["end"] == pytest.approx(2.19)
    for before, after in itertools.pairwise(segments):
        assert after["start"] == before["end"]


def test_what_escaped_lies_inside_the_airs_segment(healthy: Shot) -> None:
    """The strip begins where the air's segment begins: 0.070 J past seals and lips, then 0.080 J past the ball."""
    rows = {str(row["group"]): row for row in _picture([healthy], ["healthy"])[0] if row["group"] in {"air", "leak", "gap"}}
    assert rows["leak"]["start"] == rows["air"]["start"]
    assert rows["leak"]["energy"] == pytest.approx(0.070)
    assert rows["gap"]["start"] == rows["leak"]["end"]
    assert rows["gap"]["energy"] == pytest.approx(0.080)


def test_every_row_says_joules_and_per_cent(healthy: Shot) -> None:
    """1.000 J of 2.19 J are 46 %; what is below a hundredth of a joule says so, and no more."""
    rows = {row["band"]: row["text"] for row in _picture([healthy], ["healthy"])[1]}
    assert rows["ball, flight"] == "1.00 J · 46 %"
    assert rows["ball, spin"] == "<0.01 J"
    assert rows["of it past seals and lips"] == "0.07 J · 3 %"
    assert "piston, still moving" not in rows  # it holds nothing in this shot


def test_two_shots_stand_on_one_scale_with_their_difference(healthy: Shot, as_found: Shot) -> None:
    """The ball of the second shot has 0.36 J less; the piston's drag took 0.12 J more."""
    chart = ledger_at_a_glance([healthy, as_found], names=["Rack 7, healthy", "Rack 7, as found"], speed_unit="m/s", theme=PAPER)
    rows = {(row["band"], row["order"]): row["text"] for row in table_with(chart, "order", "text")}
    assert rows["ball, flight", 0] == "1.00 J · 46 % · healthy"
    assert rows["ball, flight", 1] == "0.64 J · 29 % · as found"
    differences = {row["band"]: row["text"] for row in tables(chart)[2]}
    assert differences["ball, flight"] == "−0.36 J"
    assert differences["piston drag"] == "+0.12 J"
    assert differences["bore friction"] == "0"
    assert tables(chart)[3] == [{"text": "as found less healthy"}]


def test_a_hostile_name_stays_a_name(healthy: Shot, as_found: Shot) -> None:
    """Whatever a gun is called, it is data: nothing of it is read as an expression."""
    name = "a'); alert(1); ('</script>"
    chart = ledger_at_a_glance([healthy, as_found], names=[name, "b"], speed_unit="m/s", theme=SCREEN)
    assert chart.to_dict()["title"]["subtitle"][0].startswith(name)
    assert "alert" not in json.dumps(shape(chart)["vconcat"])


@pytest.mark.parametrize("names", [[], ["one"], ["same", "same"]])
def test_shots_that_cannot_be_told_apart_are_refused(healthy: Shot, as_found: Shot, names: list[str]) -> None:
    """Two shots need two different names."""
    with pytest.raises(ValueError, match="a name of its own"):
        names_apart([healthy, as_found], names)


def test_three_shots_are_refused(healthy: Shot) -> None:
    """A picture of differences holds two."""
    with pytest.raises(ValueError, match="one or two shots"):
        ledger_at_a_glance([healthy] * 3, names=["a", "b", "c"], speed_unit="m/s", theme=SCREEN)


def test_a_ball_that_stays_is_not_given_a_speed() -> None:
    """Nothing is predicted to leave at 0 m/s."""
    stuck = make_shot(outcome=Outcome.STAYED_IN_BARREL)
    subtitle = ledger_at_a_glance([stuck], names=["Rack 9"], speed_unit="m/s", theme=SCREEN).to_dict()["title"]["subtitle"]
    assert subtitle == ["Rack 9: 2.19 J put in; 0.20 g ball, predicted: the ball stays in the barrel"]
