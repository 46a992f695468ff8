"""From files of readings to a session: what is not to be counted, and what was left out of which file."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path, PurePath
from typing import Any

from stripdown.bench.gun import Gun
from stripdown.bench.strings import USUAL_BETWEEN_DAYS, ChronographSession, LeftOut, ReadingString, flight_of
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics.chronograph import CHRONOGRAPH_AS_READ, Chronograph
from stripdown.core.shot_statistics.conditions import REFERENCE, Occasion, StringConditions
from stripdown.errors import InputError
from stripdown.files.readings import Readings, load_readings
from stripdown.files.visit_folder import is_of_reference, occasion_of

_TWO = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class SetAsideLine:
    """One reading that is not to be counted, by its line."""

    file: str
    line: int
    reason: str


def load_session(
    files: Sequence[str | Path],
    *,
    unit: str | None = None,
    said: StringConditions | None = None,
    in_turn: bool = False,
    chronograph: Chronograph = CHRONOGRAPH_AS_READ,
    setup_uncertainty: float = 0.0,
    between_days: float = USUAL_BETWEEN_DAYS,
    ball_mass_uncertainty: float = 0.0,
    set_aside: Sequence[SetAsideLine] = (),
    gun: Gun | None = None,
    day: Conditions | None = None,
    read_on_both: Sequence[str | Path] = (),
) -> ChronographSession:
    """Read files of chronograph readings.

    Parameters
    ----------
    files
        One or more.
    unit
        Of readings for which the file names none; None for m/s.
    said
        How strings were fired for which the file does not say it.
    in_turn
        Whether two files, of which the names say nothing, were fired before and after the work.
    chronograph
        Bias and uncertainty of the instrument.
    setup_uncertainty
        What setting it up anew changes between before and after, as a standard uncertainty in m/s.
    between_days
        What two days differ by in themselves, as a standard deviation, share of the speed.
    ball_mass_uncertainty
        Standard uncertainty of the mass of each ball, in kg.
    set_aside
        Readings that are not to be counted.
    gun
        Of which the ball's diameter is taken; None for that of a usual ball.
    day
        The air on the way to the chronograph; None is a workshop at 20 °C.
    read_on_both
        Files of guns that were read on this chronograph and on the site's.

    Returns
    -------
    ChronographSession

    Raises
    ------
    InputError
        For a file that cannot be understood, or a line to set aside that holds no reading.
    """
    conditions = said or StringConditions()
    occasions = (Occasion.BEFORE, Occasion.AFTER) if in_turn and len(files) == _TWO else (None,) * len(files)
    readings = tuple(
        load_readings(path, unit=unit, said=replace(conditions, occasion=occasion_of(path) or occasion, gun=_gun_of(path)))
        for path, occasion in zip(map(Path, files), occasions, strict=True)
    )
    check_set_aside(tuple(set_aside), readings)
    return session_of(
        readings,
        set_aside=tuple(set_aside),
        chronograph=chronograph,
        setup_uncertainty=setup_uncertainty,
        between_days=between_days,
        ball_mass_uncertainty=ball_mass_uncertainty,
        flight=flight_of(gun, day or Conditions()),
        read_on_both=strings_read_on_both([load_readings(path, unit=unit) for path in map(Path, read_on_both)]),
    )


def _gun_of(path: Path) -> str | None:
    """Which gun a file is of by its name."""
    return REFERENCE if is_of_reference(path) else None


def strings_read_on_both(readings: Sequence[Readings]) -> tuple[ReadingString, ...]:
    """Strings of files that tell two chronographs apart, with the files' names."""
    return tuple(string for file in readings for string in file.strings)


def session_of(
    readings: tuple[Readings, ...], *, set_aside: tuple[SetAsideLine, ...] = (), **taken_with: Any
) -> ChronographSession:
    """Put files of readings together to a session; `taken_with` names chronograph, flight and uncertainties."""
    strings = [
        replace(string, set_aside=_reasons(set_aside, file, string), asked=_named(string.asked, file))
        for file in readings
        for string in file.strings
    ]
    return ChronographSession(
        strings=tuple(string for string in strings if not string.conditions.is_of_reference),
        reference=tuple(string for string in strings if string.conditions.is_of_reference),
        left_out=tuple(one for file in readings for one in _named(file.left_out, file)),
        notes=tuple(f"{PurePath(file.path).name}: {note}" for file in readings for note in file.notes),
        **taken_with,
    )


def _named(lines: Sequence[LeftOut], file: Readings) -> tuple[LeftOut, ...]:
    """Lines with the name of their file."""
    return tuple(replace(one, file=PurePath(file.path).name) for one in lines)


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
