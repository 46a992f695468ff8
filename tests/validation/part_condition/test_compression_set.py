"""Compression set by the standard's formula, its strains, and what makers of seals accept."""

from __future__ import annotations

import pytest

from stripdown.core.part_condition.compression_set import (
    LEAKS_FROM,
    compression_set,
    judge_compression_set,
    standard_strain,
)
from tests.published import Published


@pytest.mark.source("iso_815_1", "calculation of the result", rtol=1e-9, because="closed form: 0.23 mm lost of 0.88 mm pressed")
def test_iso_815_formula(published: Published) -> None:
    """(t0 - tr)/(t0 - ts) with 3.53, 2.65 and 3.30 mm is 26.1 %."""
    found = compression_set(original=3.53e-3, compressed=2.65e-3, recovered=3.30e-3)
    published("compression set", found=found, expected=0.23 / 0.88, unit="1")


@pytest.mark.source("iso_815_1", "strain by hardness", atol=1e-12, because="a table, taken over as it is")
@pytest.mark.parametrize(("hardness", "strain"), [(60, 0.25), (79, 0.25), (80, 0.15), (89, 0.15), (90, 0.10), (95, 0.10)])
def test_iso_815_strain(hardness: float, strain: float, published: Published) -> None:
    """25 % below 80 IRHD, 15 % from 80 to 89, 10 % from 90."""
    published(f"strain at {hardness:g} IRHD", found=standard_strain(hardness), expected=strain, unit="1")


@pytest.mark.source("seal_makers_design_guides", "accepted compression set", atol=1e-12, because="limits, taken over as they are")
def test_seal_makers_accepted_set(published: Published) -> None:
    """20 % for a moving ring, 25 % for one at rest, 35 % for a gasket."""
    ring = judge_compression_set(original=3.53e-3, compressed=2.65e-3, recovered=3.30e-3)
    limits = {verdict.name: verdict.band.high for verdict in ring.verdicts}
    for name, expected in (("moving ring", 0.20), ("ring at rest", 0.25), ("gasket", 0.35)):
        published(f"accepted set of a {name}", found=limits[name] or 0.0, expected=expected, unit="1")


@pytest.mark.source("seal_test_laboratory", "leakage of set rings", because="a range, not a figure")
def test_a_laboratory_saw_rings_at_rest_leak(published: Published) -> None:
    """Rings at rest were seen to leak at 90 to 100 % of set."""
    published.within("set from which a ring is told to leak", found=LEAKS_FROM, low=0.90, high=1.00, unit="1")
