"""What must hold of every shot: energy, mass, positive air, one time base, events in order, an outcome that fits.

Two faces of the ledger: *powers* at a state (nothing integrated: the rates of all entries cancel exactly) and *residuals* of
a whole shot (what the integration adds). The powers are worked out here from the definitions, not by the kernel's own laws.
"""

from __future__ import annotations

import math

import numpy as np

from stripdown.core.interior_ballistics import kernel
from stripdown.core.interior_ballistics.result import EnergyLedger, EventKind, Outcome, Shot
from tests.shot_problem import ShotProblem, Vector

ENTRIES = EnergyLedger.ENTRIES


def powers(problem: ShotProblem, rates: Vector | None = None) -> dict[str, tuple[float, ...]]:
    """Rate of every ledger entry in W, in parts, and that of the spring's work, at the problem's state.

    What follows from the state (motion, air) is differentiated by hand; losses are integrals, whose rates stand in ``rates``.
    """
    p, s, mode = problem.parameters, problem.state, problem.mode
    rate = problem.rates() if rates is None else rates
    x, v, w, spin = s[kernel.PISTON_TRAVEL], s[kernel.PISTON_SPEED], s[kernel.BALL_SPEED], s[kernel.BALL_SPIN]
    gone = mode.ball == kernel.BALL_GONE
    mass = p.piston.mass + p.piston.head_mass + p.spring.mass / 3.0
    radius = 0.5 * p.ball.diameter
    bore = 0.25 * math.pi * p.barrel.bore**2
    piston_face = 0.25 * math.pi * p.cylinder.bore**2
    density = p.ambient.pressure / (p.ambient.gas_constant * p.ambient.temperature)
    column = p.laws.air_ahead_inertia * density * bore
    ahead = 0.0 if gone else p.barrel.length - p.barrel.seat_depth - s[kernel.BALL_TRAVEL]
    moving, moving_rate = _moving_gas(problem, rate)
    spring = p.spring.rate * (p.spring.preload + p.cylinder.stroke - x)
    still_air = p.ambient.gas_constant * p.ambient.heat_capacity_ratio / (p.ambient.heat_capacity_ratio - 1.0)
    still_air *= p.ambient.temperature
    y_rate, w_rate = rate[kernel.BALL_TRAVEL], rate[kernel.BALL_SPEED]
    return {
        "spring_work": (spring * rate[kernel.PISTON_TRAVEL],),
        "ball_flight": (p.ball.mass * w * w_rate,),
        "ball_spin": (0.4 * p.ball.mass * radius**2 * spin * rate[kernel.BALL_SPIN],),
        "piston_motion": (mass * v * rate[kernel.PISTON_SPEED],),
        "slam": (0.0,),
        "seal_drag": (rate[kernel.SEAL_WORK],),
        "bore_friction": (rate[kernel.BORE_WORK],),
        "hop_up": (rate[kernel.HOP_WORK],),
        "air_ahead_drag": (rate[kernel.COLUMN_WORK],),
        "air_ahead_motion": (column * ahead * w * w_rate, -0.5 * column * y_rate * w * w, rate[kernel.JET_ENERGY]),
        "blast": (0.0,) if gone else (moving * w * w_rate, 0.5 * moving_rate * w * w),
        "cylinder_heat": (rate[kernel.CYLINDER_HEAT],),
        "barrel_heat": (rate[kernel.BARREL_HEAT],),
        "blown_out": (
            rate[kernel.LEAK_ENTHALPY],
            rate[kernel.PORT_ENTHALPY],
            rate[kernel.LIP_ENTHALPY],
            rate[kernel.ANNULUS_ENTHALPY],
            rate[kernel.MUZZLE_ENTHALPY],
        ),
        "left_in_air": (
            rate[kernel.CYLINDER_ENERGY],
            -p.ambient.pressure * piston_face * rate[kernel.PISTON_TRAVEL],
            -rate[kernel.CYLINDER_MASS] * still_air,
            rate[kernel.BARREL_ENERGY],
            p.ambient.pressure * bore * y_rate,
            -rate[kernel.BARREL_MASS] * still_air,
        ),
    }


def _moving_gas(problem: ShotProblem, rate: Vector) -> tuple[float, float]:
    """Mass of the gas that moves with the ball, in kg, and its rate: a share of the air in the barrel."""
    p, s = problem.parameters, problem.state
    share, share_rate = 1.0, 0.0
    if problem.one_volume:
        bore = 0.25 * math.pi * p.barrel.bore**2
        volume = p.nozzle.dead_volume + bore * s[kernel.BALL_TRAVEL]
        share = bore * s[kernel.BALL_TRAVEL] / volume
        share_rate = bore * p.nozzle.dead_volume / volume**2 * rate[kernel.BALL_TRAVEL]
    mass = p.laws.gas_inertia * s[kernel.BARREL_MASS] * share
    return mass, p.laws.gas_inertia * (rate[kernel.BARREL_MASS] * share + s[kernel.BARREL_MASS] * share_rate)


