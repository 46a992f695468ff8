from __future__ import annotations

import dataclasses
from typing import Any

import pytest

from stripdown.charts.render import to_spec
from stripdown.charts.repair import ledger_beside_repair
from stripdown.charts.themes import PAPER
from stripdown.studies.loss_causes import LossExplanation
from tests.synthetic_shots import AS_FOUND_LEDGER, LEDGER, make_shot
from tests.synthetic_verdicts import make_explanation
from tests.unit.charts.specs import tables

_HEALTHY, _ILL = make_shot(), make_shot(ball_speed=80.0, ledger=AS_FOUND_LEDGER)


def _rows(explanation: LossExplanation) -> list[dict[str, Any]]:
    before, after = (_ILL, _HEALTHY) if explanation.was_gained else (_HEALTHY, _ILL)
    chart = ledger_beside_repair(before, after, explanation, theme=PAPER)
    return [row for table in tables(chart) if "which" in table[0] for row in {id(row): row for row in table}.values()]


def _energy(rows: list[dict[str, Any]], name: str, which: str) -> float:
    return next(float(row["energy"]) for row in rows if row["name"] == name and row["which"] == which)


def test_bands_of_one_kind_are_added_up() -> None:
    """Piston: slam, drag and motion; the ball: flight and spin."""
    rows = _rows(make_explanation())
    piston = LEDGER.slam + LEDGER.seal_drag + LEDGER.piston_motion
    assert _energy(rows, "piston", "without it") == pytest.approx(piston, abs=1e-5)
    ball = AS_FOUND_LEDGER.ball_flight + AS_FOUND_LEDGER.ball_spin
    assert _energy(rows, "ball", "with the likeliest cause") == pytest.approx(ball, abs=1e-5)


@pytest.mark.parametrize("was_gained", [True, False])
def test_the_slower_shot_is_the_one_with_the_cause(*, was_gained: bool) -> None:
    """Before the work if the gun gained, after it if it lost."""
    rows = _rows(make_explanation(was_gained=was_gained))
    assert _energy(rows, "ball", "with the likeliest cause") < _energy(rows, "ball", "without it")


def test_carried_off_and_returned_stand_side_by_side() -> None:
    """A leak carries off 0.7 J, and its repair returns 0.36 J to the ball: the point of the picture."""
    rows = _rows(make_explanation())
    leak = "Leak at piston ring, cylinder-head ring or nozzle tube"
    assert _energy(rows, leak, "carried off by the fault") == 0.7
    assert _energy(rows, leak, "returned to the ball by a repair") == 0.36


def test_only_causes_that_stand_are_repaired() -> None:
    """Two of the four; without any, only the ledger is drawn."""
    explanation = make_explanation()
    causes = {row["name"] for row in _rows(explanation) if "carried" in row["which"]}
    assert causes == {cause.fault.name for cause in explanation.causes[:2]}
    none = dataclasses.replace(explanation, causes=explanation.causes[2:])
    assert len(to_spec(ledger_beside_repair(_ILL, _HEALTHY, none, theme=PAPER))["hconcat"]) == 1


def test_the_picture_is_told_in_words() -> None:
    """Both energies of each cause."""
    told = to_spec(ledger_beside_repair(_ILL, _HEALTHY, make_explanation(), theme=PAPER))["description"]
    assert "Piston drags: +0.20 J carried off, +0.15 J returned" in told
