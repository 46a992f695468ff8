"""Does a static O-ring suit its gland: squeeze, fill, stretch?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Annotated

from stripdown.core.part_condition.band import AgainstBand, BandPlace
from stripdown.core.part_condition.basis import Basis
from stripdown.core.part_condition.o_ring_bands import FILL_BAND, GLAND_BASIS, GREATEST_SQUEEZE, STRETCH_BAND, squeeze_band
from stripdown.core.part_condition.o_ring_tolerance import cross_section_tolerance
from stripdown.core.part_condition.parameters import (
    CROSS_SECTION,
    GLAND_DEPTH,
    GLAND_INNER_DIAMETER,
    GLAND_WIDTH,
    INNER_DIAMETER,
    TOLERANCE,
)
from stripdown.errors import OutOfRange
from stripdown.quantities import Q, check_value


@dataclass(frozen=True, slots=True, kw_only=True)
class OringGland:
    """A static O-ring in its gland.

    Parameters
    ----------
    cross_section
        Thickness of the ring's cord in m.
    gland_depth
        Room across in m.
    gland_width
        Room along the axis in m.
    stretch
        Fraction by which the groove widens the ring; None without both diameters.
    verdicts
        Squeeze, fill and stretch against their bands.
    notes
        What follows for the bench, one sentence each.
    basis
        What the figures rest on.
    """

    cross_section: Annotated[float, CROSS_SECTION]
    gland_depth: Annotated[float, GLAND_DEPTH]
    gland_width: Annotated[float, GLAND_WIDTH]
    squeeze: Annotated[float, Q("1", label="squeeze of the section", shown="%")]
    least_squeeze: Annotated[float, Q("1", label="squeeze of the thinnest ring within tolerance", shown="%")]
    greatest_squeeze: Annotated[float, Q("1", label="squeeze of the thickest ring within tolerance", shown="%")]
    fill: Annotated[float, Q("1", label="share of the gland that the ring fills", shown="%")]
    stretch: Annotated[float | None, Q("1", label="stretch on the groove", shown="%")]
    stretched_section: Annotated[float | None, Q("m", label="section of the stretched ring", shown="mm")]
    verdicts: tuple[AgainstBand, ...]
    notes: tuple[str, ...]
    basis: Basis

    @property
    def is_within_all_bands(self) -> bool:
        """Whether squeeze, fill and, if known, stretch lie inside their bands."""
        return all(verdict.place is BandPlace.INSIDE for verdict in self.verdicts)


def o_ring_gland(
    *,
    cross_section: float,
    gland_depth: float,
    gland_width: float,
    inner_diameter: float | None = None,
    gland_inner_diameter: float | None = None,
    tolerance: float | None = None,
) -> OringGland:
    """Squeeze, fill and stretch of an O-ring that does not move, against published bands.

    Parameters
    ----------
    cross_section
        Thickness of the ring's cord in m, unpressed.
    gland_depth
        Room across, from the groove's floor to the wall sealed on, in m.
    gland_width
        Room along the axis in m.
    inner_diameter
        Of the ring, unstretched, in m; None leaves stretch out.
    gland_inner_diameter
        Diameter of the groove's floor in m; None leaves stretch out.
    tolerance
        Half the tolerance field of the section, in m; None takes ISO 3601-1, class B.

    Returns
    -------
    OringGland
        Fractions, with verdicts against published bands.

    Raises
    ------
    OutOfRange
        For an impossible value, one diameter without the other, or a ring larger than its gland.
    OutsideValidity
        For a section beyond the table of tolerances.

    Notes
    -----
    ``squeeze = (W - depth) / W``; ``fill = (pi W² / 4) / (depth width)``; ``stretch = (groove - d) / d``. A stretched ring
    keeps its volume, so its section w solves ``w² (groove + w) = W² (d + W)``. The ring of a vented piston head floats:
    see `floating_ring`.

    References
    ----------
    engineers_edge_o_rings, gland tables; mechanical_engineers_handbook_3, page 290; seal_makers_design_guides; iso_3601_1.
    """
    check_value("cross_section", cross_section, CROSS_SECTION)
    check_value("gland_depth", gland_depth, GLAND_DEPTH)
    check_value("gland_width", gland_width, GLAND_WIDTH)
    scatter = cross_section_tolerance(cross_section) if tolerance is None else tolerance
    check_value("tolerance", scatter, TOLERANCE)
    fill = 0.25 * math.pi * cross_section**2 / (gland_depth * gland_width)
    _refuse_a_larger_ring(cross_section, gland_width, fill)
    stretch, section = _stretched(cross_section, inner_diameter, gland_inner_diameter)
    _refuse_a_wider_ring(inner_diameter, gland_inner_diameter, gland_depth)
    squeeze = _squeeze(cross_section, gland_depth)
    verdicts = [
        AgainstBand(name="squeeze", value=squeeze, band=squeeze_band(cross_section)),
        AgainstBand(name="fill", value=fill, band=FILL_BAND),
    ]
    if stretch is not None:
        verdicts.append(AgainstBand(name="stretch", value=stretch, band=STRETCH_BAND))
    thinnest, thickest = max(cross_section - scatter, 1e-6), cross_section + scatter
    least, greatest = _squeeze(thinnest, gland_depth), _squeeze(thickest, gland_depth)
    return OringGland(
        cross_section=cross_section,
        gland_depth=gland_depth,
        gland_width=gland_width,
        squeeze=squeeze,
        least_squeeze=least,
        greatest_squeeze=greatest,
        fill=fill,
        stretch=stretch,
        stretched_section=section,
        verdicts=tuple(verdicts),
        notes=tuple(_notes(verdicts, gland_depth, section, least=least, greatest=greatest)),
        basis=GLAND_BASIS,
    )


def _squeeze(section: float, depth: float) -> float:
    return (section - depth) / section


def _refuse_a_larger_ring(cross_section: float, gland_width: float, fill: float) -> None:
    if cross_section > gland_width:
        raise OutOfRange(
            f"The ring is larger than its gland: a section of {cross_section * 1e3:g} mm does not go into a groove "
            f"{gland_width * 1e3:g} mm wide.",
            field="gland_width",
            value=gland_width,
            unit="m",
            limits=(cross_section, None),
            hint="Take a thinner ring, or look whether width and depth were swapped.",
        )
    if fill > 1.0:
        raise OutOfRange(
            f"The ring is larger than its gland: it would fill {fill * 100:.0f} % of it, and rubber keeps its volume.",
            field="cross_section",
            value=cross_section,
            unit="m",
            hint="Take a thinner ring, or look whether depth and width are those of the gland.",
        )


def _refuse_a_wider_ring(inner: float | None, groove: float | None, depth: float) -> None:
    if inner is not None and groove is not None and inner >= groove + 2.0 * depth:
        raise OutOfRange(
            f"The ring is larger than its gland: an inner diameter of {inner * 1e3:g} mm does not go inside a wall of "
            f"{(groove + 2.0 * depth) * 1e3:g} mm.",
            field="inner_diameter",
            value=inner,
            unit="m",
            limits=(0.0, groove + 2.0 * depth),
            hint="Take a smaller ring, or look whether the two diameters were swapped.",
        )


def _stretched(section: float, inner: float | None, groove: float | None) -> tuple[float | None, float | None]:
    """Stretch, and section of the stretched ring at constant volume."""
    if inner is None and groove is None:
        return None, None
    if inner is None or groove is None:
        missing = "inner_diameter" if inner is None else "gland_inner_diameter"
        raise OutOfRange(
            f"{missing} is missing, so the stretch is not known.",
            field=missing,
            hint="Give the inner diameter of the ring and the diameter of the groove's floor, or neither.",
        )
    check_value("inner_diameter", inner, INNER_DIAMETER)
    check_value("gland_inner_diameter", groove, GLAND_INNER_DIAMETER)
    volume = section**2 * (inner + section)
    thin = section
    for _ in range(60):  # a contraction: each round brings it closer by the share of section in diameter
        thin = math.sqrt(volume / (groove + thin))
    return (groove - inner) / inner, thin


def _notes(verdicts: list[AgainstBand], depth: float, section: float | None, *, least: float, greatest: float) -> list[str]:
    notes = []
    squeeze = verdicts[0]
    if squeeze.value <= 0.0:
        notes.append("The ring does not reach the wall: it cannot seal at rest.")
    elif squeeze.place is BandPlace.INSIDE and (least < (squeeze.band.low or 0.0) or greatest > GREATEST_SQUEEZE):
        notes.append("A ring at the end of its tolerance would leave the band: measure the ring itself.")
    if section is not None and squeeze.place is BandPlace.INSIDE:
        fitted = _squeeze(section, depth)
        if fitted < (squeeze.band.low or 0.0):
            notes.append(
                f"Stretched, the section is {section * 1e3:.2f} mm and the squeeze {fitted * 100:.0f} %: below the band."
            )
    for verdict in verdicts[1:]:
        if verdict.name == "stretch" and verdict.place is BandPlace.BELOW:
            notes.append("The ring sits loose on its groove: it may roll or be nipped when the cylinder goes on.")
        if verdict.name == "stretch" and verdict.place is BandPlace.ABOVE:
            notes.append("So wide a stretch thins and ages the ring: take the next larger one.")
        if verdict.name == "fill" and verdict.place is BandPlace.ABOVE:
            notes.append("Little room is left for swelling and heat: take a thinner ring or a wider groove.")
    return notes
