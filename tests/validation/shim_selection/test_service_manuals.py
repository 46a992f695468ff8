"""Shim packs of service manuals: what they ask for is what is chosen, and what they exclude is not."""

from __future__ import annotations

import pytest

from stripdown.core.shim_selection import choose_shims
from tests.published import Published


@pytest.mark.source(
    "eaton_fso_2105", "page 90: play 0.47 mm, float 0.06 to 0.11 mm", atol=1e-9, because="whole hundredths of a millimetre"
)
def test_eaton_countershaft(published: Published) -> None:
    """The manual asks for a pack of more than 0.36 and less than 0.41 mm; of single shims in hundredths those are left."""
    hundredths = {hundredth * 1e-5: 1 for hundredth in range(20, 60)}
    choice = choose_shims(gap=0.47e-3, gap_uncertainty=0.0, float_band=(0.06e-3, 0.11e-3), stock=hundredths, most=1)
    found = sorted(sum(pack.thicknesses) for pack in choice.packs)
    published("thinnest pack, the manual leaving out the end itself", found=found[0], expected=0.36e-3, unit="m")
    published("thickest pack, the manual leaving out the end itself", found=found[-1], expected=0.41e-3, unit="m")
    published("packs between, ends included", found=len(found), expected=6, unit="1")


@pytest.mark.source(
    "eaton_fso_2105", "page 90: play 0.47 mm, pack over 0.36 and under 0.41 mm", because="the window is the manual's"
)
@pytest.mark.parametrize("stock", [{0.1e-3: 4, 0.3e-3: 1}, {0.2e-3: 2}, {0.15e-3: 1, 0.1e-3: 2, 0.5e-3: 1}, {0.38e-3: 1}])
def test_eaton_window_from_a_tray(published: Published, stock: dict[float, int]) -> None:
    """Whatever the tray holds, the first pack of an inner band lies in the manual's window; one tray asks for a purchase."""
    choice = choose_shims(gap=0.47e-3, gap_uncertainty=0.0, float_band=(0.061e-3, 0.109e-3), stock=stock)
    pack = choice.packs[0] if choice.packs else choice.pack_after_buying
    assert pack is not None
    published.within("total of the first pack", found=sum(pack.thicknesses), low=0.36e-3, high=0.41e-3, unit="m")


@pytest.mark.source(
    "honda_mainshaft", "reading 1.93 mm, float 0.11 to 0.18 mm, middle 0.14 mm", atol=0.011e-3, because="shims are stepped"
)
def test_honda_mainshaft(published: Published) -> None:
    """The manual computes 1.79 mm and fits 1.78: from a tray of stepped shims (the steps are ours) that one comes first."""
    stepped = {hundredth * 1e-5: 1 for hundredth in range(160, 200, 2)}
    choice = choose_shims(gap=1.93e-3, gap_uncertainty=0.0, float_band=(0.11e-3, 0.18e-3), stock=stepped, most=1)
    first = choice.packs[0]
    published("shim fitted", found=sum(first.thicknesses), expected=1.78e-3, unit="m", atol=1e-9)
    published("shim computed", found=sum(first.thicknesses), expected=1.79e-3, unit="m")
    published.within("float left", found=first.float_left, low=0.11e-3, high=0.18e-3, unit="m")


@pytest.mark.source(
    "shim_shop_labels", "0.5, 0.3, 0.2, 0.1 and 0.05 sold as 0.021, 0.012, 0.008, 0.004 and 0.002 in", because="a range"
)
def test_shop_labels_lead_out_of_the_band(published: Published) -> None:
    """A play of 0.62 mm: 0.5 by its label leaves 0.12, in truth 0.087, and with a band from 0.10 the label would mislead."""
    true = {inch * 25.4e-3: 2 for inch in (0.021, 0.012, 0.008, 0.004, 0.002)}
    band = (0.10e-3, 0.15e-3)
    by_label = choose_shims(gap=0.62e-3, gap_uncertainty=0.0, float_band=band, stock={0.5e-3: 2, 0.3e-3: 2, 0.2e-3: 2})
    assert by_label.packs[0].thicknesses == (0.5e-3,)
    published.within("float that the labelled shim leaves", found=0.62e-3 - 0.021 * 25.4e-3, low=0.0, high=0.10e-3, unit="m")
    measured = choose_shims(gap=0.62e-3, gap_uncertainty=0.0, float_band=band, stock=true)
    for pack in measured.packs:
        left = 0.62e-3 - sum(pack.thicknesses)
        published.within("float that measured shims leave", found=left, low=band[0], high=band[1], unit="m")
