"""The shot's rates, guards and events at a point: where every watt goes, and that no event makes or loses a joule."""

from __future__ import annotations

import ast
import inspect
import math
import textwrap
from collections.abc import Callable, Iterator
from typing import Any

import numpy as np
import pytest

from stripdown.catalogue.guns import load_guns
from stripdown.core.interior_ballistics import kernel
from stripdown.core.interior_ballistics.parameters import HeatLaw
from stripdown.core.interior_ballistics.result import EventKind
from stripdown.quantities import replace_at
from tests.properties.invariants import ENTRIES, powers, unexplained_flow, unexplained_power
from tests.random_states import PHASES, Phase, problems
from tests.shot_problem import ShotProblem, Vector

SEED = 20
CLOSED = 1e-12  # of the largest power


def _label(phase: Phase) -> str:
    piston = ("piston moves", "piston home", "piston held")[phase.piston]
    ball = ("seated", "moves", "stopped", "gone")[phase.ball]
    hop = ("", ", gripped", ", slips")[phase.hop]
    way = ", backwards" if phase.direction < 0.0 else ""
    return f"{piston}, ball {ball}{hop}{way}{', one volume' if phase.one_volume else ''}"


@pytest.fixture(scope="module")
def states() -> list[tuple[Phase, ShotProblem]]:
    """Eight random guns in random states for each phase."""
    return list(problems(SEED))


@pytest.mark.parametrize("phase", PHASES, ids=_label)
def test_the_ledger_closes_at_every_state(phase: Phase, states: list[tuple[Phase, ShotProblem]]) -> None:
    """The rates of the fourteen entries add up to the spring's power, within 1e-12 of the largest power of all."""
    for _, problem in (entry for entry in states if entry[0] == phase):
        assert unexplained_power(powers(problem)) <= CLOSED


@pytest.mark.parametrize("phase", PHASES, ids=_label)
def test_no_air_appears_or_vanishes(phase: Phase, states: list[tuple[Phase, ShotProblem]]) -> None:
    """What the two volumes gain and what goes outside add up to nothing, to rounding."""
    for _, problem in (entry for entry in states if entry[0] == phase):
        assert unexplained_flow(problem.rates()) <= 1e-15


def test_the_random_states_set_every_power_to_work(states: list[tuple[Phase, ShotProblem]]) -> None:
    """Each entry but the slam, which is a jump, and each part of it has some power in some state, of both signs of drive."""
    alive = {
        (name, i) for _, problem in states for name, parts in powers(problem).items() for i, x in enumerate(parts) if x != 0.0
    }
    every = {(name, i) for name, parts in powers(states[0][1]).items() for i, _ in enumerate(parts)}
    moving = powers(next(problem for phase, problem in states if phase.ball == kernel.BALL_MOVES))
    every |= {(name, i) for name, parts in moving.items() for i, _ in enumerate(parts)}
    assert every - alive == {("slam", 0)}
    assert set(ENTRIES) | {"spring_work"} == {name for name, _ in every}


# A ledger that cannot fail shows nothing: each sign in the source of the rates is flipped in turn, and the check must see it.

Rates = Callable[..., None]


class _FlipOneSign(ast.NodeTransformer):
    """Flip the sign of one term of what is written to ``out[…]``: the wanted one, counted from the top."""

    def __init__(self, wanted: int) -> None:
        self.wanted = wanted
        self.seen = 0
        self.flipped = ""

    def visit_Assign(self, node: ast.Assign) -> ast.Assign:
        """Flip inside, or in front of, the right side."""
        target = node.targets[0]
        zero = isinstance(node.value, ast.Constant)
        if isinstance(target, ast.Subscript) and isinstance(target.value, ast.Name) and target.value.id == "out" and not zero:
            before = ast.unparse(node)
            node.value = self._flip(node.value)
            if self._is_next():
                node.value = ast.UnaryOp(ast.USub(), node.value)
            if ast.unparse(node) != before:
                self.flipped = f"{before}  ->  {ast.unparse(node)}"
        return node

    def _flip(self, node: ast.expr) -> Any:
        for child in ast.walk(node):
            if isinstance(child, ast.BinOp) and isinstance(child.op, ast.Add | ast.Sub) and self._is_next():
                child.op = ast.Sub() if isinstance(child.op, ast.Add) else ast.Add()
        return node

    def _is_next(self) -> bool:
        self.seen += 1
        return self.seen - 1 == self.wanted


