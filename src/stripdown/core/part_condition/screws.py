"""How tight may a screw be: before it yields, before its boss strips?"""

from __future__ import annotations

import math
from typing import Final

from stripdown.core.part_condition.parameters import ENGAGEMENT, FRICTION
from stripdown.errors import OutOfRange, OutsideValidity
from stripdown.quantities import Q, check_value

DIAMETER = Q("m", low=5e-4, high=0.2, usual=(1.6e-3, 8e-3), label="thread diameter", shown="mm")
PITCH = Q("m", low=5e-5, high=0.02, usual=(0.35e-3, 1.25e-3), label="thread pitch", shown="mm")
CLAMP_FORCE = Q("N", low=0, high=1e7, label="clamp force")
YIELD_STRENGTH = Q("Pa", low=1e6, high=3e9, usual=(200e6, 1100e6), label="yield strength", shown="MPa")
SHEAR_STRENGTH = Q("Pa", low=1e5, high=3e9, usual=(30e6, 300e6), label="shear strength", shown="MPa")
NUT_FACTOR = Q("1", low=0.05, high=1, usual=(0.12, 0.25), label="nut factor")
BEARING_DIAMETER = Q("m", low=5e-4, high=0.4, label="mean diameter of the ring under the head", shown="mm")
TORQUE = Q("N m", low=0, high=1e4, label="torque")

SHARE_OF_YIELD: Final = 0.9
"""Part of the yield strength to which a screw is drawn, torsion included."""
HEAD_OVER_THREAD: Final = 1.2875
"""Mean bearing diameter over thread diameter, if it is not given: the head of 11.6 mm on a hole of 9 mm of an M8 (vdi_2230)."""
HAND_SCATTER: Final = 0.35
"""By how much clamp force scatters with torque set by wrench or hand (sandia_2008_0371)."""
SETTLING: Final = 0.05
"""Part of the clamp force that a joint loses by settling (sandia_2008_0371)."""
DEEPEST: Final = 2.5
"""Engagement in diameters beyond which more thread is not counted: the first turns carry the load (estimate)."""

_TAN_30: Final = math.sqrt(1.0 / 3.0)
_THINNER: Final = 0.3  # pitches by which a screw of class 6g may be thinner than its nominal diameter
_NARROWEST: Final = 2.0  # diameter over pitch; an ISO thread is 4 to 10


def stress_area(*, diameter: float, pitch: float) -> float:
    """Area of a metric thread that counts in tension.

    Parameters
    ----------
    diameter
        Nominal diameter in m.
    pitch
        In m.

    Returns
    -------
    float
        Area in m2.

    Raises
    ------
    OutOfRange
        For an impossible thread.

    Notes
    -----
    That of the mean of pitch diameter ``d - 0.6495 P`` and core diameter ``d - 1.2269 P``; ISO threads of 60°.

    References
    ----------
    vdi_2230, stress cross-section.
    """
    _check_thread(diameter, pitch)
    return 0.25 * math.pi * _stress_diameter(diameter, pitch) ** 2


def yield_clamp_force(
    *, diameter: float, pitch: float, yield_strength: float, friction: float, share: float = SHARE_OF_YIELD
) -> float:
    """Clamp force at which tension and torsion together use a share of the screw's yield strength.

    Parameters
    ----------
    diameter
        Nominal diameter in m.
    pitch
        In m.
    yield_strength
        Of the screw in Pa.
    friction
        Coefficient in the thread, a pure number.
    share
        Part of the yield strength, a fraction; 0.9 is usual.

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
    ``F = A0 nu Rp / sqrt(1 + 3 [1.5 (d2/d0) (P/(pi d2) + 1.155 mu)]²)``. ISO threads, plain shank. For a screw in a steel nut: a
    soft boss strips first.

    References
    ----------
    vdi_2230, assembly preload.
    """
    _check_thread(diameter, pitch)
    check_value("yield_strength", yield_strength, YIELD_STRENGTH)
    check_value("friction", friction, FRICTION)
    check_value("share", share, Q("1", low=0, high=1, label="share of the yield strength"))
    middle, core = _pitch_diameter(diameter, pitch), _stress_diameter(diameter, pitch)
    torsion = 1.5 * middle / core * (pitch / (math.pi * middle) + 2.0 * _TAN_30 * friction)
    return 0.25 * math.pi * core**2 * share * yield_strength / math.sqrt(1.0 + 3.0 * torsion**2)


def torque_per_clamp_force(*, diameter: float, pitch: float, friction: float, bearing_diameter: float | None = None) -> float:
    """Torque that a screw needs for each newton of clamp force.

    Parameters
    ----------
    diameter
        Nominal diameter in m.
    pitch
        In m.
    friction
        Coefficient in the thread and under the head, a pure number.
    bearing_diameter
        Mean diameter in m of the ring under the head; that of a hexagon head if None. A wider pan head takes more torque.

    Returns
    -------
    float
        Length in m: N m for each N.

    Raises
    ------
    OutOfRange
        For an impossible value.

    Notes
    -----
    ``0.16 P + mu (0.58 d2 + D/2)``. A thread that forms its own way, or is locked with a patch, takes that torque besides.

    References
    ----------
    vdi_2230, tightening torque.
    """
    _check_thread(diameter, pitch)
    check_value("friction", friction, FRICTION)
    ring = HEAD_OVER_THREAD * diameter if bearing_diameter is None else bearing_diameter
    check_value("bearing_diameter", ring, BEARING_DIAMETER)
    return 0.16 * pitch + friction * (0.58 * _pitch_diameter(diameter, pitch) + 0.5 * ring)


