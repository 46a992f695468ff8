"""Typed text that cannot steer a terminal."""

from __future__ import annotations

import unicodedata

_INSTEAD = "\N{REPLACEMENT CHARACTER}"


def harmless(text: str) -> str:
    """Put a visible mark in place of every character that steers instead of showing something."""
    return "".join(
        sign if sign == "\n" or not unicodedata.category(sign).startswith("C") else _INSTEAD
        for sign in text.replace("\r\n", "\n").replace("\t", " ")
    )
