"""What a readings file gives: strings with their conditions, and every line that was left out, with the reason."""

from __future__ import annotations

from dataclasses import dataclass

from stripdown.core.shot_statistics.conditions import StringConditions


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOut:
    """One line, or one cell of it, from which nothing was taken.

    Parameters
    ----------
    line
        Its number in the file, from 1.
    text
        What it says.
    reason
        Why nothing was taken, and what would be right.
    file
        Name of the file, where several are told of together; empty otherwise.
    """

    line: int
    text: str
    reason: str
    file: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingString:
    """One chronograph string as the file has it.

    Parameters
    ----------
    label
        Its name in the file; empty if it has none.
    conditions
        How it was fired, as far as the file or the caller said.
    speeds
        In m/s, in the order of the file.
    lines
        Line of each.
    resolution
        Smallest step of the readings as they were written, in m/s.
    """

    label: str
    conditions: StringConditions
    speeds: tuple[float, ...]
    lines: tuple[int, ...]
    resolution: float

    @property
    def words(self) -> str:
        """The string in a few words: its label, or what sets it apart."""
        if self.label:
            return self.label
        said = self.conditions
        parts = [
            said.occasion.value if said.occasion else "",
            f"{said.ball_mass * 1000:.3f}".removesuffix("0") + " g" if said.ball_mass is not None else "",
            f"hop-up {said.hop.value}" if said.hop else "",
            said.fire_mode.value if said.fire_mode else "",
        ]
        return ", ".join(part for part in parts if part) or "string"


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings:
    """A readings file, understood.

    Parameters
    ----------
    path
        As it was asked for.
    digest
        SHA-256 of its bytes, hexadecimal.
    strings
        One or more, in the order in which they begin.
    left_out
        Lines from which nothing was taken, in the order of the file.
    notes
        How the file was understood where it could be understood otherwise.
    """

    path: str
    digest: str
    strings: tuple[ReadingString, ...]
    left_out: tuple[LeftOut, ...]
    notes: tuple[str, ...]
