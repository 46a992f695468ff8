"""How much of its squeeze has a ring lost for good?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Annotated, Final

from stripdown.core.part_condition.band import AgainstBand, Band
from stripdown.core.part_condition.basis import Basis
from stripdown.core.part_condition.parameters import HARDNESS, READING_UNCERTAINTY, THICKNESS, USUAL_READING_UNCERTAINTY
from stripdown.errors import OutOfRange
from stripdown.quantities import Q, check_value

_HOLDS_FOR = "A ring that kept its volume. The standard's tests last hours at heat; a ring out of a gun has its own history."
_CAUTION = (
    "Wait half an hour after taking the ring out, measure across the same direction, and hardly touch it. Swelling hides set, "
    "wear looks like it. Rubber is cheap: in doubt replace."
)
BASIS: Final = Basis(
    footing="published",
    source="iso_815_1",
    place="compression set = (t0 - tr) / (t0 - ts)",
    holds_for=_HOLDS_FOR,
    caution=_CAUTION,
)
_ACCEPTED: Final = (("moving ring", 0.20), ("ring at rest", 0.25), ("gasket", 0.35))
_BANDS: Final = tuple(
    (
        name,
        Band(
            low=None,
            high=greatest,
            basis=Basis(
                footing="published",
                source="seal_makers_design_guides",
                place=f"acceptance of a compound: {name} {greatest * 100:.0f} % at most",
                holds_for=_HOLDS_FOR,
                caution=_CAUTION,
            ),
        ),
    )
    for name, greatest in _ACCEPTED
)
LEAKS_FROM: Final = 0.9  # static rings were seen to leak at 90 to 100 % of set; seal_test_laboratory

# Strain by hardness: up to which hardness, and how far it is pressed; iso_815_1.
_STRAINS: Final = ((80.0, 0.25), (90.0, 0.15), (math.inf, 0.10))


@dataclass(frozen=True, slots=True, kw_only=True)
class RingSet:
    """Compression set of a ring, with what is accepted of one.

    Parameters
    ----------
    standard_strain
        Strain of the standard's own test for this hardness, a fraction; None if the hardness is not known.
    verdicts
        The set against what seal makers accept for three uses.
    notes
        What follows for the bench, one sentence each.
    basis
        What the figure rests on.
    """

    fraction: Annotated[float, Q("1", label="compression set", shown="%")]
    standard_uncertainty: Annotated[float, Q("1", label="standard uncertainty of the set", shown="%")]
    strain: Annotated[float, Q("1", label="strain in the gland", shown="%")]
    standard_strain: float | None
    verdicts: tuple[AgainstBand, ...]
    notes: tuple[str, ...]
    basis: Basis


def compression_set(*, original: float, compressed: float, recovered: float) -> float:
    """Share of the squeeze that a ring has not got back.

    Parameters
    ----------
    original
        Thickness before, in m: of a new ring of the same size.
    compressed
        Thickness while pressed, in m: the depth of its gland.
    recovered
        Thickness in m half an hour after it was let go.

    Returns
    -------
    float
        Compression set as a fraction: 0 for a ring as new, 1 for one that stayed as it was pressed; above 1 for one that is
        thinner than its gland, worn or shrunk as well.

    Raises
    ------
    OutOfRange
        For an impossible thickness, one that was not pressed, or one that grew.

    Notes
    -----
    ``(t0 - tr) / (t0 - ts)``; the standard calls the pressed thickness that of the spacer.

    References
    ----------
    iso_815_1, calculation.
    """
    for name, value in (("original", original), ("compressed", compressed), ("recovered", recovered)):
        check_value(name, value, THICKNESS)
    if compressed >= original:
        raise OutOfRange(
            f"compressed = {compressed * 1e3:g} mm is not below original = {original * 1e3:g} mm: the ring was not pressed.",
            field="compressed",
            value=compressed,
            unit="m",
            limits=(0.0, original),
            hint="Original is a new ring's thickness, compressed the depth of the gland.",
        )
    if recovered > original:
        raise OutOfRange(
            f"recovered = {recovered * 1e3:g} mm is above original = {original * 1e3:g} mm: the ring has swollen, or the two are "
            "swapped.",
            field="recovered",
            value=recovered,
            unit="m",
            limits=(0.0, original),
            hint="A swollen ring has met the wrong oil or solvent: replace it. Its set cannot be told.",
        )
    return (original - recovered) / (original - compressed)


def judge_compression_set(
    *,
    original: float,
    compressed: float,
    recovered: float,
    hardness: float | None = None,
    reading_uncertainty: float = USUAL_READING_UNCERTAINTY,
) -> RingSet:
    """Compression set of a ring with its uncertainty, against what is accepted.

    Parameters
    ----------
    original
        Thickness before, in m: of a new ring of the same size.
    compressed
        Thickness while pressed, in m: the depth of its gland.
    recovered
        Thickness in m half an hour after it was let go.
    hardness
        Of the new ring in IRHD or Shore A, a number; None leaves the standard's own strain out.
    reading_uncertainty
        Standard uncertainty of each thickness, in m.

    Returns
    -------
    RingSet
        Fractions, with verdicts.

    Raises
    ------
    OutOfRange
        For an impossible value, a ring that was not pressed, or one that grew.

    References
    ----------
    iso_815_1, calculation and strains; seal_makers_design_guides, acceptance; seal_test_laboratory, leakage of set rings.
    """
    fraction = compression_set(original=original, compressed=compressed, recovered=recovered)
    check_value("reading_uncertainty", reading_uncertainty, READING_UNCERTAINTY)
    squeeze = original - compressed
    doubt = reading_uncertainty / squeeze * math.sqrt((1.0 - fraction) ** 2 + 1.0 + fraction**2)
    return RingSet(
        fraction=fraction,
        standard_uncertainty=doubt,
        strain=squeeze / original,
        standard_strain=None if hardness is None else standard_strain(hardness),
        verdicts=tuple(AgainstBand(name=name, value=fraction, band=band) for name, band in _BANDS),
        notes=tuple(_notes(fraction, doubt)),
        basis=BASIS,
    )


def standard_strain(hardness: float) -> float:
    """Strain at which the standard measures compression set.

    Parameters
    ----------
    hardness
        IRHD or Shore A, a number.

    Returns
    -------
    float
        Strain as a fraction of the thickness.

    Raises
    ------
    OutOfRange
        For an impossible hardness.

    References
    ----------
    iso_815_1, strains: 25 % below 80 IRHD, 15 % from 80 to 89, 10 % from 90.
    """
    check_value("hardness", hardness, HARDNESS)
    return next(strain for below, strain in _STRAINS if hardness < below)


def _notes(fraction: float, doubt: float) -> list[str]:
    notes = []
    if fraction > 1.0:
        notes.append("Thinner than its gland: worn or shrunk as well as set. It does not touch at rest: replace it.")
    elif fraction >= LEAKS_FROM:
        notes.append("Rings at rest were seen to leak from 90 % of set: replace it.")
    if doubt > 0.1:
        notes.append(f"The reading is coarse: ± {2 * doubt * 100:.0f} percentage points for two standard uncertainties.")
    return notes
