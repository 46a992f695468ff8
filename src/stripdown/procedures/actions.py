"""What one does to a gun besides taking it apart and checking it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from stripdown.procedures.cautions import Caution
from stripdown.procedures.touches import PartTouch
from stripdown.references.provenance import Provenance


@dataclass(frozen=True, slots=True, kw_only=True)
class Action:
    """A piece of work."""

    key: str
    name: str
    place: str = ""
    touches: tuple[PartTouch, ...] = ()
    off: tuple[str, ...] = ()
    on: tuple[str, ...] = ()
    how: str = ""
    short: str = ""
    tools: tuple[str, ...] = ()
    consumables: tuple[str, ...] = ()
    minutes: float = 0.0
    wait: float = 0.0
    wait_for: str = ""
    cautions: tuple[Caution, ...] = ()
    needs: tuple[str, ...] = ()
    excludes: tuple[str, ...] = ()
    brings: tuple[str, ...] = ()
    provenance: Provenance | None = None
    calculator: str = ""
    becomes: Mapping[str, str] = field(default_factory=dict)
    """What gun it makes of the gun: choice by feature, by their keys."""
    fires: str = ""
