"""Whether a gun keeps to a limit: three numbers under three names, and a state that a measurement and a forecast never share."""

from __future__ import annotations

import enum
import math
from collections.abc import Collection, Iterable, Mapping
from typing import Annotated, Final

import numpy as np

from stripdown.core.mechanics.ball_drag import AIR_AT_20_CELSIUS, BallFlight
from stripdown.core.shot_statistics.chronograph import CHRONOGRAPH_AS_READ, Chronograph
from stripdown.core.shot_statistics.conditions import FireMode
from stripdown.core.shot_statistics.distributions import normal_quantile
from stripdown.core.shot_statistics.limits import EnergyLimit
from stripdown.core.shot_statistics.moments import Centred, centre, check_uncertainty, finite_numbers
from stripdown.core.shot_statistics.next_shot import NextShot
from stripdown.core.shot_statistics.reading import check_ball_mass, check_distance, move_speeds, relative_uncertainty_at
from stripdown.core.shot_statistics.set_aside import keep
from stripdown.core.shot_statistics.signs import Unsteady, look_for_signs
from stripdown.core.shot_statistics.tolerance import tolerance_factor
from stripdown.core.shot_statistics.verdict_notes import verdict_notes
from stripdown.quantities import Q, check, parameters


class MeasuredState(enum.Enum):
    """What a measured string says of a limit."""

    UNDER = "under the limit"
    CLOSE = "too near the limit to tell"
    OVER = "over the limit"
    UNSAID = "cannot be said"


class FireNext(enum.Enum):
    """What to fire next, so that more can be said."""

    TEN_SHOTS = "ten shots where there was one"
    MORE_SHOTS = "as many shots again"
    UNTIL_STEADY = "until two strings of ten agree"
    AFTER_THE_CAUSE = "ten shots, once the cause of the heaps is found"
    THIRTY_SHOTS = "thirty shots in one string"


@parameters
class DecisionRule:
    """How sure one must be before a gun counts as under a limit."""

    accepted_chance: Annotated[
        float, Q("1", low=1e-6, high=0.5, usual=(0.001, 0.05), label="accepted chance that the next shot exceeds", shown="%")
    ] = 0.025
    content: Annotated[
        float, Q("1", low=0.5, high=0.9999, usual=(0.9, 0.99), label="share of shots under the bound", shown="%")
    ] = 0.95
    confidence: Annotated[float, Q("1", low=0.5, high=0.9999, usual=(0.9, 0.99), label="confidence of the bound", shown="%")] = (
        0.95
    )


USUAL_RULE: Final = DecisionRule()


@parameters
class LimitVerdict:
    """A measured string against a limit, at the limit's measuring point; None where a single shot says nothing.

    Three numbers under three names. The mean is the middle of the string: it never decides that a gun is under. The
    tolerance bound has the stated share of all shots under it, with the stated confidence, instrument included. The
    chance is that of the next shot. The guard band is the limit less the energy of the fastest mean at which, with
    the same scatter, that chance would just be accepted.
    """

    state: MeasuredState
    unsteady: tuple[Unsteady, ...]
    """Signs that the next shot may not be what the shots so far say of it: with one of them no string is under."""
    fire_next: FireNext | None
    """What would let more be said; None where it is said, or where more shots would not change it."""
    limit: EnergyLimit
    ball_mass: Annotated[float, Q("kg", label="mass of the ball", shown="g")]
    fire_mode: FireMode | None
    measuring_distance: Annotated[float, Q("m", label="measuring point, from the muzzle")]
    limit_energy: Annotated[float, Q("J", label="limit for this ball")]
    limit_speed: Annotated[float, Q("m/s", label="limit for this ball, as a speed")]
    count: Annotated[int, Q("1", label="shots counted")]
    shots_over: Annotated[int, Q("1", label="shots over the limit")]
    mean_speed: Annotated[float, Q("m/s", label="mean speed")]
    mean_energy: Annotated[float, Q("J", label="mean energy")]
    tolerance_speed: Annotated[float | None, Q("m/s", label="tolerance bound, as a speed")]
    tolerance_energy: Annotated[float | None, Q("J", label="tolerance bound")]
    chance_next_exceeds: Annotated[float | None, Q("1", label="chance that the next shot exceeds", shown="%")]
    acceptance_energy: Annotated[float | None, Q("J", label="highest mean that is still under")]
    guard_band: Annotated[float | None, Q("J", label="guard band")]
    common_uncertainty: Annotated[
        float, Q("m/s", label="standard uncertainty alike for all shots: instrument, way to the measuring point, ball mass")
    ]
    rule: DecisionRule
    notes: tuple[str, ...]