def torque_by_nut_factor(*, clamp_force: float, diameter: float, nut_factor: float = 0.2) -> float:
    """Torque by the workshop's short rule.

    Parameters
    ----------
    clamp_force
        Wanted, in N.
    diameter
        Nominal diameter of the thread in m.
    nut_factor
        A pure number: 0.20 dry or zinc-plated, 0.18 lightly oiled, 0.15 lubricated.

    Returns
    -------
    float
        Torque in N m.

    Raises
    ------
    OutOfRange
        For an impossible value.

    Notes
    -----
    ``T = K d F``. The clamp force that a torque gives scatters by 35 % either way, and 5 % of it goes by settling, as
    sandia_2008_0371 takes it.

    References
    ----------
    jindal, examples 9-5 and 9-6; wentzell, example 6.1.
    """
    check_value("clamp_force", clamp_force, CLAMP_FORCE)
    check_value("diameter", diameter, DIAMETER)
    check_value("nut_factor", nut_factor, NUT_FACTOR)
    return nut_factor * diameter * clamp_force


def stripping_area(*, pitch: float, engagement: float, least_major_diameter: float, greatest_pitch_diameter: float) -> float:
    """Area of the boss that shears when its thread strips.

    Parameters
    ----------
    pitch
        In m.
    engagement
        Length of thread that holds, in m.
    least_major_diameter
        Smallest major diameter that the screw may have, in m.
    greatest_pitch_diameter
        Largest pitch diameter that the tapped hole may have, in m.

    Returns
    -------
    float
        Area in m2.

    Raises
    ------
    OutOfRange
        For an impossible value, or a hole so wide that the thread does not reach it.
    OutsideValidity
        For more than 2.5 diameters of engagement, of which the deeper turns hardly carry.

    Notes
    -----
    ``A = pi (L/P) d [P/2 + 0.57735 (d - D2)]``; worst of the tolerances; a boss softer than the screw; the first turn as good as
    the others.

    References
    ----------
    fed_std_h28, shear area of the internal thread.
    """
    check_value("engagement", engagement, ENGAGEMENT)
    _check_thread(least_major_diameter, pitch)
    check_value("greatest_pitch_diameter", greatest_pitch_diameter, DIAMETER)
    deepest = DEEPEST * (least_major_diameter + _THINNER * pitch)
    if engagement > deepest:
        raise OutsideValidity(
            f"No more than {DEEPEST:g} diameters of engagement count, and {engagement * 1e3:g} mm is more.",
            model="thread stripping",
            quantity="engagement",
            value=engagement,
            limits=(0.0, deepest),
            reference="fed_std_h28",
        )
    tooth = 0.5 * pitch + _TAN_30 * (least_major_diameter - greatest_pitch_diameter)
    if tooth <= 0.0:
        raise OutOfRange(
            f"The screw ({least_major_diameter * 1e3:g} mm) does not reach the thread of the hole "
            f"({greatest_pitch_diameter * 1e3:g} mm at the flanks).",
            field="greatest_pitch_diameter",
            value=greatest_pitch_diameter,
            unit="m",
            limits=(None, least_major_diameter + 0.5 * pitch / _TAN_30),
            hint="Look whether screw and hole belong to one thread.",
        )
    return math.pi * engagement / pitch * least_major_diameter * tooth


def stripping_force(
    *, pitch: float, engagement: float, least_major_diameter: float, greatest_pitch_diameter: float, shear_strength: float
) -> float:
    """Pull on a screw at which the thread of its boss shears off.

    Parameters
    ----------
    pitch
        In m.
    engagement
        Length of thread that holds, in m.
    least_major_diameter
        Smallest major diameter that the screw may have, in m.
    greatest_pitch_diameter
        Largest pitch diameter that the tapped hole may have, in m.
    shear_strength
        Of the boss in Pa.

    Returns
    -------
    float
        Force in N, for a fresh thread pulled once.

    Raises
    ------
    OutOfRange
        As for `stripping_area`.
    OutsideValidity
        As for `stripping_area`.

    References
    ----------
    fed_std_h28, shear area of the internal thread.
    """
    check_value("shear_strength", shear_strength, SHEAR_STRENGTH)
    area = stripping_area(
        pitch=pitch,
        engagement=engagement,
        least_major_diameter=least_major_diameter,
        greatest_pitch_diameter=greatest_pitch_diameter,
    )
    return area * shear_strength


def _check_thread(diameter: float, pitch: float) -> None:
    check_value("diameter", diameter, DIAMETER)
    check_value("pitch", pitch, PITCH)
    if diameter < _NARROWEST * pitch:
        raise OutOfRange(
            f"A thread of {diameter * 1e3:g} mm with a pitch of {pitch * 1e3:g} mm does not exist.",
            field="pitch",
            value=pitch,
            unit="m",
            limits=(None, diameter / _NARROWEST),
            hint="The pitch of a metric thread is a fourth to a tenth of its diameter: M3 has 0.5 mm.",
        )


def _pitch_diameter(diameter: float, pitch: float) -> float:
    return diameter - 0.375 * math.sqrt(3.0) * pitch


def _stress_diameter(diameter: float, pitch: float) -> float:
    """Mean of pitch and core diameter."""
    core = diameter - 17.0 / 24.0 * math.sqrt(3.0) * pitch
    return 0.5 * (_pitch_diameter(diameter, pitch) + core)
