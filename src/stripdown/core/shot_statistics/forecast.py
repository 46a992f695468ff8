"""A predicted speed against a limit: what is worth firing, and never more than that."""

from __future__ import annotations

import enum
import math
from typing import Annotated

import numpy as np

from stripdown.core.mechanics.ball_drag import AIR_AT_20_CELSIUS, BallFlight, fly
from stripdown.core.shot_statistics.chronograph import CHRONOGRAPH_AS_READ
from stripdown.core.shot_statistics.conformity import probability_of_conformity
from stripdown.core.shot_statistics.limits import EnergyLimit
from stripdown.core.shot_statistics.moments import check_uncertainty
from stripdown.core.shot_statistics.reading import check_ball_mass, relative_uncertainty_at
from stripdown.core.shot_statistics.verdict import USUAL_RULE, DecisionRule
from stripdown.errors import OutOfRange
from stripdown.quantities import Q, parameters


class PredictedState(enum.Enum):
    """What a predicted speed suggests; no member of it allows a gun to be used."""

    WORTH_FIRING = "worth a string: only that can prove it"
    DOUBTFUL = "expected near the limit: prove it with a string before anybody uses it"
    EXPECTED_OVER = "expected over the limit"


@parameters
class LimitForecast:
    """A predicted speed against a limit, at the limit's measuring point."""

    state: PredictedState
    limit: EnergyLimit
    ball_mass: Annotated[float, Q("kg", label="mass of the ball", shown="g")]
    measuring_distance: Annotated[float, Q("m", label="measuring point, from the muzzle")]
    limit_energy: Annotated[float, Q("J", label="limit for this ball")]
    limit_speed: Annotated[float, Q("m/s", label="limit for this ball, as a speed")]
    speed: Annotated[float, Q("m/s", label="predicted mean speed")]
    energy: Annotated[float, Q("J", label="predicted mean energy")]
    energy_standard_uncertainty: Annotated[float, Q("J", label="standard uncertainty of one shot: prediction and scatter")]
    chance_exceeds: Annotated[float, Q("1", label="chance that a shot exceeds, if the prediction holds", shown="%")]
    notes: tuple[str, ...]


def limit_forecast(
    muzzle_speed: float,
    *,
    standard_uncertainty: float,
    scatter: float,
    ball_mass: float,
    limit: EnergyLimit,
    flight: BallFlight = AIR_AT_20_CELSIUS,
    rule: DecisionRule = USUAL_RULE,
) -> LimitForecast:
    """Hold a predicted speed against a limit.

    Parameters
    ----------
    muzzle_speed
        Predicted mean at the muzzle in m/s, above zero.
    standard_uncertainty
        Of that prediction in m/s.
    scatter
        Expected standard deviation from shot to shot in m/s.
    ball_mass
        In kg.
    limit
        The limit; held at the muzzle if it does not say where.
    flight
        Diameter of the ball, and the air.
    rule
        Accepted chance; content and confidence do not enter.

    Returns
    -------
    LimitForecast

    Raises
    ------
    OutOfRange
        For an impossible speed, mass or uncertainty.
    OutsideValidity
        If the ball is too fast for the drag law.

    Notes
    -----
    Normal distribution of one shot, with both uncertainties. There is no state "under the limit" here: only a
    measured string has it.

    References
    ----------
    jcgm_106, section 7.
    """
    check_ball_mass(ball_mass)
    check_uncertainty("standard_uncertainty", standard_uncertainty)
    check_uncertainty("scatter", scatter)
    if not (math.isfinite(muzzle_speed) and muzzle_speed > 0.0 and scatter >= 0.0):
        raise OutOfRange(
            f"A predicted speed of {muzzle_speed:g} m/s with scatter {scatter:g} m/s is impossible.",
            field="muzzle_speed",
            value=muzzle_speed,
            unit="m/s",
            limits=(0.0, None),
            hint="Speed above zero, scatter zero or more.",
        )
    point = limit.measuring_distance or 0.0
    speed = float(fly(np.array([muzzle_speed]), point, ball_mass=ball_mass, flight=flight)[0][0])
    ratio = speed / muzzle_speed
    way = relative_uncertainty_at(
        speed, scatter=None, ratio=ratio, ball_mass=ball_mass, chronograph=CHRONOGRAPH_AS_READ, flight=flight
    )
    uncertainty = math.hypot(standard_uncertainty * ratio, scatter * ratio, way * speed)
    limit_speed = limit.speed_for(ball_mass, flight.ball_diameter)
    chance = 1.0 - probability_of_conformity(value=speed, standard_uncertainty=uncertainty, upper=limit_speed)
    if chance > 0.5:
        state = PredictedState.EXPECTED_OVER
    else:
        state = PredictedState.WORTH_FIRING if chance <= rule.accepted_chance else PredictedState.DOUBTFUL
    return LimitForecast(
        state=state,
        limit=limit,
        limit_energy=limit.energy_for(flight.ball_diameter),
        limit_speed=limit_speed,
        measuring_distance=point,
        ball_mass=ball_mass,
        speed=speed,
        energy=0.5 * ball_mass * speed**2,
        energy_standard_uncertainty=ball_mass * speed * uncertainty,
        chance_exceeds=chance,
        notes=("Predicted, not measured: only a string on a chronograph shows whether the gun keeps to the limit.",),
    )
