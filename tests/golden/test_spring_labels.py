"""What the trade labels of springs stand for, as this program computes it.

A golden: the rates of the catalogue were chosen so that this model gives the speed on the label, which no source vouches for
(common practice). If the model's numbers move, the rates move with them, and a line in the changelog says so.
"""

from __future__ import annotations

import pytest

from stripdown.catalogue import load_guns, load_springs
from stripdown.core.interior_ballistics.simulate import integrate_shot
from stripdown.quantities import replace_at


@pytest.mark.parametrize("key", load_springs())
def test_a_labelled_spring_gives_the_speed_on_its_label(key: str) -> None:
    """In a healthy full-stroke box without port, with a ball of 0.20 g, within 1 %."""
    labelled = load_springs()[key]
    gun = replace_at(load_guns()["full_stroke_rifle"].parameters, "spring", labelled.spring)
    assert gun.ball.mass == 0.0002
    assert integrate_shot(gun).summary().muzzle_speed == pytest.approx(float(labelled.name.removeprefix("M")), rel=0.01)
