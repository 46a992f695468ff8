"""Metric threads: diameter, pitch, and how little of screw and hole may meet."""

from __future__ import annotations

import functools
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from stripdown.catalogue.entries import CatalogueEntry, named, packaged_text, read_entries
from stripdown.core.part_condition.screws import DIAMETER, PITCH
from stripdown.errors import InputError
from stripdown.tables.table import Table

_FILE = "threads.toml"
_TYPED: Final = re.compile(r"M?(?P<diameter>\d+(?:\.\d+)?)(?:[xX×*](?P<pitch>\d*\.?\d+))?", re.IGNORECASE)
_SAME: Final = 1e-9  # m: decimal fractions of a millimetre differ by rounding only
_OFFERED: Final = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Thread(CatalogueEntry):
    """One metric thread."""

    diameter: float
    pitch: float
    least_major_diameter: float
    greatest_pitch_diameter: float


@functools.cache
def load_threads() -> Mapping[str, Thread]:
    """Read the packaged threads."""
    return read_threads(packaged_text(_FILE), file=_FILE)


def read_threads(text: str, *, file: str) -> Mapping[str, Thread]:
    """Read threads from TOML."""
    return read_entries(text, file=file, noun="thread", read=_thread)


def thread_named(typed: str) -> Thread:
    """Find a thread by the name that is written on the bag."""
    threads = tuple(load_threads().values())
    found = _TYPED.fullmatch(re.sub(r"\s", "", typed).replace(",", "."))
    if found is None:
        names = ", ".join(thread.name for thread in threads)
        raise InputError(
            f'thread = "{typed}" is not a metric thread.',
            field="thread",
            value=typed,
            hint=f'Write "M3" or "M3x0.5". Known are {names}.',
        )
    diameter = float(found["diameter"]) * 1e-3
    pitch = float(found["pitch"]) * 1e-3 if found["pitch"] else None
    for thread in threads:  # of one diameter the coarse thread stands first
        if abs(thread.diameter - diameter) < _SAME and (pitch is None or abs(thread.pitch - pitch) < _SAME):
            return thread
    nearest = sorted(threads, key=lambda thread: (abs(thread.diameter - diameter), abs(thread.pitch - (pitch or thread.pitch))))
    offered = " and ".join(f"{thread.name} (pitch {thread.pitch * 1e3:g} mm)" for thread in nearest[:_OFFERED])
    raise InputError(
        f'thread = "{typed}" does not exist, or is not in the catalogue.',
        field="thread",
        value=typed,
        hint=f"Nearest are {offered}.",
    )


def _thread(entry: Table) -> Thread:
    return Thread(
        **named(entry, "diameter", "pitch", "least_major_diameter", "greatest_pitch_diameter"),
        diameter=entry.quantity("diameter", DIAMETER),
        pitch=entry.quantity("pitch", PITCH),
        least_major_diameter=entry.quantity("least_major_diameter", DIAMETER),
        greatest_pitch_diameter=entry.quantity("greatest_pitch_diameter", DIAMETER),
    )
