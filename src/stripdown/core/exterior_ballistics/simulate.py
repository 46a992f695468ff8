"""From records to results: check, pack, follow the flight, and describe it; one, or a fan of many."""

from __future__ import annotations

import math
from typing import Final, Literal

import numpy as np

from stripdown.core.exterior_ballistics import kernel
from stripdown.core.exterior_ballistics.drag import DRAG_RANGES, drag_law, hold_mach
from stripdown.core.exterior_ballistics.lift import LIFT_RANGES, lift_law
from stripdown.core.exterior_ballistics.parameters import (
    DragLaw,
    FlightAir,
    FlightLaws,
    FlightParameters,
    Launch,
    LiftLaw,
    Sphere,
    SpinDecayLaw,
    Wind,
)
from stripdown.core.exterior_ballistics.result import Flight
from stripdown.core.exterior_ballistics.spin_decay import spin_decay_law
from stripdown.core.exterior_ballistics.validity import hold_against
from stripdown.core.numerics.dormand_prince import STAGES
from stripdown.core.numerics.rows import blank_rows, pack
from stripdown.errors import InputError, NumericalFailure, OutOfRange, OutsideValidity
from stripdown.quantities import check

Until = Literal["ground"] | float
TOLERANCE: Final = 1e-9
"""Error allowed per step, as a share: it leaves micrometres at 50 m."""
_NODES: Final = 512
_CALM: Final = Wind()


def flight_laws(
    *,
    drag: str | float | DragLaw = DragLaw.CLIFT_GAUVIN,
    lift: str | float | LiftLaw | None = LiftLaw.LOTH,
    lift_factor: float = 1.0,
    spin_decay: str | float | SpinDecayLaw | None = SpinDecayLaw.CROSS_FLOW,
    mach: bool = False,
) -> FlightLaws:
    """Choose the laws of a flight by name, or by a constant.

    Parameters
    ----------
    drag
        Name of a law, or a constant drag coefficient.
    lift
        Name of a law, a constant lift coefficient, or None for no lift.
    lift_factor
        Multiplier on the lift, as fitted to a flight that was seen.
    spin_decay
        Name of a law, a torque coefficient of the cross flow, or None for a spin that stays.
    mach
        Whether the drag grows with the Mach number.

    Returns
    -------
    FlightLaws

    Raises
    ------
    InputError
        For a name that is not known.
    """
    given: dict[str, object] = {"with_mach_factor": mach, "lift_factor": lift_factor}
    if _is_number(drag):
        given |= {"drag": DragLaw.CONSTANT, "drag_coefficient": drag}
    else:
        given["drag"] = drag_law(drag)  # type: ignore[arg-type]
    if _is_number(lift):
        given |= {"lift": LiftLaw.CONSTANT, "lift_coefficient": lift}
    else:
        given["lift"] = LiftLaw.NONE if lift is None else lift_law(lift)  # type: ignore[arg-type]
    if _is_number(spin_decay):
        given |= {"spin_decay": SpinDecayLaw.CROSS_FLOW, "spin_torque": spin_decay}
    else:
        given["spin_decay"] = SpinDecayLaw.NONE if spin_decay is None else spin_decay_law(spin_decay)  # type: ignore[arg-type]
    return FlightLaws(**given)  # type: ignore[arg-type]


