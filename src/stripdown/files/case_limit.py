"""The limit of a case: one of the catalogue, or the site's own rule."""

from __future__ import annotations

from collections.abc import Mapping

from stripdown.catalogue.limits import load_limits, own_site_rule
from stripdown.core.shot_statistics.limits import EnergyLimit, LimitScope
from stripdown.errors import InputError
from stripdown.files.case_fields import TABLES
from stripdown.files.case_reader import CaseReader
from stripdown.tables.nearest import nearest_name


def limit_of(reader: CaseReader) -> tuple[EnergyLimit | None, str | None]:
    """The limit that a case names; what is wrong with it is complained of in its place."""
    said = {name: reader.value(f"limit.{name}") for name in TABLES["limit"] if f"limit.{name}" in reader.written}
    if not said:
        return None, None
    try:
        return _named_limit(said) if "key" in said else (_own_rule(said), None)
    except InputError as complaint:
        reader.complain(complaint, f"limit.{complaint.field}" if complaint.field in said else "limit")
        return None, None


def _named_limit(said: Mapping[str, str]) -> tuple[EnergyLimit, str | None]:
    key = said["key"]
    others = [name for name in said if name != "key"]
    if others:
        message = f"a limit of the catalogue stands alone, but {', '.join(others)} is there too."
        raise InputError(message, field=others[0], hint="Keep the key, or the site's own rule.")
    limits = load_limits()
    if key not in limits:
        raise InputError(f'limit.key = "{key}" is not in the catalogue.', field="key", value=key, hint=nearest_name(key, limits))
    return limits[key].limit, limits[key].provenance.source


def _own_rule(said: Mapping[str, str | LimitScope]) -> EnergyLimit:
    amounts = {name: str(said[name]) for name in ("energy", "speed", "ball_mass", "measured_at", "place", "date") if name in said}
    scope = said.get("scope", LimitScope.EVERY_SHOT)
    assert isinstance(scope, LimitScope)  # noqa: S101  narrows: a choice is read as its member
    return own_site_rule(**amounts, scope=scope)
