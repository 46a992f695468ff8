"""Why a gun shot slower before than after: how much of each single cause would do it, is that believable, and what else shows?

The sound gun is the model matched to the faster string. Each fault of the catalogue is then grown until the model loses what the
strings lost; several ball masses must be lost with one amount. Causes that the strings leave standing are told apart by what they
would do with another ball, or to the sound of the shot.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import PchipInterpolator
from scipy.special import gammaincc

from stripdown.catalogue.faults import Fault, load_faults
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.result import EnergyLedger
from stripdown.core.interior_ballistics.simulate import integrate_shot, integrate_shots
from stripdown.core.parts.conditions import Conditions
from stripdown.errors import InputError
from stripdown.files.gun import Gun
from stripdown.studies.faulty_gun import fault_columns, with_fault
from stripdown.studies.loss_causes import GROWTH_DISCREPANCY, Cause, LossExplanation, Plausibility, Signature
from stripdown.studies.match_chronograph import log_speeds, match_chronograph
from stripdown.studies.observation import Observation, as_observations
from stripdown.studies.telling_tests import telling_tests

Array = NDArray[np.float64]

_SAME_MASS = 0.01
_GRID = 25  # amounts simulated; between them speeds are known to a thousandth
_FINE = 2001
_CHI_95 = 3.841  # 95 % point of chi-square with one degree of freedom
_CONTRADICTED = 0.01
_STUCK = 1.0  # m/s, for a ball that stays in the barrel: it has lost all but a hundredth
# How far the model's own word on a loss may be off in its size, share of the loss (estimate).
_SIZE_DISCREPANCY = 0.03
LIGHT_BALL, HEAVY_BALL = 0.20e-3, 0.40e-3


@dataclass(frozen=True, eq=False, slots=True)
class _Loss:
    """Logarithmic losses at the ball masses that both occasions share."""

    strings: tuple[Observation, ...]
    values: Array
    covariance: Array


def explain_loss(
    gun: Gun,
    *,
    before: Iterable[float | Observation],
    after: Iterable[float | Observation],
    ball_mass: float | None = None,
    distance: float = 0.0,
    conditions: Conditions | None = None,
) -> LossExplanation:
    """Explain the difference between the strings before and after by one cause at a time.

    Parameters
    ----------
    gun
        The sound gun, as loaded from its file.
    before, after
        Observations, or one string of speeds in m/s each.
    ball_mass
        Of bare strings, in kg; None for the ball of the gun's file.
    distance
        Of bare strings: from the muzzle to the middle between the screens, in m.
    conditions
        The day; None is a workshop at 20 °C.

    Returns
    -------
    LossExplanation

    Raises
    ------
    InputError
        If a string is missing, or both occasions share no ball mass.

    Notes
    -----
    One cause at a time: several small ones together do the same, and no string can count them. What is common to all
    strings of a gun cancels in the difference. The interval of an amount is where the misfit rises by the 95 % point.
    """
    if ball_mass is None:
        written = gun.written.get("ball.mass")
        ball_mass = float(written.value) if written is not None and isinstance(written.value, float) else LIGHT_BALL
    first = as_observations(before, ball_mass=ball_mass, distance=distance, what="before")
    second = as_observations(after, ball_mass=ball_mass, distance=distance, what="after")
    loss = _loss(first, second)
    was_gained = float(np.sum(loss.values)) >= 0.0
    if not was_gained:
        loss = _Loss(loss.strings, -loss.values, loss.covariance)
    sound = match_chronograph(gun, strings=second if was_gained else first, conditions=conditions).parameters
    healthy = log_speeds(sound, loss.strings, {})[0]
    reference = integrate_shot(sound)
    sound_signature = _signature(sound, sound)
    causes = []
    for fault in load_faults().values():
        amount, low, high, fit, share = _grow(sound, fault, loss, healthy)
        ill = with_fault(sound, fault, amount)
        ledger = integrate_shot(ill).ledger
        causes.append(
            Cause(
                fault=fault,
                amount=amount,
                low=low,
                high=high,
                plausibility=_plausibility(fault, amount, low, fit),
                share_explained=share,
                fit=fit,
                signature=_signature(sound, ill),
                ledger=ledger,
                carried_off=_carried_off(fault, reference.ledger, ledger),
                returned=reference.ledger.ball_flight - ledger.ball_flight,
            )
        )
    order = list(Plausibility)
    causes.sort(key=lambda cause: (order.index(cause.plausibility), cause.amount / cause.fault.ordinary))
    standing = [cause for cause in causes if cause.stands]
    deviations = np.sqrt(np.diag(loss.covariance))
    tests = telling_tests(sound, sound_signature, standing, [string.ball_mass for string in loss.strings])
    is_certain = bool(np.any(loss.values > 1.96 * deviations))
    return LossExplanation(
        sound_gun=sound,
        was_gained=was_gained,
        loss=tuple((string.ball_mass, 1.0 - math.exp(-value)) for string, value in zip(loss.strings, loss.values, strict=True)),
        is_certain=is_certain,
        causes=tuple(causes),
        sound_signature=sound_signature,
        sound_ledger=reference.ledger,
        tests=tests,
        notes=_notes(loss, standing, is_certain=is_certain, is_past=was_gained and bool(tests)),
    )


def _loss(before: Sequence[Observation], after: Sequence[Observation]) -> _Loss:
    """Losses ln(after/before), one for each pair of strings with the same ball, hop-up and selector; no string counts twice."""
    pairs: list[tuple[Observation, Observation]] = []
    for one in before:
        taken = [two for _, two in pairs]
        partner = next((two for two in after if not any(two is other for other in taken) and _compare(one, two)), None)
        if partner is not None:
            pairs.append((one, partner))
    if not pairs:
        message = "No ball mass was fired both before and after, so nothing can be compared."
        raise InputError(message, field="ball_mass", hint="Fire the same weighed balls before and after, hop-up alike.")
    values = np.array([math.log(two.muzzle_speed / one.muzzle_speed) for one, two in pairs])
    own = np.array([one.relative_error**2 + two.relative_error**2 for one, two in pairs])
    # Each occasion's instrument error is common to its strings and does not cancel between two days.
    shared = sum(
        np.outer(part, part)
        for part in (
            np.array([one.common_uncertainty / one.muzzle_speed for one, _ in pairs]),
            np.array([two.common_uncertainty / two.muzzle_speed for _, two in pairs]),
        )
    )
    size = _SIZE_DISCREPANCY * values
    growth = GROWTH_DISCREPANCY * values * np.log([one.ball_mass / pairs[0][0].ball_mass for one, _ in pairs])
    covariance = np.diag(own + 1e-8) + shared + np.outer(size, size) + np.outer(growth, growth)
    return _Loss(tuple(two for _, two in pairs), values, covariance)


def _compare(one: Observation, two: Observation) -> bool:
    """Whether two strings were fired alike; what one of them does not say is taken to be alike."""
    return (
        abs(one.ball_mass / two.ball_mass - 1.0) <= _SAME_MASS
        and (one.hop is two.hop or None in (one.hop, two.hop))
        and (one.fire_mode is two.fire_mode or None in (one.fire_mode, two.fire_mode))
    )


def _grow(
    sound: ShotParameters, fault: Fault, loss: _Loss, healthy: Array
) -> tuple[float, float | None, float | None, float | None, float]:
    """Amount, its interval, chance of the fit, and share of the loss explained."""
    grid = fault.largest * np.linspace(0.0, 1.0, _GRID) ** 2
    lost = healthy - log_speeds(sound, loss.strings, fault_columns(sound, fault, grid), least_speed=_STUCK)
    fine = np.linspace(0.0, 1.0, _FINE)
    curves = PchipInterpolator(np.linspace(0.0, 1.0, _GRID), lost)(fine)
    amounts = fault.largest * fine**2
    residuals = loss.values - curves
    precision = np.linalg.inv(loss.covariance)
    misfit = np.einsum("ij,jk,ik->i", residuals, precision, residuals)
    best = int(np.argmin(misfit))
    freedom = len(loss.values) - 1
    fit = float(gammaincc(0.5 * freedom, 0.5 * misfit[best])) if freedom else None
    weights = precision.sum(axis=1)
    most, wanted = float(np.max(curves @ weights)), float(loss.values @ weights)
    # The variance of the weighted loss is the sum of its weights.
    reaches = 0 < best < _FINE - 1 and most > wanted - 1.96 * math.sqrt(float(np.sum(weights)))
    if not reaches:
        share = min(max(most / wanted, 0.0), 1.0) if wanted > 0.0 else 1.0
        return float(amounts[best]), None, None, fit, share
    inside = np.flatnonzero(misfit <= misfit[best] + _CHI_95)
    return float(amounts[best]), float(amounts[inside[0]]), float(amounts[inside[-1]]), fit, 1.0


def _plausibility(fault: Fault, amount: float, low: float | None, fit: float | None) -> Plausibility:
    if low is None:
        return Plausibility.NOT_ALONE
    if fit is not None and fit < _CONTRADICTED:
        return Plausibility.CONTRADICTED
    return Plausibility.ORDINARY if amount <= fault.ordinary else Plausibility.LARGE


def _signature(sound: ShotParameters, ill: ShotParameters) -> Signature:
    runs = [
        integrate_shots(parameters, variations={"ball.mass": [LIGHT_BALL, HEAVY_BALL]}, tolerance=1e-6).rows
        for parameters in (sound, ill)
    ]
    (light_sound, heavy_sound), (light, heavy) = (run["muzzle_speed"] for run in runs)
    home_sound, home = (float(run["time_to_slam"][0]) for run in runs)
    muzzle = float(runs[1]["time_to_muzzle"][0])
    return Signature(
        light_loss=float(1.0 - light / light_sound),
        heavy_loss=float(1.0 - heavy / heavy_sound),
        piston_home_shift=home - home_sound if min(home, home_sound) >= 0.0 else None,
        muzzle_to_slam=home - muzzle if min(home, muzzle) >= 0.0 else None,
    )


def _carried_off(fault: Fault, sound: EnergyLedger, ill: EnergyLedger) -> float:
    change = float(getattr(ill, fault.entry)) - float(getattr(sound, fault.entry))
    return -change if fault.entry == "put_in" else change


def _notes(loss: _Loss, standing: Sequence[Cause], *, is_certain: bool, is_past: bool) -> tuple[str, ...]:
    notes = ["One cause at a time: several small ones together do the same, and no string can count them."]
    if not is_certain:
        notes.append("The difference between the strings is within its uncertainty: there may be nothing to explain.")
    if len(loss.values) == 1:
        notes.append("One ball mass tells amounts, not causes: nearly every cause fits it.")
    if is_past:
        notes.append("The work is done, so what would tell the causes apart is for the next gun that comes in like this one.")
    if not standing:
        notes.append("No single fault of the catalogue explains the loss: look for two at once, or for a wrong reading.")
    return tuple(notes)
