"""A gun as a technician wrote it down: one TOML file, read with every complaint in its place."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import PurePath
from types import MappingProxyType

from stripdown.errors import InputError, OutOfRange
from stripdown.files.gun_reader import GunReader, placed
from stripdown.files.gun_rules import Doubt, contradictions, doubts
from stripdown.files.gun_values import Assumed, Derived, GunValues, Written, gun_values
from stripdown.files.toml_file import TomlFile, read_toml


@dataclass(frozen=True, slots=True, kw_only=True)
class Gun:
    """A gun as written.

    Parameters
    ----------
    name
        What its owner calls it.
    note
        Remarks.
    invented
        Whether gun or figures are made up.
    file
        Name of the file, without folders.
    digest
        SHA-256 of the file's bytes, hexadecimal.
    written
        Each value of the file by dotted path (``"spring.rate"``, ``"cylinder.port_1.start"``), in the file's order of tables.
    """

    name: str
    note: str
    invented: bool
    file: str
    digest: str
    written: Mapping[str, Written]


@dataclass(frozen=True, slots=True, kw_only=True)
class GunCheck:
    """All that can be said about a gun's file."""

    path: str
    gun: Gun | None
    wrong: tuple[InputError, ...]
    doubtful: tuple[Doubt, ...]
    missing: tuple[Assumed, ...]
    derived: tuple[Derived, ...]
    reworded: Mapping[str, Written]


def load_gun(path: str | os.PathLike[str]) -> Gun:
    """Read a gun's file.

    Parameters
    ----------
    path
        The file.

    Returns
    -------
    Gun

    Raises
    ------
    InputError
        The first complaint, with file, line, field, value and what would be right; it says how many more there are.
    """
    found = check_gun(path)
    if found.gun is not None:
        return found.gun
    first, *more = found.wrong
    if not more:
        raise first
    count = "There is one more complaint" if len(more) == 1 else f"There are {len(more)} more complaints"
    raise placed(first, first.file, first.line, hint=f"{first.hint or ''} {count}: `stripdown gun check` lists all.".strip())


def check_gun(path: str | os.PathLike[str]) -> GunCheck:
    """Read a gun's file and collect everything that is wrong, doubtful, missing or reworded."""
    try:
        file = read_toml(path)
    except InputError as complaint:
        nothing: Mapping[str, Written] = MappingProxyType({})
        return GunCheck(path=os.fspath(path), gun=None, wrong=(complaint,), doubtful=(), missing=(), derived=(), reworded=nothing)
    reader = GunReader(file)
    reader.read()
    filled, unusual = _hold_together(reader)
    gun = None if reader.wrong else _gun(file, reader.written)
    complained_of = {complaint.field for complaint in reader.wrong}
    return GunCheck(
        path=file.path,
        gun=gun,
        wrong=tuple(sorted(reader.wrong, key=lambda complaint: complaint.line or 0)),
        doubtful=tuple(sorted([*reader.doubtful, *unusual], key=lambda doubt: doubt.line or 0)),
        missing=tuple(entry for entry in filled.assumed if entry.path not in complained_of) if filled else (),
        derived=filled.derived if filled else (),
        reworded=MappingProxyType({path: found for path, found in reader.written.items() if found.understood}),
    )


def _gun(file: TomlFile, written: Mapping[str, Written]) -> Gun:
    def words(name: str, otherwise: str) -> str:
        return str(written[name].value) if name in written else otherwise

    return Gun(
        name=words("gun.name", PurePath(file.path).stem),
        note=words("gun.note", ""),
        invented="gun.invented" in written and written["gun.invented"].value is True,
        file=PurePath(file.path).name,
        digest=file.digest,
        written=MappingProxyType({path: found for path, found in written.items() if not path.startswith("gun.")}),
    )


def _hold_together(reader: GunReader) -> tuple[GunValues | None, list[Doubt]]:
    """Fill the gun in and try the rules between fields, as far as single fields allow."""
    try:
        filled = gun_values(reader.written)
    except OutOfRange as complaint:
        reader.complain(complaint, "spring.wire_diameter")
        return None, []
    for derived in filled.derived:
        reader.judge(derived.path, derived.value, derived.text, f" It is computed: {derived.reason}.", derived.sources[0])
    if reader.wrong:  # a rule would only repeat them
        return filled, []
    for contradiction in contradictions(reader.written, filled):
        reader.complain(contradiction, contradiction.field or "")
    return filled, list(doubts(reader.written, filled))
