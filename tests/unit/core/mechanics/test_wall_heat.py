"""Heat laws: how each scales, and what it does at rest."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.mechanics.wall_heat import (
    heat_transfer_coefficient_adair,
    heat_transfer_coefficient_annand,
    heat_transfer_coefficient_dittus_boelter,
    heat_transfer_coefficient_hohenberg,
    heat_transfer_coefficient_woschni,
)

speeds = st.floats(0.1, 100.0)
temperatures = st.floats(250.0, 700.0)
pressures = st.floats(0.5e5, 20e5)
times = st.floats(1.1, 5.0)


@given(speed=speeds, temperature=temperatures, factor=times)
def test_pipe_laws_grow_with_the_power_four_fifths_of_the_speed(speed: float, temperature: float, factor: float) -> None:
    """Adair's and the pipe law follow Re to the 0.8: speed and density count alike."""
    for law in (heat_transfer_coefficient_adair, heat_transfer_coefficient_dittus_boelter):
        once = law(speed, 0.024, 1.2, temperature)
        assert law(factor * speed, 0.024, 1.2, temperature) == pytest.approx(factor**0.8 * once, rel=1e-12)
        assert law(speed, 0.024, factor * 1.2, temperature) == pytest.approx(factor**0.8 * once, rel=1e-12)


@given(speed=speeds, temperature=temperatures, factor=times)
def test_annand_grows_with_the_power_seven_tenths(speed: float, temperature: float, factor: float) -> None:
    """Annand's law follows Re to the 0.7 and is proportional to its own factor."""
    once = heat_transfer_coefficient_annand(speed, 0.024, 1.2, temperature, 0.35)
    faster = heat_transfer_coefficient_annand(factor * speed, 0.024, 1.2, temperature, 0.35)
    assert faster == pytest.approx(factor**0.7 * once, rel=1e-12)
    assert heat_transfer_coefficient_annand(speed, 0.024, 1.2, temperature, 0.70) == pytest.approx(2.0 * once, rel=1e-12)


@given(speed=speeds, temperature=temperatures, pressure=pressures, factor=times)
def test_engine_laws_scale_as_published(speed: float, temperature: float, pressure: float, factor: float) -> None:
    """Woschni's and Hohenberg's exponents of pressure, temperature and size are those of the equations."""
    woschni = heat_transfer_coefficient_woschni(speed, 0.024, pressure, temperature)
    assert heat_transfer_coefficient_woschni(speed, 0.024, factor * pressure, temperature) == pytest.approx(factor**0.8 * woschni)
    assert heat_transfer_coefficient_woschni(speed, factor * 0.024, pressure, temperature) == pytest.approx(
        factor**-0.2 * woschni
    )
    assert heat_transfer_coefficient_woschni(speed, 0.024, pressure, factor * temperature) == pytest.approx(
        factor**-0.53 * woschni
    )
    hohenberg = heat_transfer_coefficient_hohenberg(speed, 2e-5, pressure, temperature)
    assert heat_transfer_coefficient_hohenberg(speed, 2e-5, factor * pressure, temperature) == pytest.approx(
        factor**0.8 * hohenberg
    )
    assert heat_transfer_coefficient_hohenberg(speed, factor * 2e-5, pressure, temperature) == pytest.approx(
        factor**-0.06 * hohenberg
    )


def test_a_piston_at_rest_loses_heat_only_by_hohenberg() -> None:
    """Without motion three laws give nothing; Hohenberg's keeps a speed of 1.4 m/s."""
    assert heat_transfer_coefficient_adair(0.0, 0.024, 1.2, 293.0) == 0.0
    assert heat_transfer_coefficient_woschni(0.0, 0.024, 1e5, 293.0) == 0.0
    assert heat_transfer_coefficient_annand(0.0, 0.024, 1.2, 293.0, 0.5) == 0.0
    assert heat_transfer_coefficient_dittus_boelter(0.0, 0.006, 1.2, 293.0) == 0.0
    assert heat_transfer_coefficient_hohenberg(0.0, 2e-5, 1e5, 293.0) > 0.0


def test_a_narrow_pipe_exchanges_heat_faster() -> None:
    """At the same speed a barrel has a higher coefficient than a cylinder, as the bore to the power -0.2."""
    wide = heat_transfer_coefficient_dittus_boelter(50.0, 0.024, 1.2, 293.0)
    assert heat_transfer_coefficient_dittus_boelter(50.0, 0.006, 1.2, 293.0) == pytest.approx(4.0**0.2 * wide, rel=1e-12)
