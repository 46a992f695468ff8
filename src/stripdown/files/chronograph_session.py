"""Strings with the instrument and the balls they were taken with: what a readings file alone does not know."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from pathlib import PurePath

from stripdown.core.mechanics.ball_drag import AIR_AT_20_CELSIUS, BallFlight
from stripdown.core.shot_statistics.chronograph import TAKEN_AT_ITS_WORD, Chronograph
from stripdown.errors import InputError
from stripdown.files.readings_records import LeftOut, Readings, ReadingString


@dataclass(frozen=True, slots=True, kw_only=True)
class SetAsideLine:
    """One reading that is not to be counted, by its line."""

    file: str
    line: int
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ChronographSession:
    """Everything that was read with one instrument."""

    readings: tuple[Readings, ...]
    chronograph: Chronograph = TAKEN_AT_ITS_WORD
    setup_uncertainty: float = 0.0
    ball_mass_uncertainty: float = 0.0
    flight: BallFlight = AIR_AT_20_CELSIUS
    set_aside: tuple[SetAsideLine, ...] = ()

    @property
    def left_out(self) -> tuple[LeftOut, ...]:
        """Lines that gave no reading, each with its file."""
        return tuple(dataclasses.replace(one, file=PurePath(file.path).name) for file in self.readings for one in file.left_out)

    @property
    def notes(self) -> tuple[str, ...]:
        """How the files were understood where they could be understood otherwise, each with its file."""
        return tuple(f"{PurePath(file.path).name}: {note}" for file in self.readings for note in file.notes)

    def reasons(self, readings: Readings, string: ReadingString) -> dict[int, str]:
        """Reasons of one string by place."""
        return {
            place: aside.reason
            for aside in self.set_aside
            if aside.file in ("", readings.path)
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
