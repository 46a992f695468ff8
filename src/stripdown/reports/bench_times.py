"""Times as one says them at the bench."""

from __future__ import annotations

_MINUTES = 60.0
_HOURS = 24.0


def hands_time(minutes: float) -> str:
    """Time of the hands."""
    whole = round(minutes)
    hours, rest = divmod(whole, round(_MINUTES))
    if hours:
        return f"{hours} h {rest} min" if rest else f"{hours} h"
    return f"{whole} min" if whole else ("" if minutes <= 0.0 else "under 1 min")


def waiting_time(hours: float) -> str:
    """Time to wait."""
    if hours < 1.0:
        return f"{hours * _MINUTES:.0f} min"
    if hours > 2.0 * _HOURS and hours % _HOURS == 0.0:
        return f"{hours / _HOURS:.0f} d"
    return f"{hours:g} h"