def _python_source(function: Callable[..., Any]) -> ast.Module:
    tree = ast.parse(textwrap.dedent(inspect.getsource(getattr(function, "py_func", function))))
    for node in tree.body:
        if isinstance(node, ast.FunctionDef):
            node.decorator_list = []
    return tree


def _mutants(name: str) -> Iterator[tuple[str, Rates]]:
    """The rates with one sign flipped in the function of that name, with the line before and after."""
    wanted = 0
    while True:
        namespace = dict(vars(kernel))
        flip = _FlipOneSign(wanted)
        for each in ("ball_motion", "_motion", "rates"):
            tree = _python_source(getattr(kernel, each))
            if each == name:
                tree = ast.fix_missing_locations(flip.visit(tree))
            exec(compile(tree, "<mutant>", "exec"), namespace)  # noqa: S102 - the project's own source with a sign flipped
        if not flip.flipped:
            return
        yield flip.flipped, namespace["rates"]
        wanted += 1


def _is_seen(mutant: Rates, sample: list[ShotProblem]) -> bool:
    out: Vector = np.zeros(kernel.SIZE)
    for problem in sample:
        mutant(problem.constants, problem.mode, problem.state, out, np.zeros(8))
        if unexplained_power(powers(problem, out)) > CLOSED or unexplained_flow(out) > CLOSED:
            return True
    return False


@pytest.mark.parametrize("name", ["rates", "_motion", "ball_motion"])
def test_a_flipped_sign_anywhere_in_the_rates_is_seen(name: str, states: list[tuple[Phase, ShotProblem]]) -> None:
    """With the sign of any one term of any rate flipped, the ledger or the mass balance no longer closes."""
    sample = [problem for _, problem in states]
    unseen = [line for line, mutant in _mutants(name) if not _is_seen(mutant, sample)]
    assert unseen == []


def test_enough_signs_are_flipped_to_mean_something() -> None:
    """There are dozens of signs to flip in the rates, and the unflipped source closes the ledger."""
    assert len(list(_mutants("rates"))) + len(list(_mutants("_motion"))) >= 30
    assert len(list(_mutants("ball_motion"))) >= 6


def energy(problem: ShotProblem) -> float:
    """All energy there is, in J: of spring, motion and air, and what the ledger has booked so far."""
    p, s, mode = problem.parameters, problem.state, problem.mode
    compression = p.spring.preload + p.cylinder.stroke - s[kernel.PISTON_TRAVEL]
    bore = 0.25 * math.pi * p.barrel.bore**2
    density = p.ambient.pressure / (p.ambient.gas_constant * p.ambient.temperature)
    ahead = p.barrel.length - p.barrel.seat_depth - s[kernel.BALL_TRAVEL]
    moving_air = p.laws.air_ahead_inertia * density * bore * ahead + p.laws.gas_inertia * s[kernel.BARREL_MASS]
    volumes = 0.25 * math.pi * p.cylinder.bore**2 * (p.cylinder.stroke - s[kernel.PISTON_TRAVEL]) + bore * s[kernel.BALL_TRAVEL]
    gone = mode.ball == kernel.BALL_GONE
    return float(
        0.5 * p.spring.rate * compression**2
        + 0.5 * p.ball.mass * s[kernel.BALL_SPEED] ** 2
        + 0.2 * p.ball.mass * (0.5 * p.ball.diameter * s[kernel.BALL_SPIN]) ** 2
        + 0.5 * (p.piston.mass + p.piston.head_mass + p.spring.mass / 3.0) * s[kernel.PISTON_SPEED] ** 2
        + (0.0 if gone else 0.5 * moving_air * s[kernel.BALL_SPEED] ** 2)
        + mode.slam_loss
        + mode.blast
        + s[kernel.CYLINDER_ENERGY]
        + s[kernel.BARREL_ENERGY]
        + p.ambient.pressure * volumes
        + s[kernel.SEAL_WORK : kernel.MASS_LOST].sum()
    )


