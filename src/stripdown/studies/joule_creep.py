"""One gun, many ball masses: a heavier ball leaves slower, and often with more energy."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stripdown.bench.completion import CompleteGun, complete
from stripdown.bench.gun import Gun
from stripdown.core.interior_ballistics.result import Outcome
from stripdown.core.numerics.read_only import keeps_arrays
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics.limits import EnergyLimit
from stripdown.errors import InputError
from stripdown.quantities import Q
from stripdown.studies.whole_gun import simulate_shots

Column = NDArray[np.float64]


@keeps_arrays
@dataclass(frozen=True, eq=False, kw_only=True, slots=True)
class JouleCreep:
    """Speed and energy over ball mass; all arrays of one length, read-only, in the order asked for.

    Parameters
    ----------
    gun
        As written.
    complete
        With what was assumed of it; its ball is the gun's own.
    ball_mass
        As asked for, in kg.
    muzzle_speed
        In m/s, zero where the ball does not leave.
    muzzle_energy
        In J.
    backspin, spin_ratio
        At the muzzle, in rad/s, and as a ratio.
    slam_speed
        Of the piston, in m/s.
    time_to_muzzle, time_to_slam
        After release, in s; None where it does not happen.
    outcome
        How each shot ended for the ball.
    limit
        The limit that it is held beside; None for none.
    """

    gun: Gun
    complete: CompleteGun
    ball_mass: Annotated[Column, Q("kg", label="mass of the ball", shown="g")]
    muzzle_speed: Annotated[Column, Q("m/s", label="muzzle speed")]
    muzzle_energy: Annotated[Column, Q("J", label="muzzle energy")]
    backspin: Annotated[Column, Q("rad/s", label="backspin at the muzzle", shown="rpm")]
    spin_ratio: Annotated[Column, Q("1", label="spin ratio at the muzzle")]
    slam_speed: Annotated[Column, Q("m/s", label="piston speed at the slam")]
    time_to_muzzle: tuple[float | None, ...]
    time_to_slam: tuple[float | None, ...]
    outcome: tuple[Outcome, ...]
    limit: EnergyLimit | None = None

    @property
    def limit_energy(self) -> float | None:
        """What the limit allows a ball of this gun at the muzzle, in J; None for no limit."""
        if self.limit is None:
            return None
        diameter = self.complete.parameters.ball.diameter
        area = 0.25 * math.pi * diameter**2
        return self.limit.energy if self.limit.energy is not None else float(self.limit.energy_per_area or 0.0) * area


def sweep_ball_masses(
    gun: Gun,
    *,
    ball_masses: ArrayLike,
    conditions: Conditions | None = None,
    limit: EnergyLimit | None = None,
    tolerance: float = 1e-4,
    progress: Callable[[int, int], None] | None = None,
) -> JouleCreep:
    """Fire a gun with each of several ball masses.

    Parameters
    ----------
    gun
        As loaded from its file.
    ball_masses
        Masses in kg, shape (n,).
    conditions
        The day; None is a workshop at 20 °C.
    limit
        A limit to be shown beside the energies; None for none.
    tolerance
        Relative error allowed per step.
    progress
        Called with shots done and shots in all.

    Returns
    -------
    JouleCreep
        Shape (n,) each.

    Raises
    ------
    InputError
        For no mass at all or an impossible one.
    NumericalFailure
        If a shot cannot be integrated.

    Notes
    -----
    Only the mass is changed: hop-up force and diameter stay, as when a player loads another ball without touching the gun.
    """
    masses = np.atleast_1d(np.asarray(ball_masses, dtype=np.float64))
    if masses.size == 0 or masses.ndim != 1:
        message = "No ball mass was given."
        raise InputError(message, field="ball_masses", hint="Give at least one, such as 0.20 g.")
    batch = simulate_shots(gun, variations={"ball.mass": masses}, conditions=conditions, tolerance=tolerance, progress=progress)
    speeds = batch.muzzle_speed
    left = np.where(speeds > 0.0, speeds, 1.0)
    radius = 0.5 * batch.parameters.ball.diameter
    return JouleCreep(
        gun=gun,
        complete=complete(gun, conditions=conditions),
        ball_mass=_own(masses),
        muzzle_speed=_own(speeds),
        muzzle_energy=_own(batch.muzzle_energy),
        backspin=_own(batch.rows["backspin"]),
        spin_ratio=_own(radius * batch.rows["backspin"] / left),
        slam_speed=_own(batch.rows["slam_speed"]),
        time_to_muzzle=_times(batch.rows["time_to_muzzle"]),
        time_to_slam=_times(batch.rows["time_to_slam"]),
        outcome=batch.outcome,
        limit=limit,
    )


def _own(values: ArrayLike) -> Column:
    return np.array(values, dtype=np.float64)


def _times(column: Column) -> tuple[float | None, ...]:
    return tuple(float(time) if time >= 0.0 else None for time in column)
