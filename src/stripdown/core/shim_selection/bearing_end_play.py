"""How much of a gear's float is end play of its own ball bearings?"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Annotated, Final

from stripdown.errors import OutOfRange
from stripdown.quantities import Q, check_value

RADIAL_CLEARANCE: Final = Q(
    "m",
    low=0,
    high=1e-4,
    usual=(0, 28e-6),
    label="radial clearance of the bearing",
    shown="um",
    explain="How far the inner ring can be moved across, from the bearing's class (C2, CN, C3 or MC1 to MC6).",
)
BALL_DIAMETER: Final = Q("m", low=3e-4, high=5e-3, usual=(0.8e-3, 2.0e-3), label="diameter of the bearing's balls", shown="mm")
GROOVE_RADIUS: Final = Q("1", low=0.5, high=0.6, usual=(0.51, 0.54), label="radius of the grooves over the balls' diameter")

RADIAL_CLEARANCE_CLASSES: Final[Mapping[str, tuple[float, float]]] = MappingProxyType(
    {
        "C2": (0.0, 8e-6),
        "CN": (2e-6, 13e-6),
        "C3": (8e-6, 23e-6),
        "C4": (14e-6, 29e-6),
        "C5": (20e-6, 37e-6),
        "MC1": (0.0, 5e-6),
        "MC2": (3e-6, 8e-6),
        "MC3": (5e-6, 10e-6),
        "MC4": (8e-6, 13e-6),
        "MC5": (13e-6, 20e-6),
        "MC6": (20e-6, 28e-6),
    }
)
"""Least and greatest radial clearance in m: deep-groove bearings of 2.5 to 10 mm bore, and miniature ones (`iso_5753`)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BearingEndPlay:
    """End play of one bearing; of a gear between two such bearings as much of the float may be theirs, half of it at either end.

    Parameters
    ----------
    end_play
        How far the inner ring moves along the axle from one end to the other, in m.
    note
        How to measure, one or two sentences.
    """

    end_play: Annotated[float, Q("m", label="end play of one bearing", shown="mm")]
    note: str = (
        "Part of a float measured with a hard push is in the ball bearings, and a light push does not find it: say how the gear "
        "was pushed, push the same way each time, and read twice each way. Bushings have no end play of their own."
    )


def bearing_end_play(*, radial_clearance: float, ball_diameter: float, groove_radius: float = 0.52) -> BearingEndPlay:
    """End play of a deep-groove ball bearing from its radial clearance.

    Parameters
    ----------
    radial_clearance
        In m, as across the bearing.
    ball_diameter
        In m.
    groove_radius
        Radius of both grooves as a ratio to the balls' diameter; 0.52 is an estimate, common practice, no source.

    Returns
    -------
    BearingEndPlay
        In m.

    Raises
    ------
    OutOfRange
        For an impossible value, or more clearance than the grooves leave.

    Notes
    -----
    The centres of the two grooves lie ``A = (2 groove_radius - 1) ball_diameter`` apart. Without load they are ``A - Gr/2``
    apart across; pushed along until the ball touches both, they are A apart in all: ``Ga = sqrt(4 A Gr - Gr^2)``. Rigid rings,
    no tilt. Derived here.
    """
    check_value("radial_clearance", radial_clearance, RADIAL_CLEARANCE)
    check_value("ball_diameter", ball_diameter, BALL_DIAMETER)
    check_value("groove_radius", groove_radius, GROOVE_RADIUS)
    apart = (2.0 * groove_radius - 1.0) * ball_diameter
    if radial_clearance > 2.0 * apart:
        raise OutOfRange(
            f"radial_clearance = {radial_clearance * 1e6:g} um is more than such grooves leave.",
            field="radial_clearance",
            value=radial_clearance,
            unit="m",
            limits=(0, 2.0 * apart),
            hint="Look at the bearing's class, and at the diameter of its balls.",
        )
    return BearingEndPlay(end_play=math.sqrt(4.0 * apart * radial_clearance - radial_clearance**2))


def class_clearance(name: str) -> tuple[float, float]:
    """Radial clearance of a class of small ball bearings.

    Parameters
    ----------
    name
        ``"C2"``, ``"CN"``, ``"C3"``, ``"C4"``, ``"C5"`` or ``"MC1"`` to ``"MC6"``, in any case.

    Returns
    -------
    tuple of float
        Least and greatest in m.

    Raises
    ------
    OutOfRange
        If there is no such class.

    References
    ----------
    iso_5753, table for bores of 2.5 to 10 mm; miniature classes as makers list them.
    """
    found = RADIAL_CLEARANCE_CLASSES.get(name.strip().upper())
    if found is None:
        raise OutOfRange(
            f'"{name}" is no clearance class of a small ball bearing.',
            field="bearing",
            value=name,
            hint=f"Known are {', '.join(RADIAL_CLEARANCE_CLASSES)}; without a mark on the bearing it is CN or MC3.",
        )
    return found