def _just_before(event: EventKind, problem: ShotProblem) -> bool:
    """Put a random state where an event is due; whether its phase knows the event."""
    p, s, mode = problem.parameters, problem.state, problem.mode
    radius = 0.5 * p.ball.diameter
    moves = mode.ball == kernel.BALL_MOVES
    match event:
        case EventKind.PISTON_LANDS:
            s[kernel.PISTON_TRAVEL], s[kernel.PISTON_SPEED] = p.cylinder.stroke, abs(s[kernel.PISTON_SPEED])
            return bool(mode.piston == kernel.PISTON_MOVES)
        case EventKind.BALL_LEAVES_MUZZLE:
            s[kernel.BALL_TRAVEL] = p.barrel.length - p.barrel.seat_depth
            return bool(moves and mode.direction > 0.0 and mode.hop == kernel.HOP_OFF)
        case EventKind.BALL_STOPS:
            s[kernel.BALL_SPEED] = 0.0
            return bool(moves)
        case EventKind.BALL_RETURNS:
            s[kernel.BALL_TRAVEL] = 0.0
            return bool(moves and mode.direction < 0.0)
        case EventKind.BALL_GRIPS:
            s[kernel.BALL_SPIN] = s[kernel.BALL_SPEED] / radius
            return bool(mode.hop == kernel.HOP_SLIPS)
        case EventKind.BALL_SLIPS:
            return bool(mode.hop == kernel.HOP_GRIPS)
        case EventKind.PATCH_ENDS:
            s[kernel.BALL_TRAVEL] = p.hop_up.patch_length
            return bool(mode.hop != kernel.HOP_OFF)
        case EventKind.BALL_STARTS:
            return bool(mode.ball == kernel.BALL_SEATED)
        case EventKind.BALL_STARTS_AGAIN:
            return bool(mode.ball == kernel.BALL_STOPPED)
        case EventKind.PISTON_LIFTS:
            return bool(mode.piston == kernel.PISTON_HOME)
        case _:
            return bool(mode.piston != kernel.PISTON_HELD)


@pytest.mark.parametrize("event", [kind for kind in EventKind if kind is not EventKind.PISTON_RESTS], ids=lambda kind: kind.name)
def test_no_event_makes_or_loses_energy(event: EventKind) -> None:
    """What an event takes out of motion it books, to rounding: slam, blast, catch, stop, grip."""
    due = 0
    for phase, problem in problems(SEED + 1):
        if phase.one_volume or not _just_before(event, problem):
            continue
        due += 1
        before = energy(problem)
        problem.act(int(event))
        assert energy(problem) == pytest.approx(before, rel=1e-13)
    assert due >= 8


def test_guards_that_cannot_happen_are_negative(states: list[tuple[Phase, ShotProblem]]) -> None:
    """A held piston neither lands nor lifts; a ball that has left or sits does nothing that only a moving one can."""
    for phase, problem in states:
        guards = problem.guards()
        assert np.isfinite(guards).all()
        if phase.piston == kernel.PISTON_HELD:
            assert (guards[: kernel.BALL_STARTS] == -1.0).all()
        if phase.ball == kernel.BALL_GONE:
            assert (guards[kernel.BALL_STARTS :] == -1.0).all()
        if phase.ball != kernel.BALL_MOVES:
            assert (guards[kernel.BALL_GRIPS : kernel.BALL_STARTS_AGAIN] == -1.0).all()


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_friction_takes_and_never_gives(way: float, states: list[tuple[Phase, ShotProblem]]) -> None:
    """Ring, bore, lips, mound and the air ahead take power from whatever moves, whichever way it moves."""
    for phase, problem in states:
        if phase.ball == kernel.BALL_MOVES and phase.direction == way:
            if phase.hop == kernel.HOP_SLIPS:
                slip = problem.state[kernel.BALL_SPEED] - 0.5 * problem.parameters.ball.diameter * problem.state[kernel.BALL_SPIN]
                problem.mode.slip = math.copysign(1.0, slip)
            found = powers(problem)
            for name in ("seal_drag", "bore_friction", "hop_up", "air_ahead_drag"):
                assert sum(found[name]) >= 0.0, name


# The ledger cannot see a law that is wrong but pays for itself: which way air and heat go, and what air carries.


def _pressures(problem: ShotProblem) -> tuple[float, float]:
    """Pressures in cylinder and barrel, in Pa."""
    p, s = problem.parameters, problem.state
    cylinder = p.cylinder.dead_volume + 0.25 * math.pi * p.cylinder.bore**2 * (p.cylinder.stroke - s[kernel.PISTON_TRAVEL])
    barrel = p.nozzle.dead_volume + 0.25 * math.pi * p.barrel.bore**2 * s[kernel.BALL_TRAVEL]
    excess = p.ambient.heat_capacity_ratio - 1.0
    return excess * s[kernel.CYLINDER_ENERGY] / cylinder, excess * s[kernel.BARREL_ENERGY] / barrel


