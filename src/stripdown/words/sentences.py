"""How sentences and times are written, wherever they stand at the bench."""

from __future__ import annotations

import re

from stripdown.words.answer import Sentence

_MINUTES = 60
_HOURS = 24.0
_FIRST_CLAUSE = re.compile(r"(.+?)(?::|\.(?=\s|$))")


def capital(words: str) -> str:
    """Words with a capital at the front."""
    return words[:1].upper() + words[1:]


def as_sentence(words: str) -> str:
    """Words with a capital at the front and a full stop at the end."""
    plain = words.strip()
    return f"{capital(plain)}{'' if plain.endswith(('.', '!', '?')) else '.'}" if plain else ""


def caution_sentence(words: str, *, harm: str = "") -> Sentence:
    """What can hurt, by whom it hurts; in short, up to the first colon or full stop."""
    full = as_sentence(words)
    found = _FIRST_CLAUSE.match(full)
    short = f"{found[1]}." if found else full
    return Sentence(key=f"caution_{harm}" if harm else "caution", full=full, short="" if short == full else short)


def hands_time(minutes: float) -> str:
    """Time of the hands, above an hour to five minutes; empty for none."""
    whole = round(minutes)
    if whole > _MINUTES:
        hours, rest = divmod(round(minutes / 5.0) * 5, _MINUTES)
        return f"{hours} h {rest} min" if rest else f"{hours} h"
    if whole == _MINUTES:
        return "1 h"
    return f"{whole} min" if whole else ("" if minutes <= 0.0 else "under 1 min")


def waiting_time(hours: float) -> str:
    """Time to wait."""
    if hours < 1.0:
        return f"{hours * _MINUTES:.0f} min"
    if hours > 2.0 * _HOURS and hours % _HOURS == 0.0:
        return f"{hours / _HOURS:.0f} d"
    return f"{hours:g} h"
