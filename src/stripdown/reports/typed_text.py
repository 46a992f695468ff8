"""Typed text as a printer can show it."""

from __future__ import annotations

import unicodedata

_SHOWN_INSTEAD = "\N{REPLACEMENT CHARACTER}"
# Characters that steer a terminal, or turn round what stands after them.
_NO_PICTURE = {"Cc", "Cf", "Cs", "Co", "Cn"}


def printable(text: str) -> str:
    """Typed text with a visible mark in place of every character that steers instead of showing something.

    Parameters
    ----------
    text
        As typed.

    Returns
    -------
    str
        The same but for control characters; line breaks stay, tabs become blanks.
    """
    return "".join(
        character if character == "\n" or unicodedata.category(character) not in _NO_PICTURE else _SHOWN_INSTEAD
        for character in text.replace("\r\n", "\n").replace("\t", " ")
    )
