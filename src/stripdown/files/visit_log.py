"""Append to the log of a visit: what the file says stays as it was typed; what is new stands below it, whole or not at all."""

from __future__ import annotations

import contextlib
import dataclasses
import os
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any

from stripdown.errors import InputError
from stripdown.files.toml_text import list_entry
from stripdown.files.visit_folder import CASE_FILE, JOB_FILE, VISIT_FILE, is_folder, is_written
from stripdown.procedures.events import Event
from stripdown.procedures.grading import GradeRecord
from stripdown.tables.file_bytes import read_bytes
from stripdown.tables.toml_file import parse_toml
from stripdown.tables.whole_file import write_whole

_LARGEST = 4_000_000  # bytes, as for any TOML file
_HEADS = {VISIT_FILE: b"[visit]\n"}


def append_to_log(where: str | os.PathLike[str], events: Iterable[Event] = (), grades: Iterable[GradeRecord] = ()) -> Path:
    """Append events and grades to the file of a visit.

    Parameters
    ----------
    where
        Folder of the visit, or its file.
    events, grades
        What is new, with numbers above those of the file.

    Returns
    -------
    Path
        The file.

    Raises
    ------
    InputError
        If the file cannot be read or written, or somebody else has entered something since it was read: nothing is changed.
    """
    path = log_file(where)
    new: list[Event | GradeRecord] = sorted([*events, *grades], key=lambda one: one.number)
    with alone_in(path.parent):
        before = read_bytes(str(path), most=_LARGEST, noun="a visit's file") if path.exists() else _HEADS.get(path.name, b"")
        _refuse_taken(before, path, new)
        end = "\r\n" if b"\r\n" in before else "\n"
        tables = (list_entry("event" if isinstance(one, Event) else "grade", _fields(one)) for one in new)
        lines = [line for table in tables for line in ("", *table)]
        added = "".join(f"{line}{end}" for line in lines).encode()
        after = before + (b"" if before.endswith(b"\n") else end.encode()) + added
        _refuse_unreadable(after, path)
        write_whole(path, after, replace=True)
    return path


def log_file(where: str | os.PathLike[str]) -> Path:
    """The file of a visit that holds its log, whether it is there yet or not."""
    place = Path(where)
    if not is_folder(place):
        return place
    older = is_written(place / JOB_FILE) or is_written(place / CASE_FILE)
    return place / (JOB_FILE if older and not is_written(place / VISIT_FILE) else VISIT_FILE)


@contextlib.contextmanager
def alone_in(folder: Path) -> Iterator[None]:
    """Let nobody else enter anything meanwhile, where the system can say so."""
    try:
        import fcntl  # noqa: PLC0415  not every system has it

        handle = os.open(folder, os.O_RDONLY)
    except (ImportError, OSError):
        yield
        return
    try:
        with contextlib.suppress(OSError):
            fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)


def _fields(entry: Event | GradeRecord) -> Mapping[str, Any]:
    """What is said of an entry, in the order of the record."""
    said = {field.name: getattr(entry, field.name) for field in dataclasses.fields(entry)}
    if isinstance(entry, Event):
        said["readings"] = dict(entry.readings)
        said["fluids"] = [{"fluid": one.fluid, **({"parts": list(one.parts)} if one.parts else {})} for one in entry.fluids]
    elif entry.grade is not None:
        said["grade"] = entry.grade.value
    return {name: value for name, value in said.items() if value not in (None, "", [], (), {})}


def _refuse_taken(before: bytes, path: Path, new: list[Event | GradeRecord]) -> None:
    """Numbers only grow: what was entered since the file was read comes first."""
    document = parse_toml(before.decode("utf-8-sig", "replace").replace("\r\n", "\n"), str(path))
    there = [one.get("number", 0) for table in ("event", "grade") for one in document.get(table, []) if isinstance(one, dict)]
    last = max((number for number in there if isinstance(number, int)), default=0)
    if new and new[0].number <= last:
        hint = "Look at the plan once more, and enter it again."
        raise InputError(f"somebody has entered number {last} meanwhile; nothing was entered.", file=str(path), hint=hint)


def _refuse_unreadable(after: bytes, path: Path) -> None:
    try:
        parse_toml(after.decode("utf-8-sig").replace("\r\n", "\n"), str(path))
    except (InputError, UnicodeDecodeError):
        hint = "Write each event under [[event]], and each grade under [[grade]], not in one list."
        raise InputError("nothing can be appended to this file as it is written.", file=str(path), hint=hint) from None
