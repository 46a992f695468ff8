from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.part_condition.band import BandPlace
from stripdown.core.part_condition.compression_set import compression_set, judge_compression_set, standard_strain
from stripdown.errors import OutOfRange

_SIZES = {"original": 3.53e-3, "compressed": 2.65e-3}


def test_a_ring_as_new_has_none_and_a_flat_one_all() -> None:
    """Ends of the scale."""
    assert compression_set(recovered=3.53e-3, **_SIZES) == 0.0
    assert compression_set(recovered=2.65e-3, **_SIZES) == 1.0


@given(recovered=st.floats(2.65e-3, 3.52e-3), more=st.floats(1e-7, 1e-5))
def test_the_more_it_recovers_the_less_is_lost(recovered: float, more: float) -> None:
    """Monotone, between 0 and 1 for a ring that kept its volume."""
    here, better = (compression_set(recovered=thick, **_SIZES) for thick in (recovered, recovered + more))
    assert 0.0 <= better < here <= 1.0


def test_a_ring_thinner_than_its_gland_has_lost_more_than_all() -> None:
    """It is worn or shrunk too, and the answer says so instead of failing."""
    ring = judge_compression_set(recovered=2.60e-3, **_SIZES)
    assert ring.fraction > 1.0
    assert any("worn or shrunk" in note for note in ring.notes)


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"recovered": 3.6e-3}, "recovered"),
        ({"compressed": 3.53e-3}, "compressed"),
        ({"compressed": 3.7e-3}, "compressed"),
        ({"original": -1.0}, "original"),
        ({"recovered": math.nan}, "recovered"),
    ],
)
def test_what_cannot_be_is_refused_by_name(changed: dict[str, float], field: str) -> None:
    """Grown, not pressed, negative: one message that says what was meant."""
    with pytest.raises(OutOfRange) as refused:
        compression_set(**({"recovered": 3.3e-3} | _SIZES | changed))
    assert refused.value.field == field
    assert refused.value.hint


def test_a_swollen_ring_is_called_swollen() -> None:
    """Recovered above original: the fluid did it, or the two are swapped."""
    with pytest.raises(OutOfRange, match="swollen, or the two are swapped"):
        compression_set(recovered=3.6e-3, **_SIZES)


def test_the_set_is_held_against_three_uses() -> None:
    """26 % is too much for a moving ring and for one at rest, and passes for a gasket."""
    ring = judge_compression_set(recovered=3.30e-3, hardness=70, **_SIZES)
    places = {verdict.name: verdict.place for verdict in ring.verdicts}
    assert places == {"moving ring": BandPlace.ABOVE, "ring at rest": BandPlace.ABOVE, "gasket": BandPlace.INSIDE}
    assert ring.standard_strain == 0.25
    assert ring.strain == pytest.approx(0.88 / 3.53)


def test_the_uncertainty_is_that_of_three_readings() -> None:
    """Central differences of the formula, added in quadrature."""
    step, doubt = 1e-8, 0.02e-3
    base = {"recovered": 3.30e-3, **_SIZES}
    slopes = [
        (compression_set(**(base | {name: base[name] + step})) - compression_set(**(base | {name: base[name] - step})))
        / (2 * step)
        for name in base
    ]
    ring = judge_compression_set(**base, reading_uncertainty=doubt)
    assert ring.standard_uncertainty == pytest.approx(doubt * math.hypot(*slopes), rel=1e-6)


def test_a_coarse_reading_says_so() -> None:
    """A tenth of a millimetre on a thin ring tells nothing."""
    thin = judge_compression_set(original=1.5e-3, compressed=1.2e-3, recovered=1.4e-3, reading_uncertainty=0.1e-3)
    assert any("coarse" in note for note in thin.notes)


def test_nine_tenths_leak() -> None:
    """Rings at rest were seen to leak from there."""
    assert any("leak" in note for note in judge_compression_set(recovered=2.70e-3, **_SIZES).notes)
    assert not any("leak" in note for note in judge_compression_set(recovered=3.3e-3, **_SIZES).notes)


def test_an_impossible_hardness_is_refused() -> None:
    """The strain of the standard's test goes by hardness."""
    with pytest.raises(OutOfRange, match="hardness"):
        standard_strain(150.0)
