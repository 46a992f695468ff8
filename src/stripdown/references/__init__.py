"""Every source once: who wrote it, where it stands, what it is used for here, and who read it."""

from __future__ import annotations

import difflib
import enum
import functools
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from importlib.resources import files

from stripdown.errors import InputError

_FILE = "references.toml"


class Reading(enum.Enum):
    """How well the project knows a source."""

    READ = "read"
    """The figure or equation was read in the source itself."""
    QUOTED = "quoted"
    """It was read in a page, a transcription or a program that quotes the source; `via` names that."""
    RUN = "run"
    """The source is a program or a data set, and it was run."""
    NOT_READ = "not read"
    """Cited from general knowledge. Its figures may stand as estimates, and never decide a test."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reference:
    """One source."""

    key: str
    author: str
    title: str
    published_in: str
    used_for: str
    reading: Reading
    year: int | None = None
    via: str = ""

    @property
    def may_gate(self) -> bool:
        """Whether its figures may decide a test."""
        return self.reading is not Reading.NOT_READ

    def cite(self, place: str = "") -> str:
        """One line that lets a reader find the source, and the place in it."""
        year = "" if self.year is None else f" ({self.year})"
        tail = f", {place}" if place else ""
        return f"{self.author}{year}, {self.title}. {self.published_in}{tail}."


class Register(Mapping[str, Reference]):
    """All sources by key, in the order of the file."""

    def __init__(self, entries: Mapping[str, Reference]) -> None:
        self._entries = dict(entries)

    def __getitem__(self, key: str) -> Reference:
        """One source."""
        try:
            return self._entries[key]
        except KeyError:
            message = f"no source {key!r} in {_FILE}{self.nearest(key)}"
            raise KeyError(message) from None

    def __iter__(self) -> Iterator[str]:
        """Keys in the order of the file."""
        return iter(self._entries)

    def __len__(self) -> int:
        """How many sources there are."""
        return len(self._entries)

    def nearest(self, key: str) -> str:
        """A hint for a mistyped key."""
        near = difflib.get_close_matches(key, self._entries, n=1)
        return f"; did you mean {near[0]!r}?" if near else ""


@functools.cache
def load_references() -> Register:
    """Read the register of sources."""
    text = files(__name__).joinpath(_FILE).read_text(encoding="utf-8")
    return read_references(text)


def read_references(text: str) -> Register:
    """Read a register of sources from TOML."""
    try:
        entries = tomllib.loads(text)
    except tomllib.TOMLDecodeError as reason:
        raise InputError(f"this is not TOML: {reason}.", file=_FILE) from reason
    return Register({key: _reference(key, entry) for key, entry in entries.items()})


def _reference(key: str, entry: dict[str, object]) -> Reference:
    fields = dict(entry)
    try:
        reading = Reading(fields.pop("reading"))
        reference = Reference(key=key, reading=reading, **fields)  # type: ignore[arg-type]
    except (KeyError, TypeError, ValueError) as reason:
        raise InputError(f"source {key!r}: {reason}.", field=key, file=_FILE) from reason
    if reading is Reading.QUOTED and not reference.via:
        raise InputError(f"source {key!r} is quoted, but not from where.", field=key, file=_FILE, hint="Fill in `via`.")
    return reference
