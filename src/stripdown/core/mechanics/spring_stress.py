"""Stress in the wire of a helical compression spring, and what the wire bears."""

from __future__ import annotations

import math

from stripdown.core.mechanics.spring_force import check_coil
from stripdown.errors import OutOfRange
from stripdown.quantities import Q, check_value

_WIRE = Q("m", low=1e-6, high=1, label="wire diameter", shown="mm")
_FORCE = Q("N", low=0, high=1e9, label="spring force")
_STRENGTH = Q("Pa", low=1e6, high=1e11, label="tensile strength of 1 mm wire")
_EXPONENT = Q("1", low=0, high=1, label="exponent of the wire's strength")


def wahl_factor(spring_index: float) -> float:
    """Wahl's factor: how much curvature and direct shear raise the stress at the inside of the coil.

    Parameters
    ----------
    spring_index
        Mean coil diameter over wire diameter, above 1.

    Returns
    -------
    float
        Factor on the shear stress of a straight bar, above 1.

    Raises
    ------
    OutOfRange
        For an index of 1 or less: the coil would have no hole.

    Notes
    -----
    ``K = (4C - 1)/(4C - 4) + 0.615/C``. Usual for an index of 4 to 20.

    References
    ----------
    sadhu_singh, example 8.1.
    """
    _check_index(spring_index)
    return (4.0 * spring_index - 1.0) / (4.0 * spring_index - 4.0) + 0.615 / spring_index


def bergstraesser_factor(spring_index: float) -> float:
    """Bergsträsser's factor, within 1.5 % of Wahl's for an index of 4 or more.

    Parameters
    ----------
    spring_index
        Mean coil diameter over wire diameter, above 1.

    Returns
    -------
    float
        Factor on the shear stress of a straight bar, above 1.

    Raises
    ------
    OutOfRange
        For an index of 1 or less.

    Notes
    -----
    ``K = (4C + 2)/(4C - 3)``.

    References
    ----------
    en_13906_1, stress correction factor.
    """
    _check_index(spring_index)
    return (4.0 * spring_index + 2.0) / (4.0 * spring_index - 3.0)


def shear_stress(*, force: float, wire_diameter: float, mean_diameter: float, correction: float = 1.0) -> float:
    """Shear stress of the wire under a spring force.

    Parameters
    ----------
    force
        Spring force in N.
    wire_diameter
        Diameter of the wire in m.
    mean_diameter
        Mean coil diameter in m.
    correction
        Factor for curvature, such as `wahl_factor`; 1 for the straight bar.

    Returns
    -------
    float
        Shear stress in Pa.

    Raises
    ------
    OutOfRange
        For an impossible value.

    Notes
    -----
    ``tau = K 8 F D / (pi d^3)``.

    References
    ----------
    sadhu_singh, example 8.1.
    """
    check_coil(wire_diameter, mean_diameter)
    check_value("force", force, _FORCE)
    return correction * 8.0 * force * mean_diameter / (math.pi * wire_diameter**3)


def wire_tensile_strength(*, wire_diameter: float, strength_at_one_millimetre: float, exponent: float) -> float:
    """Tensile strength of spring wire, which grows as wire gets thinner.

    Parameters
    ----------
    wire_diameter
        Diameter of the wire in m.
    strength_at_one_millimetre
        Tensile strength of wire of 1 mm in Pa; 2211 MPa for music wire.
    exponent
        Exponent of the law; 0.145 for music wire.

    Returns
    -------
    float
        Tensile strength in Pa.

    Raises
    ------
    OutOfRange
        For an impossible value.

    Notes
    -----
    ``S = A / d^m`` with d in mm. Tabulated for music wire from 0.1 to 6.5 mm.

    References
    ----------
    jindal, example 8-3.
    """
    check_value("wire_diameter", wire_diameter, _WIRE)
    check_value("strength_at_one_millimetre", strength_at_one_millimetre, _STRENGTH)
    check_value("exponent", exponent, _EXPONENT)
    return strength_at_one_millimetre / float((wire_diameter / 1e-3) ** exponent)


def _check_index(spring_index: float) -> None:
    if math.isfinite(spring_index) and spring_index > 1.0:
        return
    raise OutOfRange(
        f"spring_index = {spring_index:g} is impossible.",
        field="spring_index",
        value=spring_index,
        unit="1",
        limits=(1.0, None),
        hint="It is the mean coil diameter over the wire's diameter: above 1, usually 4 to 20.",
    )
