"""Random states of a shot in every mode that the kernel knows, for tests that ask it at a point instead of running it."""

from __future__ import annotations

import functools
import itertools
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from stripdown.core.interior_ballistics import kernel
from stripdown.core.interior_ballistics.parameters import FlowLaw, HeatLaw, ShotParameters
from stripdown.quantities import replace_at
from tests.properties.strategies import draw_usual
from tests.shot_problem import ShotProblem


@dataclass(frozen=True)
class Phase:
    """What holds between two events."""

    piston: int
    ball: int
    hop: int = kernel.HOP_OFF
    direction: float = 1.0
    one_volume: bool = False


_PISTONS = (kernel.PISTON_MOVES, kernel.PISTON_HOME, kernel.PISTON_HELD)
_BALLS = (
    (kernel.BALL_SEATED, kernel.HOP_OFF, 1.0),
    (kernel.BALL_STOPPED, kernel.HOP_OFF, 1.0),
    (kernel.BALL_GONE, kernel.HOP_OFF, 1.0),
    *((kernel.BALL_MOVES, hop, way) for hop in (kernel.HOP_OFF, kernel.HOP_GRIPS, kernel.HOP_SLIPS) for way in (1.0, -1.0)),
)

_TURNS = tuple(itertools.product(FlowLaw, HeatLaw, (True, False), (True, False), (True, False)))

PHASES: tuple[Phase, ...] = (
    *(Phase(piston, ball, hop, way) for piston, (ball, hop, way) in itertools.product(_PISTONS, _BALLS)),
    Phase(kernel.PISTON_HELD, kernel.BALL_SEATED, one_volume=True),
    *(Phase(kernel.PISTON_HELD, kernel.BALL_MOVES, direction=way, one_volume=True) for way in (1.0, -1.0)),
    Phase(kernel.PISTON_HELD, kernel.BALL_GONE, one_volume=True),
)


def problems(seed: int, *, each: int = 8) -> Iterator[tuple[Phase, ShotProblem]]:
    """So many random states of random guns for every phase; flow laws, heat laws, pressures, and lips or barrel take turns."""
    generator = np.random.default_rng(seed)
    turns = itertools.cycle(_TURNS)
    for phase in PHASES:
        for _ in range(each):
            flow_law, heat_law, cylinder_above, barrel_above, in_lips = next(turns)
            problem = _gun_at_start(flow_law, heat_law, int(generator.integers(3)), one_volume=phase.one_volume).copy()
            _set(problem, phase, generator, cylinder_above=cylinder_above, barrel_above=barrel_above, in_lips=in_lips)
            yield phase, problem


@functools.cache
def _gun_at_start(flow_law: FlowLaw, heat_law: HeatLaw, number: int, *, one_volume: bool) -> ShotProblem:
    """A random gun on which every law has something to do."""
    generator = np.random.default_rng([flow_law, heat_law, number])
    gun = draw_usual(ShotParameters, generator)
    for path, value in (
        ("laws.flow_law", flow_law),
        ("laws.cylinder_heat_law", heat_law),
        ("piston.vented", True),
        ("cylinder.port_1.count", 2),
        ("barrel.friction_force", 0.04),
        ("hop_up.normal_force", float(generator.uniform(0.3, 3.0))),
    ):
        gun = replace_at(gun, path, value)
    return ShotProblem(gun, one_volume=one_volume)


def _set(
    problem: ShotProblem,
    phase: Phase,
    generator: np.random.Generator,
    *,
    cylinder_above: bool,
    barrel_above: bool,
    in_lips: bool,
) -> None:
    """Put a problem into a random state of a phase, a ball that has left its seat still within the lips if so wished."""
    gun, mode, s = problem.parameters, problem.mode, problem.state
    mode.piston, mode.ball, mode.hop, mode.direction = phase.piston, phase.ball, phase.hop, phase.direction
    mode.slip = float(generator.choice([-1.0, 1.0]))
    _place_piston(problem, phase, generator)
    travel = gun.barrel.length - gun.barrel.seat_depth
    reach = travel if phase.hop == kernel.HOP_OFF else min(gun.hop_up.patch_length, travel)
    if in_lips:
        reach = min(gun.hop_up.break_away_length, reach)
    s[kernel.BALL_TRAVEL] = {
        kernel.BALL_SEATED: 0.0,
        kernel.BALL_GONE: travel,
    }.get(phase.ball, generator.uniform(0.0, reach))
    if phase.ball in {kernel.BALL_MOVES, kernel.BALL_GONE}:
        s[kernel.BALL_SPEED] = phase.direction * generator.uniform(0.5, 140.0)
        rolling = s[kernel.BALL_SPEED] / (0.5 * gun.ball.diameter)
        s[kernel.BALL_SPIN] = rolling if phase.hop == kernel.HOP_GRIPS else generator.uniform(-1.0, 1.0) * rolling
    for above, at_mass, at_energy, volume in (
        (cylinder_above, kernel.CYLINDER_MASS, kernel.CYLINDER_ENERGY, _cylinder_volume(gun, s[kernel.PISTON_TRAVEL])),
        (barrel_above, kernel.BARREL_MASS, kernel.BARREL_ENERGY, _barrel_volume(gun, s[kernel.BALL_TRAVEL])),
    ):
        factor = generator.uniform(1.0, 8.0) if above else generator.uniform(0.2, 1.0)
        pressure, temperature = factor * gun.ambient.pressure, generator.uniform(220.0, 600.0)
        s[at_mass] = pressure * volume / (gun.ambient.gas_constant * temperature)
        s[at_energy] = pressure * volume / (gun.ambient.heat_capacity_ratio - 1.0)


def _place_piston(problem: ShotProblem, phase: Phase, generator: np.random.Generator) -> None:
    """Put the piston before, within or beyond its ports, and tell the mode which edges the seal has passed."""
    cylinder = problem.parameters.cylinder
    travel = cylinder.stroke if phase.piston == kernel.PISTON_HOME else generator.uniform(0.0, cylinder.stroke)
    problem.state[kernel.PISTON_TRAVEL] = travel
    problem.state[kernel.PISTON_SPEED] = generator.uniform(-5.0, 20.0) if phase.piston == kernel.PISTON_MOVES else 0.0
    for number, slot in enumerate(cylinder.ports()):
        for end, edge in enumerate((slot.start, slot.start + slot.length)):
            side = 0.0 if slot.count == 0 else (1.0 if edge > travel else -1.0)
            problem.mode.edge_side[2 * number + end] = side


def _cylinder_volume(gun: ShotParameters, travel: float) -> float:
    return gun.cylinder.dead_volume + 0.25 * np.pi * gun.cylinder.bore**2 * (gun.cylinder.stroke - travel)


def _barrel_volume(gun: ShotParameters, travel: float) -> float:
    return gun.nozzle.dead_volume + 0.25 * np.pi * gun.barrel.bore**2 * travel
