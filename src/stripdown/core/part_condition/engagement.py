"""How thick a pad brings the first contact of sector gear and rack to the pitch line?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Annotated, Final

from stripdown.core.part_condition.basis import Basis
from stripdown.core.part_condition.parameters import MODULE, PRESSURE_ANGLE, SECTOR_TEETH, WITNESS_HEIGHT
from stripdown.errors import OutOfRange, OutsideValidity
from stripdown.quantities import Q, check_value

SUSPECT_SHARE: Final = 0.9  # of a pitch; a correction of a whole pitch is the next tooth, whatever it is called
_TIP = 1e-9  # of a module: a mark read as lying on the tip itself

_MEASURE_AGAIN = "Not computable: measure again."
BASIS: Final = Basis(
    footing="derived",
    place="involute on a straight rack: travel x moves the contact by x cos(a) along the line of action, which rises by sin(a)",
    holds_for="First contact of flank on flank, between the pitch line and the rack's tip; addendum of one module.",
    caution="Mark the tooth with ink, turn by hand, read the mark twice. The pad counts as pressed, and new pads settle in about "
    "a hundred shots. A second rack tooth can clash with a corrected angle: turn one full cycle by hand before any power.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class EngagementPad:
    """A pad that brings the first contact to the pitch line, in addition to the pad that is there.

    Parameters
    ----------
    witness_height
        As it was read, in m.
    pressure_angle
        Of the rack, in rad.
    module
        Of the rack, in m.
    is_suspect
        Whether the pad is so near to a whole pitch that the sector gear probably meets the wrong tooth.
    notes
        What to know before it is glued, one sentence each.
    basis
        What the answer rests on.
    """

    witness_height: Annotated[float, WITNESS_HEIGHT]
    pressure_angle: Annotated[float, PRESSURE_ANGLE]
    module: Annotated[float, MODULE]
    thickness: Annotated[float, Q("m", label="thickness of the pad, as pressed", shown="mm")]
    thickness_per_height: Annotated[float, Q("1", label="pad per height of the mark")]
    pitch: Annotated[float, Q("m", label="pitch of the rack", shown="mm")]
    is_suspect: bool
    notes: tuple[str, ...]
    basis: Basis

    @property
    def share_of_pitch(self) -> float:
        """Pad as a fraction of one pitch."""
        return self.thickness / self.pitch


def engagement_pad(
    *,
    witness_height: float,
    pressure_angle: float,
    module: float,
    sector_teeth: float | None = None,
    is_edge_contact: bool = False,
) -> EngagementPad:
    """Thickness of the pad that brings the first contact of the pick-up tooth to the pitch line.

    Parameters
    ----------
    witness_height
        Height of the witness mark above the pitch line, towards the rack's tip, in m.
    pressure_angle
        Of the rack, in rad; 20° is usual.
    module
        Of sector gear and rack in m.
    sector_teeth
        Count of teeth that the sector gear would have all round, a number; None if it is not known. Below 18 at 20° part of the
        rack's tip lies beyond what such a gear can touch with its flank.
    is_edge_contact
        Whether the mark is the nick of an edge (the rack's tip, the corner of the sector's tooth), not a spot on the flank.

    Returns
    -------
    EngagementPad
        Thickness in m as pressed, to be added to what is there; whether it is suspect; notes.

    Raises
    ------
    OutOfRange
        For an impossible value, or a mark that would lie beyond the rack's tip.
    OutsideValidity
        For contact of an edge: the mark then says nothing of the angle.

    Notes
    -----
    ``pad = y / (sin a cos a) = 2 y / sin 2a``; 3.11 y at 20°. A mark at the tip, y = module, asks for 0.99 of a pitch there:
    nothing can tell it from the wrong tooth, so more than nine tenths of a pitch is suspect. A gear of z teeth touches a rack
    with its flank up to ``y = (m z / 2) sin² a`` only, where the line of action meets the base circle; a mark beyond is an
    edge's. Derived here; no published treatment was found.
    """
    check_value("witness_height", witness_height, WITNESS_HEIGHT)
    check_value("pressure_angle", pressure_angle, PRESSURE_ANGLE)
    check_value("module", module, MODULE)
    if witness_height > module * (1.0 + _TIP):
        raise OutOfRange(
            f"witness_height = {witness_height * 1e3:g} mm lies beyond the rack's tip, {module * 1e3:g} mm above the pitch line.",
            field="witness_height",
            value=witness_height,
            unit="m",
            limits=(0.0, module),
            hint=f"{_MEASURE_AGAIN} The height counts from the pitch line, not from the root; the tip is one module above it.",
        )
    reach = _reach(module, pressure_angle, sector_teeth)
    if is_edge_contact or witness_height > reach:
        raise _edge(witness_height, reach)
    gain = 1.0 / (math.sin(pressure_angle) * math.cos(pressure_angle))
    thickness, pitch = gain * witness_height, math.pi * module
    is_suspect = thickness > SUSPECT_SHARE * pitch
    return EngagementPad(
        witness_height=witness_height,
        pressure_angle=pressure_angle,
        module=module,
        thickness=thickness,
        thickness_per_height=gain,
        pitch=pitch,
        is_suspect=is_suspect,
        notes=tuple(_notes(thickness, gain, is_suspect=is_suspect)),
        basis=BASIS,
    )


def _reach(module: float, pressure_angle: float, sector_teeth: float | None) -> float:
    """How high above the pitch line a sector gear touches a rack with its flank."""
    if sector_teeth is None:
        return math.inf
    check_value("sector_teeth", sector_teeth, SECTOR_TEETH)
    return 0.5 * module * sector_teeth * math.sin(pressure_angle) ** 2


def _edge(witness_height: float, reach: float) -> OutsideValidity:
    beyond = f" A sector gear of so few teeth reaches {reach * 1e3:.2f} mm with its flank." if math.isfinite(reach) else ""
    return OutsideValidity(
        f"{_MEASURE_AGAIN} A mark of an edge, {witness_height * 1e3:g} mm above the pitch line, does not show where flank meets "
        f"flank.{beyond} Clean the tooth, ink its flank, turn by hand; if an edge still meets first, look for the wrong tooth, a "
        "worn tooth or play.",
        model="engagement pad",
        quantity="witness_height",
        value=witness_height,
        limits=(0.0, reach if math.isfinite(reach) else None),
    )


def _notes(thickness: float, gain: float, *, is_suspect: bool) -> list[str]:
    notes = [f"0.1 mm in the reading of the mark is {0.1 * gain:.2f} mm of pad."]
    if thickness == 0.0:
        notes.append("First contact is at the pitch line already: no pad is needed for the angle.")
    if is_suspect:
        notes.append(
            "More than nine tenths of a pitch: the wrong tooth? So thick a pad does what taking off the first rack tooth does, "
            "and a mark so near to the tip may be an edge's. Look which rack tooth the sector takes first, and measure again."
        )
    return notes
