"""The rates of the drive, the powers of its ledger, and the loop from angle to angle of the sector gear. No Python objects."""

from __future__ import annotations

import math
from typing import Final

from stripdown.core.drive_cycle.battery import cell_voltage
from stripdown.core.drive_cycle.motor import COPPER
from stripdown.core.drive_cycle.parameters import DriveParameters
from stripdown.core.numerics.compiled import compiled, compiled_apart
from stripdown.core.numerics.dormand_prince import STAGES, aim, error_of, next_step, stage_state
from stripdown.core.numerics.rows import Fields, Rows, Vector, row_dtype

# The state: what moves, then integrals of power for the ledger.
ANGLE, SPEED, CHARGE, WINDING, HOUSING, CURRENT = range(6)
DYNAMIC: Final = 6
FROM_BATTERY, IN_PACK, IN_LEADS, IN_MOTOR, IN_FRICTION, IN_GEARS, IN_RACK, IN_DRAG, IN_AIR, IN_TAPPET, IN_SPRING, SQUARE = range(
    6, 18
)
SIZE: Final = 18

# Events, numbered as `result.DriveEventKind`.
STARTS, ENTRY, PICK_UP, RELEASE, SLIP, CUT, STOPS, STALLS = range(8)
EVENT_FIELDS: Final = 4 + SIZE  # kind, time, speed just before, greatest current since the last release, state just after

# How a burst ended.
RESTED = 0
STALLED = 1
RUNS_AWAY = 2
TOO_MANY_STEPS = 3
RACK_UNLOADED = 4
NO_AIR = 5

MOST_STEPS: Final = 400_000
_TURN: Final = 2.0 * math.pi
_FIRST_STEP: Final = 1e-5  # s
_LEAST_STEP: Final = 1e-13  # s
_AIMS: Final = 60
_ON_IT: Final = 1e-10  # rad
_AT_REST: Final = 1e-7  # rad/s of the motor
_RELEASES_TOO_MANY: Final = 3
_VACUUM: Final = 0.1  # of the air's pressure


class Constants(Fields):
    """What the rates read, worked out once a burst."""

    pitch_radius: float
    entry: float
    pick_up: float
    release: float
    slip: float
    cut: float
    start: float
    back_emf: float  # V s, at the magnets' temperature
    piston_inertia: float  # kg m2 at the motor's shaft
    shots: int
    tolerance: float


CONSTANTS = row_dtype(Constants)


class Mode(Fields):
    """In which of its states the drive is."""

    on: int
    drawn: int
    pulls: int
    code: int
    steps: int
    rejected: int
    evaluations: int
    impact: float  # J lost at pick-ups
    thrown: float  # J that pistons took with them
    broken: float  # J of the winding's field lost at the cut
    least_voltage: float
    peak: float  # A since the last release


MODE = row_dtype(Mode)


@compiled
def resistance_of_motor(p: DriveParameters, winding: float) -> float:
    """Resistance of the winding at a temperature, in ohm."""
    return p.motor.resistance * (1.0 + COPPER * (winding - 293.15))


@compiled
def electromotive_force(p: DriveParameters, charge: float) -> float:
    """Voltage of the pack at rest after some charge was drawn, in V."""
    if p.battery.fixed_voltage > 0.0:
        return p.battery.fixed_voltage
    return p.battery.cells * cell_voltage(p.battery.state_of_charge - charge / p.battery.capacity)


@compiled
def current_of(p: DriveParameters, c: Constants, m: Mode, s: Vector) -> float:
    """Current through the motor, in A: a state of its own only where the winding has an inductance."""
    motor = resistance_of_motor(p, s[WINDING])
    flows: float = 0.0
    if m.on and p.motor.inductance > 0.0:
        flows = s[CURRENT]
    elif m.on:
        whole = p.battery.resistance + p.wiring.lead_resistance + p.wiring.switch_resistance + motor
        flows = (electromotive_force(p, s[CHARGE]) - p.motor.brush_drop - c.back_emf * s[SPEED]) / whole
    elif p.trigger.brakes:
        flows = -c.back_emf * s[SPEED] / (motor + p.trigger.brake_resistance)
    return flows


