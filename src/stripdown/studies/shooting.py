"""Guns fired alike: each completed and fired with one ball on one day, with names that tell them apart."""

from __future__ import annotations

import enum
import hashlib
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import PurePath

from stripdown.bench.completion import CompleteGun, complete
from stripdown.bench.gun import Gun, Written, gun_values
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.result import Shot
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics.conditions import HopState
from stripdown.errors import InputError
from stripdown.quantities import leaves, value_at
from stripdown.studies.whole_gun import simulate_shot

_HOP = "hop_up.normal_force"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shooting:
    """One gun, as completed, with its shot.

    Parameters
    ----------
    name
        What to call it beside the others; invented figures are said to be invented.
    gun
        As written.
    complete
        With a value for every parameter, and what was assumed for that.
    shot
        What the model says.
    tolerance
        Relative error allowed per step of the solver.
    """

    name: str
    gun: Gun
    complete: CompleteGun
    shot: Shot
    tolerance: float

    @property
    def input_digest(self) -> str:
        """Digest of everything that the shot depends on: equal digests of one program version mean equal shots."""
        return input_digest(self.shot.parameters, tolerance=self.tolerance)


@dataclass(frozen=True, slots=True, kw_only=True)
class FiredAlike:
    """Shots of one gun or several, with the same ball on the same day.

    Parameters
    ----------
    shootings
        In the order of the guns.
    """

    shootings: tuple[Shooting, ...]


def shoot(
    guns: Sequence[Gun],
    *,
    ball_mass: float | None = None,
    hop: HopState | None = None,
    conditions: Conditions | None = None,
    tolerance: float = 1e-4,
) -> FiredAlike:
    """Fire several guns alike, each once.

    Parameters
    ----------
    guns
        As written; at least one.
    ball_mass
        Mass of the ball in kg; None for each gun's own.
    hop
        Hop-up off, or set as each gun has it; None as each gun's file says.
    conditions
        The day; None is a workshop at 20 °C.
    tolerance
        Relative error allowed per step.

    Returns
    -------
    FiredAlike
        A shot for each gun, with what was assumed of it and a name that no other gun has.

    Raises
    ------
    InputError
        If a gun and its ball do not fit together, or a hop-up shall be set of which the file says that it does not press.
    NumericalFailure
        If a shot cannot be integrated.
    """
    guns = [_with_hop(gun, hop) for gun in guns]
    whole = [complete(gun, ball_mass=ball_mass, conditions=conditions) for gun in guns]
    shots = [simulate_shot(gun, ball_mass=ball_mass, conditions=conditions, tolerance=tolerance) for gun in guns]
    return FiredAlike(
        shootings=tuple(
            Shooting(name=name, gun=gun, complete=filled, shot=shot, tolerance=tolerance)
            for name, gun, filled, shot in zip(_names_apart(guns), guns, whole, shots, strict=True)
        )
    )


def _with_hop(gun: Gun, hop: HopState | None) -> Gun:
    """The gun with its hop-up off, or as it is set."""
    if hop is HopState.OFF:
        return replace(gun, written={**gun.written, _HOP: Written(value=0.0, text="0 N")})
    if hop is HopState.SET and gun_values(gun.written).number(_HOP) == 0.0:
        hint = "Write the force with which it presses when it is set."
        raise InputError(f"the file of {gun.shown_name} has its hop-up off: {_HOP} = 0 N.", field=_HOP, hint=hint)
    return gun


def input_digest(parameters: ShotParameters, *, tolerance: float) -> str:
    """Digest of everything that an answer depends on: equal digests of one program version mean equal answers."""
    lines = [f"{leaf.path}={_exact(value_at(parameters, leaf.path))}" for leaf in leaves(type(parameters))]
    return hashlib.sha256("\n".join([*lines, f"tolerance={_exact(tolerance)}"]).encode()).hexdigest()


def _exact(value: object) -> str:
    if isinstance(value, enum.Enum):
        return value.name.lower()
    return value.hex() if isinstance(value, float) else str(value)


def _names_apart(guns: Sequence[Gun]) -> list[str]:
    """What to call each gun; where two have the same name, file or number tell them apart."""
    names = [gun.shown_name for gun in guns]
    for labels in (names, [f"{name} ({PurePath(gun.origin).stem})" for name, gun in zip(names, guns, strict=True)]):
        if len(set(labels)) == len(labels):
            return labels
    return [f"{name} ({number})" for number, name in enumerate(names, start=1)]
