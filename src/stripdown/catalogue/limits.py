"""Energy limits by place, with whose word it is; and a site's own rule, as a technician types it."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from stripdown.catalogue.entries import CatalogueEntry, named, packaged_text, read_entries
from stripdown.core.shot_statistics.limits import EnergyLimit, LimitScope, limit_from_speed
from stripdown.errors import InputError
from stripdown.quantities import Q
from stripdown.references import Reading, load_references
from stripdown.references.provenance import Provenance
from stripdown.tables.table import Table
from stripdown.tables.values import check_typed
from stripdown.units import parse

_FILE = "limits.toml"
_ENERGY: Final = Q("J", low=0.001, high=100, usual=(0.5, 7.5), label="energy limit")
_AREA: Final = Q("m2", low=1e-6, high=1, label="area", shown="cm2")
_SPEED: Final = Q("m/s", low=1, high=400, usual=(60, 180), label="speed limit")
_MASS: Final = Q("kg", low=5e-5, high=0.001, usual=(0.00012, 0.00048), label="ball that the rule names", shown="g")
_DISTANCE: Final = Q("m", low=0, high=100, usual=(0, 3), label="measuring point, from the muzzle")
_KINDS: Final = {"law": True, "site": False}
_SCOPES: Final = {scope.name.lower(): scope for scope in LimitScope}


@dataclass(frozen=True, slots=True, kw_only=True)
class CatalogueLimit(CatalogueEntry):
    """One energy limit.

    Parameters
    ----------
    key
        Stable name (``"italy"``).
    limit
        Amount, measuring point, scope, source and date.
    provenance
        Where it was found.
    """

    limit: EnergyLimit


@functools.cache
def load_limits() -> Mapping[str, CatalogueLimit]:
    """Read the packaged limits.

    Returns
    -------
    mapping
        Limit by key, in the order of the file: laws first.

    Raises
    ------
    CatalogueError
        With entry and field.
    """
    return read_limits(packaged_text(_FILE), file=_FILE)


def read_limits(text: str, *, file: str) -> Mapping[str, CatalogueLimit]:
    """Read limits from TOML."""
    return read_entries(text, file=file, noun="limit", read=_limit)


def own_site_rule(
    *,
    energy: str | None = None,
    speed: str | None = None,
    ball_mass: str | None = None,
    measured_at: str | None = None,
    scope: LimitScope = LimitScope.EVERY_SHOT,
    place: str = "",
    date: str = "",
) -> EnergyLimit:
    """A site's own rule, as a technician types it.

    Parameters
    ----------
    energy
        Such as ``"1.14 J"``; None if the rule names a speed.
    speed
        Such as ``"350 ft/s"``; None if the rule names an energy.
    ball_mass
        The ball that goes with the speed, such as ``"0.20 g"``.
    measured_at
        Distance from the muzzle at which the site measures, such as ``"0.3 m"``; None if it does not say.
    scope
        Which guns or shots it is for.
    place
        Name of the site.
    date
        When the rule was written down.

    Returns
    -------
    EnergyLimit

    Raises
    ------
    InputError
        With the field, if there is not exactly one amount, a speed lacks its ball, or a value cannot be read.
    """
    if (energy is None) == (speed is None):
        raise InputError(
            "A site's rule is one energy or one speed.", field="energy", hint='Give "1.14 J", or "350 ft/s" on "0.20 g".'
        )
    if speed is not None and ball_mass is None:
        raise InputError(
            f"A limit of {speed} means nothing without its ball.",
            field="ball_mass",
            hint='Say the ball that the rule names, usually "0.20 g".',
        )
    if energy is not None and ball_mass is not None:
        raise InputError(
            "An energy limit holds for every ball.",
            field="ball_mass",
            value=ball_mass,
            hint="Leave out the ball, or give a speed.",
        )
    amount = _typed("energy", energy, _ENERGY) if energy is not None else 0.0
    if speed is not None and ball_mass is not None:
        amount = limit_from_speed(_typed("speed", speed, _SPEED), _typed("ball_mass", ball_mass, _MASS))
    said = energy if energy is not None else f"{speed} on {ball_mass}"
    return EnergyLimit(
        name=f"site's own rule: {said}",
        place=place,
        energy=amount,
        measuring_distance=None if measured_at is None else _typed("measured_at", measured_at, _DISTANCE),
        scope=scope,
        source="as typed in",
        date=date,
        was_read=True,
    )


def _limit(entry: Table) -> CatalogueLimit:
    fields = named(entry, "place", "kind", "energy", "per_area", "speed", "on_ball", "measured_at", "scope", "date", "remark")
    provenance: Provenance = fields["provenance"]
    source = None if provenance.source is None else load_references()[provenance.source]
    amount = _amount(entry)
    return CatalogueLimit(
        **fields,
        limit=EnergyLimit(
            name=fields["name"],
            place=entry.text("place"),
            energy=None if "per_area" in entry.fields else amount,
            energy_per_area=amount if "per_area" in entry.fields else None,
            measuring_distance=entry.quantity("measured_at", _DISTANCE) if "measured_at" in entry.fields else None,
            scope=entry.choice("scope", _SCOPES),
            source=provenance.footing.words if source is None else source.cite(provenance.where),
            date=str(entry.fields.get("date", "")),
            is_law=entry.choice("kind", _KINDS),
            was_read=source is not None and source.reading is Reading.READ,
            remark=entry.text("remark"),
        ),
    )


def _amount(entry: Table) -> float:
    """The amount in J, or in J/m2 if the entry names an area."""
    if ("energy" in entry.fields) == ("speed" in entry.fields):
        raise entry.wrong("energy", entry.fields.get("energy"), "must stand alone: one energy, or one speed with its ball.")
    if "speed" in entry.fields:
        return limit_from_speed(entry.quantity("speed", _SPEED), entry.quantity("on_ball", _MASS))
    energy = entry.quantity("energy", _ENERGY)
    return energy / entry.quantity("per_area", _AREA) if "per_area" in entry.fields else energy


def _typed(field: str, text: str, quantity: Q) -> float:
    value = parse(text, quantity, field=field)
    check_typed(value, text, quantity, field=field)
    return value
