"""A gun's file: one TOML file, read with everything that is wrong in its place."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import PurePath
from types import MappingProxyType

from stripdown.bench.gun import Assumed, Derived, Gun, GunValues, gun_values, without_replaced
from stripdown.bench.gun_rules import contradictions, doubts
from stripdown.errors import InputError, OutOfRange
from stripdown.files.gun_reader import DoubtInFile, GunReader, Reworded
from stripdown.tables.reader import first_of
from stripdown.tables.toml_file import TomlFile, read_toml


@dataclass(frozen=True, slots=True, kw_only=True)
class GunCheck:
    """All that can be said about a gun's file."""

    path: str
    digest: str
    gun: Gun | None
    wrong: tuple[InputError, ...]
    doubtful: tuple[DoubtInFile, ...]
    missing: tuple[Assumed, ...]
    derived: tuple[Derived, ...]
    reworded: Mapping[str, Reworded]


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
        The first mistake, with file, line, field, value and what would be right; it says how many more there are.
    """
    return read_gun(path)[0]


def read_gun(path: str | os.PathLike[str]) -> tuple[Gun, str]:
    """Read a gun's file; with the digest of its bytes."""
    found = check_gun(path)
    if found.gun is not None:
        return found.gun, found.digest
    raise first_of(found.wrong, more_at="`stripdown gun check` lists all")


def check_gun(path: str | os.PathLike[str]) -> GunCheck:
    """Read a gun's file and collect everything that is wrong, doubtful, missing or reworded.

    Parameters
    ----------
    path
        The file.

    Returns
    -------
    GunCheck
        Its `gun` is None if anything is wrong.
    """
    try:
        file = read_toml(path)
    except InputError as fault:
        return GunCheck(
            path=os.fspath(path), digest="", gun=None, wrong=(fault,), doubtful=(), missing=(), derived=(), reworded={}
        )
    reader = GunReader(file)
    reader.read()
    filled, unusual = _hold_together(reader)
    gun = None if reader.wrong else _gun(file, reader)
    faulty = {fault.field for fault in reader.wrong}
    return GunCheck(
        path=file.path,
        digest=file.digest,
        gun=gun,
        wrong=tuple(sorted(reader.wrong, key=lambda fault: fault.line or 0)),
        doubtful=tuple(sorted([*reader.doubtful, *unusual], key=lambda doubt: doubt.line or 0)),
        missing=tuple(entry for entry in filled.assumed if entry.path not in faulty) if filled else (),
        derived=filled.derived if filled else (),
        reworded=MappingProxyType(reader.reworded),
    )


def _gun(file: TomlFile, reader: GunReader) -> Gun:
    written = reader.written

    def words(name: str, otherwise: str) -> str:
        return str(written[name].value) if name in written else otherwise

    return Gun(
        name=words("gun.name", PurePath(file.path).stem),
        note=words("gun.note", ""),
        invented="gun.invented" in written and written["gun.invented"].value is True,
        origin=PurePath(file.path).name,
        variation=MappingProxyType(reader.variation),
        written=MappingProxyType({path: found for path, found in written.items() if not path.startswith("gun.")}),
    )


def _hold_together(reader: GunReader) -> tuple[GunValues | None, list[DoubtInFile]]:
    """Fill the gun in and try the rules between fields, as far as single fields allow."""
    try:
        filled = gun_values(reader.written)
    except OutOfRange as fault:
        reader.blame(fault, "spring.wire_diameter")
        return None, []
    for derived in filled.derived:
        reader.judge(derived.path, derived.value, derived.text, f" It is computed: {derived.reason}.", derived.sources[0])
    if reader.wrong:  # a rule would only repeat them
        return filled, []
    written = without_replaced(reader.written)
    for contradiction in contradictions(written, filled):
        reader.blame(contradiction, contradiction.field or "")
    return filled, [
        DoubtInFile(path=doubt.path, message=doubt.message, line=reader.lines[doubt.path]) for doubt in doubts(written, filled)
    ]