@compiled
def draw_of(c: Constants, s: Vector) -> float:
    """How far the piston is drawn while the sector holds it, in m."""
    turns = math.floor((s[ANGLE] - c.pick_up) / _TURN + 1e-9)
    drawn: float = c.pitch_radius * (s[ANGLE] - c.pick_up - turns * _TURN)
    return drawn


@compiled
def tappet_torque(p: DriveParameters, s: Vector) -> float:
    """Torque at the sector gear that draws the plate, in N m."""
    turns = math.floor((s[ANGLE] - p.tappet.pull_start) / _TURN + 1e-9)
    width = p.tappet.pull_end - p.tappet.pull_start
    share = (s[ANGLE] - p.tappet.pull_start - turns * _TURN) / width
    if share <= 0.0 or share >= 1.0:
        return 0.0
    moved = 0.5 * p.tappet.travel * (1.0 - math.cos(math.pi * share))
    rise = 0.5 * p.tappet.travel * math.pi / width * math.sin(math.pi * share)
    return (p.tappet.spring_force + p.tappet.spring_rate * moved + p.tappet.friction) * rise


@compiled
def air_force(p: DriveParameters, drawing: float) -> float:
    """Force of the air that has to get in behind the drawn piston, in N."""
    inflow = p.load.cylinder_area * drawing / p.load.inlet_area
    return p.load.cylinder_area * 0.5 * p.day.air_density * inflow * inflow


@compiled
def rates(p: DriveParameters, c: Constants, m: Mode, s: Vector, out: Vector) -> None:
    """How fast everything changes, ledger included."""
    current = current_of(p, c, m, s)
    motor = resistance_of_motor(p, s[WINDING])
    ratio, gears, rack = p.gears.ratio, p.gears.efficiency, p.sector.rack_efficiency
    radius = c.pitch_radius
    speed = s[SPEED]
    turning = 1.0 if speed > 0.0 else 0.0  # a motor at rest rubs nothing: the ledger's friction is torque times speed
    friction = p.motor.no_load_current * c.back_emf + p.gears.friction_torque
    plate = tappet_torque(p, s)
    drawing = radius * speed / ratio
    spring = drag = air = 0.0
    inertia = p.motor.inertia
    if m.drawn:
        spring = p.load.rate * (p.load.preload + draw_of(c, s))
        drag = p.load.seal_drag
        air = air_force(p, drawing)
        inertia += c.piston_inertia / (gears * rack)
    load = (radius * (spring + drag + air) / rack + plate) / (ratio * gears)
    change = (c.back_emf * current - friction - load) / inertia
    out[ANGLE] = speed / ratio
    out[SPEED] = change
    out[CHARGE] = current if m.on else 0.0
    rub = p.motor.no_load_current * c.back_emf * speed
    heat = current * current * motor + p.motor.brush_drop * current * (1.0 if m.on else 0.0)
    across = (s[WINDING] - s[HOUSING]) / p.motor.winding_to_housing
    out[WINDING] = (heat + rub - across) / p.motor.winding_heat_capacity
    out[HOUSING] = (across - (s[HOUSING] - p.day.air_temperature) / p.motor.housing_to_air) / p.motor.housing_heat_capacity
    out[CURRENT] = 0.0
    force = electromotive_force(p, s[CHARGE])
    if m.on and p.motor.inductance > 0.0:
        whole = p.battery.resistance + p.wiring.lead_resistance + p.wiring.switch_resistance + motor
        out[CURRENT] = (force - p.motor.brush_drop - whole * current - c.back_emf * speed) / p.motor.inductance
    pull = spring + drag + air + (p.load.mass * radius * change / ratio if m.drawn else 0.0)
    out[FROM_BATTERY] = force * current if m.on else 0.0
    out[IN_PACK] = current * current * p.battery.resistance if m.on else 0.0
    wires = p.wiring.lead_resistance + p.wiring.switch_resistance
    out[IN_LEADS] = current * current * (wires if m.on else p.trigger.brake_resistance if p.trigger.brakes else 0.0)
    out[IN_MOTOR] = heat
    out[IN_FRICTION] = friction * speed * turning
    out[IN_GEARS] = (1.0 / gears - 1.0) * ((pull * drawing / rack if m.drawn else 0.0) + plate * speed / ratio)
    out[IN_RACK] = (1.0 / rack - 1.0) * pull * drawing if m.drawn else 0.0
    out[IN_DRAG] = drag * drawing
    out[IN_AIR] = air * drawing
    out[IN_TAPPET] = plate * speed / ratio
    out[IN_SPRING] = spring * drawing
    out[SQUARE] = current * current


