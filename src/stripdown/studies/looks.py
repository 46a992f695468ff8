"""What is looked at on which parts, and what a complaint leads to, on one gun."""

from __future__ import annotations

from dataclasses import dataclass

from stripdown.procedures.complaint_trees import Complaint
from stripdown.procedures.complaints import load_complaints
from stripdown.procedures.damage import DamagePattern, load_damage
from stripdown.procedures.inspection import Inspection, InspectionSheet, load_inspection
from stripdown.procedures.parts import Part
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.variations import Variation


@dataclass(frozen=True, slots=True, kw_only=True)
class InspectedParts:
    """Looks at some parts, and the damage that is known of them; all parts, without damage, where none was named."""

    sheet: InspectionSheet
    parts: tuple[Part, ...] = ()
    patterns: tuple[DamagePattern, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ComplaintTrees:
    """The trees of one gun: all of them, or the one that some words mean."""

    procedure: Procedure
    variation: Variation
    trees: tuple[Complaint, ...]


def inspect_parts(named: str | None = None, *, variation: str = "", inspection: Inspection | None = None) -> InspectedParts:
    """Find what to look at on the part or group that is named.

    Parameters
    ----------
    named
        Part or group, as a technician writes it; None for all parts, without damage.
    variation
        Key of the gun's variation; empty for the usual one.
    inspection
        Looks and limits; None for the packaged ones.

    Returns
    -------
    InspectedParts

    Raises
    ------
    InputError
        For a part or a variation that nobody knows.
    """
    sheet = (inspection or load_inspection()).sheet(variation)
    if named is None:
        return InspectedParts(sheet=sheet)
    parts = tuple(sheet.parts_named(named))
    keys = {one.key for one in parts}
    patterns = tuple(one for one in load_damage().patterns(sheet.variation) if keys & set(one.parts))
    return InspectedParts(sheet=sheet, parts=parts, patterns=patterns)


def complaint_trees(words: str = "", *, variation: str = "") -> ComplaintTrees:
    """Find the tree of the complaint that some words mean.

    Parameters
    ----------
    words
        As the customer says it; empty for all trees.
    variation
        Key of the gun's variation; empty for the usual one.

    Returns
    -------
    ComplaintTrees

    Raises
    ------
    InputError
        For words that mean no complaint, and for a variation that nobody knows.
    """
    complaints = load_complaints()
    trees = (complaints.find(words, variation),) if words else tuple(complaints.trees(variation).values())
    return ComplaintTrees(
        procedure=complaints.procedures.procedure(variation),
        variation=complaints.procedures.variation(variation),
        trees=trees,
    )
