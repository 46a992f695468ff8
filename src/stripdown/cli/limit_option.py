"""A limit as a technician types it: a key of the catalogue, or the site's own rule in one line."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from stripdown.errors import InputError, UnitError
from stripdown.units import parse

if TYPE_CHECKING:
    from stripdown.core.shot_statistics import EnergyLimit

_RULE: Final = re.compile(r"(?P<amount>\S.*?)(?:\s+on\s+(?P<ball>\S.*?))?(?:\s+at\s+(?:the\s+)?(?P<place>\S.*?))?", re.IGNORECASE)
_WAYS: Final = "Write '1.14 J at 0.3 m', '350 ft/s on 0.20 g at 1 m', or a key that `stripdown limits` lists."


def typed_limit(text: str | None) -> EnergyLimit:
    """Understand a limit."""
    from stripdown.catalogue.limits import load_limits, own_site_rule  # noqa: PLC0415  the catalogue's room loads SciPy
    from stripdown.tables.nearest import nearest_name  # noqa: PLC0415

    if text is None or not text.strip():
        raise InputError("No limit was named, so there is nothing to hold the gun against.", field="--limit", hint=_WAYS)
    limits = load_limits()
    if text.strip() in limits:
        return limits[text.strip()].limit
    if not text.strip()[0].isdigit():
        hint = f"{nearest_name(text.strip(), limits)} {_WAYS}"
        raise InputError(f'--limit: "{text}" is no limit of the catalogue.', field="--limit", value=text, hint=hint)
    found = _RULE.fullmatch(text.strip())
    assert found is not None  # noqa: S101  narrows: whatever begins with a digit has an amount
    amount, ball, place = found["amount"], found["ball"], found["place"]
    place = "0 m" if place is not None and place.lower() == "muzzle" else place
    try:
        by_speed = ball is not None or _is_speed(amount)
        return own_site_rule(
            energy=None if by_speed else amount, speed=amount if by_speed else None, ball_mass=ball, measured_at=place
        )
    except UnitError as reason:
        hint = f"{reason.hint or ''} {_WAYS}".strip()
        raise UnitError(f"--limit: {reason.message}", field="--limit", value=text, unit=reason.unit, hint=hint) from None


def _is_speed(amount: str) -> bool:
    try:
        parse(amount, "m/s")
    except UnitError:
        return False
    return True
