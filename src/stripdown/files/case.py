"""The folder of a case: gun, readings, limit, findings; every complaint with file and line, everything assumed said."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path

from stripdown.bench.gun import Gun
from stripdown.bench.strings import ChronographSession, flight_of
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics.chronograph import Chronograph
from stripdown.core.shot_statistics.limits import EnergyLimit
from stripdown.files.case_fields import TABLES
from stripdown.files.case_folder import CASE_FILE, files_of, find_gun
from stripdown.files.case_limit import limit_of
from stripdown.files.case_reader import CaseReader, existing
from stripdown.files.case_readings import no_such_file, readings_of, readings_paths, set_aside_lines
from stripdown.files.chronograph_session import session_of
from stripdown.files.gun import read_gun
from stripdown.tables.toml_file import TomlFile, digest_together, placed, read_toml


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A case as it lies in its folder.

    Parameters
    ----------
    title
        What it is called.
    invented
        Whether gun or figures are made up.
    gun
        As its file has it after the work.
    session
        Readings, with the instrument and the balls.
    limit
        The limit; None if none was named.
    limit_source
        Key of its source in the register; None for a site's own rule.
    can_fire_automatic
        Whether the gun can fire more than one shot for one pull; None if not said.
    ball_masses
        That a player may bring, in kg; None for the usual ones.
    day
        Air of the day; None for what the strings say, else a workshop at 20 °C.
    found, done
        Free text, one paragraph each.
    notes
        What was assumed.
    digest
        SHA-256 of all its files together, hexadecimal.
    """

    title: str
    invented: bool
    gun: Gun
    session: ChronographSession
    limit: EnergyLimit | None
    limit_source: str | None
    can_fire_automatic: bool | None
    ball_masses: tuple[float, ...] | None
    day: Conditions | None
    found: tuple[str, ...]
    done: tuple[str, ...]
    notes: tuple[str, ...]
    digest: str


def load_case(folder: str | os.PathLike[str]) -> Case:
    """Read the folder of a case.

    Parameters
    ----------
    folder
        Holds ``case.toml``, or just a gun's file and readings.

    Returns
    -------
    Case

    Raises
    ------
    InputError
        The first complaint, with file, line, field, value and what would be right; it says how many more there are.
    """
    place = Path(folder)
    files = files_of(place)
    file = read_toml(place / CASE_FILE) if _is_written(place / CASE_FILE) else _nothing_written(place)
    reader = CaseReader(file)
    reader.read()
    limit, source = limit_of(reader)
    notes: list[str] = []
    gun_path = _gun_path(reader, place, files, notes)
    paths = readings_paths(reader, place, files, notes)
    _refuse(reader)
    gun, gun_digest = read_gun(gun_path)
    readings = tuple(readings_of(path, reader, notes) for path in paths)
    set_aside = set_aside_lines(reader, readings)
    _refuse(reader)
    day = _day(reader)
    return Case(
        title=reader.value("case.title", gun.name),
        invented=bool(reader.value("case.invented", gun.invented)),
        gun=gun,
        session=session_of(
            readings,
            chronograph=_chronograph(reader),
            setup_uncertainty=reader.value("chronograph.setup_uncertainty", 0.0),
            ball_mass_uncertainty=reader.value("balls.mass_uncertainty", 0.0),
            flight=flight_of(gun, day or Conditions()),
            set_aside=set_aside,
        ),
        limit=limit,
        limit_source=source,
        can_fire_automatic=reader.value("case.can_fire_automatic"),
        ball_masses=reader.value("balls.may_bring"),
        day=day,
        found=reader.value("case.found", ()),
        done=reader.value("case.done", ()),
        notes=tuple(notes),
        digest=digest_together([(CASE_FILE, file.digest), (gun.origin, gun_digest), *((r.path, r.digest) for r in readings)]),
    )


def _is_written(path: Path) -> bool:
    """Whether a file is there and says something; one that cannot be read is complained of by who reads it."""
    try:
        return bool(path.read_bytes().strip())
    except FileNotFoundError:
        return False
    except OSError:
        return True


def _nothing_written(folder: Path) -> TomlFile:
    return TomlFile(path=str(folder / CASE_FILE), digest="", text="", document={})


def _refuse(reader: CaseReader) -> None:
    """Raise the first complaint in the order of the file, if there is any."""
    if not reader.wrong:
        return
    first, *more = sorted(reader.wrong, key=lambda complaint: complaint.line or 0)
    if not more:
        raise first
    lines = ", ".join(str(line) for line in dict.fromkeys(complaint.line for complaint in more) if line is not None)
    count = f"There is one more complaint: line {lines}." if len(more) == 1 else f"There are {len(more)} more: lines {lines}."
    raise placed(first, first.file, first.line, hint=f"{first.hint or ''} {count}".strip())


def _gun_path(reader: CaseReader, folder: Path, files: tuple[Path, ...], notes: list[str]) -> Path:
    name = reader.value("case.gun")
    if name is None:
        path = find_gun(folder, files)
        notes.append(f"No file was named for the gun: {path.name} was taken.")
        return path
    named = existing(folder, name)
    if named is None:
        reader.complain(no_such_file(f'case.gun = "{name}"', name, [file.name for file in files]), "case.gun")
    return named or folder


def _chronograph(reader: CaseReader) -> Chronograph:
    names = [name for name in TABLES["chronograph"] if name != "setup_uncertainty"]
    return Chronograph(**{name: reader.value(f"chronograph.{name}") for name in names if f"chronograph.{name}" in reader.written})


def _day(reader: CaseReader) -> Conditions | None:
    said = {name: reader.value(f"day.{name}") for name in TABLES["day"] if f"day.{name}" in reader.written}
    return Conditions(**said) if said else None
