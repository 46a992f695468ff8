"""Rate, ringing, solid length and stored energy of a helical compression spring of round wire.

``mean_diameter`` is measured between the wire's centres; ``active_coils`` leaves out the closed end coils.
"""

from __future__ import annotations

import enum
import math

from stripdown.errors import OutOfRange
from stripdown.quantities import Q, check_value

_WIRE = Q("m", low=1e-6, high=1, label="wire diameter", shown="mm")
_MEAN = Q("m", low=1e-6, high=10, label="mean coil diameter", shown="mm")
_COILS = Q("1", low=0.1, high=1e4, label="coils")
_SHEAR_MODULUS = Q("Pa", low=1e6, high=1e12, label="shear modulus")
_DENSITY = Q("kg/m3", low=100, high=30e3, label="density of the wire")
_RATE = Q("N/m", low=0, high=1e12, label="spring rate")
_COMPRESSION = Q("m", low=0, high=100, label="compression", shown="mm")


class SpringEnds(enum.IntEnum):
    """How the end coils are made."""

    CLOSED_AND_GROUND = 0
    CLOSED = 1
    OPEN = 2


def spring_rate(*, wire_diameter: float, mean_diameter: float, active_coils: float, shear_modulus: float) -> float:
    """Rate of a helical spring from its wire and coils.

    Parameters
    ----------
    wire_diameter
        Diameter of the wire in m.
    mean_diameter
        Mean coil diameter in m: outer diameter less one wire.
    active_coils
        Coils that can move.
    shear_modulus
        Shear modulus of the wire in Pa; 81.5 GPa for patented steel wire.

    Returns
    -------
    float
        Spring rate in N/m.

    Raises
    ------
    OutOfRange
        For an impossible value, or a wire as thick as the coil.

    Notes
    -----
    ``R = G d^4 / (8 D^3 n)``. Small pitch angle, coil not yet touching coil; usual for a spring index D/d of 4 to 20.
    A tolerance of 1 % on the wire is 4 % on the rate: a rate that was measured is better.

    References
    ----------
    wentzell, example 8.2.
    """
    check_coil(wire_diameter, mean_diameter)
    check_value("active_coils", active_coils, _COILS)
    check_value("shear_modulus", shear_modulus, _SHEAR_MODULUS)
    return shear_modulus * wire_diameter**4 / (8.0 * mean_diameter**3 * active_coils)


def active_coil_mass(*, wire_diameter: float, mean_diameter: float, active_coils: float, density: float) -> float:
    """Mass of the coils that move.

    Parameters
    ----------
    wire_diameter
        Diameter of the wire in m.
    mean_diameter
        Mean coil diameter in m.
    active_coils
        Coils that can move.
    density
        Density of the wire in kg/m3; about 7850 for steel.

    Returns
    -------
    float
        Mass in kg.

    Raises
    ------
    OutOfRange
        For an impossible value.

    Notes
    -----
    ``m = pi^2 d^2 D n rho / 4``: the pitch is left out, under 1 % for usual springs.

    References
    ----------
    en_13906_1, mass of the active coils.
    """
    check_coil(wire_diameter, mean_diameter)
    check_value("active_coils", active_coils, _COILS)
    check_value("density", density, _DENSITY)
    return math.pi**2 * wire_diameter**2 * mean_diameter * active_coils * density / 4.0


def natural_frequency(
    *, wire_diameter: float, mean_diameter: float, active_coils: float, shear_modulus: float, density: float
) -> float:
    """Lowest frequency at which a spring held at both ends rings.

    Parameters
    ----------
    wire_diameter
        Diameter of the wire in m.
    mean_diameter
        Mean coil diameter in m.
    active_coils
        Coils that can move.
    shear_modulus
        Shear modulus of the wire in Pa.
    density
        Density of the wire in kg/m3.

    Returns
    -------
    float
        Frequency in Hz.

    Raises
    ------
    OutOfRange
        For an impossible value.

    Notes
    -----
    ``f = d / (2 pi n D^2) sqrt(G / (2 rho))``, the same as ``sqrt(R / m) / 2``. A stroke shorter than a few of its periods is
    the range in which one third of the spring's mass, moving with the piston, is only an approximation.

    References
    ----------
    sadhu_singh, example 8.1, with its slip of units put right.
    """
    rate = spring_rate(
        wire_diameter=wire_diameter, mean_diameter=mean_diameter, active_coils=active_coils, shear_modulus=shear_modulus
    )
    mass = active_coil_mass(wire_diameter=wire_diameter, mean_diameter=mean_diameter, active_coils=active_coils, density=density)
    return 0.5 * math.sqrt(rate / mass)


def solid_length(*, wire_diameter: float, total_coils: float, ends: SpringEnds) -> float:
    """Length of a spring pressed until coil touches coil.

    Parameters
    ----------
    wire_diameter
        Diameter of the wire in m.
    total_coils
        All coils, the closed end coils included.
    ends
        How the end coils are made.

    Returns
    -------
    float
        Length in m.

    Raises
    ------
    OutOfRange
        For an impossible value.

    Notes
    -----
    ``L = n_t d`` with ground ends, ``(n_t + 1) d`` when the full wire stands at both ends.

    References
    ----------
    sadhu_singh, example 8.1 (ground ends); ends not ground: geometry.
    """
    check_value("wire_diameter", wire_diameter, _WIRE)
    check_value("total_coils", total_coils, _COILS)
    layers = total_coils if ends is SpringEnds.CLOSED_AND_GROUND else total_coils + 1.0
    return wire_diameter * layers


def stored_energy(*, rate: float, compression_start: float, compression_end: float) -> float:
    """Energy that a linear spring takes up from one compression to another.

    Parameters
    ----------
    rate
        Spring rate in N/m.
    compression_start
        Compression from the free length at the start in m.
    compression_end
        Compression from the free length at the end in m.

    Returns
    -------
    float
        Energy taken up in J; negative for a spring that is let go.

    Raises
    ------
    OutOfRange
        For an impossible value.

    Notes
    -----
    ``E = R (s2^2 - s1^2) / 2``.
    """
    check_value("rate", rate, _RATE)
    check_value("compression_start", compression_start, _COMPRESSION)
    check_value("compression_end", compression_end, _COMPRESSION)
    return 0.5 * rate * (compression_end - compression_start) * (compression_end + compression_start)


def check_coil(wire_diameter: float, mean_diameter: float) -> None:
    """Refuse a coil that could not be wound.

    Parameters
    ----------
    wire_diameter
        Diameter of the wire in m.
    mean_diameter
        Mean coil diameter in m.

    Raises
    ------
    OutOfRange
        For an impossible diameter, or a wire as thick as the coil.
    """
    check_value("wire_diameter", wire_diameter, _WIRE)
    check_value("mean_diameter", mean_diameter, _MEAN)
    if mean_diameter > wire_diameter:
        return
    raise OutOfRange(
        f"mean_diameter = {mean_diameter:g} m leaves no hole in a coil of wire of {wire_diameter:g} m.",
        field="mean_diameter",
        value=mean_diameter,
        unit="m",
        limits=(wire_diameter, None),
        hint="The mean coil diameter is the outer diameter less one wire; usual is 4 to 20 times the wire.",
    )
