"""Fit a gun's model to its chronograph strings: at most three numbers, the rest at their priors and widening the answer.

Five ball masses hold about two usable numbers, hop-up off and set a third. So one string fits the work put in, strings with two
masses also one loss, and three masses or both hop-up states a third number. Whatever is not fitted stays where the gun's file and
the catalogue have it, with its tolerance, and what that does to the speeds is carried into every answer.
"""

from __future__ import annotations

import dataclasses
import functools
import itertools
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from stripdown.bench.completion import complete
from stripdown.bench.gun import Gun
from stripdown.catalogue.defaults import load_defaults
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.simulate import integrate_shots
from stripdown.core.numerics.read_only import keeps_arrays
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics import HopState
from stripdown.errors import InputError, OutOfRange
from stripdown.quantities import Q, check_rules, leaves, replace_at, value_at
from stripdown.studies.observation import Observation

Array = NDArray[np.float64]

_SOLVER_TOLERANCE = 1e-6
EFFECT_TOLERANCE = 1e-4
"""Of shots of which only what a tolerance changes is wanted: found to a millionth of the speed, at a third of the work."""
_STEP = 0.05  # of a prior standard deviation, for differences
_ITERATIONS = 15
_SETTLED = 1e-3
SLOPE_DISCREPANCY = 0.02
"""What other laws of air, heat and friction make of the slope over ball mass, share of the speed per factor e of mass.

Set on guns of other laws, judged on others yet: docs/validation-explain.md.
"""
MAKE_MASS = 0.009
"""By how much the mean mass of a make of balls differs from what its bag says, share (estimate)."""
MAKE_DIAMETER = load_defaults()["ball.diameter"].tolerance or 0.0
"""The same for its diameter, in m."""
_TWO_MASSES, _THREE_MASSES = 2, 3
_DIAMETER = "ball.diameter"
_SAME_MASS = 0.01  # relative; balls nearer than this count as one mass
_COLLINEAR = 0.95
_HALF = 0.5
_HARDLY_LEARNT = 0.9  # of the prior's spread is left


@dataclass(frozen=True, slots=True, kw_only=True)
class Fittable:
    """A number that a fit may move: ``value·exp(spread·z)``, or ``value + spread·z`` if not logarithmic, z a standard normal."""

    name: str
    path: str
    spread: float
    logarithmic: bool
    floor: float = 0.0


# Spreads: what goes in may be a fifth more or less than written (spring, drag and what acts like them), leaks differ by factors,
# drilled nozzles by 0.05 (estimates).
WORK = Fittable(name="work of the spring", path="spring.rate", spread=0.20, logarithmic=True)
LOSS = Fittable(name="leak at the cylinder", path="leaks.piston_seal", spread=1.2, logarithmic=True, floor=0.1e-6)
NOZZLE = Fittable(name="flow through the nozzle", path="nozzle.discharge_coefficient", spread=0.05, logarithmic=False)
HOP = Fittable(name="force of the hop-up", path="hop_up.normal_force", spread=0.7, logarithmic=True, floor=0.1)


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedNumber:
    """One fitted number."""

    name: str
    path: str
    quantity: Q
    start: float
    value: float
    low: float
    high: float
    learnt: float


@keeps_arrays
@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class ChronographMatch:
    """A gun's model after the fit.

    Parameters
    ----------
    parameters
        With the fitted numbers in place.
    fitted
        One to three.
    correlation
        Of the fitted numbers, shape (k, k), each a pure number from -1 to 1.
    strings
        What was fitted to.
    predicted
        Muzzle speed of the model with the fitted numbers alone, for each string, in m/s, shape (n,).
    misfit
        Sum of squared residuals over their full uncertainty, a pure number; about n if the model holds.
    notes
        What the strings cannot tell apart.
    numbers
        Which numbers were fitted, and their priors.
    places
        Where they ended, in prior standard deviations, shape (k,).
    """

    parameters: ShotParameters
    fitted: tuple[FittedNumber, ...]
    correlation: Array
    strings: tuple[Observation, ...]
    predicted: Array
    misfit: float
    notes: tuple[str, ...]
    numbers: tuple[Fittable, ...]
    places: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class SecondBall:
    """A ball whose string would at least halve what is open of the others.

    Parameters
    ----------
    ball_mass
        In kg.
    open_now, open_then
        Standard uncertainty of a mean speed, the middle of all balls asked for, as a share, without such a string and with it.
    """

    ball_mass: float
    open_now: float
    open_then: float


