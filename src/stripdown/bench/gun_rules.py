"""Rules between the fields of a gun: what cannot be true together, and what is doubtful together."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from stripdown.bench.gun import (
    CLOSED_COILS,
    COIL_FIELDS,
    GunValues,
    Written,
    active_coils,
    labelled_spring,
    rate_from_coils,
)
from stripdown.core.mechanics.spring_force import SpringEnds, solid_length
from stripdown.core.parts.gun_parts import GunParts
from stripdown.errors import OutOfRange
from stripdown.tables.values import assemble
from stripdown.units import show

_SAME_RATE = 0.15  # share; caliper and micrometer leave a computed rate uncertain by a tenth
_SAME_LENGTH = 0.0005  # m; two lengths of a spring are read to half a millimetre


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """Something that is possible and unusual: look again."""

    path: str
    message: str


def contradictions(written: Mapping[str, Written], gun: GunValues) -> Iterator[OutOfRange]:
    """Find what cannot be true together."""
    yield from _spring_rate_twice(written)
    yield from _spring_lengths(written)
    yield from _coil_bind(written, gun)
    yield from _between_parts(assemble(GunParts, gun.values))


def doubts(written: Mapping[str, Written], gun: GunValues) -> Iterator[Doubt]:
    """Find what is possible together and unusual."""
    coils = [name for name in COIL_FIELDS if f"spring.{name}" in written]
    if coils and rate_from_coils(written) is None and "spring.rate" not in written:
        path = f"spring.{coils[0]}"
        needed = "a rate needs wire_diameter, mean_diameter (or outer_diameter) and active_coils (or total_coils)"
        yield Doubt(path=path, message=f"{path} gives no spring rate by itself: {needed}.")
    labelled = labelled_spring(written)
    if labelled is not None and "spring.rate" in written:
        rate, typical = gun.number("spring.rate"), labelled.spring.rate
        if abs(rate - typical) > 2 * labelled.rate_uncertainty:
            usual, written_rate = show(typical, "N/m"), show(rate, "N/m")
            message = (
                f"spring.label = {labelled.name} usually means about {usual}, but spring.rate is {written_rate}, which is used."
            )
            yield Doubt(path="spring.label", message=message)
    room = _room_when_drawn(written, gun)
    if room is not None and 0 <= room.drawn - room.ground < room.wire:
        message = (
            f"the spring is {show(room.drawn, 'mm', digits=3)} long when drawn and solid at {show(room.ground, 'mm', digits=3)}, "
            "or one wire more if its ends are not ground: it may bind."
        )
        yield Doubt(path="spring.free_length", message=message)


def _spring_rate_twice(written: Mapping[str, Written]) -> Iterator[OutOfRange]:
    active, total = written.get("spring.active_coils"), written.get("spring.total_coils")
    if active and total and abs(total.number - active.number - CLOSED_COILS) > CLOSED_COILS:
        yield OutOfRange(
            f"spring.total_coils = {total.text} and spring.active_coils = {active.text} do not belong to one spring.",
            field="spring.total_coils",
            value=total.text,
            hint="Usually two coils are closed: count again, and leave one of the two out.",
        )
    mean, outer, wire = (written.get(f"spring.{name}") for name in ("mean_diameter", "outer_diameter", "wire_diameter"))
    if mean and outer and wire and abs(outer.number - wire.number - mean.number) > _SAME_LENGTH:
        yield OutOfRange(
            f'spring.mean_diameter = "{mean.text}" is not spring.outer_diameter = "{outer.text}" less one wire of "{wire.text}".',
            field="spring.mean_diameter",
            value=mean.text,
            unit="m",
            hint="Leave one of the two diameters out.",
        )
    rate = written.get("spring.rate")
    from_coils = None if rate is None else rate_from_coils(written)
    if rate is None or from_coils is None or abs(from_coils.value / rate.number - 1) <= _SAME_RATE:
        return
    yield OutOfRange(
        f'spring.rate = "{rate.text}" contradicts the coils: {from_coils.text} {from_coils.reason}.',
        field="spring.rate",
        value=rate.value,
        unit="N/m",
        hint="Measure again, or leave out the rate or the coils.",
    )


def _spring_lengths(written: Mapping[str, Written]) -> Iterator[OutOfRange]:
    free, fitted, preload = (written.get(f"spring.{name}") for name in ("free_length", "fitted_length", "preload"))
    if not free:
        return
    if fitted and fitted.number >= free.number:
        yield OutOfRange(
            f'spring.fitted_length = "{fitted.text}" is not shorter than spring.free_length = "{free.text}".',
            field="spring.fitted_length",
            value=fitted.value,
            unit="m",
            hint="The fitted length is that in the closed box with the piston home.",
        )
    elif fitted and preload and abs(free.number - fitted.number - preload.number) > _SAME_LENGTH:
        difference = free.number - fitted.number
        yield OutOfRange(
            f'spring.preload = "{preload.text}" contradicts the lengths: '
            f'"{free.text}" free less "{fitted.text}" fitted is {show(difference, "mm")}.',
            field="spring.preload",
            value=preload.value,
            unit="m",
            hint="Measure again, or leave one of the three out.",
        )


@dataclass(frozen=True, slots=True)
class _Room:
    """Length of the spring when drawn, when solid with ground ends, and its wire, in m."""

    drawn: float
    ground: float
    wire: float


def _room_when_drawn(written: Mapping[str, Written], gun: GunValues) -> _Room | None:
    wire, free, coils = written.get("spring.wire_diameter"), written.get("spring.free_length"), active_coils(written)
    if wire is None or free is None or coils is None:
        return None
    total = written["spring.total_coils"].number if "spring.total_coils" in written else coils + CLOSED_COILS
    thickness = wire.number
    pressed = gun.number("spring.preload") + gun.number("cylinder.stroke")
    ground = solid_length(wire_diameter=thickness, total_coils=total, ends=SpringEnds.CLOSED_AND_GROUND)
    return _Room(free.number - pressed, ground, thickness)


def _coil_bind(written: Mapping[str, Written], gun: GunValues) -> Iterator[OutOfRange]:
    room = _room_when_drawn(written, gun)
    if room is None or room.drawn >= room.ground:
        return
    free, solid = written["spring.free_length"], show(room.ground, "mm", digits=3)
    preload, stroke = (show(gun.number(path), "mm") for path in ("spring.preload", "cylinder.stroke"))
    yield OutOfRange(
        f"the spring is coil-bound before the piston is fully drawn: spring.free_length {free.text} less {preload} preload "
        f"less {stroke} stroke leaves {show(room.drawn, 'mm', digits=3)}, but its coils lie solid at {solid}.",
        field="spring.free_length",
        value=free.value,
        unit="m",
        hint="Measure lengths, wire and coils again; such a spring would break the gearbox.",
    )


def _between_parts(record: object) -> Iterator[OutOfRange]:
    """Rules that the records themselves declare, each asked for its own fault."""
    for field in dataclasses.fields(record):  # type: ignore[arg-type]
        inner = getattr(record, field.name)
        if dataclasses.is_dataclass(inner):
            yield from _between_parts(inner)
    rule = getattr(record, "cross_check", None)
    if rule is not None:
        try:
            rule()
        except OutOfRange as fault:
            yield fault
