"""Conformity with a limit, and the energy that is held against it."""

from __future__ import annotations

import math

import pytest

from stripdown.core.shot_statistics import Chronograph, analyse_string, guard_band, muzzle_from_reading, probability_of_conformity
from tests.published import Published

stats = pytest.importorskip("scipy.stats")


@pytest.mark.source(
    "ilac_g8", "guard band equal to the expanded uncertainty, k = 2", rtol=2e-3, because="the risk is quoted as 2.28 %"
)
def test_ilac_g8_guard_band(published: Published) -> None:
    """A guard band of two standard uncertainties leaves a risk of 2.28 %."""
    published("guard band in standard uncertainties", found=guard_band(1.0, false_acceptance=0.0228), expected=2.0, unit="1")


@pytest.mark.source("derived", "E = m v²/2 with u(E)/E = sqrt((u_m/m)² + (2 u_v/v)²)", rtol=1e-12, because="closed form")
def test_energy_uncertainty(published: Published) -> None:
    """A ball of 0.200 g ± 0.5 mg at 100 ± 0.5 m/s has 1.0000 J with 0.0103 J."""
    found = muzzle_from_reading(
        100.0, ball_mass=0.2e-3, distance=0.0, chronograph=Chronograph(standard_uncertainty=0.5), ball_mass_uncertainty=0.5e-6
    )
    published("energy", found=found.energy, expected=0.5 * 0.2e-3 * 100.0**2, unit="J")
    expected = math.sqrt((0.5e-6 / 0.2e-3) ** 2 + (2 * 0.5 / 100.0) ** 2)
    published("standard uncertainty", found=found.energy_standard_uncertainty, expected=expected, unit="J")


@pytest.mark.source(
    "scipy", "stats.norm, for a measured energy below 1 J", rtol=1e-12, because="two programs for one distribution"
)
@pytest.mark.parametrize("energy", [0.98, 0.99, 1.0, 1.02])
def test_scipy_conformity(published: Published, energy: float) -> None:
    """The chance of conformity is the normal distribution at the distance from the limit, one-sided and two-sided."""
    found = probability_of_conformity(value=energy, standard_uncertainty=0.010308, upper=1.0)
    published("upper limit", found=found, expected=stats.norm.cdf((1.0 - energy) / 0.010308), unit="1")
    both = probability_of_conformity(value=energy, standard_uncertainty=0.010308, lower=0.97, upper=1.0)
    published(
        "both limits",
        found=both,
        expected=stats.norm.cdf(1.0, energy, 0.010308) - stats.norm.cdf(0.97, energy, 0.010308),
        unit="1",
    )


@pytest.mark.source("scipy", "stats.norm.isf at the usual risks", rtol=1e-12, because="two programs for one distribution")
@pytest.mark.parametrize("risk", [0.05, 0.025, 0.01, 0.001])
def test_scipy_guard_band(published: Published, risk: float) -> None:
    """A guard band is the normal quantile of the accepted risk."""
    published(f"risk {risk:g}", found=guard_band(0.02, false_acceptance=risk), expected=0.02 * stats.norm.isf(risk), unit="J")


@pytest.mark.source("derived", "mean of m v²/2 over the shots", rtol=1e-14, because="closed form")
def test_mean_energy(published: Published) -> None:
    """The energy of a string is the mean of its shots' energies, not the energy of its mean speed."""
    string = (90.0, 100.0, 110.0)
    found = analyse_string(string, ball_mass=0.2e-3)
    assert found.mean_energy is not None
    published("mean energy", found=found.mean_energy, expected=sum(0.5 * 0.2e-3 * speed**2 for speed in string) / 3, unit="J")
    published.within("above the energy of the mean speed", found=found.mean_energy, low=1.0 + 1e-6, high=2.0, unit="J")
