"""Tables of a procedures file, read field by field, with one complaint that says where."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from stripdown.errors import CatalogueError
from stripdown.procedures.nearest_key import nearest_key
from stripdown.procedures.touches import PartTouch, Touch
from stripdown.references.provenance import NEEDS_SOURCE, Footing, Provenance


@dataclass(frozen=True, slots=True)
class Table:
    """One table of a procedures file."""

    file: str
    name: str
    fields: Mapping[str, Any]

    def only(self, *known: str) -> None:
        """Refuse fields that mean nothing here."""
        for field in self.fields:
            if field not in known:
                raise self.wrong(field, self.fields[field], f"means nothing here. Known are {', '.join(known)}.")

    def text(self, field: str, *, default: str | None = None) -> str:
        """Read words."""
        value = self.fields.get(field, default)
        if not isinstance(value, str) or (default is None and not value.strip()):
            raise self.wrong(field, value, "must be a text.")
        return value

    def texts(self, field: str) -> tuple[str, ...]:
        """Read a list of words; a missing one is empty."""
        value = self.fields.get(field, [])
        if not isinstance(value, list) or not all(isinstance(one, str) and one.strip() for one in value):
            raise self.wrong(field, value, 'must be a list of texts, as in ["one", "two"].')
        return tuple(dict.fromkeys(value))

    def number(self, field: str) -> float:
        """Read a number that is zero or above; a missing one is zero."""
        value = self.optional_number(field)
        if value is not None and value < 0.0:
            raise self.wrong(field, value, "must not be below zero.")
        return value or 0.0

    def optional_number(self, field: str) -> float | None:
        """Read a number, or None if it is missing."""
        value = self.fields.get(field)
        if value is None:
            return None
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise self.wrong(field, value, "must be a number.")
        return float(value)

    def flag(self, field: str, *, default: bool = False) -> bool:
        """Read true or false."""
        value = self.fields.get(field, default)
        if not isinstance(value, bool):
            raise self.wrong(field, value, "must be true or false.")
        return value

    def tables(self, field: str) -> tuple[Table, ...]:
        """Read a list of tables; a missing one is empty."""
        value = self.fields.get(field, [])
        if not isinstance(value, list) or not all(isinstance(one, dict) for one in value):
            raise self.wrong(field, value, "must be a list of tables.")
        return tuple(Table(self.file, f"{self.name}.{field}", one) for one in value)

    def touches(self, field: str) -> tuple[PartTouch, ...]:
        """Read pairs of part and kind of touch."""
        value = self.fields.get(field, [])
        if not isinstance(value, list):
            raise self.wrong(field, value, 'must be a list of pairs, as in [["piston", "clean"]].')
        found = []
        for pair in value:
            if not (isinstance(pair, list) and len(pair) == 2 and all(isinstance(one, str) for one in pair)):
                raise self.wrong(field, pair, 'must be a pair, as in ["piston", "clean"].')
            found.append((pair[0], self.kind(field, pair[1])))
        return tuple(found)

    def kinds(self, field: str) -> frozenset[Touch]:
        """Read a list of kinds of touch."""
        found = frozenset(self.kind(field, one) for one in self.texts(field))
        if not found:
            raise self.wrong(field, self.fields.get(field), "must name at least one kind of touch.")
        return found

    def kind(self, field: str, value: str) -> Touch:
        """Read one kind of touch."""
        try:
            return Touch(value)
        except ValueError:
            raise self.wrong(field, value, f"is no kind of touch. Known are {', '.join(kind.value for kind in Touch)}.") from None

    def provenance(self) -> Provenance | None:
        """Read footing, source and place of the figures; None if the table claims none."""
        if "footing" not in self.fields:
            return None
        written = self.text("footing")
        known = {footing.value: footing for footing in Footing}
        footing = known.get(written)
        if footing is None:
            raise self.wrong("footing", written, f"must be one of {', '.join(known)}.")
        source = self.text("source", default="") or None
        if source is None and footing in NEEDS_SOURCE:
            raise self.wrong("source", None, f'is missing: a figure that is "{written}" names its source.')
        return Provenance(footing=footing, source=source, where=self.text("where", default=footing.words))

    def wrong(self, field: str, value: object, complaint: str) -> CatalogueError:
        """A complaint with file, table and field."""
        shown = "" if value is None else f" {value!r}"
        return CatalogueError(
            f"[{self.name}] {field}{shown} {complaint}", file=self.file, field=f"{self.name}.{field}", value=value
        )


def merged(fields: Mapping[str, Any], amendment: Mapping[str, Any]) -> dict[str, Any]:
    """What a table says after an amendment: lists grow, tables are amended in turn, everything else is replaced."""
    result = dict(fields)
    for field, value in amendment.items():
        if field != "when":
            before = result.get(field)
            if isinstance(before, list) and isinstance(value, list):
                result[field] = [*before, *value]
            else:
                result[field] = merged(before, value) if isinstance(before, Mapping) and isinstance(value, Mapping) else value
    return result


def filled(value: Any, words: Mapping[str, str]) -> Any:
    """The same text, list or table with each ``{word}`` replaced."""
    if isinstance(value, str):
        for word, meaning in words.items():
            value = value.replace(f"{{{word}}}", meaning)
        return value
    if isinstance(value, list):
        return [filled(one, words) for one in value]
    if isinstance(value, Mapping):
        return {key: filled(one, words) for key, one in value.items()}
    return value


def checked_keys(table: Table, field: str, keys: Iterable[str], known: Iterable[str], hint: str) -> None:
    """Refuse a key that no variation knows."""
    everything = dict.fromkeys(known)
    for key in keys:
        if key not in everything:
            raise table.wrong(field, key, f"is no {hint} of any variation. {nearest_key(key, everything)}")
