"""By how much does each dimension move the muzzle speed, over the part's own tolerance?"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from stripdown.bench.completion import complete
from stripdown.bench.gun import Gun
from stripdown.catalogue.defaults import load_defaults
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.result import Outcome
from stripdown.core.interior_ballistics.simulate import integrate_shots
from stripdown.core.parts.conditions import Conditions
from stripdown.errors import InputError
from stripdown.quantities import Q, leaves, value_at

# Fine enough that a difference over the smallest tolerance is the part's doing, not the solver's.
SOLVER_TOLERANCE = 1e-7
_SWITCHES = ("laws.longest_time", "laws.laminar_ratio", "laws.stiction_speed", "cylinder_head.capture_speed")


@dataclass(frozen=True, slots=True, kw_only=True)
class SensitivityRow:
    """What one dimension does."""

    path: str
    quantity: Q
    value: float
    step: float
    speed_change_up: float
    speed_change_down: float
    derivative: float
    relative: float
    is_assumed: bool

    @property
    def label(self) -> str:
        """The workshop's words for the dimension."""
        return self.quantity.label

    @property
    def largest_change(self) -> float:
        """Larger of the two changes, without sign, in m/s."""
        return max(abs(self.speed_change_up), abs(self.speed_change_down))


@dataclass(frozen=True, slots=True, kw_only=True)
class Sensitivity:
    """Every dimension's effect on muzzle speed, largest first.

    Parameters
    ----------
    gun
        As written.
    muzzle_speed
        Of the gun as it stands, in m/s.
    ball_mass
        In kg.
    solver_noise
        How far the muzzle speed moves when the solver is made ten times stricter, in m/s: what is smaller is nothing.
    rows
        Largest change first; dimensions without any effect are left out.
    without_effect
        Paths of dimensions that moved the speed by less than the solver's noise.
    """

    gun: Gun
    muzzle_speed: float
    ball_mass: float
    solver_noise: float
    rows: tuple[SensitivityRow, ...]
    without_effect: tuple[str, ...]


def speed_sensitivity(
    gun: Gun,
    *,
    ball_mass: float | None = None,
    conditions: Conditions | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> Sensitivity:
    """Change each dimension of a gun by its own tolerance, up and down, and fire.

    Parameters
    ----------
    gun
        As loaded from its file.
    ball_mass
        Mass of the ball in kg; None for the file's.
    conditions
        The day; None is a workshop at 20 °C.
    progress
        Called with shots done and shots in all.

    Returns
    -------
    Sensitivity

    Raises
    ------
    InputError
        If the ball does not leave the barrel: there is no speed to change then.
    NumericalFailure
        If a shot cannot be integrated.
    """
    whole = complete(gun, ball_mass=ball_mass, conditions=conditions)
    assumed = {entry.path for entry in whole.assumed}
    steps = _steps(whole.parameters)
    low, high = _neighbours(whole.parameters, steps)
    count = 1 + 2 * len(steps)
    columns = {}
    for index, path in enumerate(steps):
        column = np.full(count, value_at(whole.parameters, path))
        column[1 + 2 * index] = high[path]
        column[2 + 2 * index] = low[path]
        columns[path] = column
    batch = integrate_shots(
        whole.parameters, variations=columns, tolerance=SOLVER_TOLERANCE, until_muzzle=True, progress=progress
    )
    if batch.outcome[0] is not Outcome.LEFT_MUZZLE:
        message = "The ball does not leave this barrel, so there is no muzzle speed to vary."
        raise InputError(message, field="ball.mass", hint="Look at the shot first: stripdown shot.")
    speeds = batch.muzzle_speed
    noise = _solver_noise(whole.parameters, float(speeds[0]))
    rows = [
        _row(
            path,
            quantity,
            points=(low[path], float(value_at(whole.parameters, path)), high[path]),
            speeds=(float(speeds[2 + 2 * i]), float(speeds[0]), float(speeds[1 + 2 * i])),
            step=step,
            is_assumed=path in assumed,
        )
        for i, (path, (quantity, step)) in enumerate(steps.items())
    ]
    rows.sort(key=lambda row: -row.largest_change)
    return Sensitivity(
        gun=gun,
        muzzle_speed=float(speeds[0]),
        ball_mass=whole.parameters.ball.mass,
        solver_noise=noise,
        rows=tuple(row for row in rows if row.largest_change > noise),
        without_effect=tuple(row.path for row in rows if row.largest_change <= noise),
    )


def _steps(parameters: ShotParameters) -> dict[str, tuple[Q, float]]:
    """Every dimension that has a tolerance, with its declaration; ports that are not there are left out."""
    defaults = load_defaults()
    steps: dict[str, tuple[Q, float]] = {}
    for leaf in leaves(ShotParameters):
        if leaf.quantity is None or leaf.type is not float or leaf.path in _SWITCHES:
            continue
        tolerance = defaults[leaf.path].tolerance
        section = leaf.path.rpartition(".")[0]
        absent = section.startswith("cylinder.port_") and value_at(parameters, f"{section}.count") == 0
        if tolerance and not absent:
            steps[leaf.path] = (leaf.quantity, tolerance)
    return steps


def _neighbours(parameters: ShotParameters, steps: dict[str, tuple[Q, float]]) -> tuple[dict[str, float], dict[str, float]]:
    """One step down and one up, kept within what is possible."""
    low: dict[str, float] = {}
    high: dict[str, float] = {}
    for path, (quantity, step) in steps.items():
        value = float(value_at(parameters, path))
        low[path] = value - step if quantity.low is None else max(value - step, quantity.low)
        high[path] = value + step if quantity.high is None else min(value + step, quantity.high)
    return low, high


def _solver_noise(parameters: ShotParameters, speed: float) -> float:
    stricter = integrate_shots(
        parameters,
        variations={"ball.mass": [parameters.ball.mass]},
        tolerance=0.1 * SOLVER_TOLERANCE,
        until_muzzle=True,
    )
    return max(abs(float(stricter.muzzle_speed[0]) - speed), 1e-9 * speed)


def _row(
    path: str,
    quantity: Q,
    *,
    points: tuple[float, float, float],
    speeds: tuple[float, float, float],
    step: float,
    is_assumed: bool,
) -> SensitivityRow:
    """One row from the values below, here and above, and the speeds there."""
    low, value, high = points
    below, here, above = speeds
    derivative = (above - below) / (high - low)
    return SensitivityRow(
        path=path,
        quantity=quantity,
        value=value,
        step=step,
        speed_change_up=above - here,
        speed_change_down=below - here,
        derivative=derivative,
        relative=derivative * value / here,
        is_assumed=is_assumed,
    )
