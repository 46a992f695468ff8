"""The readings of a case: which files, what the case says of all of them, and what is not to be counted."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from pathlib import Path

from stripdown.core.shot_statistics.conditions import StringConditions
from stripdown.errors import InputError
from stripdown.files.case_folder import find_readings, occasion_of
from stripdown.files.case_reader import CaseReader, CaseValue, existing
from stripdown.files.chronograph_session import SetAsideLine, check_set_aside
from stripdown.files.readings import Readings, load_readings
from stripdown.tables.nearest import nearest_name
from stripdown.tables.toml_file import placed


def readings_paths(reader: CaseReader, folder: Path, files: tuple[Path, ...], notes: list[str]) -> tuple[Path, ...]:
    """Files of readings that a case names, or that are found by name."""
    names = reader.value("case.readings")
    if names is None:
        paths = find_readings(folder, files)
        words = " and ".join(path.name for path in paths)
        notes.append(f"No file was named for the readings: {words} was taken." if paths else "There is no file of readings.")
        return paths
    found = []
    for name in names:
        path = existing(folder, name)
        if path is None:
            reader.complain(no_such_file(f'case.readings = "{name}"', name, [file.name for file in files]), "case.readings")
        elif path in found:
            reader.complain(InputError(f'"{name}" is named twice.', field="case.readings", value=name), "case.readings")
        else:
            found.append(path)
    return tuple(found)


def no_such_file(what: str, name: str, names: list[str]) -> InputError:
    """Complaint about a file that is named and not there."""
    field = what.partition(" ")[0]
    return InputError(f"{what}: there is no such file in the folder.", field=field, value=name, hint=nearest_name(name, names))


def readings_of(path: Path, reader: CaseReader, notes: list[str]) -> Readings:
    """One file of readings, completed with what the case says of all strings, and the occasion from its name."""
    said = StringConditions(
        ball_mass=reader.value("strings.ball_mass"),
        hop=reader.value("strings.hop"),
        fire_mode=reader.value("strings.fire_mode"),
        distance=reader.value("strings.distance"),
        temperature=reader.value("day.temperature"),
    )
    readings = load_readings(path, unit=reader.value("strings.unit"), said=said)
    occasion = occasion_of(path)
    silent = [string for string in readings.strings if string.conditions.occasion is None]
    if occasion is None or not silent:
        return readings
    notes.append(f"{path.name}: taken for readings {occasion.value} the work, by its name.")
    strings = tuple(
        dataclasses.replace(string, conditions=dataclasses.replace(string.conditions, occasion=occasion))
        if string in silent
        else string
        for string in readings.strings
    )
    return dataclasses.replace(readings, strings=strings)


def set_aside_lines(reader: CaseReader, readings: tuple[Readings, ...]) -> tuple[SetAsideLine, ...]:
    """Readings that are not to be counted; what is wrong with one is complained of at its line."""
    asides: list[SetAsideLine] = []
    for values in reader.set_aside:
        line = values["set_aside.line"]
        try:
            aside = _set_aside_line(values, readings)
            check_set_aside((*asides, aside), readings)
        except InputError as complaint:
            reader.wrong.append(placed(complaint, reader.path, line.line))
        else:
            asides.append(aside)
    return tuple(asides)


def _set_aside_line(values: Mapping[str, CaseValue], readings: tuple[Readings, ...]) -> SetAsideLine:
    named = values.get("set_aside.file")
    paths = {Path(file.path).name: file.path for file in readings}
    name = "" if named is None else Path(named.value).name
    if name and name not in paths:
        message = f'"{name}" is no file of this case\'s readings.'
        raise InputError(message, field="set_aside.file", value=name, hint=nearest_name(name, paths))
    return SetAsideLine(
        file=paths.get(name, ""), line=values["set_aside.line"].value, reason=values["set_aside.reason"].value.strip()
    )
