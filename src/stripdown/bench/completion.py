"""From a gun as written to complete parameters of a shot, with a list of what had to be assumed."""

from __future__ import annotations

from dataclasses import dataclass

from stripdown.bench.gun import Assumed, Gun, gun_values
from stripdown.core.air import air_gas_constant, air_heat_capacity_ratio
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.parts.conditions import Conditions
from stripdown.quantities import check, check_value, leaves, value_at
from stripdown.tables.values import LeafValue, assemble
from stripdown.units import show


@dataclass(frozen=True, slots=True, kw_only=True)
class CompleteGun:
    """A gun with a value for every parameter of a shot."""

    parameters: ShotParameters
    assumed: tuple[Assumed, ...]
    notes: tuple[str, ...]


def complete(gun: Gun, *, ball_mass: float | None = None, conditions: Conditions | None = None) -> CompleteGun:
    """Fill in a gun: what is written, else what follows from it, else what the catalogue assumes."""
    day = conditions or Conditions()
    for leaf in leaves(Conditions):
        value = value_at(day, leaf.path)
        if value is not None and leaf.quantity is not None:
            check_value(f"conditions.{leaf.path}", value, leaf.quantity)
    filled = gun_values(gun.written)
    air = {"temperature": day.temperature, "pressure": day.pressure, "relative_humidity": day.relative_humidity}
    values: dict[str, LeafValue] = {
        **filled.values,
        "ambient.temperature": day.temperature,
        "ambient.pressure": day.pressure,
        "ambient.wall_temperature": day.temperature if day.wall_temperature is None else day.wall_temperature,
        "ambient.gas_constant": air_gas_constant(**air),
        "ambient.heat_capacity_ratio": air_heat_capacity_ratio(**air),
        "piston_start_speed": day.piston_start_speed,
    }
    notes = [f"{derived.path} = {derived.text}, {derived.reason}." for derived in filled.derived]
    assumed = filled.assumed
    if ball_mass is not None:
        assumed = tuple(entry for entry in assumed if entry.path != "ball.mass")
        if "ball.mass" in gun.written:
            notes.append(
                f"ball.mass = {show(ball_mass, 'g')} as asked, instead of {show(filled.number('ball.mass'), 'g')} in the file."
            )
        values["ball.mass"] = ball_mass
    parameters = assemble(ShotParameters, values)
    check(parameters)
    return CompleteGun(parameters=parameters, assumed=assumed, notes=tuple(notes))
