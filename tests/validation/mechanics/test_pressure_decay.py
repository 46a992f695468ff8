"""The pressure-decay leak against closed forms and against an independent integration."""

from __future__ import annotations

import math

import pytest
from scipy.integrate import solve_ivp

from stripdown.core.mechanics.orifices import mass_flow_rate
from stripdown.core.mechanics.pressure_decay import pressure_decay_leak
from tests.published import Published

# Choked flow of air per area, pressure and root of temperature, in its own derivation: sqrt(g/R) (2/(g+1))^((g+1)/(2(g-1))).
CHOKED = math.sqrt(1.4 / 287.05) * (2.0 / 2.4) ** 3.0
GAS_CONSTANT = 287.05
VOLUME = 30e-6
ROOM = 293.15


@pytest.mark.source(
    "leak_testing_pages",
    "mass flow V/(R T) dp/dt; 3.0 to 2.9 bar in 10 s from 30 cm3",
    rtol=0.005,
    because="worked to three figures",
)
def test_leak_testing_small_fall(published: Published) -> None:
    """A fall from 3.0 to 2.9 bar in ten seconds is the leak, and the hole, that the equations of the test give."""
    leak = pressure_decay_leak(
        volume=VOLUME, pressure_start=3.0e5, pressure_end=2.9e5, temperature_start=ROOM, temperature_end=ROOM, duration=10.0
    )
    published("mass rate", found=leak.mass_rate, expected=3.57e-7, unit="kg/s")
    volume_flow = leak.molar_rate * 8.314462618 * ROOM / 101325.0
    published("volume flow at 20 °C and one atmosphere", found=volume_flow, expected=17.8e-6 / 60, unit="m3/s")
    published("effective area", found=leak.leak_area, expected=5.12e-10, unit="m2")
    published("diameter of the hole", found=math.sqrt(4 * leak.leak_area / math.pi), expected=0.0255e-3, unit="m")


@pytest.mark.source(
    "derived", "choked and isothermal: p = p1 exp(-t/tau), tau = V/(0.0404 R A sqrt(T))", rtol=1e-9, because="exact"
)
@pytest.mark.parametrize("area", [1e-10, 1e-8])
def test_derived_choked_isothermal(published: Published, area: float) -> None:
    """A fall by any factor, choked throughout, gives back the hole of the closed form."""
    tau = VOLUME / (CHOKED * GAS_CONSTANT * area * math.sqrt(ROOM))
    leak = pressure_decay_leak(
        volume=VOLUME,
        pressure_start=10e5,
        pressure_end=10e5 * math.exp(-1.5),
        temperature_start=ROOM,
        temperature_end=ROOM,
        duration=1.5 * tau,
    )
    published("effective area", found=leak.leak_area, expected=area, unit="m2")


@pytest.mark.source(
    "derived",
    "choked and adiabatic: p/p1 = [1 + (g-1)/2 t/tau]^(-2g/(g-1))",
    rtol=0.001,
    because="temperature is taken as linear in pressure between the readings",
)
@pytest.mark.parametrize("taus", [0.01, 0.1, 0.2])
def test_derived_choked_adiabatic(published: Published, taus: float) -> None:
    """Air that cools as it escapes still gives back the hole, when its temperature is read."""
    area = 1e-9
    tau = VOLUME / (CHOKED * GAS_CONSTANT * area * math.sqrt(ROOM))
    ratio = (1.0 + 0.2 * taus) ** (-2.8 / 0.4)
    leak = pressure_decay_leak(
        volume=VOLUME,
        pressure_start=10e5,
        pressure_end=10e5 * ratio,
        temperature_start=ROOM,
        temperature_end=ROOM * ratio ** (0.4 / 1.4),
        duration=taus * tau,
    )
    published(f"effective area after a fall to {ratio:.0%}", found=leak.leak_area, expected=area, unit="m2")


@pytest.mark.source("scipy", "solve_ivp, LSODA, of the same orifice law", rtol=1e-6, because="tolerance of the integration")
@pytest.mark.parametrize(("start", "outside"), [(5e5, 1e5), (1.3e5, 1e5), (1.001e5, 1e5), (2e4, 1e5), (9e4, 1e5)])
def test_scipy_emptying_and_filling(published: Published, start: float, outside: float) -> None:
    """Choked, subsonic, nearly empty or filling from a vacuum: the hole of an integrated fall comes back."""
    area = 1e-9

    def slope(_: float, pressure: list[float]) -> list[float]:
        inside = pressure[0]
        flow = mass_flow_rate(
            upstream_pressure=max(inside, outside),
            upstream_temperature=ROOM,
            downstream_pressure=min(inside, outside),
            flow_area=area,
        )
        return [math.copysign(flow, outside - inside) * GAS_CONSTANT * ROOM / VOLUME]

    duration = 2.0 if start == 1.001e5 else 30.0
    end = float(solve_ivp(slope, (0.0, duration), [start], method="LSODA", rtol=1e-11, atol=1e-6).y[0, -1])
    leak = pressure_decay_leak(
        volume=VOLUME,
        pressure_start=start,
        pressure_end=end,
        temperature_start=ROOM,
        temperature_end=ROOM,
        duration=duration,
        ambient_pressure=outside,
    )
    published(
        f"size of the area from {start / 1e5:g} bar to {end / 1e5:.4g} bar", found=abs(leak.leak_area), expected=area, unit="m2"
    )
