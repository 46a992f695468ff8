"""From files of readings to a session: what is not to be counted, and what was left out of which file."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import PurePath
from typing import Any

from stripdown.bench.strings import ChronographSession, ReadingString
from stripdown.errors import InputError
from stripdown.files.readings import Readings


@dataclass(frozen=True, slots=True, kw_only=True)
class SetAsideLine:
    """One reading that is not to be counted, by its line."""

    file: str
    line: int
    reason: str


def session_of(
    readings: tuple[Readings, ...], *, set_aside: tuple[SetAsideLine, ...] = (), **taken_with: Any
) -> ChronographSession:
    """Put files of readings together to a session; `taken_with` names chronograph, flight and uncertainties."""
    return ChronographSession(
        strings=tuple(
            replace(string, set_aside=_reasons(set_aside, file, string)) for file in readings for string in file.strings
        ),
        left_out=tuple(replace(one, file=PurePath(file.path).name) for file in readings for one in file.left_out),
        notes=tuple(f"{PurePath(file.path).name}: {note}" for file in readings for note in file.notes),
        **taken_with,
    )


def _reasons(set_aside: tuple[SetAsideLine, ...], file: Readings, string: ReadingString) -> dict[int, str]:
    """Reasons of one string by place."""
    return {
        place: aside.reason
        for aside in set_aside
        if aside.file in ("", file.path)
        for place, line in enumerate(string.lines)
        if line == aside.line
    }


def check_set_aside(asides: tuple[SetAsideLine, ...], readings: tuple[Readings, ...]) -> None:
    """Refuse to set aside what is no reading, or all of a string."""
    for aside in asides:
        named = [file for file in readings if aside.file in ("", file.path)]
        if not aside.file and len(readings) > 1:
            names = ", ".join(file.path for file in readings)
            raise InputError(
                f"line {aside.line} is to be set aside, but of which file?", field="set_aside", hint=f"Name one of {names}."
            )
        lines = {line for file in named for string in file.strings for line in string.lines}
        if aside.line not in lines:
            raise InputError(
                f"line {aside.line} of {aside.file or readings[0].path} holds no reading that counts.",
                field="set_aside",
                value=aside.line,
                hint=f"Readings stand in lines {min(lines)} to {max(lines)}." if lines else None,
            )
        if not aside.reason.strip():
            raise InputError(
                f"line {aside.line} is set aside without a reason.",
                field="set_aside",
                value=aside.line,
                hint="Say why, for example: two balls at once.",
            )
    for file in readings:
        for string in file.strings:
            gone = {aside.line for aside in asides if aside.file in ("", file.path)}
            if gone.issuperset(string.lines):
                message = f"every reading of {string.words} is set aside."
                raise InputError(message, field="set_aside", hint="Leave the whole string out instead.")