@keeps_arrays
@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class SpeedPrediction:
    """Speeds that a fitted model expects, shape (n,) each, in m/s; `second` is a ball that would halve what is open."""

    ball_mass: Array
    muzzle_speed: Array
    standard_uncertainty: Array
    second: SecondBall | None


def match_chronograph(gun: Gun, *, strings: Sequence[Observation], conditions: Conditions | None = None) -> ChronographMatch:
    """Fit a gun's model to its strings.

    Parameters
    ----------
    gun
        As loaded from its file.
    strings
        At least one, brought to the muzzle by `observe`.
    conditions
        The day; None is a workshop at 20 °C.

    Returns
    -------
    ChronographMatch

    Raises
    ------
    InputError
        Without a string, or if the model's ball does not leave the barrel.

    Notes
    -----
    Gauss–Newton on the logarithm of speed with normal priors; the tolerances of all numbers that are not fitted, and a
    discrepancy in the slope over ball mass, enter as correlated noise. Strings are taken to be of one day: what the
    instrument adds to all alike is one error, not many.
    """
    if not strings:
        message = "There is no string to fit to."
        raise InputError(message, field="strings", hint="Fire ten shots over a chronograph.")
    base = complete(gun, conditions=conditions).parameters
    numbers = choose_numbers(strings)
    base = _with_floors(base, numbers)
    observed = np.log([string.muzzle_speed for string in strings])
    noise_columns = _noise_columns(base, strings, numbers)
    noise = noise_columns @ noise_columns.T + _reading_covariance(strings)
    z = np.zeros(len(numbers))
    for _ in range(_ITERATIONS):
        expected, slopes = _expect(base, strings, numbers, z)
        gain = slopes.T @ np.linalg.inv(slopes @ slopes.T + noise)
        moved = gain @ (observed - expected + slopes @ z)
        settled = float(np.max(np.abs(moved - z))) < _SETTLED
        z = z + np.clip(moved - z, -1.0, 1.0)
        if settled:
            break
    expected, slopes = _expect(base, strings, numbers, z)
    spread = np.eye(len(numbers)) - slopes.T @ np.linalg.solve(slopes @ slopes.T + noise, slopes)
    deviation = np.sqrt(np.diag(spread))
    correlation = spread / np.outer(deviation, deviation)
    residual = observed - expected
    return ChronographMatch(
        parameters=_moved(base, numbers, z),
        fitted=tuple(_fitted(base, number, z[i], float(deviation[i])) for i, number in enumerate(numbers)),
        correlation=correlation,
        strings=tuple(strings),
        predicted=np.exp(expected),
        misfit=float(residual @ np.linalg.solve(noise, residual)),
        notes=_notes(numbers, deviation, correlation, strings),
        numbers=numbers,
        places=z,
    )


def choose_numbers(strings: Sequence[Observation]) -> tuple[Fittable, ...]:
    """Which numbers these strings can carry, three at most."""
    masses = sorted(string.ball_mass for string in strings)
    distinct = 1 + sum(b > a * (1.0 + _SAME_MASS) for a, b in itertools.pairwise(masses))
    numbers = [WORK]
    if distinct >= _TWO_MASSES:
        numbers.append(LOSS)
    if {HopState.OFF, HopState.SET} <= {string.hop for string in strings}:
        numbers.append(HOP)
    elif distinct >= _THREE_MASSES:
        numbers.append(NOZZLE)
    return tuple(numbers)


