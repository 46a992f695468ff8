"""Does a gun keep to a limit with every ball that a player may bring: measured where fired, predicted where not?

A measured string can say under, close or over. A prediction never says under: it names the balls that are worth firing.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from stripdown.bench.gun import Gun
from stripdown.core.mechanics.ball_drag import AIR_AT_20_CELSIUS, BallFlight
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics import (
    Chronograph,
    DecisionRule,
    EnergyLimit,
    FireMode,
    HopState,
    LimitForecast,
    LimitVerdict,
    MeasuredState,
    PredictedState,
    StringConditions,
    limit_forecast,
    limit_verdict,
)
from stripdown.core.shot_statistics.chronograph import CHRONOGRAPH_AS_READ
from stripdown.core.shot_statistics.verdict import USUAL_RULE
from stripdown.errors import InputError
from stripdown.studies.match_chronograph import ChronographMatch, SecondBall, SpeedPrediction, match_chronograph, predict_speeds
from stripdown.studies.observation import Observation, instrument_for, observe

# Balls that players bring (common practice, no source).
USUAL_BALLS = (0.12e-3, 0.20e-3, 0.23e-3, 0.25e-3, 0.28e-3, 0.30e-3, 0.32e-3, 0.36e-3, 0.40e-3, 0.43e-3, 0.48e-3)
MOST_BALLS = 60
_SAME_MASS = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class FiredString:
    """A string as it was fired and read.

    Parameters
    ----------
    speeds
        Readings in m/s.
    conditions
        Ball, hop-up, selector, distance, temperature, occasion.
    set_aside
        Reason by place (from 0) for shots that are not to be counted.
    resolution
        Smallest step of the readings as they were written, in m/s; 0 if not known.
    key
        By which its verdict names it; empty if nobody asks.
    """

    speeds: tuple[float, ...]
    conditions: StringConditions
    set_aside: Mapping[int, str] = field(default_factory=dict)
    resolution: float = 0.0
    key: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BallVerdict:
    """One ball mass on one selector position: exactly one of the two is there.

    Parameters
    ----------
    ball_mass
        In kg.
    fire_mode
        Selector position; None if not said.
    measured
        From a string with this ball.
    predicted
        From the model matched to the strings that were fired.
    string
        Key of the string that it was measured from; empty for a prediction, and for a string without a key.
    """

    ball_mass: float
    fire_mode: FireMode | None
    measured: LimitVerdict | None
    predicted: LimitForecast | None
    string: str = ""

    @property
    def key(self) -> str:
        """The ball in whole micrograms, and the selector position if it was said."""
        mode = "" if self.fire_mode is None else f"_{self.fire_mode.name.lower()}"
        return f"ball_{round(self.ball_mass * 1e9)}{mode}"


@dataclass(frozen=True, slots=True, kw_only=True)
class GunVerdict:
    """A gun against one limit.

    Parameters
    ----------
    limit
        The limit.
    balls
        By selector position, then by mass.
    worth_firing
        Masses in kg that no string has proved, nearest to the limit first.
    match
        The model behind the predictions; None if nothing had to be predicted.
    second
        A ball whose string would at least halve what is open of the others; None if there is none.
    notes
        Sentences that must stand beside the numbers.
    """

    limit: EnergyLimit
    balls: tuple[BallVerdict, ...]
    worth_firing: tuple[float, ...]
    match: ChronographMatch | None
    second: SecondBall | None = None
    notes: tuple[str, ...]

    @property
    def state(self) -> MeasuredState:
        """The worst that a string has shown; under only when every ball asked for was fired and is under."""
        measured = [ball.measured.state for ball in self.balls if ball.measured is not None]
        if MeasuredState.OVER in measured:
            return MeasuredState.OVER
        if MeasuredState.CLOSE in measured:
            return MeasuredState.CLOSE
        if not measured or MeasuredState.UNSAID in measured or len(measured) < len(self.balls):
            return MeasuredState.UNSAID
        return MeasuredState.UNDER


def gun_verdict(
    gun: Gun,
    *,
    strings: Sequence[FiredString],
    limit: EnergyLimit,
    ball_masses: Sequence[float] = USUAL_BALLS,
    can_fire_automatic: bool | None = None,
    chronograph: Chronograph = CHRONOGRAPH_AS_READ,
    ball_mass_uncertainty: float = 0.0,
    flight: BallFlight = AIR_AT_20_CELSIUS,
    conditions: Conditions | None = None,
    rule: DecisionRule = USUAL_RULE,
) -> GunVerdict:
    """Hold a gun against a limit with every ball that a player may bring.

    Parameters
    ----------
    gun
        As loaded from its file.
    strings
        Fired after the work, at least one, each with its ball mass.
    limit
        The limit.
    ball_masses
        In kg; those that were fired are judged by their strings, the others by the model.
    can_fire_automatic
        Whether the gun can fire more than one shot for one pull; None if not said.
    chronograph
        Bias and uncertainty of the instrument.
    ball_mass_uncertainty
        Standard uncertainty of the mass of each ball, in kg.
    flight
        Diameter of the ball, and the air.
    conditions
        The day of the strings; None is a workshop at 20 °C.
    rule
        How sure one must be.

    Returns
    -------
    GunVerdict

    Raises
    ------
    InputError
        Without a string, or for one that does not say its ball.

    Notes
    -----
    The largest scatter of the strings is taken for the balls that were not fired. Semi and automatic stay apart.
    A string that does not say where it was read is taken to stand at the limit's measuring point, for what it proves
    and for what is predicted from it.
    """
    if not strings:
        message = "There is no string fired after the work, so nothing can be said about the limit."
        raise InputError(message, field="after", hint="Fire ten shots over a chronograph after closing the box.")
    if len(ball_masses) > MOST_BALLS:
        message = f"{len(ball_masses)} masses of balls are more than anybody brings."
        raise InputError(message, field="ball_masses", limits=(0, MOST_BALLS), hint=f"Name at most {MOST_BALLS}.")
    concerned = [
        string
        for string in strings
        if limit.applies(fire_mode=string.conditions.fire_mode, can_fire_automatic=can_fire_automatic) is not False
    ]
    if not concerned:
        message = f"No string was fired in a way that the limit {limit.name!r} is for ({limit.scope.value})."
        raise InputError(message, field="fire_mode", hint="Fire a string on that selector position, or choose another limit.")
    judged: list[BallVerdict] = []
    first_match: ChronographMatch | None = None
    second: SecondBall | None = None
    way = _Way(chronograph, ball_mass_uncertainty, flight)
    for mode in _modes(concerned):
        fired = [string for string in concerned if string.conditions.fire_mode is mode]
        judged += [_measured(string, limit, way, rule) for string in fired]
        known = [_mass(string) for string in fired]
        open_masses = [mass for mass in ball_masses if all(abs(mass / other - 1.0) > _SAME_MASS for other in known)]
        if open_masses:
            observed = [_observation(string, limit, way) for string in fired]
            match = match_chronograph(gun, strings=observed, conditions=conditions)
            first_match = first_match or match
            expected = _expected(match, observed, open_masses)
            second = second or expected.second
            judged += [
                BallVerdict(ball_mass=forecast.ball_mass, fire_mode=mode, measured=None, predicted=forecast)
                for forecast in _predicted(expected, observed, limit, way, rule=rule)
            ]
    order = (FireMode.SEMI, FireMode.AUTOMATIC, None)
    judged.sort(key=lambda ball: (order.index(ball.fire_mode), ball.ball_mass))
    return GunVerdict(
        limit=limit,
        balls=tuple(judged),
        worth_firing=_worth_firing(judged),
        match=first_match,
        second=second,
        notes=_notes(judged, concerned, strings, limit, can_fire_automatic=can_fire_automatic),
    )


def _modes(strings: Sequence[FiredString]) -> tuple[FireMode | None, ...]:
    return tuple(dict.fromkeys(string.conditions.fire_mode for string in strings))


def _mass(string: FiredString) -> float:
    mass = string.conditions.ball_mass
    if mass is None:
        message = "A string does not say which ball it was fired with."
        raise InputError(message, field="ball_mass", hint="Write the ball's mass beside the string, such as 0.20 g.")
    return mass


@dataclass(frozen=True, slots=True)
class _Way:
    """How a speed got from the muzzle onto the paper."""

    chronograph: Chronograph
    ball_mass_uncertainty: float
    flight: BallFlight


def _measured(string: FiredString, limit: EnergyLimit, way: _Way, rule: DecisionRule) -> BallVerdict:
    mass = _mass(string)
    verdict = limit_verdict(
        string.speeds,
        ball_mass=mass,
        limit=limit,
        distance=string.conditions.distance,
        chronograph=instrument_for(way.chronograph, string.resolution),
        flight=way.flight,
        ball_mass_uncertainty=way.ball_mass_uncertainty,
        fire_mode=string.conditions.fire_mode,
        set_aside=string.set_aside,
        rule=rule,
    )
    mode = string.conditions.fire_mode
    return BallVerdict(ball_mass=mass, fire_mode=mode, measured=verdict, predicted=None, string=string.key)


def _observation(string: FiredString, limit: EnergyLimit, way: _Way) -> Observation:
    stood = string.conditions.distance
    return observe(
        string.speeds,
        ball_mass=_mass(string),
        distance=(limit.measuring_distance or 0.0) if stood is None else stood,
        chronograph=instrument_for(way.chronograph, string.resolution),
        flight=way.flight,
        hop=string.conditions.hop,
        fire_mode=string.conditions.fire_mode,
        set_aside=string.set_aside,
    )


def _expected(match: ChronographMatch, observed: Sequence[Observation], masses: Sequence[float]) -> SpeedPrediction:
    states = {string.hop for string in observed}
    return predict_speeds(match, ball_masses=masses, hop=HopState.OFF if states == {HopState.OFF} else None)


def _predicted(
    expected: SpeedPrediction, observed: Sequence[Observation], limit: EnergyLimit, way: _Way, *, rule: DecisionRule
) -> list[LimitForecast]:
    scatter = max(string.scatter / string.muzzle_speed for string in observed)
    # A heavier ball has more energy at the same speed: half the share of its mass counts like a share of speed.
    shares = np.hypot(expected.standard_uncertainty / expected.muzzle_speed, 0.5 * way.ball_mass_uncertainty / expected.ball_mass)
    return [
        limit_forecast(
            float(speed),
            standard_uncertainty=float(speed * share),
            scatter=scatter * float(speed),
            ball_mass=float(mass),
            limit=limit,
            flight=way.flight,
            rule=rule,
        )
        for mass, speed, share in zip(expected.ball_mass, expected.muzzle_speed, shares, strict=True)
    ]


def _worth_firing(judged: Sequence[BallVerdict]) -> tuple[float, ...]:
    """Masses that only a prediction speaks of, the likeliest to exceed first; what is expected over needs no firing."""
    open_balls = [
        ball.predicted
        for ball in judged
        if ball.predicted is not None and ball.predicted.state is not PredictedState.EXPECTED_OVER
    ]
    open_balls.sort(key=lambda forecast: -forecast.chance_exceeds)
    return tuple(dict.fromkeys(forecast.ball_mass for forecast in open_balls))


def _notes(
    judged: Sequence[BallVerdict],
    concerned: Sequence[FiredString],
    strings: Sequence[FiredString],
    limit: EnergyLimit,
    *,
    can_fire_automatic: bool | None,
) -> tuple[str, ...]:
    notes = []
    if len(concerned) < len(strings):
        notes.append(
            f"{len(strings) - len(concerned)} strings are not what this limit is for ({limit.scope.value}) and do not count."
        )
    unclear = any(
        limit.applies(fire_mode=string.conditions.fire_mode, can_fire_automatic=can_fire_automatic) is None
        for string in concerned
    )
    if unclear:
        notes.append(f"Whether the limit is for this gun was not said ({limit.scope.value}); it is taken to be.")
    if not any(string.conditions.fire_mode is FireMode.AUTOMATIC for string in strings):
        notes.append("No string was fired on automatic: what the gun does there is not known.")
    if any(ball.predicted is not None for ball in judged):
        notes.append("Balls that were not fired are predicted: that is a reason to fire them, never a pass.")
    notes.append("The site's own chronograph and marshal, and local law, decide.")
    return tuple(notes)
