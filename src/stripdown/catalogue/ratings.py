"""What may touch what: rows of published charts and rules of the trade, each with its footing and source."""

from __future__ import annotations

import functools
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from stripdown.catalogue.compatibility import GRADE_SCALES, Compatibility
from stripdown.catalogue.entries import Entry, packaged_text, read_entries
from stripdown.catalogue.fluids import load_fluids
from stripdown.catalogue.kinds import texts
from stripdown.catalogue.materials import load_materials
from stripdown.catalogue.part_materials import load_part_materials
from stripdown.errors import InputError
from stripdown.references.provenance import Provenance

_FILE = "ratings.toml"


@dataclass(frozen=True, slots=True, kw_only=True)
class MaterialRating:
    """One row of a chart, or one rule: what is said of some materials or parts with some fluids."""

    key: str
    verdicts: Mapping[str, Compatibility]
    fluids: tuple[str, ...]
    grades: Mapping[str, str]
    reason: str
    needs_stress: bool = False
    soaked: Compatibility | None = None
    provenance: Provenance


@functools.cache
def load_ratings() -> Mapping[str, MaterialRating]:
    """Read the packaged ratings."""
    return read_ratings(packaged_text(_FILE), file=_FILE)


def read_ratings(text: str, *, file: str) -> Mapping[str, MaterialRating]:
    """Read ratings from TOML."""
    found = (_rating(entry) for entry in read_entries(text, file=file, noun="rating"))
    return MappingProxyType({rating.key: rating for rating in found})


def _rating(entry: Entry) -> MaterialRating:
    entry.only("scale", "grades", "verdict", "of", "fluids", "reason", "only", "soaked")
    if ("grades" in entry.fields) == ("verdict" in entry.fields):
        raise entry.wrong("verdict", entry.fields.get("verdict"), "must stand alone: a verdict, or the grades of a chart.")
    verdicts, grades = _row(entry) if "grades" in entry.fields else (_rule(entry), {})
    _check_keys(entry, "of", verdicts, _subjects())
    fluids = texts(entry, "fluids", least=1)
    _check_keys(entry, "fluids", fluids, load_fluids())
    if entry.fields.get("only", "stressed") != "stressed":
        raise entry.wrong("only", entry.fields["only"], 'must be "stressed" or missing.')
    return MaterialRating(
        key=entry.key.partition(".")[2],
        verdicts=verdicts,
        fluids=fluids,
        grades=grades,
        reason=entry.text("reason") if "reason" in entry.fields or not grades else "",
        needs_stress="only" in entry.fields,
        soaked=_verdict(entry, "soaked") if "soaked" in entry.fields else None,
        provenance=entry.provenance(),
    )


def _rule(entry: Entry) -> Mapping[str, Compatibility]:
    return MappingProxyType(dict.fromkeys(texts(entry, "of", least=1), _verdict(entry, "verdict")))


def _row(entry: Entry) -> tuple[Mapping[str, Compatibility], Mapping[str, str]]:
    scale = GRADE_SCALES.get(entry.text("scale"))
    if scale is None:
        raise entry.wrong("scale", entry.fields["scale"], f"must be one of {', '.join(GRADE_SCALES)}.")
    grades = entry.fields["grades"]
    if not isinstance(grades, dict) or not grades:
        raise entry.wrong("grades", grades, "must be a table of grades by material.")
    try:
        verdicts = {material: scale.read(str(grade)) for material, grade in grades.items()}
        said = {material: scale.say(str(grade)) for material, grade in grades.items()}
    except InputError as reason:
        raise entry.wrong("grades", grades, str(reason)) from reason
    return MappingProxyType(verdicts), MappingProxyType(said)


def _verdict(entry: Entry, name: str) -> Compatibility:
    said = {verdict.value: verdict for verdict in Compatibility if verdict is not Compatibility.UNKNOWN}
    word = entry.text(name)
    if word not in said:
        raise entry.wrong(name, word, f"must be one of {', '.join(said)}.")
    return said[word]


@functools.cache
def _subjects() -> frozenset[str]:
    """Keys that a rating may be of: materials, parts, groups of parts."""
    parts = load_part_materials()
    return frozenset([*load_materials(), *parts, *(group for part in parts.values() for group in part.groups)])


def _check_keys(entry: Entry, field: str, keys: Collection[str], known: Collection[str]) -> None:
    for key in keys:
        if key not in known:
            raise entry.wrong(field, key, "is in no file of the catalogue.")
