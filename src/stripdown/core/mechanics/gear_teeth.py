"""What a gear tooth bears: bending at its root, pressure on its flank."""

from __future__ import annotations

import bisect
import math
from typing import Final

from stripdown.errors import OutOfRange, OutsideValidity
from stripdown.quantities import Q, check_value

TANGENTIAL_FORCE = Q("N", low=0, high=1e6, label="force on the tooth along the pitch line")
NORMAL_FORCE = Q("N", low=0, high=1e6, label="force square to the surface")
FACE_WIDTH = Q("m", low=1e-4, high=1, usual=(3e-3, 8e-3), label="face width of the tooth", shown="mm")
MODULE = Q("m", low=1e-4, high=0.05, usual=(0.5e-3, 1.5e-3), label="module", shown="mm")
FORM_FACTOR = Q("1", low=0.05, high=1, usual=(0.2, 0.485), label="Lewis form factor")
TOOTH_COUNT = Q("1", low=4, high=1e6, label="teeth of the whole gear")
PRESSURE_ANGLE = Q("rad", low=math.radians(10), high=math.radians(35), label="pressure angle", shown="deg")
CONTACT_LENGTH = Q("m", low=1e-5, high=10, label="length of the line of contact", shown="mm")
RADIUS = Q("m", low=1e-6, label="radius of the surface at the contact", shown="mm")
YOUNGS_MODULUS = Q("Pa", low=1e6, high=2e12, usual=(2e9, 210e9), label="Young's modulus", shown="GPa")
POISSON_RATIO = Q("1", low=0, high=0.5, usual=(0.2, 0.45), label="Poisson's ratio")
PITCH_LINE_SPEED = Q("m/s", low=0, high=200, label="speed of the pitch line")

STANDARD_PRESSURE_ANGLE: Final = math.radians(20.0)
RACK_TEETH: Final = math.inf
"""Teeth of a rack: a gear without end."""
FEWEST_TEETH: Final = 10
"""Where the table of form factors begins."""

# Full-depth teeth, 20 degrees, loaded at the tip: shigley, table 14-2, from 12 teeth; 10 and 11 from gearpy's table, which
# differs from the other by up to 1.2 %. In the order of 1/z, in which the factor is nearly straight between neighbours.
_FORM_FACTORS: Final = (
    (RACK_TEETH, 0.485),
    (75.0, 0.435),
    (50.0, 0.409),
    (34.0, 0.371),
    (28.0, 0.353),
    (24.0, 0.337),
    (20.0, 0.322),
    (19.0, 0.314),
    (18.0, 0.309),
    (17.0, 0.303),
    (16.0, 0.296),
    (15.0, 0.290),
    (14.0, 0.277),
    (13.0, 0.261),
    (12.0, 0.245),
    (11.0, 0.226),
    (10.0, 0.201),
)
_INVERSE_COUNTS: Final = tuple(1.0 / count for count, _ in _FORM_FACTORS)
_BARTH_SPEED: Final = 3.048  # m/s: the 600 ft/min of the rule


def lewis_form_factor(tooth_count: float) -> float:
    """Lewis form factor of a full-depth tooth at 20°, loaded at its tip.

    Parameters
    ----------
    tooth_count
        Count of teeth that the whole gear would have, 10 or more; infinity for a rack. A sector counts as if it went all round.

    Returns
    -------
    float
        Form factor Y, a pure number.

    Raises
    ------
    OutsideValidity
        For fewer than ten teeth: such teeth are undercut, and the table does not reach there.

    Notes
    -----
    A table, straight in ``1/z`` between its entries. Published tables differ by 1.2 %. Addendum of one module, no profile shift.

    References
    ----------
    shigley, table 14-2; gearpy, table of Lewis factors, for 10 and 11 teeth.
    """
    if math.isnan(tooth_count) or tooth_count < FEWEST_TEETH:
        raise OutsideValidity(
            f"The table of Lewis form factors begins at {FEWEST_TEETH} teeth; {tooth_count:g} were asked for.",
            model="Lewis form factor",
            quantity="tooth_count",
            value=tooth_count,
            limits=(float(FEWEST_TEETH), None),
            reference="shigley",
        )
    inverse = 1.0 / tooth_count
    above = min(max(bisect.bisect_left(_INVERSE_COUNTS, inverse), 1), len(_INVERSE_COUNTS) - 1)
    left, right = _INVERSE_COUNTS[above - 1], _INVERSE_COUNTS[above]
    share = (inverse - left) / (right - left)
    return (1.0 - share) * _FORM_FACTORS[above - 1][1] + share * _FORM_FACTORS[above][1]


def lewis_stress(*, tangential_force: float, face_width: float, module: float, form_factor: float) -> float:
    """Bending stress at the root of a tooth that carries its load alone, at the tip.

    Parameters
    ----------
    tangential_force
        Force along the pitch line in N.
    face_width
        Width of the tooth that carries, in m.
    module
        Of the gear in m.
    form_factor
        Lewis form factor, a pure number, as from `lewis_form_factor`.

    Returns
    -------
    float
        Stress in Pa.

    Raises
    ------
    OutOfRange
        For an impossible value.

    Notes
    -----
    ``sigma = F / (b m Y)``. A nominal stress: no concentration at the fillet, no radial force, no shock. It compares teeth with
    each other; a faster or rougher mesh adds `barth_factor`.

    References
    ----------
    shigley, equation of Lewis with table 14-2; gearpy, worked example 3.
    """
    check_value("tangential_force", tangential_force, TANGENTIAL_FORCE)
    check_value("face_width", face_width, FACE_WIDTH)
    check_value("module", module, MODULE)
    check_value("form_factor", form_factor, FORM_FACTOR)
    return tangential_force / (face_width * module * form_factor)


