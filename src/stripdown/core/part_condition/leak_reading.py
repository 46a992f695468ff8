"""One leak, as a test at one pressure shows it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from stripdown.core.constants import AIR_GAS_CONSTANT, AIR_HEAT_CAPACITY_RATIO
from stripdown.core.mechanics.gas_properties import sutherland_viscosity
from stripdown.core.mechanics.orifice_flow import isentropic_mass_flow
from stripdown.core.part_condition.basis import Basis
from stripdown.core.part_condition.parameters import AMBIENT, LEAK_AREA, TEMPERATURE
from stripdown.errors import OutOfRange
from stripdown.quantities import Q


@dataclass(frozen=True, slots=True, kw_only=True)
class LeakReading:
    """Effective area of a leak, as one test shows it at one pressure.

    Parameters
    ----------
    leak_area
        Area of the ideal hole that would do it, in m2.
    ambient_pressure
        Air pressure outside in Pa.
    temperature
        Of the air inside in K.
    how
        How it was found: the test in a few words.
    notes
        What to know of this reading, one sentence each.
    basis
        What the reading rests on.
    """

    how: str
    leak_area: Annotated[float, LEAK_AREA]
    standard_uncertainty: Annotated[float, Q("m2", label="its own standard uncertainty", shown="mm2")]
    shared_relative_uncertainty: Annotated[float, Q("1", label="relative standard uncertainty shared with other readings")]
    pressure: Annotated[float, Q("Pa", label="absolute pressure of the test", shown="bar")]
    ambient_pressure: Annotated[float, AMBIENT]
    temperature: Annotated[float, TEMPERATURE]
    notes: tuple[str, ...]
    basis: Basis


def orifice_flux(*, pressure: float, temperature: float, ambient_pressure: float) -> float:
    """Flow through an ideal hole to the outside, per area.

    Parameters
    ----------
    pressure
        Absolute pressure inside in Pa, above the air outside.
    temperature
        Of the air inside in K.
    ambient_pressure
        Air pressure outside in Pa.

    Returns
    -------
    float
        In kg/(s m2).

    Raises
    ------
    OutOfRange
        If no pressure stands across the leak.
    """
    if pressure <= ambient_pressure:
        raise OutOfRange(
            f"pressure = {pressure:g} Pa is not above the air outside, {ambient_pressure:g} Pa: nothing drives a leak.",
            field="pressure",
            value=pressure,
            unit="Pa",
            limits=(ambient_pressure, None),
            hint="Give absolute pressure: gauge reading plus air pressure.",
        )
    return float(isentropic_mass_flow(pressure, temperature, ambient_pressure, 1.0, AIR_GAS_CONSTANT, AIR_HEAT_CAPACITY_RATIO))


def creeping_over_orifice(*, pressure: float, temperature: float, ambient_pressure: float) -> float:
    """How creeping flow through a thin gap grows against the flow through a hole, as pressure rises.

    Parameters
    ----------
    pressure
        Absolute pressure inside in Pa, above the air outside.
    temperature
        Of the air inside in K.
    ambient_pressure
        Air pressure outside in Pa.

    Returns
    -------
    float
        In 1/m: times the gap's height squared over its length it is the ratio of creeping flow to ideal flow through that gap.

    Raises
    ------
    OutOfRange
        If no pressure stands across the leak.

    Notes
    -----
    Compressible creeping flow through a slot of width w, height c and length L: ``w c³ (p² - pa²) / (24 μ R T L)``, from
    Poiseuille's law with the density of an ideal gas; derived here.
    """
    flux = orifice_flux(pressure=pressure, temperature=temperature, ambient_pressure=ambient_pressure)
    viscosity = float(sutherland_viscosity(temperature))
    return (pressure**2 - ambient_pressure**2) / (24.0 * viscosity * AIR_GAS_CONSTANT * temperature * flux)
