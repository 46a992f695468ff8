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
    """What to look at on the part or group that is named, by the packaged limits or one's own."""
    sheet = (inspection or load_inspection()).sheet(variation)
    if named is None:
        return InspectedParts(sheet=sheet)
    parts = tuple(sheet.parts_named(named))
    keys = {one.key for one in parts}
    patterns = tuple(one for one in load_damage().patterns(sheet.variation) if keys & set(one.parts))
    return InspectedParts(sheet=sheet, parts=parts, patterns=patterns)


def complaint_trees(words: str = "", *, variation: str = "") -> ComplaintTrees:
    """The tree of the complaint that some words mean; all trees without words."""
    complaints = load_complaints()
    trees = (complaints.find(words, variation),) if words else tuple(complaints.trees(variation).values())
    return ComplaintTrees(
        procedure=complaints.procedures.procedure(variation),
        variation=complaints.procedures.variation(variation),
        trees=trees,
    )
