"""Which ball for this gun: creep from the shot, carry from the flight, the limit from the verdict?"""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, Final

import numpy as np

from stripdown.bench.completion import complete
from stripdown.bench.gun import Assumed, Gun
from stripdown.bench.strings import ChronographSession
from stripdown.core.exterior_ballistics import FlightLaws, FlightParameters, Launch, Sphere, Wind, integrate_flight
from stripdown.core.mechanics.ball_drag import BallFlight
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics import EnergyLimit, HopState, energy_limit_at
from stripdown.errors import InputError, OutOfRange, OutsideValidity
from stripdown.quantities import Q, check_value
from stripdown.studies.hop_setting import HopSetting, furthest_hop
from stripdown.studies.match_chronograph import predict_speeds
from stripdown.studies.muzzle import air_of, ball_flight
from stripdown.studies.session_answers import SessionVerdict, study_verdict
from stripdown.studies.verdict import MOST_BALLS, BallVerdict
from stripdown.studies.whole_gun import simulate_shots

CHOICE_BALLS: Final = (0.20e-3, 0.23e-3, 0.25e-3, 0.28e-3, 0.30e-3, 0.32e-3, 0.36e-3, 0.40e-3, 0.43e-3, 0.48e-3)
WINDOW: Final = 0.15
"""Half the height of a target that one hits without holding over, in m: common practice, no source."""
LOOKED_AT: Final = 30.0
"""Distance in m at which balls are compared."""
WIND: Final = 2.0
"""Cross wind in m/s in which they are compared: a leaf moves."""
_WINDOW: Final = Q("m", low=0.01, high=2, usual=(0.05, 0.5), label="greatest distance from the line of the sights")


@dataclass(frozen=True, slots=True, kw_only=True)
class BallOfChoice:
    """One ball of this gun.

    Parameters
    ----------
    ball_mass
        In kg.
    speed, energy
        At the muzzle, in m/s and J; zero where it does not leave.
    is_measured
        Whether a string was fired with it.
    speed_uncertainty
        Standard uncertainty of the speed as matched to strings, in m/s; None for a prediction from the file alone.
    hop
        Hop setting that carries it furthest within the window; None where it does not leave or never gets into it.
    energy_there, time_there, drift_there
        At the distance looked at, in J, s and m; None where it is down before.
    limit_at_muzzle
        The limit brought from its measuring point to the muzzle for this ball, in J; None without a limit.
    verdicts
        What is known of it against the limit: one for each selector position; empty without a limit or a string.
    """

    ball_mass: Annotated[float, Q("kg", label="mass of the ball", shown="g")]
    speed: Annotated[float, Q("m/s", label="muzzle speed")]
    energy: Annotated[float, Q("J", label="muzzle energy")]
    is_measured: bool
    speed_uncertainty: float | None
    hop: HopSetting | None
    energy_there: float | None
    time_there: float | None
    drift_there: float | None
    limit_at_muzzle: float | None
    verdicts: tuple[BallVerdict, ...]


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class BallChoice:
    """Balls of one gun, side by side.

    Parameters
    ----------
    gun
        As written.
    assumed
        What it leaves out.
    balls
        By mass.
    window
        Greatest distance from the line of the sights, in m.
    looked_at
        Distance at which they are compared, in m.
    wind
        Cross wind in which they are compared, in m/s.
    limit
        Against which they are held; None if none was named.
    verdict
        What strings prove; None without strings or limit.
    """

    gun: Gun
    assumed: tuple[Assumed, ...]
    balls: tuple[BallOfChoice, ...]
    window: Annotated[float, Q("m", label="window about the line of the sights", shown="cm")]
    looked_at: Annotated[float, Q("m", label="distance looked at")]
    wind: Annotated[float, Q("m/s", label="cross wind")]
    limit: EnergyLimit | None
    verdict: SessionVerdict | None


