"""Every burst of ordinary drives with other numbers: the ledger closes, power balances, and the laws of the drive hold."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.drive_cycle import BurstOutcome, DriveParameters, kernel, sector_angles, simulate_drive
from stripdown.core.drive_cycle.simulate import constants_row
from stripdown.core.numerics.rows import blank_rows, pack
from stripdown.quantities import replace_at
from tests.ordinary_drive import ordinary

LOSSES = (
    kernel.IN_PACK,
    kernel.IN_LEADS,
    kernel.IN_MOTOR,
    kernel.IN_FRICTION,
    kernel.IN_GEARS,
    kernel.IN_RACK,
    kernel.IN_DRAG,
    kernel.IN_AIR,
    kernel.IN_TAPPET,
    kernel.IN_SPRING,
)


@st.composite
def drives(draw: st.DrawFn) -> DriveParameters:
    """Ordinary drives with other springs, motors, gears and packs."""
    return ordinary(
        battery__cells=draw(st.integers(2, 3)),
        battery__state_of_charge=draw(st.floats(0.3, 1.0)),
        motor__back_emf_constant=draw(st.floats(2.8e-3, 4.5e-3)),
        motor__resistance=draw(st.floats(0.07, 0.25)),
        motor__inertia=draw(st.floats(0.8e-6, 2e-6)),
        motor__inductance=draw(st.sampled_from([0.0, 5e-5])),
        gears__ratio=draw(st.floats(13.0, 24.0)),
        load__rate=draw(st.floats(350.0, 700.0)),
        load__mass=draw(st.floats(0.02, 0.04)),
        load__inlet_area=25e-6,
        trigger__brakes=draw(st.booleans()),
    )


@given(drives(), st.integers(1, 4))
def test_the_ledger_of_any_burst_closes(drive: DriveParameters, shots: int) -> None:
    """What the battery gave is found again, to a millionth; a stall gave it too."""
    burst = simulate_drive(drive, shots=shots)
    assert abs(burst.ledger.residual) <= 1e-6 * max(burst.ledger.battery, 1.0)
    for name in ("pack", "leads", "motor", "friction", "gears", "rack", "seal_drag", "air", "tappet", "impact", "piston"):
        assert getattr(burst.ledger, name) >= -1e-9, name


def test_the_residual_falls_with_the_tolerance() -> None:
    """A thousand times the accuracy leaves at most a twentieth of the residual."""
    loose, tight = (abs(simulate_drive(ordinary(), shots=5, tolerance=tolerance).ledger.residual) for tolerance in (1e-6, 1e-9))
    assert tight <= 0.05 * loose


@given(
    drives(),
    st.integers(0, 1),
    st.integers(0, 1),
    st.floats(10.0, 3000.0),
    st.floats(0.01, 0.99),
    st.floats(0.0, 60.0),
)
def test_power_balances_at_any_state(
    drive: DriveParameters, on: int, drawn: int, speed: float, share: float, current: float
) -> None:
    """Battery, losses, work and motion sum to nothing, to 1e-12 of the greatest; integrated is nothing of it."""
    angles = sector_angles(drive.sector, stroke=drive.load.stroke)
    constants, mode = constants_row(drive, angles, shots=1), blank_rows(kernel.MODE)
    mode["on"], mode["drawn"] = on, drawn
    state, out = np.zeros(kernel.SIZE), np.zeros(kernel.SIZE)
    width = angles.release - angles.pick_up
    state[kernel.ANGLE] = angles.pick_up + share * width if drawn else angles.release + share * (2 * math.pi - width)
    state[kernel.SPEED], state[kernel.WINDING], state[kernel.HOUSING] = speed, 320.0, 300.0
    state[kernel.CURRENT] = current if on and drive.motor.inductance > 0.0 else 0.0
    kernel.rates(pack(drive)[0], constants[0], mode[0], state, out)
    rack = angles.pitch_radius / drive.gears.ratio
    mass = drive.load.mass * rack**2 if drawn else 0.0
    motion = (drive.motor.inertia + mass) * speed * out[kernel.SPEED]
    field = drive.motor.inductance * state[kernel.CURRENT] * out[kernel.CURRENT]
    powers = [out[kernel.FROM_BATTERY], *(-out[one] for one in LOSSES), -motion, -field]
    assert abs(math.fsum(powers)) <= 1e-12 * max(map(abs, powers))


def test_a_flipped_sign_would_be_seen() -> None:
    """The balance is no identity: left out, the friction is missed."""
    drive = ordinary()
    angles = sector_angles(drive.sector, stroke=drive.load.stroke)
    constants, mode = constants_row(drive, angles, shots=1), blank_rows(kernel.MODE)
    mode["on"] = 1
    state, out = np.zeros(kernel.SIZE), np.zeros(kernel.SIZE)
    state[kernel.ANGLE], state[kernel.SPEED], state[kernel.WINDING], state[kernel.HOUSING] = 4.0, 2000.0, 300.0, 300.0
    kernel.rates(pack(drive)[0], constants[0], mode[0], state, out)
    motion = drive.motor.inertia * 2000.0 * out[kernel.SPEED]
    powers = [out[kernel.FROM_BATTERY], *(-out[one] for one in LOSSES if one != kernel.IN_FRICTION), -motion]
    assert abs(math.fsum(powers)) > 0.01 * max(map(abs, powers))


@given(drives())
def test_rate_and_coasting_rise_with_the_voltage(drive: DriveParameters) -> None:
    """Laws of the drive: more voltage, more rate; and on semi without a brake the sector coasts further."""

    def at(volts: float, **how: Any) -> Any:
        changed = ordinary_from(drive, battery__fixed_voltage=volts)
        return simulate_drive(changed, **how)

    low, high = at(9.0, shots=6), at(11.0, shots=6)
    if low.outcome is BurstOutcome.RESTED and high.outcome is BurstOutcome.RESTED:
        assert high.rate > low.rate
    one, other = at(9.0, shots=1, brake=False), at(11.0, shots=1, brake=False)
    if one.outcome is BurstOutcome.RESTED and other.outcome is BurstOutcome.RESTED:
        assert other.over_spin > one.over_spin


def test_short_stroking_at_the_release_end_raises_the_rate() -> None:
    """Three teeth off and nine millimetres less of stroke: faster, and less energy in the spring."""
    full = simulate_drive(ordinary(), shots=8)
    short = simulate_drive(ordinary(sector__cut_at_release=3, load__stroke=52e-3 - 3 * math.pi * 1e-3), shots=8)
    assert short.rate > full.rate
    assert short.ledger.spring < full.ledger.spring


def test_a_brake_shortens_the_run_on() -> None:
    """With a brake the sector stops sooner after the cut."""
    assert simulate_drive(ordinary(), shots=1, brake=True).run_on < simulate_drive(ordinary(), shots=1, brake=False).run_on


def test_a_strong_spring_on_a_weak_motor_stalls() -> None:
    """A result, not an error: the current goes on flowing through a motor at rest."""
    burst = simulate_drive(ordinary(load__rate=3000.0, battery__cells=2, motor__resistance=0.6), shots=2)
    assert burst.outcome is BurstOutcome.STALLED
    assert burst.shots_fired == 0
    assert burst.speed[-1] == pytest.approx(0.0, abs=1e-6)


def ordinary_from(drive: DriveParameters, **changes: Any) -> DriveParameters:
    """A drive with some leaves changed."""
    for path, value in changes.items():
        drive = replace_at(drive, path.replace("__", "."), value)
    return drive