def unexplained_power(found: dict[str, tuple[float, ...]]) -> float:
    """Spring power that the fourteen entries leave unexplained, over the largest power of any part."""
    largest = max(abs(part) for parts in found.values() for part in parts)
    if largest == 0.0:
        return 0.0
    missing = math.fsum(found["spring_work"]) - math.fsum(part for name in ENTRIES for part in found[name])
    return abs(missing) / largest


def unexplained_flow(rates: Vector) -> float:
    """Mass flow that the two volumes and the outside leave unexplained, over the largest of them."""
    flows = rates[[kernel.CYLINDER_MASS, kernel.BARREL_MASS, kernel.MASS_LOST]]
    largest = float(np.abs(flows).max())
    return abs(float(flows.sum())) / largest if largest > 0.0 else 0.0


def energy_put_in(shot: Shot) -> float:
    """What residuals are measured against: work of the spring and the piston's energy at release, in J."""
    return abs(shot.ledger.put_in)


def check_shot(shot: Shot, *, tolerance: float) -> None:
    """Assert everything that must hold of a shot that was integrated with a tolerance."""
    check_ledger(shot, tolerance=tolerance)
    check_mass(shot)
    check_air(shot)
    check_arrays(shot)
    check_events(shot)
    check_outcome(shot)


def check_ledger(shot: Shot, *, tolerance: float) -> None:
    """The fourteen entries add up to what was put in, within five tolerances; none that only grows is negative."""
    assert abs(shot.ledger.residual) <= 5.0 * tolerance * energy_put_in(shot)
    blown = ("leaked_at_cylinder", "leaked_at_port", "leaked_at_lip", "leaked_past_ball", "leaked_at_muzzle")
    assert math.isclose(sum(getattr(shot.ledger, name) for name in blown), shot.ledger.blown_out, rel_tol=1e-12, abs_tol=1e-15)
    least = -1e-3 * tolerance * energy_put_in(shot)
    for name in ("ball_flight", "ball_spin", "piston_motion", "slam", "seal_drag", "bore_friction", "hop_up", "blast"):
        assert getattr(shot.ledger, name) >= least, name


def check_mass(shot: Shot) -> None:
    """Air inside and air lost add up to what was there at the start, at every sample."""
    inside = shot.cylinder_gas_mass + shot.barrel_gas_mass
    assert np.abs(inside + shot.gas_mass_lost - inside[0]).max() <= 1e-9 * inside[0]


def check_air(shot: Shot) -> None:
    """Pressures, temperatures and masses are positive and finite."""
    for name in (
        "cylinder_pressure",
        "cylinder_temperature",
        "cylinder_gas_mass",
        "barrel_pressure",
        "barrel_temperature",
        "barrel_gas_mass",
    ):
        values = getattr(shot, name)
        assert np.isfinite(values).all(), name
        assert (values > 0.0).all(), name


def check_arrays(shot: Shot) -> None:
    """All traces share one time base, which never runs backwards, and none can be written to."""
    assert (np.diff(shot.time) >= 0.0).all()
    for name in type(shot).__dataclass_fields__:
        values = getattr(shot, name)
        if isinstance(values, np.ndarray):
            assert values.shape == shot.time.shape, name
            assert not values.flags.writeable, name


def check_events(shot: Shot) -> None:
    """Events are in order of time, inside the time base, and the summary's times are theirs."""
    times = [event.time for event in shot.events]
    assert times == sorted(times)
    assert not times or (times[0] >= 0.0 and times[-1] <= shot.time[-1])
    assert shot.figures.time_to_muzzle == shot.event_time(EventKind.BALL_LEAVES_MUZZLE)
    assert shot.figures.time_to_slam == shot.event_time(EventKind.PISTON_LANDS)
    kinds = [event.kind for event in shot.events]
    if EventKind.BALL_LEAVES_MUZZLE in kinds:
        assert kinds.index(EventKind.BALL_STARTS) < kinds.index(EventKind.BALL_LEAVES_MUZZLE)
    if EventKind.PISTON_RESTS in kinds:
        assert kinds.index(EventKind.PISTON_LANDS) < kinds.index(EventKind.PISTON_RESTS)


def check_outcome(shot: Shot) -> None:
    """The outcome says what the traces show."""
    left = EventKind.BALL_LEAVES_MUZZLE in {event.kind for event in shot.events}
    assert left == (shot.outcome is Outcome.LEFT_MUZZLE)
    assert (shot.figures.muzzle_speed > 0.0) == left
    travel = shot.parameters.barrel.length - shot.parameters.barrel.seat_depth
    if left:
        assert math.isclose(float(shot.ball_position[-1]), travel, rel_tol=1e-3)
    elif shot.outcome is Outcome.DID_NOT_MOVE:
        assert float(shot.ball_position[-1]) == 0.0
    elif shot.outcome is Outcome.STAYED_IN_BARREL:
        assert 0.0 <= float(shot.ball_position[-1]) < travel
    assert shot.figures.peak_pressure >= float(shot.cylinder_pressure.max()) * (1.0 - 1e-3)
    assert shot.figures.peak_temperature >= float(shot.cylinder_temperature.max()) * (1.0 - 1e-3)
