"""The ring of a piston head: does it float, as the ring of a vented head should?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Final

from stripdown.core.part_condition.basis import Basis
from stripdown.core.part_condition.parameters import BORE, CROSS_SECTION, GROOVE_DIAMETER, GROOVE_WIDTH, INNER_DIAMETER
from stripdown.errors import OutOfRange
from stripdown.quantities import Q, check_value

BASIS: Final = Basis(
    footing="derived",
    place="lengths of ring, groove and bore only; that the ring of a vented head floats is common practice, no source",
    holds_for="A head with vents behind its ring. No squeeze table is for it: the air presses the ring out, in motion only.",
    caution="A fat ring seals no better and drags more. Judge this ring by a leak test, by its drag on a spring scale (2 to 8 N "
    "is usual) and by the chronograph; a static test cannot see a ring that seals or flips only in motion.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class FloatingRing:
    """A ring in the groove of a piston head, at rest; negative room means that it is squeezed.

    Parameters
    ----------
    floats
        Whether the ring has room both across and along its groove.
    notes
        What follows for the bench, one sentence each.
    basis
        What the answer rests on.
    """

    radial_room: Annotated[float, Q("m", label="room between ring, groove floor and bore", shown="mm")]
    axial_room: Annotated[float, Q("m", label="room along the groove", shown="mm")]
    overlap: Annotated[float, Q("m", label="free diameter of the ring beyond the bore", shown="mm")]
    floats: bool
    notes: tuple[str, ...]
    basis: Basis


def floating_ring(
    *, cross_section: float, inner_diameter: float, groove_diameter: float, groove_width: float, bore: float
) -> FloatingRing:
    """Room of a piston head's ring in its groove, and its overlap with the bore.

    Parameters
    ----------
    cross_section
        Thickness of the ring's cord in m, unpressed.
    inner_diameter
        Of the free ring in m.
    groove_diameter
        Diameter of the groove's floor in m.
    groove_width
        Width of the groove along the axis in m.
    bore
        Of the cylinder in m.

    Returns
    -------
    FloatingRing
        Lengths in m.

    Raises
    ------
    OutOfRange
        For an impossible value, a groove that is no groove, or a ring larger than it.

    Notes
    -----
    ``radial room = (bore - groove) / 2 - W``; ``axial room = width - W``; ``overlap = d + 2 W - bore``. Derived here.
    """
    check_value("cross_section", cross_section, CROSS_SECTION)
    check_value("inner_diameter", inner_diameter, INNER_DIAMETER)
    check_value("groove_diameter", groove_diameter, GROOVE_DIAMETER)
    check_value("groove_width", groove_width, GROOVE_WIDTH)
    check_value("bore", bore, BORE)
    if groove_diameter >= bore:
        raise OutOfRange(
            f"groove_diameter = {groove_diameter * 1e3:g} mm leaves no gland in a bore of {bore * 1e3:g} mm.",
            field="groove_diameter",
            value=groove_diameter,
            unit="m",
            limits=(0.0, bore),
            hint="Measure across the floor of the groove.",
        )
    if cross_section > groove_width:
        raise OutOfRange(
            f"The ring is larger than its groove: {cross_section * 1e3:g} mm in a width of {groove_width * 1e3:g} mm.",
            field="groove_width",
            value=groove_width,
            unit="m",
            limits=(cross_section, None),
            hint="Take a thinner ring.",
        )
    radial = 0.5 * (bore - groove_diameter) - cross_section
    axial = groove_width - cross_section
    overlap = inner_diameter + 2.0 * cross_section - bore
    return FloatingRing(
        radial_room=radial,
        axial_room=axial,
        overlap=overlap,
        floats=radial > 0.0 and axial > 0.0,
        notes=tuple(_notes(radial, overlap)),
        basis=BASIS,
    )


def _notes(radial: float, overlap: float) -> list[str]:
    notes = []
    if radial <= 0.0:
        notes.append("The ring is squeezed between groove and bore: it does not float, and drags whether there is air or not.")
    if overlap <= 0.0:
        notes.append("The free ring does not reach the bore: the air must press it out before it seals.")
    return notes
