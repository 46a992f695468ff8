from __future__ import annotations

import pytest

from stripdown.core.part_condition.band import Band
from stripdown.core.part_condition.o_ring_bands import FILL_BAND, STRETCH_BAND
from stripdown.words.numbers import ends, micrometred, share, shims_listed


@pytest.mark.parametrize(
    ("length", "text"), [(0.203e-3, "0.203 mm"), (0.1e-3, "0.10 mm"), (0.0, "0.00 mm"), (-0.02e-3, "−0.02 mm")]
)
def test_a_length_is_written_as_a_micrometer_reads_it(length: float, text: str) -> None:
    """To a micrometre, and to a hundredth if that is all."""
    assert micrometred(length) == text


@pytest.mark.parametrize(
    ("thicknesses", "text"), [((), "no shim"), ((0.1e-3,), "0.10 mm"), ((0.305e-3, 0.2e-3), "0.305 + 0.20 mm")]
)
def test_the_shims_of_a_face_are_written_as_a_sum(thicknesses: tuple[float, ...], text: str) -> None:
    """Each as it is measured, the unit once."""
    assert shims_listed(thicknesses) == text


@pytest.mark.parametrize(("value", "text"), [(0.1667, "16.7 %"), (0.2, "20 %"), (-0.013, "−1.3 %")])
def test_a_share_of_a_ring_is_written_to_a_tenth(value: float, text: str) -> None:
    """Without a tenth that is none."""
    assert share(value) == text


@pytest.mark.parametrize(("band", "text"), [(FILL_BAND, "up to 85 %"), (STRETCH_BAND, "1 to 5 %")])
def test_a_band_is_written_by_its_ends(band: Band, text: str) -> None:
    """One end, or both."""
    assert ends(band) == text
