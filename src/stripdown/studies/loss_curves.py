"""How a loss grows with a fault, how much of the fault a loss asks for, and how well the gun's dimensions let that be known."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import PchipInterpolator
from scipy.special import gammaincc

from stripdown.catalogue.faults import Fault
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.numerics.read_only import keeps_arrays
from stripdown.quantities import value_at
from stripdown.studies.faulty_gun import fault_columns
from stripdown.studies.loss_pairs import LossPairs
from stripdown.studies.match_chronograph import EFFECT_TOLERANCE, WORK, log_speeds, tolerance_ends
from stripdown.studies.observation import Observation

Array = NDArray[np.float64]

_COARSE = 13  # amounts simulated over the whole range
_CLOSER = (8, 6)  # more of them about the amount that is asked for, in two rounds: a port's cost has a kink in it
_FINE = 2001
_CURVE_TOLERANCE = 1e-5
_NEAR = 1.0  # standard uncertainties of the readings; a loss met so closely is not a cliff
_HALVINGS = 12
_CHI_95 = 3.841  # 95 % point of chi-square with one degree of freedom
_NORMAL_99 = 2.576  # 99 % point of the normal distribution, two-sided
_NOTHING = 1e-6  # a loss smaller than this is none
_STUCK = 1.0  # m/s; a ball that stays in the barrel has lost all but a hundredth


@keeps_arrays
@dataclass(frozen=True, eq=False, slots=True)
class LossCurve:
    """Logarithmic losses over the amount of one fault."""

    fault: Fault
    amounts: Array
    losses: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """How much of a fault explains a loss."""

    value: float
    low: float | None
    high: float | None
    share: float


@keeps_arrays
@dataclass(frozen=True, eq=False, slots=True)
class Doubt:
    """What the tolerances of the gun's dimensions leave open of a loss."""

    losses: Array
    covariance: Array

    def along(self, losses: Array) -> Array:
        """The covariance for several losses, shape (n, strings): a share of each, up to the loss that it was found for."""
        is_there = np.abs(self.losses) > _NOTHING
        shares = np.where(is_there, losses / np.where(is_there, self.losses, 1.0), 0.0)
        shares = np.clip(shares, 0.0, 1.0)
        return np.asarray(shares[:, :, np.newaxis] * self.covariance * shares[:, np.newaxis, :], dtype=np.float64)


def grow(sound: ShotParameters, fault: Fault, loss: LossPairs) -> LossCurve:
    """Let a fault grow from nothing to the largest believable, most closely where it makes about the loss."""
    healthy = log_speeds(sound, loss.strings, {})

    def lost(roots: Array) -> Array:
        # Most of what matters happens at small amounts, so they lie closer together: the amount goes with the square.
        columns = fault_columns(sound, fault, fault.largest * roots**2)
        return np.asarray(
            healthy - log_speeds(sound, loss.strings, columns, least_speed=_STUCK, tolerance=_CURVE_TOLERANCE), dtype=np.float64
        )

    fine = np.linspace(0.0, 1.0, _FINE)
    roots = np.linspace(0.0, 1.0, _COARSE)
    losses = lost(roots)

    def take(more: Array) -> None:
        nonlocal roots, losses
        joined, order = np.unique(np.concatenate([roots, more]), return_index=True)
        losses = np.concatenate([losses, lost(more)])[order]
        roots = joined

    for more in _CLOSER:
        curve = LossCurve(fault, fault.largest * fine**2, PchipInterpolator(roots, losses)(fine))
        place = int(np.searchsorted(roots, math.sqrt(needed(curve, loss).value / fault.largest)))
        take(np.linspace(roots[max(place - 2, 0)], roots[min(place + 1, roots.size - 1)], more + 2)[1:-1])
    # Where a loss jumps, no slope says what lies between: the jump is halved until it is one, or the loss is met.
    wanted, near = float(loss.values.mean()), _NEAR * math.sqrt(float(loss.readings.mean()))
    for _ in range(_HALVINGS):
        means = losses.mean(axis=1)
        crossed = np.flatnonzero((means[:-1] < wanted) != (means[1:] < wanted))
        steep = [place for place in crossed if abs(means[place + 1] - means[place]) > near]
        steep = [place for place in steep if roots[place + 1] - roots[place] > 1.0 / _FINE]
        if not steep:
            break
        take(np.array([0.5 * (roots[place] + roots[place + 1]) for place in steep]))
    return LossCurve(fault, fault.largest * fine**2, PchipInterpolator(roots, losses)(fine))


