from __future__ import annotations

import dataclasses
from pathlib import Path
from typing import Any

import pytest

from stripdown.cli.printed_notes import PREDICTION, assumptions, ended, outcome_words, remarked
from stripdown.cli.shooting import Shooting, shoot
from stripdown.core.interior_ballistics.result import Outcome
from stripdown.core.parts.conditions import Conditions


@pytest.fixture
def shooting(gun_file: Path, asked: list[dict[str, Any]]) -> Shooting:
    """One gun with its synthetic shot."""
    assert asked == []
    return shoot([gun_file], ball_mass=None, conditions=Conditions(), tolerance=1e-4)[0]


@pytest.mark.parametrize("outcome", Outcome)
def test_every_outcome_has_words(outcome: Outcome) -> None:
    """A shot can end in no way that the terminal cannot tell."""
    assert outcome_words(outcome)


def test_only_what_did_not_end_well_is_told(shooting: Shooting) -> None:
    """A ball that leaves the muzzle is what one expects."""
    stuck = dataclasses.replace(
        shooting, name="Rack 8", shot=dataclasses.replace(shooting.shot, outcome=Outcome.STAYED_IN_BARREL)
    )
    assert list(ended([shooting, stuck])) == ["Rack 8: the ball stays in the barrel."]


def test_a_remark_that_all_share_is_told_once(shooting: Shooting) -> None:
    """One that belongs to one of them names it."""
    both = dataclasses.replace(shooting.shot, notes=("Gas is fast.",))
    one = dataclasses.replace(shooting.shot, notes=("Gas is fast.", "Gas is hot."))
    pair = [dataclasses.replace(shooting, shot=both), dataclasses.replace(shooting, name="Rack 8", shot=one)]
    assert list(remarked(pair)) == ["Gas is fast.", "Rack 8: Gas is hot."]


def test_what_is_assumed_is_named_with_its_value(shooting: Shooting) -> None:
    """The gun's own dimensions one by one, the model's coefficients counted; what the file gives is not among them."""
    [text] = (text.replace("\u00a0", " ") for text in assumptions([shooting]))
    assert text.startswith("Assumed, because the file leaves it out: ")
    assert "spring.preload 55 mm" in text
    assert "spring.rate" not in text
    assert "laws." not in text
    assert text.endswith("Also assumed: 13 coefficients of the model (--json lists all).")


def test_a_prediction_passes_no_judgement() -> None:
    """The last line of every print."""
    assert "pass" not in PREDICTION
    assert "not measured" in PREDICTION