@compiled
def stored(p: DriveParameters, c: Constants, m: Mode, s: Vector) -> float:
    """Energy of motion and of the winding's field, in J."""
    drawing = c.pitch_radius * s[SPEED] / p.gears.ratio
    moving = 0.5 * p.motor.inertia * s[SPEED] ** 2 + (0.5 * p.load.mass * drawing * drawing if m.drawn else 0.0)
    field: float = moving + (0.5 * p.motor.inductance * s[CURRENT] ** 2 if m.on else 0.0)
    return field


@compiled
def _next_angle(c: Constants, p: DriveParameters, m: Mode, angle: float) -> float:
    """The nearest angle ahead at which something happens."""
    nearest = math.inf
    for base in (c.entry, c.pick_up, c.release, p.tappet.pull_start, p.tappet.pull_end, c.slip):
        turns = math.floor((angle - base) / _TURN + 1e-9) + 1.0
        nearest = min(nearest, base + turns * _TURN)
    if m.on and c.cut > angle + _ON_IT:
        nearest = min(nearest, c.cut)
    return nearest


@compiled
def _is_at(angle: float, base: float) -> bool:
    off = (angle - base) / _TURN
    return abs(off - math.floor(off + 0.5)) * _TURN <= 1e-8


@compiled
def _note_event(kind: int, time: float, before: float, peak: float, s: Vector, events: Vector, at: int) -> int:
    if at < events.shape[0]:
        events[at, 0] = kind
        events[at, 1] = time
        events[at, 2] = before
        events[at, 3] = peak
        for i in range(SIZE):
            events[at, 4 + i] = s[i]
    return at + 1


@compiled
def _keep(at: int, time: float, s: Vector, current: float, nodes: Vector) -> int:
    if at < nodes.shape[0]:
        nodes[at, 0] = time
        for i in range(SIZE):
            nodes[at, 1 + i] = s[i]
        nodes[at, 1 + CURRENT] = current
    return at + 1


@compiled
def _follow(p: DriveParameters, c: Constants, m: Mode, s: Vector) -> None:
    """Keep the least voltage at the pack and the greatest current since the last release."""
    current = current_of(p, c, m, s)
    if m.on:
        m.least_voltage = min(m.least_voltage, electromotive_force(p, s[CHARGE]) - current * p.battery.resistance)
        m.peak = max(m.peak, current)


