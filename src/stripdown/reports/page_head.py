"""What stands at the head of every page of a sheet."""

from __future__ import annotations

INVENTED = "Invented figures: no real gun"
_LETTERS = 70


def running_title(title: str, gun: str) -> str:
    """Title and gun in one line, the gun only if the title does not name it."""
    whole = title if gun in title else f"{gun}: {title}"
    return whole if len(whole) <= _LETTERS else f"{whole[: _LETTERS - 1].rstrip()}…"
