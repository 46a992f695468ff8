"""Energies of eye-protection tests, of published harm, and limits at their measuring points, against the printed figures."""

from __future__ import annotations

import math

import pytest

from stripdown.catalogue import load_injuries, load_limits, load_protection
from stripdown.core.mechanics.ball_drag import BallFlight
from stripdown.core.shot_statistics import energy_limit_at
from stripdown.studies.effective_range import mean_extent
from tests.published import Published

SIX = 0.25 * math.pi * 0.006**2


@pytest.mark.source("en_166", "impact classes: ball and speed", rtol=2e-3, because="printed to three figures")
@pytest.mark.parametrize(("key", "energy"), [("en_166_s", 0.559), ("en_166_f", 0.871), ("en_166_b", 6.19), ("en_166_a", 15.5)])
def test_en_166(published: Published, key: str, energy: float) -> None:
    """Energy of the test ball of each class."""
    published(f"energy of {key}", found=load_protection()[key].energy, expected=energy, unit="J")


@pytest.mark.source("iso_16321_1", "impact levels C, D, E", rtol=2e-3, because="printed to three figures")
@pytest.mark.parametrize(("key", "energy"), [("iso_16321_c", 0.871), ("iso_16321_d", 2.75), ("iso_16321_e", 6.19)])
def test_iso_16321(published: Published, key: str, energy: float) -> None:
    """Energy of the ball at the speed of each level."""
    published(f"energy of {key}", found=load_protection()[key].energy, expected=energy, unit="J")


@pytest.mark.source("ansi_z87_1", "high velocity impact, drop ball", rtol=5e-3, because="masses of the balls from memory")
@pytest.mark.parametrize(
    ("key", "energy"),
    [
        ("ansi_z87_spectacles", 1.108),
        ("ansi_z87_goggles", 3.077),
        ("ansi_z87_face_shields", 4.432),
        ("ansi_z87_drop_ball", 0.83),
    ],
)
def test_ansi_z87(published: Published, key: str, energy: float) -> None:
    """Energy of each test."""
    published(f"energy of {key}", found=load_protection()[key].energy, expected=energy, unit="J")


@pytest.mark.source("duma_2005", "abstract, as energies of a ball of 6 mm", rtol=3e-3, because="printed to three figures")
@pytest.mark.parametrize(
    ("key", "energy"),
    [
        ("corneal_abrasion", 0.0425),
        ("lens_dislocation", 0.543),
        ("hyphema", 0.571),
        ("globe_rupture", 0.672),
        ("retinal_damage", 0.858),
    ],
)
def test_duma_2005(published: Published, key: str, energy: float) -> None:
    """Energies per area of the abstract on the cross-section of a ball of 6 mm."""
    per_area = load_injuries()[key].energy_per_area
    assert per_area is not None
    published(f"{key}, energy of a ball of 6 mm", found=per_area * SIX, expected=energy, unit="J")


@pytest.mark.source("marshall_2011", "abstract: 99 m/s with a conventional ball", rtol=5e-3, because="4.3 has two figures")
def test_marshall_2011(published: Published) -> None:
    """A ball of 6 mm and 0.25 g has the energy per area of the abstract at the speed of the abstract; one of 0.20 g has not."""
    per_area = load_injuries()["eye_penetration"].energy_per_area
    assert per_area is not None
    published("speed of 0.25 g", found=math.sqrt(2 * per_area * SIX / 0.25e-3), expected=98.6, unit="m/s")


@pytest.mark.source("japan_sword_firearms_ordinance", "3.5 J/cm2, speed at 1 m", rtol=1e-4, because="worked out to five figures")
@pytest.mark.parametrize(("millimetres", "energy"), [(6.0, 0.98960), (5.95, 0.97318), (8.0, 1.7593)])
def test_japan(published: Published, millimetres: float, energy: float) -> None:
    """The limit for a ball of that diameter."""
    found = load_limits()["japan"].limit.energy_for(millimetres * 1e-3)
    published(f"limit for {millimetres:g} mm", found=found, expected=energy, unit="J")


@pytest.mark.source(
    "derived", "E = E0·exp(−2kx) for a constant drag coefficient", rtol=1e-9, because="the integration is of fourth order"
)
@pytest.mark.parametrize("grams", [0.20, 0.25, 0.43])
def test_italy_measured_at_one_metre(published: Published, grams: float) -> None:
    """A limit that holds at a metre, at the muzzle: 8 % more for 0.20 g, 4 % for 0.43 g."""
    limit = load_limits()["italy"].limit
    flight = BallFlight(ball_diameter=0.006, air_density=1.2, drag_coefficient=0.45)
    k = 1.2 * 0.45 * SIX / (2 * grams * 1e-3)
    found = energy_limit_at(
        limit.energy_for(0.006), ball_mass=grams * 1e-3, measured_at=limit.measuring_distance or 0.0, distance=0.0, flight=flight
    )
    published(f"1 J at 1 m, at the muzzle of {grams:g} g", found=found.energy, expected=math.exp(2 * k), unit="J")


@pytest.mark.source("derived", "mean extent of two and of three normal values", rtol=1e-9, because="closed forms")
@pytest.mark.parametrize("shots", [2, 3])
def test_mean_extent_of_a_group(published: Published, shots: int) -> None:
    """Of two the mean of |x − y| of a normal difference of variance 2, 2/√π; of three the mean of half the sum of all pairs."""
    pairs = {2: 1.0, 3: 3.0 / 2.0}
    expected = pairs[shots] * 2.0 / math.sqrt(math.pi)
    published(f"extent of {shots}", found=mean_extent(shots), expected=expected, unit="1")
