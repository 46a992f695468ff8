"""A gun as written, and from that a value for every parameter: written, computed from what is written, or assumed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from stripdown.catalogue.defaults import load_defaults
from stripdown.catalogue.springs import LabelledSpring, load_springs
from stripdown.catalogue.wires import DEFAULT_WIRE, load_wires
from stripdown.core.interior_ballistics.parameters import ShotLaws
from stripdown.core.mechanics.spring_force import spring_rate
from stripdown.core.parts.gun_parts import GunParts
from stripdown.errors import OutOfRange
from stripdown.quantities import Q, leaves, value_at
from stripdown.references.provenance import Footing, Provenance
from stripdown.tables.values import LeafValue
from stripdown.units import show

CLOSED_COILS = 2
"""Coils that lie closed at the ends of a spring and do not move."""
GUN_LEAVES = (*leaves(GunParts), *leaves(ShotLaws, "laws."))
"""What may be written of the parts, and of the laws by which their shot is reckoned."""
COIL_FIELDS = ("wire_diameter", "mean_diameter", "outer_diameter", "active_coils", "total_coils")
"""Fields of the spring that stand in for its rate."""

_QUANTITIES: Mapping[str, Q] = {leaf.path: leaf.quantity for leaf in GUN_LEAVES if leaf.quantity is not None}


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """One value as somebody wrote it down; one that is typical was taken over, and nobody has measured it."""

    value: LeafValue | str
    text: str
    is_typical: bool = False

    @property
    def number(self) -> float:
        """The value of a field that holds a number, SI."""
        if isinstance(self.value, int | float):
            return float(self.value)
        message = f"{self.text!r} is no number"
        raise TypeError(message)


@dataclass(frozen=True, slots=True, kw_only=True)
class Gun:
    """A gun as written.

    Parameters
    ----------
    name
        What its owner calls it.
    note
        Remarks.
    invented
        Whether gun or figures are made up.
    origin
        Where it was written down, to be shown: the name of a file without folders; empty if that is not known.
    variation
        What sort of gun it is, as far as that is written: feature to choice.
    written
        Each value by dotted path (``"spring.rate"``, ``"cylinder.port_1.start"``), in the order of a gun's file.
    """

    name: str
    note: str
    invented: bool
    origin: str = ""
    variation: Mapping[str, str] = field(default_factory=dict)
    written: Mapping[str, Written]

    @property
    def shown_name(self) -> str:
        """What to call it on a sheet; invented figures are said to be invented."""
        return f"{self.name} (invented)" if self.invented else self.name


@dataclass(frozen=True, slots=True, kw_only=True)
class Derived:
    """One value that was computed from others that are written."""

    path: str
    value: float
    text: str
    reason: str
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumed:
    """One value that nobody wrote down, or that is written as typical."""

    path: str
    value: LeafValue
    text: str
    footing: Footing
    source: str | None
    reason: str
    is_typical: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class GunValues:
    """A value for every parameter of a gun, and where each comes from."""

    values: Mapping[str, LeafValue]
    derived: tuple[Derived, ...]
    assumed: tuple[Assumed, ...]

    def number(self, path: str) -> float:
        """Value of a parameter that is a number."""
        value = self.values[path]
        assert isinstance(value, int | float)  # noqa: S101  narrows: the declarations say which parameters are numbers
        return float(value)


def gun_values(written: Mapping[str, Written]) -> GunValues:
    """Fill in a gun: written, else computed from what is written, else assumed; what is typical stays assumed."""
    written = without_replaced(written)
    derived = tuple(_derive(written))
    known: dict[str, LeafValue] = {path: found.value for path, found in written.items() if not isinstance(found.value, str)}
    known |= {found.path: found.value for found in derived}
    if known.get("cylinder.ported") is False:
        known["cylinder.port_1.count"] = 0
    assumed = (*_typical(written), *_assume(written, known))
    values = {path: default.value for path, default in load_defaults().items()}
    values |= {found.path: found.value for found in assumed if found.path in values and not found.is_typical}
    values |= {path: value for path, value in known.items() if path in values}
    return GunValues(values=MappingProxyType(values), derived=derived, assumed=assumed)


def without_replaced(written: Mapping[str, Written]) -> Mapping[str, Written]:
    """What is written, without typical figures of the spring that follow from others which somebody measured."""
    measured = {path: found for path, found in written.items() if not found.is_typical}
    follows = {
        "spring.rate": rate_from_coils(measured) is not None,
        "spring.preload": {"spring.free_length", "spring.fitted_length"} <= measured.keys(),
    }
    return {path: found for path, found in written.items() if not (found.is_typical and follows.get(path))}


def active_coils(written: Mapping[str, Written]) -> float | None:
    """Coils that can move, from whichever count is written."""
    active, total = _number(written, "spring.active_coils"), _number(written, "spring.total_coils")
    return active if active is not None or total is None else total - CLOSED_COILS


def rate_from_coils(written: Mapping[str, Written]) -> Derived | None:
    """Spring rate from wire and coils."""
    wire, mean, coils = _number(written, "spring.wire_diameter"), _number(written, "spring.mean_diameter"), active_coils(written)
    outer = _number(written, "spring.outer_diameter")
    if mean is None and outer is not None and wire is not None:
        mean = outer - wire
    if wire is None or mean is None or coils is None:
        return None
    given = tuple(f"spring.{name}" for name in COIL_FIELDS if f"spring.{name}" in written)
    if mean <= wire:
        raise OutOfRange(
            f"a coil of {show(mean, 'mm')} mean diameter leaves no hole in a wire of {show(wire, 'mm')}.",
            field=given[1],
            value=mean,
            unit="m",
            hint="The mean diameter is the outer diameter less one wire; usual is 4 to 20 wires.",
        )
    material = load_wires()[_material(written)]
    rate = spring_rate(wire_diameter=wire, mean_diameter=mean, active_coils=coils, shear_modulus=material.shear_modulus)
    reason = f"from {show(coils, '1')} active coils of {show(wire, 'mm')} {material.name} at {show(mean, 'mm')} mean diameter"
    return _derived("spring.rate", rate, reason, given)


def labelled_spring(written: Mapping[str, Written]) -> LabelledSpring | None:
    """Spring of the catalogue whose trade label is written."""
    found = written.get("spring.label")
    return None if found is None else load_springs().get(str(found.value).lower())


def _derive(written: Mapping[str, Written]) -> Iterator[Derived]:
    from_coils = None if "spring.rate" in written else rate_from_coils(written)
    if from_coils is not None:
        yield from_coils
    free, fitted = _number(written, "spring.free_length"), _number(written, "spring.fitted_length")
    if "spring.preload" not in written and free is not None and fitted is not None and fitted < free:
        reason = f"{show(free, 'mm')} free less {show(fitted, 'mm')} fitted"
        yield _derived("spring.preload", free - fitted, reason, ("spring.free_length", "spring.fitted_length"))


def _typical(written: Mapping[str, Written]) -> Iterator[Assumed]:
    """What is written as typical."""
    for path, found in written.items():
        if found.is_typical and not isinstance(found.value, str):
            footing, reason = Footing.COMMON_PRACTICE, "written as typical, not measured"
            yield Assumed(
                path=path, value=found.value, text=found.text, footing=footing, source=None, reason=reason, is_typical=True
            )


def _assume(written: Mapping[str, Written], known: Mapping[str, LeafValue]) -> Iterator[Assumed]:
    labelled = labelled_spring(written)
    for path in (leaf.path for leaf in GUN_LEAVES):
        default = load_defaults()[path]
        if path in known or _has_no_effect(path, known):
            continue
        if path.startswith("spring.") and labelled is not None:
            value = value_at(labelled.spring, path.removeprefix("spring."))
            yield _assumed(path, value, show(value, _QUANTITIES[path]), labelled.provenance, f"label {labelled.name}: ")
        elif path.endswith(".count") and f"{path.removesuffix('count')}start" in known:
            one = Provenance(footing=Footing.COMMON_PRACTICE, source=None, where="a port is written without a count")
            yield _assumed(path, 1, "1", one)
        else:
            text = show(default.value, _QUANTITIES[path]) if isinstance(default.value, float) else default.text
            yield _assumed(path, default.value, text, default.provenance)
    if "spring.wire_material" not in written and "spring.rate" not in written and "spring.rate" in known:
        wire = load_wires()[DEFAULT_WIRE]
        yield _assumed("spring.wire_material", wire.shear_modulus, wire.name, wire.provenance, "the usual spring wire; ")


def _has_no_effect(path: str, known: Mapping[str, LeafValue]) -> bool:
    """Whether a parameter cannot matter, so that assuming it is not worth a line."""
    if path == "piston.vent_area":
        return known.get("piston.vented") is False
    table, _, name = path.rpartition(".")
    if ".port_" not in path or f"{table}.start" in known:
        return False
    return name != "count" or table != "cylinder.port_1"


def _number(written: Mapping[str, Written], path: str) -> float | None:
    found = written.get(path)
    return None if found is None else found.number


def _material(written: Mapping[str, Written]) -> str:
    found = written.get("spring.wire_material")
    return DEFAULT_WIRE if found is None else str(found.value)


def _derived(path: str, value: float, reason: str, sources: tuple[str, ...]) -> Derived:
    return Derived(path=path, value=value, text=show(value, _QUANTITIES[path], digits=4), reason=reason, sources=sources)


def _assumed(path: str, value: LeafValue, text: str, provenance: Provenance, before: str = "") -> Assumed:
    reason = f"{before}{provenance.where}"
    return Assumed(path=path, value=value, text=text, footing=provenance.footing, source=provenance.source, reason=reason)