def study_balls(
    gun: Gun,
    *,
    ball_masses: Sequence[float] = CHOICE_BALLS,
    window: float = WINDOW,
    looked_at: float = LOOKED_AT,
    cross_wind: float = WIND,
    sight_height: float = 0.06,
    session: ChronographSession | None = None,
    limit: EnergyLimit | None = None,
    can_fire_automatic: bool | None = None,
    conditions: Conditions | None = None,
) -> BallChoice:
    """Compare balls in one gun, each with the hop setting that carries it furthest within a window.

    Parameters
    ----------
    gun
        As loaded from its file.
    ball_masses
        In kg.
    window
        Greatest distance of the ball from the line of the sights, in m.
    looked_at
        Distance in m at which energy, time and drift are compared.
    cross_wind
        In m/s.
    sight_height
        Of the sights over the barrel, in m.
    session
        Strings of readings; None leaves the predictions of the gun's file.
    limit
        Energy limit; None if there is none to hold against. It needs a session: nothing is proved by a prediction.
    can_fire_automatic
        Whether the gun can fire more than one shot for one pull; None if not said.
    conditions
        The day; None is a workshop at 20 °C.

    Returns
    -------
    BallChoice

    Raises
    ------
    InputError
        For no ball, or strings that cannot be held against the limit.
    OutOfRange
        For an impossible value.

    Notes
    -----
    Each ball has its own hop setting, so no law of lift decides: only the lift that holds it up matters, and every law gives
    that at some spin. Which backspin that is, is an estimate. The speed is that of the present setting.
    """
    masses = np.array(sorted(set(ball_masses)), dtype=np.float64)
    if not 0 < masses.size <= MOST_BALLS:
        raise InputError("Name one to sixty balls.", field="ball_masses", hint="Give masses such as 0.20 g, 0.25 g, 0.28 g.")
    check_value("window", window, _WINDOW)
    batch = simulate_shots(gun, variations={"ball.mass": masses}, conditions=conditions, until_muzzle=True)
    speeds, fired = batch.muzzle_speed.copy(), [False] * masses.size
    uncertainties: list[float | None] = [None] * masses.size
    verdict = None
    if session is not None and limit is not None:
        verdict = study_verdict(
            gun,
            session,
            limit=limit,
            ball_masses=tuple(float(mass) for mass in masses),
            can_fire_automatic=can_fire_automatic,
            day=conditions,
        )
        _as_fired(verdict, masses, speeds, uncertainties, fired)
    ball, air = complete(gun, conditions=conditions), air_of(conditions)
    found = []
    for index, mass in enumerate(masses):
        flown = FlightParameters(
            ball=Sphere(mass=float(mass), diameter=ball.parameters.ball.diameter),
            launch=Launch(z=1.5, speed_x=max(float(speeds[index]), 1e-3), spin_y=-float(batch.rows["backspin"][index])),
            air=air,
            wind=Wind(),
            laws=FlightLaws(),
        )
        hop = None if speeds[index] <= 0.0 else _hop(flown, window, sight_height)
        there = (None, None, None) if hop is None else _there(hop.parameters, looked_at, cross_wind)
        found.append(
            BallOfChoice(
                ball_mass=float(mass),
                speed=float(speeds[index]),
                energy=0.5 * float(mass) * float(speeds[index]) ** 2,
                is_measured=fired[index],
                speed_uncertainty=uncertainties[index],
                hop=hop,
                energy_there=there[0],
                time_there=there[1],
                drift_there=there[2],
                limit_at_muzzle=None if limit is None else _at_muzzle(limit, float(mass), ball_flight(ball, air)),
                verdicts=() if verdict is None else _verdicts(verdict, float(mass)),
            )
        )
    return BallChoice(
        gun=gun,
        assumed=ball.assumed,
        balls=tuple(found),
        window=window,
        looked_at=looked_at,
        wind=cross_wind,
        limit=limit,
        verdict=verdict,
    )


def _at_muzzle(limit: EnergyLimit, mass: float, flight: BallFlight) -> float:
    energy, place = limit.energy_for(flight.ball_diameter), limit.measuring_distance or 0.0
    return energy_limit_at(energy, ball_mass=mass, measured_at=place, distance=0.0, flight=flight).energy


def _as_fired(
    verdict: SessionVerdict, masses: np.ndarray, speeds: np.ndarray, uncertainties: list[float | None], fired: list[bool]
) -> None:
    """Put what strings say in place of what the file predicts."""
    match = verdict.verdict.match
    if match is not None:
        hop = HopState.OFF if {one.hop for one in match.strings} == {HopState.OFF} else None
        expected = predict_speeds(match, ball_masses=tuple(float(mass) for mass in masses), hop=hop)
        speeds[:] = expected.muzzle_speed
        uncertainties[:] = [float(one) for one in expected.standard_uncertainty]
    for index, mass in enumerate(masses):
        fired[index] = any(one.measured is not None for one in _verdicts(verdict, float(mass)))


def _verdicts(verdict: SessionVerdict, mass: float) -> tuple[BallVerdict, ...]:
    return tuple(one for one in verdict.verdict.balls if abs(one.ball_mass / mass - 1.0) <= 0.01)


def _hop(flown: FlightParameters, window: float, sight_height: float) -> HopSetting | None:
    try:
        return furthest_hop(flown, window=window, sight_height=sight_height)
    except InputError:
        return None


def _there(flown: FlightParameters, place: float, cross_wind: float) -> tuple[float | None, float | None, float | None]:
    """Energy, time and drift in a cross wind at a distance."""
    try:
        calm = integrate_flight(flown, extrapolate=True)
        blown = integrate_flight(dataclasses.replace(flown, wind=Wind(across=cross_wind)), extrapolate=True)
        state = calm.at_distance(place)
        return calm.energy(state), state.time, abs(blown.at_distance(place).position[1])
    except (OutOfRange, OutsideValidity):
        return None, None, None