@compiled
def _rise(p: DriveParameters, c: Constants, m: Mode, s: Vector) -> float:
    """Let the current of an inductive winding rise until it turns the train; how long that takes, endless if it never does."""
    rates_now = resistance_of_motor(p, s[WINDING])
    whole = p.battery.resistance + p.wiring.lead_resistance + p.wiring.switch_resistance + rates_now
    force = electromotive_force(p, 0.0)
    final = (force - p.motor.brush_drop) / whole
    load = tappet_torque(p, s) / (p.gears.ratio * p.gears.efficiency)
    if m.drawn:
        spring = p.load.rate * (p.load.preload + draw_of(c, s)) + p.load.seal_drag
        load += c.pitch_radius * spring / (p.sector.rack_efficiency * p.gears.ratio * p.gears.efficiency)
    needed = (p.motor.no_load_current * c.back_emf + p.gears.friction_torque + load) / c.back_emf
    if needed >= final:
        return math.inf
    constant = p.motor.inductance / whole
    time = -constant * math.log(1.0 - needed / final)
    risen = needed / final
    charge = final * (time - constant * risen)
    square = final * final * (time - 2.0 * constant * risen + 0.5 * constant * (1.0 - (1.0 - risen) ** 2))
    s[CURRENT] = needed * (1.0 + 1e-12)
    s[CHARGE] = charge
    s[FROM_BATTERY] = force * charge
    s[IN_PACK] = square * p.battery.resistance
    s[IN_LEADS] = square * (p.wiring.lead_resistance + p.wiring.switch_resistance)
    s[IN_MOTOR] = square * rates_now + p.motor.brush_drop * charge
    s[SQUARE] = square
    return time


