"""The folder of a visit: gun, readings, and what ``visit.toml`` says of both and of the work; older case and job files too."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

from stripdown.bench.gun import Gun
from stripdown.bench.visit import Visit
from stripdown.errors import InputError
from stripdown.files.gun import read_gun
from stripdown.files.job_calculators import asked_of_calculators
from stripdown.files.visit_fields import TABLES
from stripdown.files.visit_folder import CASE_FILE, GUN_FILE, JOB_FILE, VISIT_FILE, files_of, is_folder, is_written
from stripdown.files.visit_strings import StringsReader
from stripdown.files.visit_tables import OF_WORK, VisitTables
from stripdown.files.visit_work import check, work_of
from stripdown.tables.toml_file import TomlFile, digest_together, read_toml

_PAGE = "docs/visit-folder.md shows how one begins."


def load_visit(path: str | os.PathLike[str]) -> Visit:
    """Read a visit.

    Parameters
    ----------
    path
        Its folder (docs/visit-folder.md), the ``visit.toml`` in it, or an older file of a job alone.

    Returns
    -------
    Visit

    Raises
    ------
    InputError
        With file, line and field, and what would be right.
    """
    place = Path(path)
    if is_folder(place):
        return _folder(place, needs_gun=False)
    file = read_toml(place, start=_PAGE)
    return _folder(place.parent, needs_gun=False, file=file) if "visit" in file.document else _job(file)


def load_case(folder: str | os.PathLike[str]) -> Visit:
    """Read the folder of a visit for what its strings say: there must be a gun.

    Parameters
    ----------
    folder
        Holds ``visit.toml`` or the older ``case.toml``, or just a gun's file and readings.

    Returns
    -------
    Visit

    Raises
    ------
    InputError
        The first fault, with file, line, field, value and what would be right; it says how many more there are.
    """
    return _folder(Path(folder), needs_gun=True)


load_job = load_visit
"""What a job needs of a visit is all there, with a gun's file and without."""


def _folder(folder: Path, *, needs_gun: bool, file: TomlFile | None = None) -> Visit:
    """Read all that lies in a folder."""
    files_of(folder)  # refuses what is no folder
    head = "visit" if file is not None or is_written(folder / VISIT_FILE) else "case"
    old = [folder / name for name in (CASE_FILE, JOB_FILE) if is_written(folder / name)]
    if head == "visit" and old:
        message = f"the folder has a {VISIT_FILE} and a {old[0].name} too."
        raise InputError(message, file=str(folder), hint=f"Put the tables of {old[0].name} into {VISIT_FILE}, and take it away.")
    told = file or _written(folder / (VISIT_FILE if head == "visit" else CASE_FILE))
    if head == "visit":
        besides = [name for name in TABLES if name != "visit"]
        tables = VisitTables(told, head="visit", besides=besides)
    else:
        tables = VisitTables(_written(folder / JOB_FILE))
    beside = [
        name for name in (tables.text(tables.head, field, default="") for field in ("own_steps", "own_limits", "shims")) if name
    ]
    others = OF_WORK if head == "visit" else ()
    reader = StringsReader(
        folder, told, head=head, others=others, no_guns=(VISIT_FILE, CASE_FILE, JOB_FILE, Path(told.path).name, *beside)
    )
    facts = reader.facts(needs_gun=needs_gun)
    return _visit(tables, facts, notes=reader.notes, digests=[(told.path, told.digest), *reader.digests], folder=folder)


def _job(file: TomlFile) -> Visit:
    """Read an older file of a job alone; a gun's file beside it may say the variation."""
    path = Path(file.path).parent / GUN_FILE
    if not is_written(path):
        return _visit(VisitTables(file), {}, notes=[], digests=[], folder=path.parent)
    gun, digest = read_gun(path)
    return _visit(VisitTables(file), {"gun": gun}, notes=[], digests=[(gun.origin, digest)], folder=path.parent)


def _visit(
    tables: VisitTables, facts: dict[str, Any], *, notes: list[str], digests: list[tuple[str, str]], folder: Path
) -> Visit:
    """Assemble a visit from what its files say, and refuse what cannot be."""
    gun: Gun | None = facts.get("gun")
    work = work_of(tables, gun=gun, folder=folder)
    asked = asked_of_calculators(tables)
    gun_name = "" if gun is None else gun.name
    of_job = tables.head == "job"
    title = facts.pop("title", "") or (tables.text("job", "title", default="") if of_job else "")
    invented = facts.pop("invented", False) or (of_job and tables.switch("job", "invented"))
    notes = [*notes, *work.pop("notes")]
    visit = Visit(
        **facts,
        **work,
        title=title or gun_name or Path(tables.path).stem,
        gun_name=(tables.text("job", "gun", default="") if of_job else "") or gun_name,
        invented=invented,
        asked=asked,
        notes=tuple(notes),
        origin=tables.path,
        digest=digest_together(dict.fromkeys((*digests, *tables.digests))),
    )
    check(visit, tables)
    return visit


def _written(path: Path) -> TomlFile:
    """A file of the folder; one that is not there, or is empty, says nothing."""
    return read_toml(path) if is_written(path) else TomlFile(path=str(path), digest="", text="", document={})