def limit_verdict(
    speeds: Iterable[float],
    *,
    ball_mass: float,
    limit: EnergyLimit | float,
    distance: float | None = None,
    chronograph: Chronograph = CHRONOGRAPH_AS_READ,
    flight: BallFlight = AIR_AT_20_CELSIUS,
    ball_mass_uncertainty: float = 0.0,
    fire_mode: FireMode | None = None,
    set_aside: Mapping[int, str] | None = None,
    rule: DecisionRule = USUAL_RULE,
) -> LimitVerdict:
    """Hold a measured string against a limit.

    Parameters
    ----------
    speeds
        Readings above zero, in m/s, all with the same ball and on the same selector position.
    ball_mass
        In kg.
    limit
        The limit; a bare number is an energy in J whose measuring point was not said.
    distance
        From the muzzle to the middle between the screens, in m; None if not said, then the readings are taken to stand
        at the limit's measuring point.
    chronograph
        Bias and uncertainty of the instrument; without it readings are used as they stand.
    flight
        Diameter of the ball, and the air.
    ball_mass_uncertainty
        Standard uncertainty of the mass in kg.
    fire_mode
        Selector position; None if not said. Semi and automatic are judged apart, a string each.
    set_aside
        Reason by place (from 0) for shots that are not to be counted.
    rule
        How sure one must be.

    Returns
    -------
    LimitVerdict

    Raises
    ------
    OutOfRange
        Without a reading, for an impossible one, or an impossible mass, distance or limit.
    OutsideValidity
        If the ball is too fast for the drag law.

    Notes
    -----
    Over: a shot exceeds the limit (as one does whenever the mean does). Under: no shot exceeds it, the chance that the
    next one does is accepted (the mean lies below the guard band), the tolerance bound is under the limit, and the shots
    neither drift nor fall into two heaps nor have a fast tail: the three numbers suppose that. Close: anything else.
    Unsaid: a single shot, not over.
    The tolerance bound adds ``k·s`` and ``z·u`` straight, which errs to the safe side. A limit that does not say where
    it is measured is held at the muzzle, where the ball is fastest.

    References
    ----------
    jcgm_106, sections 7 and 8.3.2; nist_handbook, section 7.2.6.3.
    """
    check_ball_mass(ball_mass)
    check_uncertainty("ball_mass_uncertainty", ball_mass_uncertainty)
    check(chronograph)
    check(rule)
    meant = limit if isinstance(limit, EnergyLimit) else EnergyLimit(name="limit without a measuring point", energy=float(limit))
    point = meant.measuring_distance or 0.0
    stood = point if distance is None else distance
    check_distance(stood)
    kept = keep(finite_numbers(speeds, field="speeds"), set_aside)
    read = centre(tuple(value - chronograph.bias for value in kept.values))
    moved = move_speeds(
        np.array(read.values), ball_mass=ball_mass, start=stood, end=point, chronograph=chronograph, flight=flight
    )
    sample = centre(tuple(float(speed) for speed in moved))
    relative = relative_uncertainty_at(
        read.mean,
        scatter=read.standard_deviation,
        ratio=sample.mean / read.mean,
        ball_mass=ball_mass,
        chronograph=chronograph,
        flight=flight,
    )
    # a heavier ball has more energy at the same speed: half its share counts like a share of speed
    common = sample.mean * math.hypot(relative, 0.5 * ball_mass_uncertainty / ball_mass)
    limit_speed = meant.speed_for(ball_mass, flight.ball_diameter)
    chance, tolerance, acceptance = _three_numbers(sample, common, limit_speed, rule)
    mean_speed_squared = sample.mean**2 + sample.sum_of_squares * sample.scale**2 / sample.count
    shots_over = sum(speed > limit_speed for speed in sample.values)
    limit_energy = meant.energy_for(flight.ball_diameter)

    def energy(speed: float | None) -> float | None:
        return None if speed is None else 0.5 * ball_mass * speed * abs(speed)

    acceptance_energy = energy(acceptance)
    # of the readings as they were shown, whose steps are known; moving them changes neither order nor shape
    unsteady = look_for_signs(read, resolution=chronograph.resolution).unsteady
    state = _state(chance=chance, tolerance=tolerance, shots_over=shots_over, limit_speed=limit_speed, rule=rule)
    if state is MeasuredState.UNDER and unsteady:
        state = MeasuredState.CLOSE
    return LimitVerdict(
        state=state,
        unsteady=unsteady,
        fire_next=_fire_next(state, unsteady, sample, common, limit_speed=limit_speed, rule=rule),
        limit=meant,
        limit_energy=limit_energy,
        limit_speed=limit_speed,
        measuring_distance=point,
        ball_mass=ball_mass,
        fire_mode=fire_mode,
        count=sample.count,
        mean_speed=sample.mean,
        mean_energy=0.5 * ball_mass * mean_speed_squared,
        tolerance_speed=tolerance,
        tolerance_energy=energy(tolerance),
        chance_next_exceeds=chance,
        acceptance_energy=acceptance_energy,
        guard_band=None if acceptance_energy is None else limit_energy - acceptance_energy,
        shots_over=shots_over,
        common_uncertainty=common,
        rule=rule,
        notes=verdict_notes(
            sample,
            kept,
            unsteady,
            limit=meant,
            ball_mass=ball_mass,
            distance=distance,
            chronograph=chronograph,
            fire_mode=fire_mode,
        ),
    )


