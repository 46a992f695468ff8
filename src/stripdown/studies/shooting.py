"""Guns fired alike: each completed and fired with one ball on one day, with names that tell them apart."""

from __future__ import annotations

import enum
import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import PurePath

from stripdown.bench.completion import CompleteGun, complete
from stripdown.bench.gun import Gun
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.result import Shot
from stripdown.core.parts.conditions import Conditions
from stripdown.quantities import leaves, value_at
from stripdown.studies.whole_gun import simulate_shot


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
    guns: Sequence[Gun], *, ball_mass: float | None = None, conditions: Conditions | None = None, tolerance: float = 1e-4
) -> FiredAlike:
    """Fire several guns alike, each once.

    Parameters
    ----------
    guns
        As written; at least one.
    ball_mass
        Mass of the ball in kg; None for each gun's own.
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
        If a gun and its ball do not fit together.
    NumericalFailure
        If a shot cannot be integrated.
    """
    whole = [complete(gun, ball_mass=ball_mass, conditions=conditions) for gun in guns]
    shots = [simulate_shot(gun, ball_mass=ball_mass, conditions=conditions, tolerance=tolerance) for gun in guns]
    return FiredAlike(
        shootings=tuple(
            Shooting(name=name, gun=gun, complete=filled, shot=shot, tolerance=tolerance)
            for name, gun, filled, shot in zip(_names_apart(guns), guns, whole, shots, strict=True)
        )
    )


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
