"""How many pairs of teeth carry at once, and when a pinion undercuts or is fouled by a rack."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Annotated

from stripdown.errors import OutOfRange
from stripdown.quantities import Q, check_value

_TEETH = Q("1", low=3, high=1e5, label="teeth")
_MODULE = Q("m", low=1e-6, high=10, label="module", shown="mm")
_ANGLE = Q("rad", low=0.05, high=1.2, label="pressure angle", shown="deg")
_ADDENDUM = Q("m", low=1e-9, high=10, label="addendum", shown="mm")
_DIAMETER = Q("m", low=1e-6, high=100, label="pitch diameter", shown="mm")


@dataclass(frozen=True, slots=True, kw_only=True)
class GearContact:
    """Contact of two gears, or of a gear and a rack."""

    path: Annotated[float, Q("m", label="path of contact", shown="mm")]
    arc: Annotated[float, Q("m", label="arc of contact on the pitch circle", shown="mm")]
    ratio: Annotated[float, Q("1", label="contact ratio")]


def contact_ratio(
    *,
    teeth_1: float,
    teeth_2: float | None,
    module: float,
    pressure_angle: float,
    addendum_1: float | None = None,
    addendum_2: float | None = None,
) -> GearContact:
    """Path, arc and ratio of contact of involute teeth.

    Parameters
    ----------
    teeth_1
        Count of teeth of the first gear.
    teeth_2
        Count of teeth of the second gear; None for a rack.
    module
        In m.
    pressure_angle
        In rad.
    addendum_1
        Of the first gear in m; None for one module.
    addendum_2
        Of the second gear or the rack in m; None for one module.

    Returns
    -------
    GearContact

    Raises
    ------
    OutOfRange
        For an impossible value.

    Notes
    -----
    Standard centre distance, no backlash. Contact ends at the base circle where the other's tip would reach beyond it.

    References
    ----------
    khurmi_gupta, section 12.11 to 12.13.
    """
    check_value("teeth_1", teeth_1, _TEETH)
    check_value("module", module, _MODULE)
    check_value("pressure_angle", pressure_angle, _ANGLE)
    tips = [module if one is None else one for one in (addendum_1, addendum_2)]
    for name, tip in zip(("addendum_1", "addendum_2"), tips, strict=True):
        check_value(name, tip, _ADDENDUM)
    sine, cosine = math.sin(pressure_angle), math.cos(pressure_angle)
    first = 0.5 * module * teeth_1
    recess = math.sqrt((first + tips[0]) ** 2 - (first * cosine) ** 2) - first * sine
    if teeth_2 is None:
        approach = tips[1] / sine
    else:
        check_value("teeth_2", teeth_2, _TEETH)
        second = 0.5 * module * teeth_2
        approach = math.sqrt((second + tips[1]) ** 2 - (second * cosine) ** 2) - second * sine
        recess = min(recess, second * sine)
    path = min(approach, first * sine) + recess
    arc = path / cosine
    return GearContact(path=path, arc=arc, ratio=arc / (math.pi * module))


def least_pressure_angle_without_interference(*, pitch_diameter: float, addendum: float, teeth: float | None = None) -> float:
    """Least pressure angle at which a rack's tips do not foul a pinion.

    Parameters
    ----------
    pitch_diameter
        Of the pinion in m.
    addendum
        Of the rack in m.
    teeth
        Count of teeth of the pinion, to see that the addendum is one of its module's; None where it is not known.

    Returns
    -------
    float
        In rad.

    Raises
    ------
    OutOfRange
        For an impossible value, a rack that no angle frees, or an addendum that is no such gear's.

    Notes
    -----
    ``sin² α = addendum / pitch radius``: the rack's tip line goes through the point where the line of action leaves the base
    circle.

    References
    ----------
    khurmi_gupta, section 12.15.
    """
    check_value("pitch_diameter", pitch_diameter, _DIAMETER)
    check_value("addendum", addendum, _ADDENDUM)
    if teeth is not None:
        check_value("teeth", teeth, _TEETH)
    greatest = 0.5 * pitch_diameter if teeth is None else 2.0 * pitch_diameter / teeth
    if addendum >= min(greatest, 0.5 * pitch_diameter):
        raise OutOfRange(
            f"addendum = {addendum * 1e3:g} mm is too much for a pinion of {pitch_diameter * 1e3:g} mm.",
            field="addendum",
            value=addendum,
            unit="m",
            limits=(0.0, min(greatest, 0.5 * pitch_diameter)),
            hint="It is about one module: the pitch diameter over the teeth.",
        )
    return math.asin(math.sqrt(2.0 * addendum / pitch_diameter))
