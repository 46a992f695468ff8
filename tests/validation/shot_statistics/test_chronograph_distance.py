"""Readings moved along the ball's path, against closed forms and an independent library of drag laws."""

from __future__ import annotations

import math

import pytest

from stripdown.core.mechanics.ball_drag import BallFlight, drag_coefficient_clift_gauvin
from stripdown.core.shot_statistics import (
    Chronograph,
    EnergyLimit,
    limit_verdict,
    muzzle_from_reading,
    reading_from_muzzle,
)
from tests.published import Published

CONSTANT = BallFlight(ball_diameter=0.006, air_density=1.2, drag_coefficient=0.45)


def _decay(ball_mass: float) -> float:
    """The k of v = v0 exp(-k x)."""
    return 0.5 * 1.2 * 0.45 * 0.25 * math.pi * 0.006**2 / ball_mass


@pytest.mark.source("derived", "v = v0 exp(-k x) for a constant drag coefficient", rtol=1e-9, because="closed form")
@pytest.mark.parametrize("ball_mass", [0.12e-3, 0.20e-3, 0.43e-3])
@pytest.mark.parametrize("distance", [0.3, 1.0, 3.0, 20.0])
def test_speed_decays_exponentially(published: Published, ball_mass: float, distance: float) -> None:
    """A reading and the muzzle speed differ by the exponential of the distance, both ways, and energies by its square."""
    ratio = math.exp(_decay(ball_mass) * distance)
    there = muzzle_from_reading(80.0, ball_mass=ball_mass, distance=distance, flight=CONSTANT)
    back = reading_from_muzzle(there.speed, ball_mass=ball_mass, distance=distance, flight=CONSTANT)
    published("muzzle", found=there.speed, expected=80.0 * ratio, unit="m/s")
    published("energy", found=there.energy, expected=0.5 * ball_mass * 80.0**2 * ratio**2, unit="J")
    published("reading", found=back.speed, expected=80.0, unit="m/s")


@pytest.mark.source("derived", "mean speed over a base: d k v0 / (exp(k x2) - exp(k x1))", rtol=1e-9, because="closed form")
@pytest.mark.parametrize(("first", "second"), [(0.75, 1.25), (0.05, 0.15), (1.0, 4.0)])
def test_two_screens_read_the_mean(published: Published, first: float, second: float) -> None:
    """Two screens show their distance over the time between them, and the muzzle speed is found from that."""
    k, spacing = _decay(0.2e-3), second - first
    shown = spacing * k * 100.0 / (math.exp(k * second) - math.exp(k * first))
    chronograph = Chronograph(screen_spacing=spacing)
    middle = 0.5 * (first + second)
    found = reading_from_muzzle(100.0, ball_mass=0.2e-3, distance=middle, chronograph=chronograph, flight=CONSTANT)
    published("reading", found=found.speed, expected=shown, unit="m/s")
    found = muzzle_from_reading(shown, ball_mass=0.2e-3, distance=middle, chronograph=chronograph, flight=CONSTANT)
    published("muzzle", found=found.speed, expected=100.0, unit="m/s")


@pytest.mark.source("derived", "a limit of E at 1 m is E exp(2 k) at the muzzle", rtol=1e-9, because="closed form")
@pytest.mark.parametrize(("energy", "area"), [(1.0, False), (3.5e4, True)])
def test_limit_at_its_measuring_point(published: Published, energy: float, area: bool) -> None:  # noqa: FBT001
    """A gun just on a limit measured at 1 m leaves the muzzle with exp(2 k) of it: 1.079 J for 1 J, 1.068 J for 0.990 J."""
    limit = EnergyLimit(
        name="at one metre",
        energy=None if area else energy,
        energy_per_area=energy if area else None,
        measuring_distance=1.0,
    )
    joules = energy * 0.25 * math.pi * 0.006**2 if area else energy
    muzzle = math.sqrt(2 * joules / 0.2e-3) * math.exp(_decay(0.2e-3))
    found = limit_verdict([muzzle, muzzle], ball_mass=0.2e-3, limit=limit, distance=0.0, flight=CONSTANT)
    published("limit for the ball", found=found.limit_energy, expected=joules, unit="J")
    published("mean energy at 1 m", found=found.mean_energy, expected=joules, unit="J")
    published("energy at the muzzle", found=0.5 * 0.2e-3 * muzzle**2, expected=joules * math.exp(2 * _decay(0.2e-3)), unit="J")


@pytest.mark.source(
    "japan_sword_firearms_ordinance",
    "3.5 J/cm2 of the largest cross-section: 0.98 J for 6 mm",
    atol=0.0100001,
    because="the trade's two digits",
)
def test_japan_limit_for_six_millimetres(published: Published) -> None:
    """The Japanese limit per area is the 0.98 J by which the trade knows it."""
    limit = EnergyLimit(name="Japan", energy_per_area=3.5e4, measuring_distance=1.0)
    published("limit for a ball of 6 mm", found=limit.energy_for(0.006), expected=0.98, unit="J")


@pytest.mark.source("fluids", "drag_sphere, its laws that hold at these Reynolds numbers", because="spread of published laws")
@pytest.mark.parametrize("reynolds", [1e4, 2e4, 3e4, 6e4])
def test_fluids_drag_spread(published: Published, reynolds: float) -> None:
    """Our drag coefficient is at the upper edge of published laws, and its uncertainty reaches down to the lowest."""
    drag = pytest.importorskip("fluids.drag")
    numpy = pytest.importorskip("numpy")
    laws = ("Clift", "Morrison", "Haider_Levenspiel", "Cheng", "Khan_Richardson", "Barati_high", "Almedeij", "Swamee_Ojha")
    values = [getattr(drag, law)(reynolds) for law in laws]
    found = float(drag_coefficient_clift_gauvin(numpy.array([reynolds]))[0])
    published.within(f"C_D at Re = {reynolds:g}", found=found, low=min(values), high=1.02 * max(values), unit="1")
    # as if every value between the lowest law and ours were equally likely
    below = (found - min(values)) / found / math.sqrt(3.0)
    published.within("standard uncertainty", found=BallFlight().drag_uncertainty, low=0.9 * below, high=0.15, unit="1")


@pytest.mark.source(
    "scipy", "integrate.solve_ivp of the flat path with Clift and Gauvin's drag", rtol=1e-9, because="integration"
)
@pytest.mark.parametrize(("ball_mass", "speed"), [(0.12e-3, 130.0), (0.20e-3, 100.0), (0.48e-3, 60.0)])
def test_scipy_flat_path(published: Published, ball_mass: float, speed: float) -> None:
    """With the drag law our few steps agree with an adaptive integration of high order."""
    integrate = pytest.importorskip("scipy.integrate")

    def rate(_: float, state: list[float]) -> list[float]:
        now = state[0]
        reynolds = now * 1.2041 * 0.00595 / 1.8134e-5
        law = 24 / reynolds * (1 + 0.15 * reynolds**0.687) + 0.42 / (1 + 42500 * reynolds**-1.16)
        return [-0.5 * 1.2041 * law * 0.25 * math.pi * 0.00595**2 / ball_mass * now]

    path = integrate.solve_ivp(rate, (0.0, 3.0), [speed], method="DOP853", rtol=1e-12, atol=1e-12)
    found = reading_from_muzzle(speed, ball_mass=ball_mass, distance=3.0)
    published("speed at 3 m", found=found.speed, expected=float(path.y[0, -1]), unit="m/s")