def simulate_flight(
    *,
    ball_mass: float,
    ball_diameter: float = 0.006,
    velocity: tuple[float, float, float],
    position: tuple[float, float, float] = (0.0, 0.0, 0.0),
    spin: tuple[float, float, float] = (0.0, 0.0, 0.0),
    air: FlightAir,
    drag: str | float | DragLaw = DragLaw.CLIFT_GAUVIN,
    lift: str | float | LiftLaw | None = LiftLaw.LOTH,
    lift_factor: float = 1.0,
    spin_decay: str | float | SpinDecayLaw | None = SpinDecayLaw.CROSS_FLOW,
    mach: bool = False,
    wind: Wind | None = None,
    until: Until = "ground",
    extrapolate: bool = False,
    tolerance: float = TOLERANCE,
) -> Flight:
    """Simulate the flight of one ball in three dimensions: x downrange, y to the left, z up.

    Parameters
    ----------
    ball_mass
        In kg.
    ball_diameter
        In m.
    velocity
        At the start, in m/s, shape (3,).
    position
        At the start, in m, shape (3,); the ground is z = 0.
    spin
        At the start, in rad/s, shape (3,); backspin is a negative y.
    air
        From `air_state`.
    drag
        Name of a law, or a constant drag coefficient.
    lift
        Name of a law, a constant lift coefficient, or None for no lift.
    lift_factor
        Multiplier on the lift, as fitted to a flight that was seen.
    spin_decay
        Name of a law, a torque coefficient of the cross flow, or None for a spin that stays.
    mach
        Whether the drag grows with the Mach number; the result says so.
    wind
        None for calm air.
    until
        ``"ground"``, or a distance downrange in m, whatever the ground.
    extrapolate
        Whether laws may be used outside their range; the result says so.
    tolerance
        Error allowed per step, as a share.

    Returns
    -------
    Flight

    Raises
    ------
    InputError
        For a law that is not known, or what is no vector of three numbers.
    OutOfRange
        For an impossible value, a target behind the muzzle, or a start under the ground.
    OutsideValidity
        Above Mach 0.9, outside the range of a law, or for a distance that the ball never gets to.
    NumericalFailure
        If it cannot be integrated.

    Notes
    -----
    Drag along the path, lift across path and spin, gravity; the axis of the spin stays. The buoyancy of the air, 0.07 % of the
    weight of a 0.20 g ball, is left out. Validity: smooth balls below Mach 0.9 and below the drag crisis.

    References
    ----------
    clift_gauvin_1970; loth_2008; smits_smith_1994.
    """
    start, speeds, turns = (_three(name, one) for name, one in (("position", position), ("velocity", velocity), ("spin", spin)))
    parameters = FlightParameters(
        ball=Sphere(mass=ball_mass, diameter=ball_diameter),
        launch=Launch(
            x=start[0],
            y=start[1],
            z=start[2],
            speed_x=speeds[0],
            speed_y=speeds[1],
            speed_z=speeds[2],
            spin_x=turns[0],
            spin_y=turns[1],
            spin_z=turns[2],
        ),
        air=air,
        wind=_CALM if wind is None else wind,
        laws=flight_laws(drag=drag, lift=lift, lift_factor=lift_factor, spin_decay=spin_decay, mach=mach),
    )
    return integrate_flight(parameters, until=until, extrapolate=extrapolate, tolerance=tolerance)


def integrate_flight(
    parameters: FlightParameters, *, until: Until = "ground", extrapolate: bool = False, tolerance: float = TOLERANCE
) -> Flight:
    """Simulate one flight from its record.

    Parameters
    ----------
    parameters
        All that it depends on.
    until
        ``"ground"``, or a distance downrange in m.
    extrapolate
        Whether laws may be used outside their range; the result says so.
    tolerance
        Error allowed per step, as a share.

    Returns
    -------
    Flight

    Raises
    ------
    InputError
        For an end that is neither the ground nor a distance, or a tolerance that the method cannot keep.
    OutOfRange
        For an impossible value, a target behind the muzzle, or a start under the ground.
    OutsideValidity
        Above Mach 0.9, outside the range of a law, or for a distance that the ball never gets to.
    NumericalFailure
        If it cannot be integrated.
    """
    check(parameters)
    distance = end_of(parameters.launch, until)
    check_tolerance(tolerance)
    row, end = pack(parameters), blank_rows(kernel.FLIGHT_END)
    room = _NODES
    while True:
        nodes = np.zeros((room, 1 + 2 * kernel.SIZE))
        kept = kernel.fly(
            row[0],
            tolerance,
            distance,
            int(until == "ground"),
            np.zeros(kernel.SIZE),
            np.zeros((STAGES + 1, kernel.SIZE)),
            end[0],
            nodes,
        )
        if kept <= room:
            break
        room = kept
    judge_end(end[0], until, "")
    remarks = remarks_of(parameters, end[0], extrapolate=extrapolate)
    nodes = nodes[:kept].copy()
    return Flight(
        parameters=parameters,
        time=nodes[:, 0],
        position=nodes[:, 1:4],
        velocity=nodes[:, 4:7],
        spin_left=nodes[:, 7],
        acceleration=nodes[:, 11:14],
        spin_lost=nodes[:, 14],
        remarks=remarks,
        steps=int(end["steps"][0]),
        rejected=int(end["rejected"][0]),
        evaluations=int(end["evaluations"][0]),
    )


