"""What may touch what: rows of published charts and rules of the trade, each with its footing and source."""

from __future__ import annotations

import functools
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from stripdown.catalogue.compatibility import GRADE_SCALES, Compatibility
from stripdown.catalogue.entries import CatalogueEntry, named, packaged_text, read_entries
from stripdown.catalogue.fluids import load_fluids
from stripdown.catalogue.materials import load_materials
from stripdown.catalogue.part_materials import load_part_materials
from stripdown.errors import InputError
from stripdown.tables.table import Table

_FILE = "ratings.toml"
_VERDICTS = {verdict.value: verdict for verdict in Compatibility if verdict is not Compatibility.UNKNOWN}
_INNER = ("scale", "of", "fluids", "only")
_UNKNOWN = "is in no file of the catalogue."


@dataclass(frozen=True, slots=True, kw_only=True)
class MaterialRating(CatalogueEntry):
    """One row of a chart, or one rule: what is said of some materials or parts with some fluids."""

    verdicts: Mapping[str, Compatibility]
    fluids: tuple[str, ...]
    grades: Mapping[str, str]
    reason: str
    needs_stress: bool = False
    soaked: Compatibility | None = None


@functools.cache
def load_ratings() -> Mapping[str, MaterialRating]:
    """Read the packaged ratings."""
    return read_ratings(packaged_text(_FILE), file=_FILE)


def read_ratings(text: str, *, file: str) -> Mapping[str, MaterialRating]:
    """Read ratings from TOML."""
    return read_entries(text, file=file, noun="rating", read=_rating)


def _rating(entry: Table) -> MaterialRating:
    if ("grades" in entry.fields) == ("verdict" in entry.fields):
        raise entry.wrong("verdict", entry.fields.get("verdict"), "must stand alone: a verdict, or the grades of a chart.")
    verdicts, grades = _row(entry) if "grades" in entry.fields else (_rule(entry), {})
    entry.known("of", verdicts, _subjects(), _UNKNOWN)
    fluids = entry.texts("fluids", least=1)
    entry.known("fluids", fluids, load_fluids(), _UNKNOWN)
    if entry.fields.get("only", "stressed") != "stressed":
        raise entry.wrong("only", entry.fields["only"], 'must be "stressed" or missing.')
    return MaterialRating(
        **named(entry, "verdict", "grades", "reason", "soaked", inner=_INNER, name=_name(verdicts, fluids)),
        verdicts=verdicts,
        fluids=fluids,
        grades=grades,
        reason=entry.text("reason") if "reason" in entry.fields or not grades else "",
        needs_stress="only" in entry.fields,
        soaked=entry.choice("soaked", _VERDICTS) if "soaked" in entry.fields else None,
    )


def _name(subjects: Iterable[str], fluids: Iterable[str]) -> str:
    things = {**load_materials(), **load_part_materials(), **load_fluids()}

    def said(keys: Iterable[str]) -> str:
        return ", ".join(things[key].name if key in things else key.replace("_", " ") for key in keys)

    return f"{said(subjects)} with {said(fluids)}"


def _rule(entry: Table) -> Mapping[str, Compatibility]:
    return MappingProxyType(dict.fromkeys(entry.texts("of", least=1), entry.choice("verdict", _VERDICTS)))


def _row(entry: Table) -> tuple[Mapping[str, Compatibility], Mapping[str, str]]:
    scale = entry.choice("scale", GRADE_SCALES)
    grades = entry.fields["grades"]
    if not isinstance(grades, dict) or not grades:
        raise entry.wrong("grades", grades, "must be a table of grades by material.")
    try:
        verdicts = {material: scale.read(str(grade)) for material, grade in grades.items()}
        said = {material: scale.say(str(grade)) for material, grade in grades.items()}
    except InputError as reason:
        raise entry.blamed(reason, "grades", grades) from reason
    return MappingProxyType(verdicts), MappingProxyType(said)


@functools.cache
def _subjects() -> frozenset[str]:
    """Keys that a rating may be of: materials, parts, groups of parts."""
    parts = load_part_materials()
    return frozenset([*load_materials(), *parts, *(group for part in parts.values() for group in part.groups)])