def _enthalpies(problem: ShotProblem) -> tuple[float, float, float]:
    """Specific enthalpy of the air in cylinder and barrel and outside, in J/kg."""
    s, air, ratio = problem.state, problem.parameters.ambient, problem.parameters.ambient.heat_capacity_ratio
    outside = air.gas_constant * ratio / (ratio - 1.0) * air.temperature
    inside = (ratio * s[energy_at] / s[energy_at - 1] for energy_at in (kernel.CYLINDER_ENERGY, kernel.BARREL_ENERGY))
    return (*inside, outside)


def _two_volumes(states: list[tuple[Phase, ShotProblem]]) -> list[ShotProblem]:
    return [problem for phase, problem in states if not phase.one_volume]


def test_air_flows_from_high_pressure_to_low(states: list[tuple[Phase, ShotProblem]]) -> None:
    """Volumes above the outside lose air, volumes below gain some; the fuller of two feeds the other."""
    for problem in _two_volumes(states):
        outside = problem.parameters.ambient.pressure
        cylinder, barrel = _pressures(problem)
        rates = problem.rates()
        if min(cylinder, barrel) > outside:
            assert rates[kernel.MASS_LOST] >= 0.0
        if max(cylinder, barrel) < outside:
            assert rates[kernel.MASS_LOST] <= 0.0
        if cylinder > max(barrel, outside):
            assert rates[kernel.CYLINDER_MASS] < 0.0
        if barrel > max(cylinder, outside):
            assert rates[kernel.BARREL_MASS] < 0.0


def test_heat_flows_from_warm_to_cold(states: list[tuple[Phase, ShotProblem]]) -> None:
    """Air warmer than the wall loses heat to it, colder air is warmed; without a law for the cylinder none flows there."""
    for _, problem in states:
        p, s, rates = problem.parameters, problem.state, problem.rates()
        per_kelvin = p.ambient.gas_constant / (p.ambient.heat_capacity_ratio - 1.0)
        for heat, energy_at in ((kernel.CYLINDER_HEAT, kernel.CYLINDER_ENERGY), (kernel.BARREL_HEAT, kernel.BARREL_ENERGY)):
            above = s[energy_at] / (s[energy_at - 1] * per_kelvin) - p.ambient.wall_temperature
            if heat == kernel.CYLINDER_HEAT and p.laws.cylinder_heat_law is HeatLaw.NONE:
                assert rates[heat] == 0.0
            else:
                assert rates[heat] * above > 0.0


def test_air_carries_the_enthalpy_of_where_it_comes_from(states: list[tuple[Phase, ShotProblem]]) -> None:
    """What leaves the fullest volume for all sides takes that volume's enthalpy along, whatever it meets there."""
    for problem in _two_volumes(states):
        cylinder, barrel = _pressures(problem)
        first, second, _ = _enthalpies(problem)
        p, rates = problem.parameters, problem.rates()
        if cylinder > max(barrel, p.ambient.pressure):
            work = cylinder * 0.25 * math.pi * p.cylinder.bore**2 * rates[kernel.PISTON_TRAVEL]
            carried = rates[kernel.CYLINDER_ENERGY] - work + rates[kernel.CYLINDER_HEAT]
            assert carried == pytest.approx(rates[kernel.CYLINDER_MASS] * first, rel=1e-9)
        if barrel > max(cylinder, p.ambient.pressure):
            work = barrel * 0.25 * math.pi * p.barrel.bore**2 * rates[kernel.BALL_TRAVEL]
            carried = rates[kernel.BARREL_ENERGY] + work + rates[kernel.BARREL_HEAT]
            assert carried == pytest.approx(rates[kernel.BARREL_MASS] * second, rel=1e-9)


def test_no_air_bursts_out_as_a_ball_starts() -> None:
    """A ball that leaves its seat changes no flow at that moment: the gap round it opens only with its travel."""
    problem = ShotProblem(load_guns()["carbine"].parameters)
    problem.state[kernel.BARREL_ENERGY] *= 3.0
    seated = problem.rates()
    problem.act(kernel.BALL_STARTS)
    assert problem.mode.ball == kernel.BALL_MOVES
    started = problem.rates()
    assert started[kernel.MASS_LOST] == seated[kernel.MASS_LOST]
    assert started[kernel.ANNULUS_ENTHALPY] == 0.0
    problem.state[kernel.BALL_TRAVEL] = problem.parameters.hop_up.break_away_length
    assert problem.rates()[kernel.ANNULUS_ENTHALPY] > 0.0