def end_of(launch: Launch, until: Until) -> float:
    """Distance in m at which a flight ends, 0 for the ground; refuses what is no end."""
    if until == "ground":
        if launch.z < 0.0 or (launch.z == 0.0 and launch.speed_z <= 0.0):
            raise OutOfRange(
                f"position = {launch.z:g} m above the ground: a flight to the ground begins above it, or rises from it.",
                field="position",
                value=launch.z,
                unit="m",
                limits=(0.0, None),
                hint="Give the height of the muzzle, or a distance to fly to.",
            )
        return 0.0
    if not _is_number(until) or not math.isfinite(until):
        raise InputError(
            f"until = {until!r} is no end of a flight.", field="until", value=until, hint='Write "ground", or a distance in m.'
        )
    if until <= launch.x:
        raise OutOfRange(
            f"until = {until:g} m is not in front of the muzzle at {launch.x:g} m.",
            field="until",
            value=until,
            unit="m",
            limits=(launch.x, None),
            hint="A target stands before the shooter.",
        )
    return float(until)


def judge_end(end: np.void, until: Until, whose: str) -> None:
    """Raise what a flight that did not end where it should came to."""
    code = int(end["code"])
    if code in {kernel.ARRIVED, kernel.LANDED}:
        return
    if code == kernel.TOO_FAST:
        hold_mach(float(end["greatest_mach"]))
    if code == kernel.NEVER_ARRIVES:
        where = "down" if until == "ground" else f"to {until:g} m"
        raise OutsideValidity(
            f"{whose}The ball never gets {where}: after {kernel.LONGEST:g} s it is at {float(end['x']):.4g} m.",
            model="flight",
            quantity="distance",
            value=math.inf if until == "ground" else float(until),
            limits=(0.0, float(end["x"])),
        )
    raise NumericalFailure(
        f"{whose}The flight needed too many steps.",
        time=float(end["time"]),
        state=tuple(float(end[name]) for name in ("x", "y", "z", "speed_x", "speed_y", "speed_z", "spin")),
        steps=int(end["steps"]),
        rejected=int(end["rejected"]),
        evaluations=int(end["evaluations"]),
    )


def remarks_of(parameters: FlightParameters, end: np.void, *, extrapolate: bool) -> tuple[str, ...]:
    """What must be said of a flight; a law outside its range is refused unless that was asked for."""
    laws = parameters.laws
    found = ["mach_factor"] if laws.with_mach_factor else []
    reynolds = (float(end["least_reynolds"]), float(end["greatest_reynolds"]))
    asked = []
    if laws.drag in DRAG_RANGES and parameters.air.density > 0.0:
        asked += [("drag", DRAG_RANGES[laws.drag], {"reynolds": value}) for value in reynolds]
    if laws.lift in LIFT_RANGES and end["greatest_spin_ratio"] > 0.0:
        asked += [("lift", LIFT_RANGES[laws.lift], {"reynolds": value}) for value in reynolds]
        asked.append(("lift", LIFT_RANGES[laws.lift], {"spin_ratio": float(end["greatest_spin_ratio"])}))
    for which, law, values in asked:
        if not law.holds(**values):
            if not extrapolate:
                hold_against(law, **values)
            found.append(f"{which}_extrapolated")
    return tuple(dict.fromkeys(found))


def check_tolerance(tolerance: float) -> None:
    """Refuse a tolerance that the method cannot keep."""
    least, most = 1e-13, 1e-3
    if not _is_number(tolerance) or not least <= tolerance <= most:
        raise InputError(
            f"A tolerance of {tolerance!r} cannot be kept.",
            field="tolerance",
            value=tolerance,
            limits=(least, most),
            hint=f"Choose between {least:g} and {most:g}; {TOLERANCE:g} is usual.",
        )


def _is_number(value: object) -> bool:
    return isinstance(value, int | float | np.floating | np.integer) and not isinstance(
        value, bool | DragLaw | LiftLaw | SpinDecayLaw
    )


def _three(name: str, vector: object) -> tuple[float, float, float]:
    try:
        x, y, z = (float(one) for one in vector)  # type: ignore[attr-defined]
    except (TypeError, ValueError):
        raise InputError(
            f"{name} = {vector!r} is no vector of three numbers.", field=name, hint="Give (x, y, z): downrange, left, up."
        ) from None
    return x, y, z
