"""Moist air, viscosity and conductivity against CoolProp 8: Lemmon and Jacobsen for dry air, ASHRAE RP-1485 for moist air."""

from __future__ import annotations

import pytest

from stripdown.core.air import air_density, air_gas_constant, air_heat_capacity_ratio, speed_of_sound, vapour_mole_fraction
from stripdown.core.constants import AIR_GAS_CONSTANT, AIR_HEAT_CAPACITY_RATIO, AIR_MOLAR_MASS, AIR_PRANDTL_NUMBER
from stripdown.core.mechanics.gas_properties import sutherland_viscosity, thermal_conductivity
from tests.published import Published

coolprop = pytest.importorskip("CoolProp.CoolProp")

ATMOSPHERE = 101325.0


@pytest.mark.source("lemmon_2000", "equation of state, density", rtol=1e-4, because="two formulas of the same measurements")
@pytest.mark.parametrize("celsius", [-40.0, -20.0, 0.0, 15.0, 20.0, 35.0, 50.0])
@pytest.mark.parametrize("pressure", [60e3, 101325.0, 110e3])
def test_lemmon_dry_density(published: Published, celsius: float, pressure: float) -> None:
    """Dry air of any weather has the density of the reference equation of state."""
    temperature = celsius + 273.15
    published(
        f"density at {celsius:g} °C, {pressure / 100:g} hPa",
        found=air_density(temperature=temperature, pressure=pressure, relative_humidity=0.0),
        expected=coolprop.PropsSI("D", "T", temperature, "P", pressure, "Air"),
        unit="kg/m3",
    )


@pytest.mark.source(
    "lemmon_2000", "equation of state, density", rtol=5e-4, because="the formula is vouched for up to 1.1 bar only"
)
@pytest.mark.parametrize("celsius", [-40.0, 20.0, 50.0])
def test_lemmon_density_at_ten_bar(published: Published, celsius: float) -> None:
    """The density still holds at 10 bar, the declared limit."""
    published(
        f"density at {celsius:g} °C, 10 bar",
        found=air_density(temperature=celsius + 273.15, pressure=1e6, relative_humidity=0.0),
        expected=coolprop.PropsSI("D", "T", celsius + 273.15, "P", 1e6, "Air"),
        unit="kg/m3",
    )


@pytest.mark.source(
    "coolprop", "HAPropsSI, volume of humid air (ASHRAE RP-1485)", rtol=2e-4, because="another formula of saturation"
)
@pytest.mark.parametrize(("celsius", "humidity"), [(-20.0, 0.5), (0.0, 1.0), (15.0, 0.5), (20.0, 0.5), (30.0, 0.8), (50.0, 1.0)])
def test_coolprop_moist_density(published: Published, celsius: float, humidity: float) -> None:
    """Moist air has the density of an independent formula, dry to saturated."""
    temperature = celsius + 273.15
    published(
        f"density at {celsius:g} °C, {humidity:.0%} humidity",
        found=air_density(temperature=temperature, pressure=ATMOSPHERE, relative_humidity=humidity),
        expected=1.0 / coolprop.HAPropsSI("Vha", "T", temperature, "P", ATMOSPHERE, "R", humidity),
        unit="kg/m3",
    )


@pytest.mark.source("coolprop", "HAPropsSI, mole fraction of water", rtol=1e-3, because="another formula of saturation")
@pytest.mark.parametrize(("celsius", "humidity"), [(0.01, 1.0), (20.0, 0.5), (30.0, 0.8), (50.0, 1.0)])
def test_coolprop_vapour(published: Published, celsius: float, humidity: float) -> None:
    """The share of vapour is that of an independent formula."""
    temperature = celsius + 273.15
    published(
        f"vapour at {celsius:g} °C, {humidity:.0%} humidity",
        found=vapour_mole_fraction(temperature=temperature, pressure=ATMOSPHERE, relative_humidity=humidity),
        expected=coolprop.HAPropsSI("psi_w", "T", temperature, "P", ATMOSPHERE, "R", humidity),
        unit="1",
    )


@pytest.mark.source(
    "coolprop", "HAPropsSI, speed of sound", rtol=1e-3, because="ours is a mixture of two ideal gases in its heat"
)
@pytest.mark.parametrize(("celsius", "humidity"), [(-20.0, 0.0), (0.0, 0.0), (20.0, 0.0), (20.0, 0.5), (35.0, 0.9), (50.0, 1.0)])
def test_coolprop_speed_of_sound(published: Published, celsius: float, humidity: float) -> None:
    """Sound travels as fast as in an independent formula, in cold dry and warm damp air."""
    temperature = celsius + 273.15
    published(
        f"speed of sound at {celsius:g} °C, {humidity:.0%} humidity",
        found=speed_of_sound(temperature=temperature, pressure=ATMOSPHERE, relative_humidity=humidity),
        expected=coolprop.HAPropsSI("speed_of_sound", "T", temperature, "P", ATMOSPHERE, "R", humidity),
        unit="m/s",
    )


