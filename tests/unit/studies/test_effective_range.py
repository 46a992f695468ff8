"""Hits on a target: a group spreads both ways, the speed alone only up and down."""

from __future__ import annotations

import math

import numpy as np
import pytest

from stripdown.core.exterior_ballistics import Wind
from stripdown.errors import InputError, OutOfRange
from stripdown.studies.effective_range import Group, RangeStudy, Target, mean_extent, study_range
from stripdown.studies.lift import flat_to
from stripdown.studies.muzzle import Stance
from stripdown.words.effective_range import range_answer
from tests.fired_strings import sound_gun

STANCE = Stance(elevation=0.0, zero=25.0)
GROUP = Group(width=0.12, height=0.15, shots=10, distance=20.0)


def _study(rng: np.random.Generator, **how: object) -> RangeStudy:
    given = {"stance": STANCE, "sightings": (flat_to(35.0),), "scatter": 0.6, "group": GROUP}
    return study_range(sound_gun(), rng=rng, **(given | how))  # type: ignore[arg-type]


def test_the_spread_is_that_of_the_group(rng: np.random.Generator) -> None:
    """At the distance of the group the standard deviations are its extents over the mean extent of ten shots."""
    at = next(hit for hit in _study(rng).hits if hit.distance == GROUP.distance)
    assert at.spread_across == pytest.approx(GROUP.width / mean_extent(10), rel=0.04)
    assert at.spread_up == pytest.approx(GROUP.height / mean_extent(10), rel=0.04)


def test_the_speed_alone_spreads_nothing_across_and_is_said_to(rng: np.random.Generator) -> None:
    """Without a group the share of hits is the best that could be."""
    study = _study(rng, group=None)
    assert all(hit.spread_across == 0.0 for hit in study.hits)
    assert study.spread_across is None
    assert study.hits[-1].spread_up > 0.0
    lead = " ".join(sentence.full for sentence in range_answer(study, scale="metric").lead)
    assert "up and down only" in lead
    with_group = _study(np.random.default_rng(1))
    assert all(one.held_over <= other.held_over + 0.02 for one, other in zip(with_group.hits, study.hits, strict=True))


def test_a_round_target_is_hit_as_often_as_it_should_be(rng: np.random.Generator) -> None:
    """With a round spread s, a target of radius r is hit with a chance of 1 − exp(−r²/2s²)."""
    group = Group(width=0.15, height=0.15, shots=10, distance=20.0)
    study = _study(rng, group=group, scatter=0.0, target=Target(width=0.10, height=0.10))
    at = next(hit for hit in study.hits if hit.distance == GROUP.distance)
    spread = 0.15 / mean_extent(10)
    assert at.held_over == pytest.approx(1.0 - math.exp(-(0.05**2) / (2 * spread**2)), abs=0.03)


def test_a_larger_target_is_hit_further(rng: np.random.Generator) -> None:
    """With the sights on it."""
    small = _study(rng, target=Target(width=0.2, height=0.2)).on_sight
    large = _study(rng, target=Target(width=0.8, height=0.8)).on_sight
    assert small is not None
    assert large is not None
    assert small < large


def test_wind_moves_all_shots_alike(rng: np.random.Generator) -> None:
    """The drift takes hits away that holding over gives back."""
    study = _study(rng, wind=Wind(across=3.0))
    at = next(hit for hit in study.hits if hit.distance == 30.0)
    assert at.drift > 0.2
    assert at.on_sight < at.held_over


def test_the_same_generator_gives_the_same_hits() -> None:
    """Randomness arrives from outside."""
    one, other = (_study(np.random.default_rng(5)) for _ in range(2))
    assert one.hits == other.hits


def test_a_scatter_that_explains_more_than_the_group_is_told(rng: np.random.Generator) -> None:
    """Five metres a second up and down cannot have made a group of a centimetre."""
    assert _study(rng, scatter=5.0, group=Group(width=0.1, height=0.01, shots=5, distance=40.0)).is_all_speed


def test_without_scatter_and_group_nothing_can_be_said(rng: np.random.Generator) -> None:
    """Both ways to tell are named."""
    with pytest.raises(InputError, match="Nothing tells how the shots differ"):
        _study(rng, scatter=None, group=None)
    with pytest.raises(OutOfRange):
        _study(rng, group=Group(width=-1.0, height=0.1, shots=10, distance=20.0))
    with pytest.raises(OutOfRange):
        _study(rng, wanted=1.5)
    with pytest.raises(OutOfRange, match="down before"):
        _study(rng, stance=Stance(elevation=0.0, zero=52.0))