@compiled_apart
def run_burst(
    p: DriveParameters, c: Constants, m: Mode, s: Vector, work: Vector, events: Vector, nodes: Vector
) -> tuple[int, int, float]:
    """Run from the contacts' closing until all rests; how many events, how many nodes, and the time in s.

    ``s`` has shape (18,), ``work`` (8, 18): seven stages and a place to look at; ``events`` (n, 22), ``nodes`` (n, 19).
    """
    for i in range(SIZE):
        s[i] = 0.0
    s[ANGLE] = c.start
    s[WINDING] = p.day.winding_temperature
    s[HOUSING] = p.day.housing_temperature
    m.on = 1
    m.drawn = 1 if c.start > c.pick_up - 1e-8 else 0  # as near as `_next_angle` takes for the same
    m.code = TOO_MANY_STEPS
    m.steps = 0
    m.rejected = 0
    m.evaluations = 1
    m.impact = 0.0
    m.thrown = 0.0
    m.broken = 0.0
    m.least_voltage = math.inf
    m.peak = 0.0
    _follow(p, c, m, s)
    rates(p, c, m, s, work[0])
    time = 0.0
    happened = _note_event(STARTS, time, 0.0, 0.0, s, events, 0)
    kept = _keep(0, time, s, current_of(p, c, m, s), nodes)
    released = 0
    if p.motor.inductance > 0.0:
        time = _rise(p, c, m, s)
        rates(p, c, m, s, work[0])
        _follow(p, c, m, s)
    elif work[0, SPEED] <= 0.0:
        time = math.inf
    if not time < math.inf:
        m.code = STALLED
        return _note_event(STALLS, 0.0, 0.0, m.peak, s, events, happened), kept, 0.0
    step = _FIRST_STEP
    target = _next_angle(c, p, m, s[ANGLE])
    aimed = for_rest = 0
    low = high = off_low = off_high = 0.0
    while m.steps + m.rejected < MOST_STEPS:
        for stage in range(1, STAGES):
            stage_state(s, work, step, stage, work[STAGES])
            rates(p, c, m, work[STAGES], work[stage])
        m.evaluations += STAGES - 1
        error = 0.0
        for i in range(DYNAMIC):
            scale = 100.0 if i == SPEED else 10.0 if WINDING <= i <= CURRENT else 1.0
            error = max(error, abs(error_of(work, step, i)) / max(abs(s[i]), abs(work[STAGES, i]), scale))
        error /= c.tolerance
        if not error <= 1.0 and step > _LEAST_STEP:
            m.rejected += 1
            step = next_step(step, error) if error > 1.0 else 0.1 * step
            continue
        # A step that would pass an event is taken again, shorter, until it ends on it.
        beyond = work[STAGES, ANGLE] - target
        slow = -work[STAGES, SPEED]
        by_angle = beyond > _ON_IT
        if (by_angle or slow > _AT_REST or aimed > 0) and aimed < _AIMS:
            stops = slow > _AT_REST and not (by_angle and aimed == 0)
            if aimed == 0:
                low, high = 0.0, step
                for_rest = 1 if stops else 0
                off_low = -s[SPEED] if for_rest else s[ANGLE] - target
            off = slow if for_rest else beyond
            near = _AT_REST if for_rest else _ON_IT
            if abs(off) > near:
                if off > 0.0:
                    high, off_high = step, off
                else:
                    low, off_low = step, off
                aimed += 1
                step = aim(low, off_low, high, off_high, aimed)
                continue
        time += step
        m.steps += 1
        for i in range(SIZE):
            s[i] = work[STAGES, i]
            work[0, i] = work[STAGES - 1, i]
        kept = _keep(kept, time, s, current_of(p, c, m, s), nodes)
        _follow(p, c, m, s)
        grows = next_step(step, error)
        if m.drawn:
            drawing = c.pitch_radius * s[SPEED] / p.gears.ratio
            inertial = p.load.mass * c.pitch_radius * work[0, SPEED] / p.gears.ratio
            pull = p.load.rate * (p.load.preload + draw_of(c, s)) + p.load.seal_drag + air_force(p, drawing) + inertial
            if pull <= 0.0:
                m.code = RACK_UNLOADED
                break
            if air_force(p, drawing) > _VACUUM * p.day.air_pressure * p.load.cylinder_area:
                m.code = NO_AIR
                break
        if s[SPEED] <= _AT_REST and work[0, SPEED] <= 0.0:
            s[SPEED] = 0.0
            m.code = STALLED if m.on else RESTED
            happened = _note_event(STALLS if m.on else STOPS, time, 0.0, m.peak, s, events, happened)
            break
        step = grows if aimed == 0 else max(grows, _FIRST_STEP)
        aimed = 0
        if abs(s[ANGLE] - target) > 2.0 * _ON_IT:
            continue
        s[ANGLE] = target
        before = s[SPEED]
        if _is_at(target, c.pick_up):
            m.drawn = 1
            s[SPEED] = before * p.motor.inertia / (p.motor.inertia + c.piston_inertia)
            m.impact += 0.5 * p.motor.inertia * before**2 - 0.5 * (p.motor.inertia + c.piston_inertia) * s[SPEED] ** 2
            happened = _note_event(PICK_UP, time, before, m.peak, s, events, happened)
        elif _is_at(target, c.release) and m.drawn:
            m.thrown += 0.5 * c.piston_inertia * before**2
            m.drawn = 0
            released += 1
            happened = _note_event(RELEASE, time, before, m.peak, s, events, happened)
            m.peak = 0.0
        if _is_at(target, c.slip):
            happened = _note_event(SLIP, time, before, m.peak, s, events, happened)
        if _is_at(target, c.entry):
            happened = _note_event(ENTRY, time, before, m.peak, s, events, happened)
        if m.on and abs(target - c.cut) <= 1e-8:
            m.on = 0
            m.broken += 0.5 * p.motor.inductance * s[CURRENT] ** 2
            s[CURRENT] = 0.0
            happened = _note_event(CUT, time, before, m.peak, s, events, happened)
        if released >= c.shots + _RELEASES_TOO_MANY:
            m.code = RUNS_AWAY
            break
        rates(p, c, m, s, work[0])
        m.evaluations += 1
        _follow(p, c, m, s)
        target = _next_angle(c, p, m, s[ANGLE])
        step = min(step, 1e-4)
    return happened, kept, time


@compiled_apart
def run_bursts(
    rows: Rows, constants: Rows, modes: Rows, work: Vector, events: Vector, counts: Vector, first: int, last: int
) -> None:
    """Run many bursts without nodes; ``work`` has shape (9, 18), ``events`` (n, most, 21), ``counts`` (n, 2)."""
    for one in range(first, last):
        happened, _, time = run_burst(
            rows[one], constants[one], modes[one], work[8], work[:8], events[one], events[one, :0, : SIZE + 1]
        )
        counts[one, 0] = happened
        counts[one, 1] = time
