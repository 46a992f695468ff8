"""Random guns: drawn from what is declared, always possible, and never with a number left out."""

from __future__ import annotations

from typing import Annotated

import numpy as np
import pytest
from hypothesis import find, given

from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.quantities import Q, check, is_usual, leaves, parameters, value_at
from tests.properties.strategies import draw_usual, usual_guns, usual_records


@parameters
class WithoutUsual:
    """A record whose number declares no usual range."""

    length: Annotated[float, Q("m", low=0, high=1, label="length")]


@given(usual_guns())
def test_a_random_gun_is_possible_and_usual(gun: ShotParameters) -> None:
    """What is drawn passes the record's own rules, and every number of it is usual."""
    check(gun)
    for leaf in leaves(ShotParameters):
        assert leaf.quantity is None or is_usual(value_at(gun, leaf.path), leaf.quantity)


def test_a_record_without_a_usual_range_cannot_be_drawn() -> None:
    """A number that declares no usual range is a complaint that names it, not a number left out."""
    with pytest.raises(TypeError, match="length declares no usual range"):
        find(usual_records(WithoutUsual), lambda _: True)
    with pytest.raises(TypeError, match="length declares no usual range"):
        draw_usual(WithoutUsual, np.random.default_rng(0))


def test_one_seed_draws_one_gun() -> None:
    """The same seed gives the same gun, another seed another."""
    first, again, other = (draw_usual(ShotParameters, np.random.default_rng(seed)) for seed in (7, 7, 8))
    assert first == again
    assert first != other
