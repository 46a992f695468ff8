"""Which files of a folder make up a visit, when nobody says so."""

from __future__ import annotations

import re
from collections.abc import Collection
from pathlib import Path
from typing import Final

from stripdown.core.shot_statistics.conditions import REFERENCE, Occasion
from stripdown.errors import InputError

VISIT_FILE: Final = "visit.toml"
CASE_FILE: Final = "case.toml"
JOB_FILE: Final = "job.toml"
GUN_FILE: Final = "gun.toml"
_TABLES: Final = (".csv", ".tsv")
_ENOUGH: Final = 10_000  # bytes to see whether a file says anything
_READINGS: Final = (*_TABLES, ".txt")


def files_of(folder: Path) -> tuple[Path, ...]:
    """Files of a visit's folder."""
    try:
        entries = sorted(path for path in folder.iterdir() if not path.name.startswith("."))
        astray = [path for path in entries if path.suffix.lower() in (*_READINGS, ".toml") and _leads_out(path)]
        found = [path for path in entries if path.is_file()]
    except FileNotFoundError:
        raise InputError("there is no such folder.", file=str(folder), value=str(folder)) from None
    except NotADirectoryError:
        hint = f"Give the folder that holds it: {folder.parent}."
        raise InputError("this is a file, not the folder of a case.", file=str(folder), value=str(folder), hint=hint) from None
    except (OSError, ValueError) as reason:  # ValueError: a null character in the name
        why = reason.strerror if isinstance(reason, OSError) and reason.strerror else str(reason)
        raise InputError(f"the folder cannot be read: {why}.", file=str(folder), value=str(folder)) from None
    if astray:
        what = f"{astray[0].name} is a link that leads out of the folder, or nowhere."
        hint = "Copy the file into the folder, or delete the link."
        raise InputError(what, file=str(folder), value=astray[0].name, hint=hint)
    return tuple(found)


def _leads_out(path: Path) -> bool:
    """Whether a link ends outside its folder, or at nothing."""
    return path.is_symlink() and not (path.exists() and path.resolve().is_relative_to(path.parent.resolve()))


def find_gun(folder: Path, files: tuple[Path, ...], *, file: str, field: str, others: Collection[str]) -> Path:
    """The gun's file; `file` and `field` say where it could be named, `others` are no gun's."""
    guns = [path for path in files if path.suffix.lower() == ".toml" and path.name not in others]
    named = [path for path in guns if path.name == GUN_FILE]
    if named or len(guns) == 1:
        return (named or guns)[0]
    if guns:
        names = ", ".join(path.name for path in guns)
        hint = f'Name one of {names} in {file}: gun = "{guns[0].name}".'
        raise InputError("several files could be the gun's.", file=str(folder), field=field, hint=hint)
    hint = "Write one: stripdown gun new gun.toml."
    raise InputError("there is no gun's file in this folder.", file=str(folder), field=field, hint=hint)


def find_readings(folder: Path, files: tuple[Path, ...], *, file: str, field: str) -> tuple[Path, ...]:
    """Files of readings."""
    texts = [path for path in files if path.suffix.lower() in _READINGS]
    told = [path for path in texts if occasion_of(path) is not None]
    if told:
        return tuple(sorted(told, key=lambda path: occasion_of(path) is Occasion.AFTER))
    named = [path for path in texts if path.stem.lower().startswith("readings")]
    chosen = named or [path for path in texts if path.suffix.lower() in _TABLES]
    if len(chosen) <= 1 or named:
        return tuple(chosen)
    names = ", ".join(f'"{path.name}"' for path in chosen)
    hint = f"Name them in {file}: readings = [{names}]."
    raise InputError("several files could hold readings.", file=str(folder), field=field, hint=hint)


def occasion_of(path: Path) -> Occasion | None:
    """Whether a file's name says before or after."""
    words = set(re.split(r"[^a-z]+", path.stem.lower()))
    said = [occasion for occasion in Occasion if occasion.value in words]
    return said[0] if len(said) == 1 else None


def is_of_reference(path: Path) -> bool:
    """Whether a file's name says that it is of the workshop's reference gun."""
    return REFERENCE in re.split(r"[^a-z]+", path.stem.lower())


def existing(folder: Path, name: str) -> Path | None:
    """A file of the folder, if there is one of that name: a name that leads out of the folder is none."""
    path = folder / name
    try:
        return path if path.is_file() and path.resolve().is_relative_to(folder.resolve()) else None
    except (OSError, ValueError):  # ValueError: a null character in the name
        return None


def is_folder(path: Path) -> bool:
    """Whether this is a folder; a name that no file could have is refused by who reads it."""
    try:
        return path.is_dir()
    except (OSError, ValueError):
        return False


def is_written(path: Path) -> bool:
    """Whether a file is there and says something; what cannot be read is refused by who reads it."""
    try:
        with path.open("rb") as file:
            return bool(file.read(_ENOUGH).strip())
    except (FileNotFoundError, NotADirectoryError):
        return False
    except (OSError, ValueError):
        return True
