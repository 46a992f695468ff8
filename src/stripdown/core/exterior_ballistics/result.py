"""What a flight leaves behind: its path, and the ball's state wherever one asks."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stripdown.core.exterior_ballistics.parameters import FlightParameters
from stripdown.core.numerics.read_only import keeps_arrays
from stripdown.errors import OutOfRange

Path = NDArray[np.float64]
Vector3 = tuple[float, float, float]
_Number = float | Path
_HALVINGS = 80
_HALVINGS_OF_MANY = 45


@dataclass(frozen=True, slots=True, kw_only=True)
class FlightState:
    """Ball at one moment of its flight.

    Parameters
    ----------
    position
        Downrange, to the left and up, in m.
    velocity
        In m/s, over the ground.
    speed
        Its size in m/s.
    time
        Since the muzzle, in s.
    spin
        In rad/s about the same axes.
    """

    position: Vector3
    velocity: Vector3
    speed: float
    time: float
    spin: Vector3


_Measure = Callable[[FlightState], float]


@keeps_arrays
@dataclass(frozen=True, eq=False, kw_only=True, slots=True)
class Passings:
    """Ball where it first passes some distances; no number where it never gets there.

    Parameters
    ----------
    distance
        Downrange, in m, shape (n,).
    position, velocity
        In m and m/s, shape (n, 3).
    time
        Since the muzzle, in s, shape (n,).
    spin_left
        Share of the spin that is left, shape (n,).
    """

    distance: Path
    position: Path
    velocity: Path
    time: Path
    spin_left: Path

    @property
    def speed(self) -> Path:
        """Over the ground, in m/s, shape (n,)."""
        return np.asarray(np.linalg.norm(self.velocity, axis=1), dtype=np.float64)


@keeps_arrays
@dataclass(frozen=True, eq=False, kw_only=True, slots=True)
class Flight:
    """One flight, from the muzzle to the ground or to a distance.

    Parameters
    ----------
    parameters
        What it depends on.
    time
        Of each step, in s, shape (n,).
    position, velocity, acceleration
        At each step, in m, m/s and m/s2, shape (n, 3).
    spin_left
        Share of the spin that is left at each step, shape (n,).
    spin_lost
        Its rate in 1/s, shape (n,).
    remarks
        Keys of what must be said of it: ``"mach_factor"``, or which law was used outside its range, as ``"drag_extrapolated"``.
    steps, rejected, evaluations
        Counts of the integration.
    """

    parameters: FlightParameters
    time: Path
    position: Path
    velocity: Path
    acceleration: Path
    spin_left: Path
    spin_lost: Path
    remarks: tuple[str, ...]
    steps: int
    rejected: int
    evaluations: int

    @property
    def end(self) -> FlightState:
        """State at the end."""
        return self.at_time(float(self.time[-1]))

    @property
    def apex(self) -> FlightState:
        """State at the highest point; where it only falls, the start."""
        rising = self.velocity[:, 2] > 0.0
        falls = np.flatnonzero(rising[:-1] & ~rising[1:])
        if falls.size == 0:
            return self.at_time(float(self.time[np.argmax(self.position[:, 2])]))
        tops = [self._where(int(one), lambda state: -state.velocity[2]) for one in falls]
        return max(tops, key=lambda state: state.position[2])

    @property
    def ground(self) -> FlightState | None:
        """State as it meets the ground at z = 0 from above; None if it was not followed so far."""
        above = self.position[:, 2] > 0.0
        landed = np.flatnonzero(above[:-1] & ~above[1:])
        return None if landed.size == 0 else self._where(int(landed[0]), lambda state: -state.position[2])

    def at_distance(self, distance: float) -> FlightState:
        """State as it first passes a distance.

        Parameters
        ----------
        distance
            Downrange, in m.

        Returns
        -------
        FlightState

        Raises
        ------
        OutOfRange
            For a distance behind the muzzle, or beyond the end of the flight.
        """
        first, furthest = float(self.position[0, 0]), float(self.position[:, 0].max())
        if not first <= distance <= furthest:
            raise OutOfRange(
                f"distance = {distance:g} m is not on the flight, which goes from {first:g} to {furthest:.4g} m.",
                field="distance",
                value=distance,
                unit="m",
                limits=(first, furthest),
                hint="Ask for a distance before the ball is down.",
            )
        return self._first(self.position[:, 0] - distance, lambda state: state.position[0] - distance)

    def along(self, distances: ArrayLike) -> Passings:
        """Ball as it first passes each of many distances.

        Parameters
        ----------
        distances
            Downrange, in m, shape (n,).

        Returns
        -------
        Passings
            In the order asked for.
        """
        wanted = np.array(distances, dtype=np.float64)
        furthest = np.maximum.accumulate(self.position[:, 0])
        after = np.clip(np.searchsorted(furthest, wanted), 1, len(self.time) - 1)
        ends = np.stack([after - 1, after])
        width = (self.time[ends[1]] - self.time[ends[0]])[:, None]
        low, high = np.zeros((wanted.size, 1)), np.ones((wanted.size, 1))
        curve = (width, self.position[ends], self.velocity[ends], self.acceleration[ends])
        for _ in range(_HALVINGS_OF_MANY):
            middle = 0.5 * (low + high)
            short = _quintic(middle, *curve)[0][:, :1] < wanted[:, None]
            low, high = np.where(short, middle, low), np.where(short, high, middle)
        place, speed = _quintic(high, *curve)
        left = _cubic(high[:, 0], width[:, 0], self.spin_left[ends], self.spin_lost[ends])
        never = (wanted < self.position[0, 0]) | (wanted > furthest[-1])
        place[never], speed[never], left[never] = np.nan, np.nan, np.nan
        time = np.where(never, np.nan, self.time[ends[0]] + (high * width)[:, 0])
        return Passings(distance=wanted, position=place, velocity=speed, time=time, spin_left=left)

    def at_speed(self, speed: float) -> FlightState:
        """State as it first is as slow as a speed.

        Parameters
        ----------
        speed
            Over the ground, in m/s.

        Returns
        -------
        FlightState

        Raises
        ------
        OutOfRange
            If it is slower from the start, or never so slow.
        """
        speeds = np.linalg.norm(self.velocity, axis=1)
        if not float(speeds.min()) <= speed <= float(speeds[0]):
            raise OutOfRange(
                f"speed = {speed:g} m/s is not met: the ball flies at {speeds[0]:.4g} to {speeds.min():.4g} m/s.",
                field="speed",
                value=speed,
                unit="m/s",
                limits=(float(speeds.min()), float(speeds[0])),
                hint="Ask for a speed between these.",
            )
        return self._first(speed - speeds, lambda state: speed - state.speed)

    def at_energy(self, energy: float) -> FlightState:
        """State as it first has as little energy of motion as this.

        Parameters
        ----------
        energy
            In J, without that of the spin.

        Returns
        -------
        FlightState

        Raises
        ------
        OutOfRange
            If it has less from the start, or never so little.
        """
        return self.at_speed(math.sqrt(2.0 * max(energy, 0.0) / self.parameters.ball.mass))

    def at_time(self, time: float) -> FlightState:
        """State at a time.

        Parameters
        ----------
        time
            Since the muzzle, in s.

        Returns
        -------
        FlightState

        Raises
        ------
        OutOfRange
            Before the start, or after the end.
        """
        if not 0.0 <= time <= self.time[-1]:
            raise OutOfRange(
                f"time = {time:g} s is not in the flight, which takes {self.time[-1]:.4g} s.",
                field="time",
                value=time,
                unit="s",
                limits=(0.0, float(self.time[-1])),
                hint="Ask for a time before its end.",
            )
        node = min(int(np.searchsorted(self.time, time, side="right")) - 1, len(self.time) - 2)
        return self._between(node, (time - float(self.time[node])) / float(self.time[node + 1] - self.time[node]))

    def energy(self, state: FlightState) -> float:
        """Energy of motion in a state.

        Parameters
        ----------
        state
            Of this flight.

        Returns
        -------
        float
            In J, without that of the spin.
        """
        return 0.5 * self.parameters.ball.mass * state.speed**2

    def _first(self, beyond: Path, measure: _Measure) -> FlightState:
        """State where a measure first reaches zero from below."""
        node = int(np.flatnonzero(beyond >= 0.0)[0])
        return self.at_time(float(self.time[0])) if node == 0 else self._where(node - 1, measure)

    def _where(self, node: int, measure: _Measure) -> FlightState:
        """State inside a step where a measure that is below zero at its start reaches zero."""
        low, high = 0.0, 1.0
        for _ in range(_HALVINGS):
            middle = 0.5 * (low + high)
            if measure(self._between(node, middle)) < 0.0:
                low = middle
            else:
                high = middle
            if high - low <= 1e-15:
                break
        return self._between(node, high)

    def _between(self, node: int, share: float) -> FlightState:
        """State inside a step: the curve of degree five that has place, speed and acceleration of both its ends."""
        start, width = float(self.time[node]), float(self.time[node + 1] - self.time[node])
        places, speeds = _quintic(
            share,
            width,
            self.position[node : node + 2],
            self.velocity[node : node + 2],
            self.acceleration[node : node + 2],
        )
        left = float(_cubic(share, width, self.spin_left[node : node + 2], self.spin_lost[node : node + 2]))
        launch = self.parameters.launch
        return FlightState(
            position=_three(places),
            velocity=_three(speeds),
            speed=float(np.sqrt(speeds @ speeds)),
            time=start + share * width,
            spin=(launch.spin_x * left, launch.spin_y * left, launch.spin_z * left),
        )


def _quintic(share: _Number, width: _Number, places: Path, speeds: Path, changes: Path) -> tuple[Path, Path]:
    """Place and speed on the curve of degree five through two ends, of one step or of many."""
    p0, p1 = places
    v0, v1 = speeds * width
    a0, a1 = changes * width**2
    gap = p1 - p0
    c3 = 10.0 * gap - 6.0 * v0 - 4.0 * v1 - 1.5 * a0 + 0.5 * a1
    c4 = -15.0 * gap + 8.0 * v0 + 7.0 * v1 + 1.5 * a0 - a1
    c5 = 6.0 * gap - 3.0 * v0 - 3.0 * v1 - 0.5 * a0 + 0.5 * a1
    t = share
    place = p0 + t * (v0 + t * (0.5 * a0 + t * (c3 + t * (c4 + t * c5))))
    speed = (v0 + t * (a0 + t * (3.0 * c3 + t * (4.0 * c4 + t * 5.0 * c5)))) / width
    return place, speed


def _cubic(share: _Number, width: _Number, values: Path, slopes: Path) -> Path:
    y0, y1 = values
    d0, d1 = slopes * width
    t = share
    return np.asarray(y0 + t * (d0 + t * (3.0 * (y1 - y0) - 2.0 * d0 - d1 + t * (2.0 * (y0 - y1) + d0 + d1))), dtype=np.float64)


def _three(vector: Path) -> Vector3:
    return (float(vector[0]), float(vector[1]), float(vector[2]))