@pytest.mark.source(
    "lemmon_2000", "critical constants and ideal-gas heat", rtol=2e-4, because="the composition of air differs in the fifth digit"
)
def test_lemmon_gas_constant(published: Published) -> None:
    """Molar mass and gas constant of dry air are those of the reference equation of state."""
    molar_mass = coolprop.PropsSI("M", "Air")
    published("molar mass", found=AIR_MOLAR_MASS, expected=molar_mass, unit="kg/mol")
    published("gas constant", found=AIR_GAS_CONSTANT, expected=8.314462618 / molar_mass, unit="J/(kg K)")
    published(
        "gas constant of a real, dry 20 °C",
        found=air_gas_constant(temperature=293.15, pressure=ATMOSPHERE, relative_humidity=0.0),
        expected=ATMOSPHERE / 293.15 / coolprop.PropsSI("D", "T", 293.15, "P", ATMOSPHERE, "Air"),
        unit="J/(kg K)",
    )


@pytest.mark.source("lemmon_2000", "ideal-gas heat capacity", rtol=0.005, because="one constant for 230 to 420 K")
@pytest.mark.parametrize("temperature", [230.0, 250.0, 293.15, 350.0, 400.0, 420.0])
def test_lemmon_heat_capacity_ratio(published: Published, temperature: float) -> None:
    """The ratio of heat capacities is 1.4 within half a per cent where the constant says so."""
    heat_capacity = coolprop.PropsSI("CP0MASS", "T", temperature, "P", ATMOSPHERE, "Air")
    gas_constant = 8.314462618 / coolprop.PropsSI("M", "Air")
    published(
        f"ratio of heat capacities at {temperature:g} K",
        found=AIR_HEAT_CAPACITY_RATIO,
        expected=heat_capacity / (heat_capacity - gas_constant),
        unit="1",
    )


@pytest.mark.source("coolprop", "HAPropsSI, humid air at 30 °C", rtol=0.002, because="ours is a mixture of two ideal gases")
def test_coolprop_moist_heat_capacity_ratio(published: Published) -> None:
    """Damp air has a lower ratio of heat capacities, by as much as the independent formula says."""
    heat = [coolprop.HAPropsSI(name, "T", 303.15, "P", ATMOSPHERE, "R", 1.0) for name in ("cp_ha", "cv_ha")]
    published(
        "ratio of heat capacities, saturated at 30 °C",
        found=air_heat_capacity_ratio(temperature=303.15, pressure=ATMOSPHERE, relative_humidity=1.0),
        expected=heat[0] / heat[1],
        unit="1",
    )


@pytest.mark.source(
    "lemmon_2004", "viscosity of dry air", rtol=0.0, because="the error that the docstring states, growing with heat"
)
@pytest.mark.parametrize(
    ("temperature", "allowed"), [(250.0, 0.004), (293.15, 0.005), (400.0, 0.010), (500.0, 0.015), (600.0, 0.021), (700.0, 0.026)]
)
def test_lemmon_viscosity(published: Published, temperature: float, allowed: float) -> None:
    """Sutherland's law errs by no more than its docstring says."""
    published(
        f"viscosity at {temperature:g} K",
        found=sutherland_viscosity(temperature),
        expected=coolprop.PropsSI("V", "T", temperature, "P", ATMOSPHERE, "Air"),
        unit="Pa s",
        rtol=allowed,
    )


@pytest.mark.source("lemmon_2004", "thermal conductivity of dry air", rtol=0.008, because="a fit with two constants")
@pytest.mark.parametrize("temperature", [230.0, 293.15, 400.0, 500.0, 600.0, 700.0])
def test_lemmon_conductivity(published: Published, temperature: float) -> None:
    """The short formula of conductivity stays within its stated error over the temperatures of a shot."""
    published(
        f"conductivity at {temperature:g} K",
        found=thermal_conductivity(temperature),
        expected=coolprop.PropsSI("L", "T", temperature, "P", ATMOSPHERE, "Air"),
        unit="W/(m K)",
    )


@pytest.mark.source("lemmon_2004", "Prandtl number of dry air", rtol=0.025, because="one constant for 230 to 700 K")
@pytest.mark.parametrize("temperature", [230.0, 293.15, 400.0, 500.0, 600.0, 700.0])
def test_lemmon_prandtl_number(published: Published, temperature: float) -> None:
    """One Prandtl number serves the heat laws over the temperatures of a shot."""
    published(
        f"Prandtl number at {temperature:g} K",
        found=AIR_PRANDTL_NUMBER,
        expected=coolprop.PropsSI("PRANDTL", "T", temperature, "P", ATMOSPHERE, "Air"),
        unit="1",
    )


@pytest.mark.source("coolprop", "HAPropsSI, viscosity of humid air", rtol=0.015, because="Sutherland's law is for dry air")
@pytest.mark.parametrize(("celsius", "humidity"), [(0.0, 1.0), (20.0, 0.5), (25.0, 1.0)])
def test_coolprop_moist_viscosity(published: Published, celsius: float, humidity: float) -> None:
    """Up to 25 °C the viscosity of dry air serves for moist air too."""
    temperature = celsius + 273.15
    published(
        f"viscosity at {celsius:g} °C, {humidity:.0%} humidity",
        found=sutherland_viscosity(temperature),
        expected=coolprop.HAPropsSI("mu", "T", temperature, "P", ATMOSPHERE, "R", humidity),
        unit="Pa s",
    )
