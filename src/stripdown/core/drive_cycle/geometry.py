"""At which angles of the sector gear things happen, from its teeth and the rack: and what cannot be assembled."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from stripdown.core.parts.sector_gear import SectorGear
from stripdown.errors import OutOfRange

_DOUBTFUL: Final = 1e-3  # m beyond the range of the used travel; more cannot be assembled
_WRONG_TOOTH: Final = 0.5e-3  # m beyond the geometry's own tolerance at home


@dataclass(frozen=True, slots=True, kw_only=True)
class SectorAngles:
    """Angles of one cycle: zero where the driving flank of the unshortened sector's first tooth crosses the pitch point.

    Parameters
    ----------
    entry
        At which the tip of the first tooth meets the addendum line of a rack at home, in rad.
    pick_up
        At which it takes the rack, in rad.
    release
        At which the rack is let go, in rad.
    pitch_radius
        In m.
    travel_left
        Stroke less lead less the rolled teeth, in m: what the last tooth still carries.
    fits
        From which to which travel the last tooth can carry, in m.
    greatest_home_tolerance
        How far from home the piston may be before the first tooth takes the wrong rack tooth, in m.
    doubts
        Keys of what is doubtful: ``"travel"``, ``"home_tolerance"``.
    """

    entry: float
    pick_up: float
    release: float
    pitch_radius: float
    travel_left: float
    fits: tuple[float, float]
    greatest_home_tolerance: float
    doubts: tuple[str, ...]


def sector_angles(sector: SectorGear, *, stroke: float) -> SectorAngles:
    """Angles of the cycle, from the teeth and the measured stroke.

    Parameters
    ----------
    sector
        The gear.
    stroke
        Of the piston, in m.

    Returns
    -------
    SectorAngles

    Raises
    ------
    OutOfRange
        For teeth, stroke and lead that cannot be assembled.

    Notes
    -----
    Involute gear on a straight rack, addendum of one module. The stroke decides the release, not the count of teeth. Outside the
    conjugate arc the contact is an edge's: angles are off by up to 2.5°, travel by up to a millimetre.
    """
    teeth = sector.full_teeth - sector.cut_at_pick_up - sector.cut_at_release
    if teeth < 2:
        raise OutOfRange(
            f"sector.full_teeth = {sector.full_teeth} less {sector.cut_at_pick_up} and {sector.cut_at_release} leaves {teeth}.",
            field="sector.full_teeth",
            value=sector.full_teeth,
            unit="1",
            limits=(2, None),
            hint="Count the teeth that were taken off at each end.",
        )
    m, alpha, lead = sector.module, sector.pressure_angle, sector.lead
    radius = 0.5 * m * sector.round_teeth
    pitch = 2.0 * math.pi / sector.round_teeth
    if sector.full_teeth * pitch > 2.0 * math.pi * 0.9:
        raise OutOfRange(
            f"sector.full_teeth = {sector.full_teeth} of {sector.round_teeth:g} all round leave no free arc.",
            field="sector.full_teeth",
            value=sector.full_teeth,
            unit="1",
            limits=(2, 0.9 * sector.round_teeth),
            hint="Measure the tip diameter: over the module, less two, it gives the teeth all round.",
        )
    tip, base = radius + m, radius * math.cos(alpha)
    tip_angle = math.acos(base / tip)
    entry = sector.cut_at_pick_up * pitch - math.acos((radius - m) / tip) + _involute(tip_angle) - _involute(alpha)
    pick_up = sector.cut_at_pick_up * pitch - lead / radius
    greatest_lead = radius * (sector.cut_at_pick_up * pitch - entry)
    if not 0.0 <= lead <= greatest_lead:
        raise OutOfRange(
            f"sector.lead = {lead * 1e3:.3g} mm: the first tooth meets the rack 0 to {greatest_lead * 1e3:.3g} mm early.",
            field="sector.lead",
            value=lead,
            unit="m",
            limits=(0.0, greatest_lead),
            hint="Read the witness mark again: the lead is its height over sine and cosine of the pressure angle.",
        )
    left = stroke - lead - (teeth - 1) * math.pi * m
    shortest = (math.sqrt(tip**2 - base**2) - radius * math.sin(alpha)) / math.cos(alpha)
    longest = math.sqrt(tip**2 - (radius - m) ** 2) - m * math.tan(alpha)
    beyond = max(shortest - left, left - longest, 0.0)
    if beyond > _DOUBTFUL:
        raise OutOfRange(
            f"A stroke of {stroke * 1e3:.1f} mm, {teeth} teeth and a lead of {lead * 1e3:.2g} mm do not fit: the last tooth "
            f"would carry {left * 1e3:.2f} mm, and it can carry {shortest * 1e3:.2f} to {longest * 1e3:.2f} mm.",
            field="load.stroke",
            value=stroke,
            unit="m",
            limits=(stroke - left + shortest, stroke - left + longest),
            hint="Measure the stroke, count the teeth, read the witness mark again.",
        )
    pitches = 1.0 if sector.second_tooth_present else 2.0
    tolerance = lead + pitches * math.pi * m - math.sqrt(tip**2 - (radius - m) ** 2) - m * math.tan(alpha)
    doubts = []
    if beyond > 0.0:
        doubts.append("travel")
    if sector.home_tolerance > tolerance + _WRONG_TOOTH:
        doubts.append("home_tolerance")
    return SectorAngles(
        entry=entry,
        pick_up=pick_up,
        release=pick_up + stroke / radius,
        pitch_radius=radius,
        travel_left=left,
        fits=(shortest, longest),
        greatest_home_tolerance=tolerance,
        doubts=tuple(doubts),
    )


def _involute(angle: float) -> float:
    return math.tan(angle) - angle
