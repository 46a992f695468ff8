"""Looks, limits and damage as plain values for ``--json``: limits in SI, the unit in each key."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from stripdown.plain.requests import request_fields
from stripdown.plain.si import si_key
from stripdown.procedures.looks import Grade, GradeLimits, Look, Vocabulary
from stripdown.units import to_si, unit_named

if TYPE_CHECKING:
    from stripdown.procedures.damage import DamagePattern
    from stripdown.procedures.inspection import InspectionSheet
    from stripdown.procedures.new_part_grids import NewPartGrid
    from stripdown.procedures.parts import Part
    from stripdown.references.provenance import Provenance


def part_list_fields(sheet: InspectionSheet) -> dict[str, Any]:
    """Turn the list of parts into plain values."""
    groups = {group.key: {"name": group.name, "words": group.words, "parts": group.parts} for group in sheet.groups}
    looks = {part: [look.key for look in looks] for part, looks in sheet.looks.items()}
    return {**_head(sheet), "groups": groups, "looks": looks}


def inspection_fields(sheet: InspectionSheet, parts: Sequence[Part], patterns: Iterable[DamagePattern]) -> dict[str, Any]:
    """Turn looks at some parts into plain values."""
    looks = [look for part in parts for look in sheet.looks[part.key]]
    vocabularies = {look.vocabulary.key: look.vocabulary for look in looks if look.vocabulary is not None}
    grids = dict.fromkeys(key for look in looks for key in look.grids)
    return {
        **_head(sheet),
        "parts": {part.key: [_look(look) for look in sheet.looks[part.key]] for part in parts},
        "vocabularies": {key: _vocabulary(one) for key, one in vocabularies.items()},
        "grids_for_new_parts": {key: _grid(sheet.grids[key]) for key in grids},
        "damage": [_pattern(one) for one in patterns],
        "care": sheet.care,
    }


def _head(sheet: InspectionSheet) -> dict[str, Any]:
    limit_sets = [{"name": one.name, "version": one.version, "note": one.note} for one in sheet.limit_sets]
    return {"variation": dict(sheet.variation.choices), "limit_sets": limit_sets}


def _look(look: Look) -> dict[str, Any]:
    return {
        "look": look.key,
        "name": look.name,
        "see": look.see,
        "how": look.how,
        "tools": look.tools,
        "grades": {grade.value: look.words(grade) for grade in Grade},
        "limits": None if look.limits is None else _limits(look.limits),
        "vocabulary": None if look.vocabulary is None else look.vocabulary.key,
        "grids_for_new_parts": look.grids,
        "on_reject": {"work": look.work, "wanted": look.prove},
        "set_by": look.set_by,
        **_provenance(look.provenance),
    }


def _limits(limits: GradeLimits) -> dict[str, Any]:
    names = ("reject_below", "watch_below", "watch_above", "reject_above")
    values = {name: getattr(limits, name) for name in names}
    si = unit_named(limits.unit).si
    in_si = {si_key(name, si): None if value is None else to_si(value, limits.unit) for name, value in values.items()}
    return {"label": limits.label, "workshop_unit": limits.unit, **in_si}


def _vocabulary(vocabulary: Vocabulary) -> dict[str, Any]:
    terms = [
        {
            "term": term.key,
            "name": term.name,
            "family": term.family,
            "grade": term.grade.value,
            "note": term.note,
            "set_by": term.set_by,
        }
        for term in vocabulary.terms
    ]
    return {"name": vocabulary.name, "note": vocabulary.note, "terms": terms, **_provenance(vocabulary.provenance)}


def _grid(grid: NewPartGrid) -> dict[str, Any]:
    of_size, of_limit = unit_named(grid.size_unit).si, unit_named(grid.unit).si
    return {
        "name": grid.name,
        "note": grid.note,
        "size": grid.size,
        "columns": grid.columns,
        "rows": [
            {
                si_key("above", of_size): to_si(row.above, grid.size_unit),
                si_key("up_to", of_size): to_si(row.up_to, grid.size_unit),
                si_key("limits", of_limit): [to_si(limit, grid.unit) for limit in row.limits],
            }
            for row in grid.rows
        ],
        **_provenance(grid.provenance),
    }


def _pattern(pattern: DamagePattern) -> dict[str, Any]:
    return {
        "damage": pattern.key,
        "see": pattern.see,
        "parts": pattern.parts,
        "in_shots": pattern.is_in_shots,
        "causes": pattern.causes,
        "tell": pattern.tell,
        "request": request_fields(pattern.request),
        **_provenance(pattern.provenance),
    }


def _provenance(provenance: Provenance) -> dict[str, Any]:
    return {"footing": provenance.footing.value, "source_key": provenance.source, "where": provenance.where}