def barth_factor(*, pitch_line_speed: float) -> float:
    """Barth's factor: how much a coarse mesh adds to the load as it gets faster.

    Parameters
    ----------
    pitch_line_speed
        Speed of the pitch line in m/s.

    Returns
    -------
    float
        Factor on the tangential force, 1 at rest.

    Raises
    ------
    OutOfRange
        For an impossible value.

    Notes
    -----
    ``(600 + V)/600`` with V in ft/min: for teeth as cast or moulded; finer teeth gain less. Usual below 10 m/s.

    References
    ----------
    wentzell, example 12.4.
    """
    check_value("pitch_line_speed", pitch_line_speed, PITCH_LINE_SPEED)
    return 1.0 + pitch_line_speed / _BARTH_SPEED


def tooth_normal_force(*, tangential_force: float, pressure_angle: float = STANDARD_PRESSURE_ANGLE) -> float:
    """Force square to the flank that goes with a force along the pitch line.

    Parameters
    ----------
    tangential_force
        Force along the pitch line in N.
    pressure_angle
        In rad.

    Returns
    -------
    float
        Force in N.

    Raises
    ------
    OutOfRange
        For an impossible value.

    Notes
    -----
    ``F / cos a``; friction is left out.

    References
    ----------
    wentzell, example 13.1, for straight teeth.
    """
    check_value("tangential_force", tangential_force, TANGENTIAL_FORCE)
    check_value("pressure_angle", pressure_angle, PRESSURE_ANGLE)
    return tangential_force / math.cos(pressure_angle)


def flank_radius(*, module: float, tooth_count: float, pressure_angle: float = STANDARD_PRESSURE_ANGLE) -> float:
    """Radius of an involute flank where it crosses the pitch line.

    Parameters
    ----------
    module
        Of the gear in m.
    tooth_count
        Count of teeth of the whole gear; infinity for a rack.
    pressure_angle
        In rad.

    Returns
    -------
    float
        Radius in m; infinite for a rack, whose flank is flat.

    Raises
    ------
    OutOfRange
        For an impossible value.

    Notes
    -----
    ``r = (m z / 2) sin a``: the distance to where the line of action touches the base circle.

    References
    ----------
    iso_21771, involute geometry.
    """
    check_value("module", module, MODULE)
    check_value("pressure_angle", pressure_angle, PRESSURE_ANGLE)
    if math.isinf(tooth_count) and tooth_count > 0.0:
        return math.inf
    check_value("tooth_count", tooth_count, TOOTH_COUNT)
    return 0.5 * module * tooth_count * math.sin(pressure_angle)


def hertz_pressure(
    *,
    normal_force: float,
    contact_length: float,
    first_radius: float,
    second_radius: float,
    first_youngs_modulus: float,
    second_youngs_modulus: float,
    first_poisson_ratio: float = 0.3,
    second_poisson_ratio: float = 0.3,
) -> float:
    """Greatest pressure where two cylinders, two flanks, or a flank and a flat touch along a line.

    Parameters
    ----------
    normal_force
        Force that presses them together in N.
    contact_length
        Length of the line in m; the face width, for teeth.
    first_radius
        Radius of one surface there, in m; infinity for a flat.
    second_radius
        Radius of the other, in m; infinity for a flat.
    first_youngs_modulus
        Of the one, in Pa.
    second_youngs_modulus
        Of the other, in Pa.
    first_poisson_ratio
        Of the one, a pure number; 0.3 for steel.
    second_poisson_ratio
        Of the other, a pure number.

    Returns
    -------
    float
        Pressure in the middle of the band of contact, in Pa.

    Raises
    ------
    OutOfRange
        For an impossible value; two flats, which touch on an area.

    Notes
    -----
    ``p = sqrt[(F/L)(1/r1 + 1/r2) / (pi ((1 - v1²)/E1 + (1 - v2²)/E2))]``; for steel on steel 0.418 sqrt(F E / (L r)). Elastic,
    smooth, dry, convex, a band much narrower than the radii; a plastic tooth yields and spreads the load before it reaches a high
    figure. One program's 0.263 in place of 0.418 gives 37 % too little.

    References
    ----------
    hertz_1882, line contact.
    """
    check_value("normal_force", normal_force, NORMAL_FORCE)
    check_value("contact_length", contact_length, CONTACT_LENGTH)
    curvature = _curvature("first_radius", first_radius) + _curvature("second_radius", second_radius)
    if curvature == 0.0:
        raise OutOfRange(
            "Two flats touch on an area, not along a line: a pressure of Hertz does not exist.",
            field="second_radius",
            value=second_radius,
            unit="m",
            limits=(RADIUS.low, None),
            hint="Give one of the two a radius; a rack is flat, and its sector gear is not.",
        )
    compliance = 0.0
    for name, modulus, ratio in (
        ("first", first_youngs_modulus, first_poisson_ratio),
        ("second", second_youngs_modulus, second_poisson_ratio),
    ):
        check_value(f"{name}_youngs_modulus", modulus, YOUNGS_MODULUS)
        check_value(f"{name}_poisson_ratio", ratio, POISSON_RATIO)
        compliance += (1.0 - ratio**2) / modulus
    return math.sqrt(normal_force / contact_length * curvature / (math.pi * compliance))


def _curvature(name: str, radius: float) -> float:
    if math.isinf(radius) and radius > 0.0:
        return 0.0
    check_value(name, radius, RADIUS)
    return 1.0 / radius
