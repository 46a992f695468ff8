"""Air-gun problems of Borgnakke and Sonntag and of LearnThermo: given quantities theirs, answers worked here."""

from __future__ import annotations

import math

import pytest

from stripdown.core.interior_ballistics.closed_forms import IdealLaunch, adiabatic_launch_speed, isothermal_launch_speed
from tests.published import Published

AREA = 30e-6


def _launch_until(expansion: float, *, pressure: float, volume: float, mass: float) -> IdealLaunch:
    """A bore just long enough for the volume to grow by the given factor, against 100 kPa."""
    return IdealLaunch(
        reservoir_pressure=pressure,
        reservoir_volume=volume,
        bore_diameter=math.sqrt(4 * AREA / math.pi),
        travel=volume * (expansion - 1.0) / AREA,
        ball_mass=mass,
        pressure_ahead=100e3,
    )


@pytest.mark.source(
    "derived", "W = p V ln 10 - p_a (10 V - V), given quantities of learnthermo_4c4", rtol=0.001, because="worked to four figures"
)
def test_derived_learnthermo_4c4(published: Published) -> None:
    """Ten bar in one cubic centimetre, let down isothermally to one bar behind 15 g, give 13.68 m/s."""
    launch = _launch_until(10.0, pressure=1e6, volume=1e-6, mass=0.015)
    speed = isothermal_launch_speed(launch)
    published("energy", found=0.5 * 0.015 * speed**2, expected=math.log(10.0) - 0.9, unit="J")
    published("speed", found=speed, expected=13.68, unit="m/s")


@pytest.mark.source(
    "derived",
    "W = p V ln 12 - p_a (12 V - V), given quantities of learnthermo_4c4, new version",
    rtol=0.001,
    because="worked to four figures",
)
def test_derived_learnthermo_4c4_new(published: Published) -> None:
    """Twelve bar in one and a half cubic centimetres behind 20 g give 16.80 m/s."""
    launch = _launch_until(12.0, pressure=1.2e6, volume=1.5e-6, mass=0.020)
    speed = isothermal_launch_speed(launch)
    published("energy", found=0.5 * 0.020 * speed**2, expected=4.473 - 1.650, unit="J")
    published("speed", found=speed, expected=16.80, unit="m/s")


@pytest.mark.source(
    "derived",
    "W = (p V - p2 V2)/(g - 1) - p_a (V2 - V), given quantities of borgnakke_sonntag, problem 8.132",
    rtol=0.001,
    because="worked to three or four figures",
)
def test_derived_borgnakke_sonntag_8_132(published: Published) -> None:
    """Two and a half bar in one cubic centimetre, let down without heat to one bar behind 20 g, give 2.27 m/s."""
    expansion = 2.5 ** (1 / 1.4)
    launch = _launch_until(expansion, pressure=250e3, volume=1e-6, mass=0.020)
    speed = adiabatic_launch_speed(launch)
    published("last volume", found=launch.reservoir_volume + launch.swept_volume, expected=1.924e-6, unit="m3")
    work = (250e3 * 1e-6 - 100e3 * expansion * 1e-6) / 0.4
    published("work of the gas", found=0.5 * 0.020 * speed**2 + 100e3 * launch.swept_volume, expected=work, unit="J")
    published("speed", found=speed, expected=2.27, unit="m/s", rtol=0.002)


@pytest.mark.source("rohrbach_2012", "equations 2 and 3", rtol=1e-12, because="the same equations")
@pytest.mark.parametrize("gauge", [1e5, 3e5, 5e5])
def test_rohrbach_equations(published: Published, gauge: float) -> None:
    """Both closed forms are the published equations, with friction and against the atmosphere."""
    launch = IdealLaunch(
        reservoir_pressure=101325.0 + gauge,
        reservoir_volume=4.196e-3,
        bore_diameter=0.0401,
        travel=0.88,
        ball_mass=0.0194,
        friction_force=2.0,
    )
    area, volume, pressure = math.pi * 0.0401**2 / 4, 4.196e-3, launch.reservoir_pressure
    against = (101325.0 * area + 2.0) * 0.88
    adiabatic = pressure * volume / 0.4 * (1 - (volume / (volume + area * 0.88)) ** 0.4) - against
    isothermal = pressure * volume * math.log(1 + area * 0.88 / volume) - against
    published("adiabatic speed", found=adiabatic_launch_speed(launch), expected=math.sqrt(2 * adiabatic / 0.0194), unit="m/s")
    published("isothermal speed", found=isothermal_launch_speed(launch), expected=math.sqrt(2 * isothermal / 0.0194), unit="m/s")
