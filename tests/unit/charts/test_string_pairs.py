from __future__ import annotations

from typing import Any

import pytest

from stripdown.charts.render import to_spec
from stripdown.charts.string_pairs import before_and_after
from stripdown.charts.themes import PAPER
from stripdown.studies.service_case import ComparisonOfCase
from stripdown.units import Scale
from tests.synthetic_verdicts import AFTER, BEFORE, make_pair
from tests.unit.charts.specs import table_with, tables


def _rows(pairs: list[ComparisonOfCase], *fields: str, scale: Scale = "metric") -> list[dict[str, Any]]:
    return table_with(before_and_after(pairs, scale=scale, theme=PAPER), *fields)


def test_every_shot_of_both_strings_is_drawn_as_read() -> None:
    """Five before and five after; rows with a text are the means."""
    chart = before_and_after([make_pair()], scale="metric", theme=PAPER)
    shots = [row for table in tables(chart) for row in table if "occasion" in row and "text" not in row]
    assert [row["speed"] for row in shots if row["occasion"] == "before"] == list(BEFORE)
    assert [row["speed"] for row in shots if row["occasion"] == "after"] == list(AFTER)


def test_means_and_change_carry_numbers_and_intervals() -> None:
    """Means of 80 and 100 m/s differ by 20 m/s; the interval is that of the comparison."""
    pair = make_pair()
    assert pair.comparison is not None
    means = _rows([pair], "occasion", "low", "high")
    assert [(row["occasion"], row["text"]) for row in means] == [("before", "80.0 m/s"), ("after", "100.0 m/s")]
    change = _rows([pair], "compares")[0]
    low, high = pair.comparison.interval
    assert change["change"] == pytest.approx(20.0, abs=1e-3)
    assert (change["low"], change["high"]) == pytest.approx((low, high), abs=1e-3)
    assert change["text"] == f"+20.0 m/s (+{low:.1f} to +{high:.1f})"


def test_change_is_in_feet_when_asked() -> None:
    """20 m/s are 65.6 ft/s."""
    assert _rows([make_pair()], "compares", scale="imperial")[0]["change"] == pytest.approx(65.617, abs=1e-3)


def test_strings_that_do_not_compare_have_no_change() -> None:
    """The shots are drawn; the change is words and not a bar."""
    change = _rows([make_pair(obstacles=("different balls",))], "compares")[0]
    assert (change["compares"], change["text"]) == (False, "does not compare")


def test_pairs_of_one_name_stay_apart() -> None:
    """Two pairs fired alike are two rows."""
    assert len({row["pair"] for row in _rows([make_pair(), make_pair()], "compares")}) == 2


def test_the_picture_is_told_in_words() -> None:
    """Who cannot see it hears the change with its interval."""
    spec = to_spec(before_and_after([make_pair()], scale="metric", theme=PAPER))
    assert "0.20 g, hop-up off, semi: +20.0 m/s (+19.0 to +21.0), 95 % interval" in spec["description"]


def test_no_pair_is_refused() -> None:
    """There would be nothing to draw."""
    with pytest.raises(ValueError, match="at least one pair"):
        before_and_after([], scale="metric", theme=PAPER)