def predict_speeds(match: ChronographMatch, *, ball_masses: Sequence[float], hop: HopState | None = None) -> SpeedPrediction:
    """Speeds with other balls, as the fitted model expects them, with what is not known carried along.

    Parameters
    ----------
    match
        From `match_chronograph`.
    ball_masses
        In kg.
    hop
        State of the hop-up; None as in the gun's file.

    Returns
    -------
    SpeedPrediction
        The uncertainty is that of the mean, without scatter from shot to shot; it is smallest at the masses that were fired.

    Raises
    ------
    InputError
        If the model's ball does not leave the barrel.
    """
    asked = tuple(
        Observation(ball_mass=mass, muzzle_speed=1.0, standard_error=0.0, scatter=0.0, common_uncertainty=0.0, count=1, hop=hop)
        for mass in ball_masses
    )
    everything = (*match.strings, *asked)
    fired = len(match.strings)
    expected, slopes = _expect(match.parameters, everything, match.numbers, np.zeros(len(match.numbers)))
    columns = _noise_columns(match.parameters, everything, match.numbers)
    # One normal distribution over all speeds, fired and asked: fitted numbers at their priors, the rest at theirs.
    joint = slopes @ slopes.T + columns @ columns.T
    readings = joint[:fired, :fired] + _reading_covariance(match.strings)
    prior = expected - slopes @ match.places
    observed = np.log([string.muzzle_speed for string in match.strings])
    gain = np.linalg.solve(readings, joint[:fired, fired:]).T
    speeds = np.exp(prior[fired:] + gain @ (observed - prior[:fired]))
    covariance = joint[fired:, fired:] - gain @ joint[:fired, fired:]
    return SpeedPrediction(
        ball_mass=np.array(ball_masses, dtype=np.float64),
        muzzle_speed=speeds,
        standard_uncertainty=speeds * np.sqrt(np.diag(covariance)),
        second=_second_ball(match, ball_masses, covariance),
    )


def _second_ball(match: ChronographMatch, ball_masses: Sequence[float], covariance: Array) -> SecondBall | None:
    """Which further string would leave the other balls known best, if that is at least twice as well as now."""
    error = max(string.relative_error for string in match.strings) ** 2 + 1e-6
    best: SecondBall | None = None
    for place, mass in enumerate(ball_masses):
        others = [
            other
            for other, one in enumerate(ball_masses)
            if other != place and all(abs(one / string.ball_mass - 1.0) > _SAME_MASS for string in match.strings)
        ]
        if others:
            left = np.diag(covariance) - covariance[:, place] ** 2 / (covariance[place, place] + error)
            now, then = (float(np.sqrt(np.median(variances[others]))) for variances in (np.diag(covariance), left))
            if then <= _HALF * now and (best is None or then < best.open_then):
                best = SecondBall(ball_mass=mass, open_now=now, open_then=then)
    return best


def log_speeds(
    parameters: ShotParameters,
    strings: Sequence[Observation],
    columns: Mapping[str, Array],
    *,
    least_speed: float | None = None,
    tolerance: float = _SOLVER_TOLERANCE,
) -> Array:
    """Logarithm of the muzzle speed for each string under each of several settings of the parameters."""
    count = max((column.size for column in columns.values()), default=1)
    batch = {path: np.repeat(column, len(strings)) for path, column in columns.items()}
    batch["ball.mass"] = np.tile([string.ball_mass for string in strings], count)
    force = np.repeat(columns.get("hop_up.normal_force", np.full(count, parameters.hop_up.normal_force)), len(strings))
    is_off = np.tile([string.hop is HopState.OFF for string in strings], count)
    batch["hop_up.normal_force"] = np.where(is_off, 0.0, force)
    speeds = integrate_shots(parameters, variations=batch, tolerance=tolerance, until_muzzle=True).muzzle_speed
    if least_speed is not None:
        speeds = np.maximum(speeds, least_speed)
    elif np.any(speeds <= 0.0):
        message = "In the model the ball does not leave the barrel, so there is no speed to compare."
        raise InputError(message, field="gun", hint="Look at the shot first: stripdown shot.")
    return np.log(speeds).reshape(count, len(strings))


