from __future__ import annotations

from typing import Any

import pytest

from stripdown.catalogue.faults import load_faults
from stripdown.charts.loss import causes_of_loss
from stripdown.charts.render import to_spec
from stripdown.charts.themes import PAPER
from tests.synthetic_verdicts import make_explanation
from tests.unit.charts.specs import table_with


def _rows(most: int | None = None) -> list[dict[str, Any]]:
    return table_with(causes_of_loss(make_explanation(), theme=PAPER, most=most), "multiple", "amount")


def test_amounts_are_multiples_of_the_ordinary_with_their_interval() -> None:
    """Half, twice, four times and one and a half times; known to a tenth where the strings leave the cause."""
    rows = _rows()
    assert [row["multiple"] for row in rows] == pytest.approx([0.5, 2.0, 4.0, 1.5])
    assert (rows[1]["low"], rows[1]["high"]) == pytest.approx((1.8, 2.2))


def test_only_causes_that_stand_have_an_interval() -> None:
    """What cannot do it alone, or does not fit, has an amount that means nothing: no range pretends otherwise."""
    assert [row["has_interval"] for row in _rows()] == [True, True, False, False]


def test_amounts_are_written_with_unit_and_what_they_are_of() -> None:
    """Twice the ordinary leak of the catalogue, in square millimetres."""
    ordinary = load_faults()["cylinder_leak"].ordinary
    row = _rows()[1]
    assert row["amount"].startswith(f"{2 * ordinary * 1e6:.2g}")
    assert "mm²" in row["amount"]
    assert row["amount"].endswith("leak added at the cylinder")


def test_what_falls_short_or_does_not_fit_says_so() -> None:
    """A share of the loss for the one, that no amount fits for the other."""
    rows = _rows()
    assert "explains 40 % of it" in rows[2]["amount"]
    assert rows[3]["amount"].startswith("no amount fits; nearest ")


def test_only_so_many_causes_as_asked() -> None:
    """The likeliest first."""
    assert [row["key"] for row in _rows(most=2)] == ["seal_drag", "cylinder_leak"]


def test_the_four_states_differ_in_shape_and_not_only_in_colour() -> None:
    """A grey print must say as much."""
    layers = to_spec(causes_of_loss(make_explanation(), theme=PAPER))["layer"]
    scale = next(layer["encoding"]["shape"]["scale"] for layer in layers if "shape" in layer["encoding"])
    assert len(set(scale["range"])) == len(scale["domain"]) == 4


def test_the_picture_is_told_in_words() -> None:
    """Loss, causes with amounts, and how believable each is."""
    told = to_spec(causes_of_loss(make_explanation(), theme=PAPER))["description"]
    assert "20 % with 0.20 g" in told
    assert "Piston drags: " in told
    assert "ordinary amount" in told
