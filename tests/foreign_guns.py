"""Guns whose truth comes from other laws than the program's: a second, independent model of the shot, many guns at once.

Nothing of the program computes here. Two families share no law: what is set by the first can be judged on the second.

- *orifice*: two volumes with an energy balance, adiabatic or with a constant coefficient of heat transfer; ideal orifices after
  Saint-Venant and Wantzel; a column of gas and one of air that move with the ball; ring friction that grows with pressure; lips
  that let go evenly or exponentially; a nub that rubs evenly.
- *gap*: two volumes on a polytrope, without energy balance; a nozzle after Bernoulli, capped where it chokes; leaks as laminar
  gaps that grow with the difference of the squared pressures; sound waves in the air ahead (pressure density x speed of sound x
  speed) in place of a column; ring friction that grows with speed; lips that hold until they let go at once; a nub whose force
  fades along its patch.

The laws are those of textbooks on gas dynamics and lubrication (from memory; no figure of theirs decides a test); coefficients
are drawn from ranges that are estimates. So are the hidden numbers: wider than parts of one kind differ.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stripdown.core.interior_ballistics.parameters import ShotParameters

Array = NDArray[np.float64]

AIR, GAMMA, AMBIENT, ROOM, SOUND = 287.05, 1.4, 101325.0, 293.15, 343.2
VISCOSITY = 1.82e-5
_STEP = 10e-6
_LONGEST = 0.045
_SOFT = 300.0  # Pa; below it an orifice's flow is linear, so that a step of the integrator can follow
_CHOKED = (2.0 / (GAMMA + 1.0)) ** (GAMMA / (GAMMA - 1.0))
FAMILIES = ("orifice", "gap")


@dataclass(frozen=True, kw_only=True)
class Foreign:
    """Laws and hidden numbers of one gun."""

    family: str
    nozzle_discharge: float
    leak_discharge: float
    annulus_discharge: float
    gas_inertia: float
    air_ahead: float  # share of the column that moves (orifice), of the sound pressure (gap)
    heat: float  # W/(m2 K)
    polytrope: float
    break_away: float  # N, over what the gun has by its own file
    break_away_length: float  # m
    is_exponential: bool
    hop_friction: float  # rub over normal force
    ring_pressure: float  # m2: N of friction per Pa
    ring_viscous: float  # s/m: share of the drag for each m/s
    bore_viscous: float  # N s/m


def draw_laws(family: str, generator: np.random.Generator, *, written: ShotParameters) -> Foreign:
    """Laws and hidden numbers of a gun; what the lips do differs most, for nobody can measure it."""

    def uniform(low: float, high: float) -> float:
        return float(generator.uniform(low, high))

    def about(middle: float, spread: float) -> float:
        return float(middle * np.exp(spread * generator.standard_normal()))

    is_orifice = family == "orifice"
    return Foreign(
        family=family,
        nozzle_discharge=uniform(0.72, 0.92),
        leak_discharge=uniform(0.6, 0.9),
        annulus_discharge=uniform(0.55, 0.95),
        gas_inertia=uniform(0.2, 0.7) if is_orifice else uniform(0.0, 0.6),
        air_ahead=uniform(0.7, 1.0),
        heat=float(generator.choice([0.0, about(500.0, 0.5)])) if is_orifice else 0.0,
        polytrope=uniform(1.25, 1.40),
        break_away=about(max(written.hop_up.break_away_force, 0.3), 0.6) - written.hop_up.break_away_force,
        break_away_length=uniform(0.8e-3, 2.5e-3) if is_orifice else uniform(0.3e-3, 1.0e-3),
        is_exponential=bool(generator.integers(2)),
        hop_friction=about(0.75, 0.35),
        ring_pressure=about(1.35e-5, 0.4) if is_orifice else 0.0,
        ring_viscous=0.0 if is_orifice else uniform(0.02, 0.12),
        bore_viscous=0.0 if is_orifice else about(1.5e-4, 0.5),
    )


def foreign_speeds(
    guns: Sequence[ShotParameters],
    laws: Sequence[Foreign],
    *,
    ball_mass: ArrayLike,
    ball_diameter: ArrayLike,
    step: float = _STEP,
) -> Array:
    """Muzzle speeds in m/s, one for each gun with its laws and its ball; 0 for a ball that does not leave in time."""
    return Batch(guns, laws, np.asarray(ball_mass), np.asarray(ball_diameter)).fire(step)


class Batch:
    """Many guns at once: a column for each of their numbers."""

    def __init__(self, guns: Sequence[ShotParameters], laws: Sequence[Foreign], mass: Array, diameter: Array) -> None:
        self.law: Mapping[str, Array] = {
            field.name: np.array([getattr(one, field.name) for one in laws])
            for field in fields(Foreign)
            if field.name != "family"
        }
        self.is_gap = np.array([one.family == "gap" for one in laws])

        def of(read: object) -> Array:
            return np.array([read(gun) for gun in guns], dtype=np.float64)  # type: ignore[operator]

        self.cylinder = of(lambda g: 0.25 * np.pi * g.cylinder.bore**2)
        self.cylinder_bore = of(lambda g: g.cylinder.bore)
        self.stroke = of(lambda g: g.cylinder.stroke)
        self.dead_1 = of(lambda g: g.cylinder.dead_volume)
        self.rate = of(lambda g: g.spring.rate)
        self.preload = of(lambda g: g.spring.preload)
        self.moving = of(lambda g: g.piston.mass + g.piston.head_mass + g.spring.mass / 3.0)
        self.drag = of(lambda g: g.piston.seal_drag)
        self.nozzle = of(lambda g: 0.25 * np.pi * g.nozzle.bore**2)
        self.dead_2 = of(lambda g: g.nozzle.dead_volume)
        self.leak_1 = of(lambda g: g.leaks.piston_seal + g.leaks.head_ring + g.leaks.nozzle_tube)
        self.leak_2 = of(lambda g: g.leaks.hop_lip)
        self.vent = of(lambda g: g.piston.vent_area if g.piston.vented else 0.0)
        self.bore = of(lambda g: g.barrel.bore)
        self.area = 0.25 * np.pi * self.bore**2
        self.travel = of(lambda g: g.barrel.length - g.barrel.seat_depth)
        self.friction = of(lambda g: g.barrel.friction_force)
        self.normal = of(lambda g: g.hop_up.normal_force)
        self.patch = of(lambda g: g.hop_up.patch_length)
        self.break_away = np.maximum(of(lambda g: g.hop_up.break_away_force) + self.law["break_away"], 0.05)
        self.start_speed = of(lambda g: g.piston_start_speed)
        slots = [[g.cylinder.port_1, g.cylinder.port_2, g.cylinder.port_3] for g in guns]
        self.slots = [
            tuple(
                np.array([getattr(row[i], name) for row in slots], dtype=np.float64)
                for name in ("start", "length", "width", "count")
            )
            for i in range(3)
        ]
        self.mass = mass
        self.gap = 0.25 * np.pi * np.maximum(self.bore**2 - diameter**2, 0.0)
        self.air = AMBIENT / (AIR * ROOM)

    def fire(self, step: float) -> Array:
        """Muzzle speeds."""
        count = self.mass.size
        state = self.at_rest()
        left = np.zeros(count)
        flying = np.ones(count, dtype=bool)
        for _ in range(int(_LONGEST / step)):
            before = state.copy()
            one = self.rates(state)
            two = self.rates(self.kept(state + 0.5 * step * one))
            three = self.rates(self.kept(state + 0.5 * step * two))
            four = self.rates(self.kept(state + step * three))
            state = self.kept(state + step / 6.0 * (one + 2.0 * two + 2.0 * three + four))
            out = flying & (state[4] >= self.travel)
            if out.any():
                part = (self.travel - before[4]) / np.maximum(state[4] - before[4], 1e-12)
                left = np.where(out, before[5] + part * (state[5] - before[5]), left)
                flying &= ~out
                if not flying.any():
                    break
            state[:, ~flying] = before[:, ~flying]
        return left

    def at_rest(self) -> Array:
        """Drawn, before release: travel and speed of the piston, mass and energy in front of it; the same of the ball."""
        state = np.zeros((8, self.mass.size))
        state[1] = self.start_speed
        for mass, energy, volume in ((2, 3, self.dead_1 + self.cylinder * self.stroke), (6, 7, self.dead_2)):
            state[mass] = self.air * volume
            state[energy] = AMBIENT * volume / (GAMMA - 1.0)
        return state

    def kept(self, state: Array) -> Array:
        """The piston stops at the head without a bounce; no ball runs back behind its seat."""
        home = state[0] >= self.stroke
        state[0] = np.where(home, self.stroke, state[0])
        state[1] = np.where(home, np.minimum(state[1], 0.0), state[1])
        seated = (state[4] <= 0.0) & (state[5] < 0.0)
        state[4] = np.maximum(state[4], 0.0)
        state[5] = np.where(seated, 0.0, state[5])
        return state

    def rates(self, state: Array) -> Array:
        """How fast each of the eight changes."""
        law, is_gap = self.law, self.is_gap
        x, v, m1, u1, y, w, m2, u2 = state
        volume_1 = self.dead_1 + self.cylinder * (self.stroke - x)
        volume_2 = self.dead_2 + self.area * y
        p1, t1 = self.gas(m1, u1, volume_1)
        p2, t2 = self.gas(m2, u2, volume_2)
        flow = self.flow(law["nozzle_discharge"] * self.nozzle, p1, t1, p2, t2)
        leak_1 = self.leak(law["leak_discharge"] * self.leak_1, p1, t1)
        vents = self.orifice(0.7 * self.vent, np.minimum(p1, AMBIENT), t1, AMBIENT, ROOM)
        leak_1 = leak_1 + vents + self.orifice(0.7 * self.open_port(x), p1, t1, AMBIENT, ROOM)
        past = self.orifice(law["annulus_discharge"] * self.gap * np.clip(y / 1e-3, 0.0, 1.0), p2, t2, AMBIENT, ROOM)
        leak_2 = self.leak(law["leak_discharge"] * self.leak_2, p2, t2) + past
        cp = AIR * GAMMA / (GAMMA - 1.0)
        carried = flow * cp * np.where(flow > 0.0, t1, t2)
        heat_1 = law["heat"] * (2.0 * self.cylinder + np.pi * self.cylinder_bore * (self.stroke - x)) * (t1 - ROOM)
        heat_2 = law["heat"] * 4.0 * volume_2 / self.bore * (t2 - ROOM)
        out_1 = leak_1 * cp * np.where(leak_1 > 0.0, t1, ROOM)
        out_2 = leak_2 * cp * np.where(leak_2 > 0.0, t2, ROOM)
        ring = (self.drag * (1.0 + law["ring_viscous"] * np.abs(v)) + law["ring_pressure"] * np.abs(p1 - AMBIENT)) * np.tanh(
            v / 0.05
        )
        push = self.rate * (self.preload + self.stroke - x) - (p1 - AMBIENT) * self.cylinder - ring
        dv = np.where((x >= self.stroke) & (push > 0.0), 0.0, push / self.moving)
        inertia = (
            self.mass
            + law["gas_inertia"] * m2
            + np.where(is_gap, 0.0, law["air_ahead"] * self.air * self.area * (self.travel - y))
        )
        wave = np.where(is_gap, law["air_ahead"] * self.air * SOUND * np.maximum(w, 0.0) * self.area, 0.0)
        column = np.where(is_gap, 0.0, 0.5 * self.air * np.abs(w) * w * self.area * 0.03 * (self.travel - y) / self.bore)
        drive = (p2 - AMBIENT) * self.area - wave - column
        held = self.lips(y) + self.rub(y) + self.friction + law["bore_viscous"] * np.maximum(w, 0.0)
        moving = (w > 0.0) | (drive > held)
        dw = np.where(moving, (drive - held) / inertia, 0.0)
        return np.stack(
            [
                v,
                dv,
                -flow - leak_1,
                -carried - out_1 + p1 * self.cylinder * v - heat_1,
                w,
                dw,
                flow - leak_2,
                carried - out_2 - p2 * self.area * w - heat_2,
            ]
        )

    def gas(self, mass: Array, energy: Array, volume: Array) -> tuple[Array, Array]:
        """Pressure and temperature: by the energy, or on a polytrope by the density alone."""
        density = np.maximum(mass, 1e-12) / volume
        pressure = np.maximum((GAMMA - 1.0) * energy / volume, 100.0)
        on_polytrope = AMBIENT * (density / self.air) ** self.law["polytrope"]
        pressure = np.where(self.is_gap, on_polytrope, pressure)
        return pressure, pressure / (density * AIR)

    def flow(self, area: Array, p1: Array, t1: Array, p2: Array, t2: Array) -> Array:
        """Through the nozzle."""
        ideal = self.orifice(area, p1, t1, p2, t2)
        high, low = np.maximum(p1, p2), np.minimum(p1, p2)
        warm = np.where(p1 > p2, t1, t2)
        fall = np.minimum(high - low, (1.0 - _CHOKED) * high)
        bernoulli = area * 0.93 * np.sqrt(2.0 * high / (AIR * warm)) * fall / np.sqrt(fall + _SOFT) * np.sign(p1 - p2)
        return np.where(self.is_gap, bernoulli, ideal)

    def leak(self, area: Array, pressure: Array, warm: Array) -> Array:
        """Out of a volume: an orifice, or a gap in which air creeps; at half a bar the two leak alike."""
        orifice = self.orifice(area, pressure, warm, AMBIENT, ROOM)
        there = 1.5 * AMBIENT
        alike = self.orifice(area, np.full_like(pressure, there), np.full_like(pressure, ROOM), AMBIENT, ROOM)
        creeping = alike * (pressure**2 - AMBIENT**2) / (there**2 - AMBIENT**2)
        return np.where(self.is_gap, creeping, orifice)

    def orifice(self, area: Array, p1: Array, t1: Array, p2: Array | float, t2: Array | float) -> Array:
        """Flow after Saint-Venant and Wantzel, linear near equal pressures, positive from 1 to 2."""
        high, low = np.maximum(p1, p2), np.minimum(p1, p2)
        warm = np.where(p1 > p2, t1, t2)
        ratio = np.clip(low / high, _CHOKED, 1.0)
        shape = ratio ** (1.0 / GAMMA) * np.sqrt(np.maximum(1.0 - ratio ** ((GAMMA - 1.0) / GAMMA), 0.0))
        fall = high - low
        soft = np.sqrt(fall / (fall + _SOFT))
        factor = np.sqrt(2.0 * GAMMA / (GAMMA - 1.0) / AIR)
        flow: Array = area * high * factor * shape * soft / np.sqrt(warm) * np.sign(p1 - p2)
        return flow

    def open_port(self, x: Array) -> Array:
        """What the seal has not yet passed of the slots, in m2."""
        open_area = np.zeros_like(x)
        for start, length, width, count in self.slots:
            open_area = open_area + count * width * np.clip(start + length - np.maximum(x, start), 0.0, length)
        return open_area

    def lips(self, y: Array) -> Array:
        """What the lips still hold."""
        law = self.law
        part = y / law["break_away_length"]
        even = np.clip(1.0 - part, 0.0, 1.0)
        evenly = np.where(law["is_exponential"], np.exp(-2.0 * part), even)
        return self.break_away * np.where(self.is_gap, (part < 1.0).astype(np.float64), evenly)

    def rub(self, y: Array) -> Array:
        """What the nub rubs."""
        inside = (y < self.patch).astype(np.float64)
        fading = np.clip(1.0 - 0.5 * y / self.patch, 0.0, 1.0)
        return self.law["hop_friction"] * self.normal * inside * np.where(self.is_gap, fading, 1.0)