def needed(curve: LossCurve, loss: LossPairs, doubt: Doubt | None = None) -> Amount:
    """Find how much of a fault a loss asks for."""
    certain = loss.readings + loss.model
    covariance = np.broadcast_to(certain, (*curve.losses.shape, len(loss.values)))
    if doubt is not None:
        covariance = certain + doubt.along(curve.losses)
    residuals = loss.values - curve.losses
    misfit = np.einsum("ij,ijk,ik->i", residuals, np.linalg.inv(covariance), residuals)
    best = int(np.argmin(misfit))
    # Whether the fault can be large enough at all, the strings taken together; whether it fits each of them is another question.
    most, wanted = float(np.max(curve.losses.mean(axis=1))), float(loss.values.mean())
    reaches = 0 < best < _FINE - 1 and most > wanted - 1.96 * math.sqrt(float(certain.sum())) / len(loss.values)
    if not reaches:
        share = min(max(most / wanted, 0.0), 1.0) if wanted > 0.0 else 1.0
        return Amount(value=float(curve.amounts[best]), low=None, high=None, share=share)
    inside = curve.amounts[misfit <= misfit[best] + _CHI_95]
    value, (low, high) = float(curve.amounts[best]), (float(inside[0]), float(inside[-1]))
    # What other laws make of an amount is a factor, and adds to what strings and dimensions leave open as errors do.
    by_law = math.sqrt(_CHI_95) * curve.fault.doubt
    if low > 0.0:
        low = value * math.exp(-math.hypot(math.log(value / low), by_law))
    high = min(value * math.exp(math.hypot(math.log(high / value), by_law)), curve.fault.largest)
    return Amount(value=value, low=low, high=high, share=1.0)


def own_run(
    sound: ShotParameters, loss: LossPairs, ill: Sequence[tuple[Fault, float]], doubts_left: Sequence[Doubt]
) -> list[tuple[float | None, bool]]:
    """For each fault at its amount, run anew: chance of the strings if it did it; whether it loses what each ball lost."""
    speeds = _speeds(sound, loss.strings, [{}, *(_changed(sound, each) for each in ill)])
    found = []
    for lost, doubt in zip(speeds[0] - speeds[1:], doubts_left, strict=True):
        covariance = loss.readings + loss.model + doubt.along(lost[np.newaxis])[0]
        residual = loss.values - lost
        count = residual.size
        misfit = float(residual @ np.linalg.solve(covariance, residual))
        fit = float(gammaincc(0.5 * (count - 1), 0.5 * misfit)) if count > 1 else None
        found.append((fit, bool(np.all(np.abs(residual) <= _NORMAL_99 * np.sqrt(np.diag(covariance))))))
    return found


def mean_loss(sound: ShotParameters, ill: ShotParameters, strings: Sequence[Observation]) -> float:
    """Logarithmic loss of one gun against another, the mean of the strings' balls."""
    healthy, slow = (log_speeds(gun, strings, {}, least_speed=_STUCK) for gun in (sound, ill))
    return float((healthy - slow).mean())


def doubts(sound: ShotParameters, strings: Sequence[Observation], ill: Sequence[tuple[Fault, float]]) -> list[Doubt]:
    """What the tolerances of the gun's dimensions leave open of the loss that each fault makes."""
    steps = _steps(sound)
    guns: list[dict[str, float]] = [{}, *(_changed(sound, each) for each in ill)]
    rows = [changed | {path: changed.get(path, value_at(sound, path)) + step} for changed in guns for path, step in steps.items()]
    speeds = _speeds(sound, strings, [*guns, *rows], tolerance=EFFECT_TOLERANCE)
    effects = speeds[len(guns) :].reshape(len(guns), len(steps), -1) - speeds[: len(guns), np.newaxis, :]
    changes = effects[0] - effects[1:]
    losses = speeds[0] - speeds[1 : len(guns)]
    return [Doubt(lost, change.T @ change) for lost, change in zip(losses, changes, strict=True)]


def _speeds(
    sound: ShotParameters, strings: Sequence[Observation], rows: Sequence[dict[str, float]], *, tolerance: float = 1e-6
) -> Array:
    """Logarithmic speeds of guns that differ from the sound one in a few numbers."""
    moved = sorted({path for row in rows for path in row})
    batch = {path: np.array([row.get(path, value_at(sound, path)) for row in rows], dtype=np.float64) for path in moved}
    return log_speeds(sound, strings, batch, least_speed=_STUCK, tolerance=tolerance)


def _changed(sound: ShotParameters, each: tuple[Fault, float]) -> dict[str, float]:
    """What one amount of a fault changes."""
    fault, amount = each
    return {path: float(column[0]) for path, column in fault_columns(sound, fault, [amount]).items()}


def _steps(sound: ShotParameters) -> dict[str, float]:
    """One tolerance of each dimension, up or, where that is impossible, down."""
    steps = {}
    for path, (low, high) in tolerance_ends(sound).items():
        value = float(value_at(sound, path))
        steps[path] = high - value if high > value else low - value
    steps.pop(WORK.path, None)
    return steps