def _with_floors(base: ShotParameters, numbers: tuple[Fittable, ...]) -> ShotParameters:
    for number in numbers:
        if number.floor > float(value_at(base, number.path)):
            base = replace_at(base, number.path, number.floor)
    return base


def _value(base: ShotParameters, number: Fittable, z: float | Array) -> Array:
    value = float(value_at(base, number.path))
    moved = value * np.exp(number.spread * np.asarray(z)) if number.logarithmic else value + number.spread * np.asarray(z)
    quantity = _QUANTITIES[number.path]
    return np.clip(moved, quantity.low, quantity.high)


def _moved(base: ShotParameters, numbers: tuple[Fittable, ...], z: Array) -> ShotParameters:
    for number, place in zip(numbers, z, strict=True):
        base = replace_at(base, number.path, float(_value(base, number, float(place))))
    return base


def _expect(base: ShotParameters, strings: Sequence[Observation], numbers: tuple[Fittable, ...], z: Array) -> tuple[Array, Array]:
    """Expected logarithms, shape (n,), and their slopes over z, shape (n, k), all from one batch."""
    places = np.tile(z, (1 + 2 * len(numbers), 1))
    for i in range(len(numbers)):
        places[1 + 2 * i, i] += _STEP
        places[2 + 2 * i, i] -= _STEP
    columns = {number.path: _value(base, number, places[:, i]) for i, number in enumerate(numbers)}
    values = log_speeds(base, strings, columns)
    slopes = (values[1::2] - values[2::2]) / (2.0 * _STEP)
    return values[0], slopes.T


def _noise_columns(base: ShotParameters, strings: Sequence[Observation], numbers: tuple[Fittable, ...]) -> Array:
    """What one standard deviation of each number that is not fitted does to the logarithms, shape (n, all of them)."""
    fitted = {number.path for number in numbers}
    ends = {path: pair for path, pair in tolerance_ends(base).items() if path not in fitted}
    columns: dict[str, Array] = {}
    for i, (path, pair) in enumerate(ends.items()):
        column = np.full(2 * len(ends), float(value_at(base, path)))
        column[2 * i : 2 * i + 2] = pair
        columns[path] = column
    values = log_speeds(base, strings, columns, tolerance=EFFECT_TOLERANCE)
    # An end that is not possible is the value itself; the other end then stands for both.
    shares = np.array(
        [1.0 if path in doubted() else 2.0 * _tolerances()[path] / (high - low) for path, (low, high) in ends.items()]
    )
    effects = 0.5 * (values[1::2] - values[0::2]).T * shares
    masses = np.log([string.ball_mass for string in strings])
    slope = SLOPE_DISCREPANCY * (masses - math.log(base.ball.mass))
    is_diameter = np.array([path == _DIAMETER for path in ends])
    return np.column_stack([effects[:, ~is_diameter], slope, _makes(base, strings, effects[:, is_diameter])])


def _makes(base: ShotParameters, strings: Sequence[Observation], diameter: Array) -> Array:
    """Balls of another mass are of another make, with a diameter and a mean mass of their own: a column each for every mass."""
    heavier = [dataclasses.replace(string, ball_mass=(1.0 + MAKE_MASS) * string.ball_mass) for string in strings]
    mass = (log_speeds(base, heavier, {}) - log_speeds(base, strings, {})).T
    fired = np.array([string.ball_mass for string in strings])
    firsts = [i for i in range(fired.size) if np.all(np.abs(fired[:i] / fired[i] - 1.0) > _SAME_MASS)]
    alike = np.abs(fired[:, np.newaxis] / fired[firsts] - 1.0) <= _SAME_MASS
    return np.hstack([np.where(alike, effect, 0.0) for effect in (diameter, mass) if effect.size])