def _three_numbers(
    sample: Centred, common: float, limit_speed: float, rule: DecisionRule
) -> tuple[float | None, float | None, float | None]:
    """Chance that the next shot exceeds, tolerance bound, and the fastest acceptable mean, both in m/s."""
    deviation = sample.standard_deviation
    if deviation is None:
        return None, None, None
    shot = NextShot(mean=sample.mean, standard_deviation=deviation, count=sample.count, common_uncertainty=common)
    factor = tolerance_factor(sample.count, content=rule.content, confidence=rule.confidence, sides=1)
    bound = sample.mean + factor * deviation + normal_quantile(rule.confidence) * common
    return shot.chance_above(limit_speed), bound, limit_speed - shot.offset(rule.accepted_chance)


def _state(
    *, chance: float | None, tolerance: float | None, shots_over: int, limit_speed: float, rule: DecisionRule
) -> MeasuredState:
    if shots_over > 0:
        return MeasuredState.OVER
    if chance is None or tolerance is None:
        return MeasuredState.UNSAID
    if chance <= rule.accepted_chance and tolerance <= limit_speed:
        return MeasuredState.UNDER
    return MeasuredState.CLOSE


def _fire_next(
    state: MeasuredState,
    unsteady: Collection[Unsteady],
    sample: Centred,
    common: float,
    *,
    limit_speed: float,
    rule: DecisionRule,
) -> FireNext | None:
    """What would let more be said: the sign that is the worst first; more of the same only where it could end under the limit."""
    if state is MeasuredState.UNSAID:
        return FireNext.TEN_SHOTS
    if state is not MeasuredState.CLOSE:
        return None
    for sign, next_string in _AFTER_A_SIGN.items():
        if sign in unsteady:
            return next_string
    scatter = sample.standard_deviation or 0.0
    # as from a string without end: the scatter is known then, and the instrument is what it was
    chance_bound = sample.mean - normal_quantile(rule.accepted_chance) * math.hypot(scatter, common)
    share_bound = sample.mean + normal_quantile(rule.content) * scatter + normal_quantile(rule.confidence) * common
    return FireNext.MORE_SHOTS if max(chance_bound, share_bound) <= limit_speed else None


_AFTER_A_SIGN: Final = {
    Unsteady.TWO_HEAPS: FireNext.AFTER_THE_CAUSE,
    Unsteady.DRIFT: FireNext.UNTIL_STEADY,
    Unsteady.FAST_TAIL: FireNext.THIRTY_SHOTS,
}
