"""Which letters the sheet's font has, so that a letter which it lacks is told of and not left out unseen."""

from __future__ import annotations

import functools
import struct
import unicodedata
from collections.abc import Set as AbstractSet
from importlib import resources

INSTEAD = "□"
"""What stands for a letter that cannot be shown."""
_FACE = "Inter-Regular.otf"
_UNICODE_FULL = (3, 10)  # platform and encoding of the map that has all of Unicode
_SEGMENTED = 12


def shown(text: str) -> tuple[str, frozenset[str]]:
    """Typed text with a box in place of every character that the font lacks, or that steers instead of showing something."""
    spaced = text.replace("\t", " ")
    missing = frozenset(letter for letter in spaced if not _can_be_shown(letter))
    return spaced.translate(dict.fromkeys(map(ord, missing), INSTEAD)), missing


def missing_words(missing: AbstractSet[str]) -> str:
    """Say which characters stand as a box."""
    if not missing:
        return ""
    numbers = ", ".join(f"U+{ord(letter):04X}" for letter in sorted(missing))
    return f"Typed characters that the letters of this sheet do not have stand as {INSTEAD}: {numbers}."


def _can_be_shown(letter: str) -> bool:
    if letter == "\n":
        return True
    # Category C: what steers a terminal, or turns round what stands after it.
    return not unicodedata.category(letter).startswith("C") and ord(letter) in _letters()


@functools.cache
def _letters() -> frozenset[int]:
    """Code points of the font, from its character map (OpenType, table cmap, format 12)."""
    font = (resources.files("stripdown.charts") / "fonts" / _FACE).read_bytes()
    (count,) = struct.unpack_from(">H", font, 4)
    tables = {font[at : at + 4]: struct.unpack_from(">I", font, at + 8)[0] for at in range(12, 12 + 16 * count, 16)}
    start = tables[b"cmap"]
    (maps,) = struct.unpack_from(">H", font, start + 2)
    records = [struct.unpack_from(">HHI", font, start + 4 + 8 * index) for index in range(maps)]
    at = start + next(offset for platform, encoding, offset in records if (platform, encoding) == _UNICODE_FULL)
    form, _, _, _, groups = struct.unpack_from(">HHIII", font, at)
    if form != _SEGMENTED:
        message = f"{_FACE} has a character map of format {form}, not {_SEGMENTED}"
        raise ValueError(message)
    found: set[int] = set()
    for index in range(groups):
        first, last, _ = struct.unpack_from(">III", font, at + 16 + 12 * index)
        found.update(range(first, last + 1))
    return frozenset(found)