@functools.lru_cache(maxsize=16)
def tolerance_ends(parameters: ShotParameters) -> Mapping[str, tuple[float, float]]:
    """Both ends of every dimension's standard tolerance, as far as a gun can have them; of hidden ones, of their doubt."""
    ends = {}
    for path, step in _tolerances().items():
        quantity = _QUANTITIES.get(path)
        if quantity is None:
            continue
        value = float(value_at(parameters, path))
        factor = math.exp(doubted().get(path, 0.0))
        both = [value / factor, value * factor] if path in doubted() else [value - step, value + step]
        low, high = (_possible_end(parameters, path, value, float(end)) for end in np.clip(both, quantity.low, quantity.high))
        if low < high:
            ends[path] = (low, high)
    return MappingProxyType(ends)


@functools.cache
def doubted() -> Mapping[str, float]:
    """What nobody can measure, with the spread of its logarithm."""
    return MappingProxyType({path: default.doubt for path, default in load_defaults().items() if default.doubt})


def doubts_named() -> tuple[tuple[str, float], ...]:
    """The same by label, the widest first."""
    return tuple(sorted(((_QUANTITIES[path].label, spread) for path, spread in doubted().items()), key=lambda pair: -pair[1]))


def _possible_end(parameters: ShotParameters, path: str, value: float, end: float) -> float:
    """An end of a tolerance, or the value if the rules between fields forbid it: a ball must still pass its bore."""
    try:
        check_rules(replace_at(parameters, path, end))
    except OutOfRange:
        return value
    return end


def _tolerances() -> dict[str, float]:
    """Tolerances of the parts: the day's air and the balls are measured, and the solver's settings are not the gun's."""
    return {
        path: default.tolerance
        for path, default in load_defaults().items()
        if default.tolerance and not path.startswith(("ambient.", "ball.mass", "laws.longest", "laws.laminar", "laws.stiction"))
    }


def _reading_covariance(strings: Sequence[Observation]) -> Array:
    own = np.array([string.relative_error for string in strings])
    shared = np.array([string.common_uncertainty / string.muzzle_speed for string in strings])
    # A string without scatter and an instrument without error would claim perfect knowledge; a thousandth is nobody's.
    return np.diag(own**2 + 1e-6) + np.outer(shared, shared)


def _fitted(base: ShotParameters, number: Fittable, z: float, deviation: float) -> FittedNumber:
    reach = 1.96 * deviation
    return FittedNumber(
        name=number.name,
        path=number.path,
        quantity=_QUANTITIES[number.path],
        start=float(value_at(base, number.path)),
        value=float(_value(base, number, z)),
        low=float(_value(base, number, z - reach)),
        high=float(_value(base, number, z + reach)),
        learnt=1.0 - deviation,
    )


def _notes(
    numbers: tuple[Fittable, ...], deviation: Array, correlation: Array, strings: Sequence[Observation]
) -> tuple[str, ...]:
    notes = []
    for i, number in enumerate(numbers):
        if deviation[i] > _HARDLY_LEARNT:
            notes.append(f"The strings say almost nothing of the {number.name}: it stays where it was assumed.")
        notes.extend(
            f"The {numbers[j].name} and the {number.name} cannot be told apart by these strings "
            f"(correlation {correlation[i, j]:+.2f}): trust what they do together, not either alone."
            for j in range(i)
            if abs(correlation[i, j]) > _COLLINEAR
        )
    if len(numbers) == 1:
        notes.append("One ball mass shows one number only: drag, preload and leaks all pass for a weaker or stronger spring.")
    if any(string.hop is None for string in strings):
        notes.append("Where a string does not say how the hop-up stood, it is taken as in the gun's file.")
    return tuple(notes)


_QUANTITIES: dict[str, Q] = {
    leaf.path: leaf.quantity for leaf in leaves(ShotParameters) if leaf.quantity is not None and leaf.type is float
}
