"""Constants agree among themselves."""

from __future__ import annotations

import pytest

from stripdown.core import constants


def test_the_gas_constant_of_air_is_the_molar_one_over_its_molar_mass() -> None:
    """The rounded gas constant of air follows from two other constants."""
    assert pytest.approx(constants.AIR_GAS_CONSTANT, rel=2e-5) == constants.MOLAR_GAS_CONSTANT / constants.AIR_MOLAR_MASS


def test_the_prandtl_number_follows_from_viscosity_conductivity_and_heat_capacity() -> None:
    """At room temperature the constants of transport give the constant Prandtl number within two per cent."""
    temperature = 293.15
    viscosity = constants.SUTHERLAND_FACTOR * temperature**1.5 / (temperature + constants.SUTHERLAND_TEMPERATURE)
    conductivity = constants.CONDUCTIVITY_FACTOR * temperature**1.5 / (temperature + constants.CONDUCTIVITY_TEMPERATURE)
    heat_capacity = 3.5 * constants.AIR_GAS_CONSTANT
    assert pytest.approx(constants.AIR_PRANDTL_NUMBER, rel=0.02) == viscosity * heat_capacity / conductivity


def test_reference_air_of_pneumatics_is_a_little_lighter_than_dry_air() -> None:
    """The reference density belongs to moist air: 0.5 per cent below dry air of the same state."""
    dry = constants.ISO_6358_PRESSURE / (constants.AIR_GAS_CONSTANT * constants.ISO_6358_TEMPERATURE)
    assert 0.99 * dry < constants.ISO_6358_DENSITY < dry
