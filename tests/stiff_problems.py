"""Small problems with closed forms for the integrator, and the loop that answers its questions in plain Python.

All have one size, so that the integrator is compiled once: four dynamic entries, two integrals, three guards.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stripdown.core.numerics import stiff

DYNAMIC = 4
INTEGRALS = 2
GUARDS = 3
SIZE = DYNAMIC + INTEGRALS

Vector = NDArray[np.float64]
Rates = Callable[[Vector], Sequence[float]]
Guards = Callable[[Vector], Sequence[float]]
# One row for each dynamic entry: how every rate changes with it.
Jacobian = Callable[[Vector], Sequence[Sequence[float]]]
# Changes the state in place after the guards with these numbers were hit; returns the longest step to go on with.
Act = Callable[[Vector, tuple[int, ...]], float]

_GO_ON = frozenset({stiff.STEP_ACCEPTED, stiff.EVENT_REACHED})


@dataclass(frozen=True)
class Happening:
    """One event: when, which guards were hit, and the state before anything was done about it."""

    time: float
    hit: tuple[int, ...]
    state: Vector


@dataclass(frozen=True)
class Run:
    """What an integration left behind; ``times`` and ``states`` hold the start and the end of every step."""

    code: int
    times: Vector
    states: Vector
    happenings: tuple[Happening, ...]
    steps: int
    rejected: int
    evaluations: int

    @property
    def end(self) -> Vector:
        """The last state."""
        return np.asarray(self.states[-1], dtype=np.float64)


def workspace(
    state: Sequence[float],
    *,
    end: float,
    tolerance: float,
    scale: Sequence[float] | float = 1.0,
    most_steps: int = 20_000,
    colour: Sequence[int] = (0, 1, 2, 3),
    pattern: Sequence[Sequence[float]] | None = None,
) -> stiff.Workspace:
    """A workspace filled in; the Jacobian is taken as full unless a pattern is given."""
    rows = stiff.workspace(dynamic=DYNAMIC, integrals=INTEGRALS, guards=GUARDS).view(np.recarray)
    work: stiff.Workspace = rows[0]
    work.state[: len(state)] = state
    work.scale[:] = scale
    work.end_time = end
    work.tolerance = tolerance
    work.most_steps = most_steps
    work.colour[:] = colour
    work.pattern[:] = 1.0 if pattern is None else pattern
    return work


def answer(work: stiff.Workspace, rates: Rates, guards: Guards | None = None, jacobian: Jacobian | None = None) -> int:
    """Answer the integrator's questions until something has happened; return what."""
    while True:
        with np.errstate(all="ignore"):  # with the compiler off, what is no number is complained of before it is thrown away
            code = int(stiff.advance(work))
        if code == stiff.WANTS_JACOBIAN:
            assert jacobian is not None
            work.jacobian[:] = jacobian(work.state)
            continue
        if code == stiff.WANTS_RATES:
            found = rates(work.point)
            work.slope[:] = 0.0
            work.slope[: len(found)] = found
        elif code == stiff.WANTS_GUARDS:
            work.guard[:] = -1.0
            if guards is not None:
                values = guards(work.point)
                work.guard[: len(values)] = values
        else:
            return code


def integrate(
    rates: Rates,
    state: Sequence[float],
    *,
    end: float,
    tolerance: float = 1e-6,
    guards: Guards | None = None,
    act: Act | None = None,
    first_step: float = 1e-3,
    fixed_step: float | None = None,
    scale: Sequence[float] | float = 1.0,
    most_steps: int = 20_000,
    colour: Sequence[int] = (0, 1, 2, 3),
    pattern: Sequence[Sequence[float]] | None = None,
    jacobian: Jacobian | None = None,
    most_events: int = 1_000,
) -> Run:
    """Integrate to the end, to the first event without an ``act``, or to failure."""
    work = workspace(state, end=end, tolerance=tolerance, scale=scale, most_steps=most_steps, colour=colour, pattern=pattern)
    work.own_jacobian = 0 if jacobian is None else 1
    stiff.begin(work, first_step if fixed_step is None else fixed_step)
    times = [0.0]
    states = [np.array(work.state)]
    happenings: list[Happening] = []
    while True:
        code = answer(work, rates, guards, jacobian)
        if code not in _GO_ON:
            break
        times.append(float(work.time))
        states.append(np.array(work.state))
        if fixed_step is not None:
            work.next_step = fixed_step
        if code == stiff.EVENT_REACHED:
            hit = tuple(int(i) for i in np.flatnonzero(work.hit))
            happenings.append(Happening(time=float(work.time), hit=hit, state=np.array(work.state)))
            if act is None or len(happenings) >= most_events:
                break
            stiff.resume(work, act(work.state, hit))
    return Run(
        code=code,
        times=np.array(times),
        states=np.array(states),
        happenings=tuple(happenings),
        steps=int(work.steps),
        rejected=int(work.rejected),
        evaluations=int(work.evaluations),
    )


def decay_and_swing(point: Vector) -> tuple[float, ...]:
    """Decay, growth to a limit, and a swing; the integrals collect the decay and the swing's speed."""
    return (-point[0], point[1] * (1.0 - point[1]), point[3], -4.0 * point[2], point[0], point[3])


DECAY_AND_SWING_START = (1.0, 0.1, 1.0, 0.0)


def decay_and_swing_exactly(time: float) -> Vector:
    """Closed form of `decay_and_swing` from its start."""
    return np.array(
        [
            np.exp(-time),
            1.0 / (1.0 + 9.0 * np.exp(-time)),
            np.cos(2.0 * time),
            -2.0 * np.sin(2.0 * time),
            -np.expm1(-time),
            np.cos(2.0 * time) - 1.0,
        ]
    )