def test_air_that_leaves_behind_the_ball_takes_its_motion_along(states: list[tuple[Phase, ShotProblem]]) -> None:
    """What is booked at lips, gap and muzzle is enthalpy over the outside's and the energy of the moving column."""
    seen = 0
    for problem in _two_volumes(states):
        p, s = problem.parameters, problem.state
        cylinder, barrel = _pressures(problem)
        if barrel <= p.ambient.pressure:
            continue
        s[kernel.CYLINDER_ENERGY] *= p.ambient.pressure / cylinder  # so that nothing leaves there
        rates = problem.rates()
        _, second, outside = _enthalpies(problem)
        speed = rates[kernel.BALL_TRAVEL]
        booked = rates[[kernel.LIP_ENTHALPY, kernel.ANNULUS_ENTHALPY, kernel.MUZZLE_ENTHALPY]].sum()
        expected = rates[kernel.MASS_LOST] * (second - outside + 0.5 * p.laws.gas_inertia * speed**2)
        assert booked == pytest.approx(expected, rel=1e-9, abs=1e-9)
        seen += int(abs(speed) > 1.0)
        s[kernel.CYLINDER_ENERGY] *= cylinder / p.ambient.pressure
    assert seen > 20


def test_air_that_enters_must_be_brought_to_the_columns_speed(states: list[tuple[Phase, ShotProblem]]) -> None:
    """Air that the nozzle brings to a moving column costs the column's energy out of the heat that it carries."""
    seen = 0
    for problem in _two_volumes(states):
        p, s = problem.parameters, problem.state
        cylinder, barrel = _pressures(problem)
        if problem.mode.ball != kernel.BALL_MOVES or cylinder <= p.ambient.pressure:
            continue
        kept = s[kernel.BARREL_ENERGY]
        s[kernel.BARREL_ENERGY] *= p.ambient.pressure / barrel  # so that nothing passes lips and gap
        rates = problem.rates()
        first, _, _ = _enthalpies(problem)
        speed = rates[kernel.BALL_TRAVEL]
        work = p.ambient.pressure * 0.25 * math.pi * p.barrel.bore**2 * speed
        carried = rates[kernel.BARREL_ENERGY] + work + rates[kernel.BARREL_HEAT]
        expected = rates[kernel.BARREL_MASS] * (first - 0.5 * p.laws.gas_inertia * speed**2)
        assert carried == pytest.approx(expected, rel=1e-9)
        s[kernel.BARREL_ENERGY] = kept
        seen += 1
    assert seen > 20


def test_a_gripped_ball_rolls() -> None:
    """While the mound grips, spin follows speed: their accelerations differ by the radius."""
    for phase, problem in problems(SEED):
        if phase.hop == kernel.HOP_GRIPS:
            rates = problem.rates()
            radius = 0.5 * problem.parameters.ball.diameter
            assert radius * rates[kernel.BALL_SPIN] == pytest.approx(rates[kernel.BALL_SPEED], rel=1e-9)


def test_a_gripped_ball_moves_as_one_and_two_fifths_of_its_mass_under_a_frictionless_floor() -> None:
    """The reaction that keeps the ball rolling is the same as 40 per cent more mass of the ball (m + I/a2 = 1.4 m)."""
    for phase, drawn in problems(SEED):
        if phase.hop != kernel.HOP_GRIPS or phase.one_volume:
            continue
        gripped = ShotProblem(replace_at(drawn.parameters, "hop_up.floor_friction", 0.0))
        for name in ("piston", "ball", "hop", "direction"):
            setattr(gripped.mode, name, getattr(drawn.mode, name))
        gripped.state[:] = drawn.state
        free = ShotProblem(gripped.parameters)
        free.mode.ball, free.mode.direction, free.mode.hop = kernel.BALL_MOVES, drawn.mode.direction, kernel.HOP_OFF
        free.state[:] = drawn.state
        free.state[kernel.BALL_SPIN] = 0.0
        p = gripped.parameters
        density = p.ambient.pressure / (p.ambient.gas_constant * p.ambient.temperature)
        ahead = p.barrel.length - p.barrel.seat_depth - drawn.state[kernel.BALL_TRAVEL]
        air = p.laws.air_ahead_inertia * density * 0.25 * math.pi * p.barrel.bore**2 * ahead
        mass = p.ball.mass + p.laws.gas_inertia * drawn.state[kernel.BARREL_MASS] + air
        slower = gripped.rates()[kernel.BALL_SPEED] / free.rates()[kernel.BALL_SPEED]
        assert slower == pytest.approx(mass / (mass + 0.4 * p.ball.mass), rel=1e-9)
