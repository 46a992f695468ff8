"""One burst: what happens in which order, what its figures mean, and what is refused."""

from __future__ import annotations

import copy
import math
import pickle
from collections.abc import Callable
from typing import Any

import pytest
from scipy.integrate import solve_ivp

from stripdown.core.drive_cycle import (
    BurstOutcome,
    DriveEventKind,
    battery_open_circuit_voltage,
    motor_operating_point,
    plate_return,
    sector_angles,
    simulate_drive,
    winding_temperature,
    wire_resistance,
)
from stripdown.core.mechanics.gear_contact import contact_ratio, least_pressure_angle_without_interference
from stripdown.core.parts.tappet_plate import TappetPlate
from stripdown.errors import InputError, OutOfRange, OutsideValidity
from tests.ordinary_drive import DEGREE, ORDINARY, ordinary


def test_a_shot_on_semi_goes_through_its_moments_in_order() -> None:
    """Contacts, entry, pick-up, slip, release, cut; what coasts on passes the next ones until it rests."""
    kinds = [event.kind for event in simulate_drive(ORDINARY, shots=1).events]
    assert kinds[:6] == [
        DriveEventKind.STARTS,
        DriveEventKind.ENTRY,
        DriveEventKind.PICK_UP,
        DriveEventKind.SLIP,
        DriveEventKind.RELEASE,
        DriveEventKind.CUT,
    ]
    assert kinds[-1] is DriveEventKind.STOPS


def test_figures_of_a_burst_agree_with_its_events() -> None:
    """Rate from the last two releases under power, start speed from the last, over-spin from where it rests."""
    burst = simulate_drive(ORDINARY, shots=8)
    releases = [event for event in burst.events if event.kind is DriveEventKind.RELEASE]
    assert burst.rate == pytest.approx(1.0 / (releases[7].time - releases[6].time))
    assert burst.first_release == releases[0].time
    assert burst.start_speed == pytest.approx(-burst.angles.pitch_radius * releases[7].speed_before / 18.7)
    assert burst.over_spin == pytest.approx(burst.events[-1].angle - burst.pick_up_angle - 16 * math.pi)
    assert burst.inrush == pytest.approx(battery_open_circuit_voltage(0.8, cells=3) / (0.024 + 0.025 + 0.12), rel=1e-6)
    assert burst.entry_time < burst.pick_up_time < 1.0 / burst.rate


def test_a_start_from_a_drawn_spring_is_slower_at_release() -> None:
    """After over-spin the sector begins in the draw, and the piston starts with less speed."""
    drawn = simulate_drive(ORDINARY, shots=1, start_angle=2 * math.pi - 20 * DEGREE)
    assert 0.0 > drawn.first_start_speed > simulate_drive(ORDINARY, shots=1).first_start_speed


def test_an_inductive_winding_delays_the_start_and_changes_little_else() -> None:
    """50 microhenry: a few tenths of a millisecond, and the same rate within half a per cent."""
    plain, inductive = simulate_drive(ORDINARY, shots=8), simulate_drive(ordinary(motor__inductance=5e-5), shots=8)
    assert 0.0 < inductive.first_release - plain.first_release < 1e-3
    assert inductive.rate == pytest.approx(plain.rate, rel=5e-3)
    assert inductive.inrush < plain.inrush


def test_sector_angles_of_the_usual_gear() -> None:
    """Thirty teeth all round: entry at -27.28 degrees, a last tooth that carries 2.60 to 7.38 mm."""
    angles = sector_angles(ORDINARY.sector, stroke=0.052)
    assert angles.entry / DEGREE == pytest.approx(-27.28, abs=0.01)
    assert angles.fits[0] * 1e3 == pytest.approx(2.60, abs=0.005)
    assert angles.fits[1] * 1e3 == pytest.approx(7.38, abs=0.005)
    assert angles.release - angles.pick_up == pytest.approx(0.052 / 0.015)


def test_short_stroking_moves_only_its_own_end() -> None:
    """Teeth off at the pick-up end move entry and pick-up by a pitch each; off at the release end, neither."""
    full = sector_angles(ORDINARY.sector, stroke=0.052)
    pitch = 2 * math.pi / 30
    late = sector_angles(ordinary(sector__cut_at_pick_up=2).sector, stroke=0.052 - 2 * math.pi * 1e-3)
    assert late.pick_up - full.pick_up == pytest.approx(2 * pitch)
    assert late.entry - full.entry == pytest.approx(2 * pitch)
    assert late.release == pytest.approx(full.release)
    early = sector_angles(ordinary(sector__cut_at_release=2).sector, stroke=0.052 - 2 * math.pi * 1e-3)
    assert (early.entry, early.pick_up) == (full.entry, full.pick_up)
    assert full.release - early.release == pytest.approx(2 * pitch)


def test_the_plate_snaps_home_as_scipy_has_it() -> None:
    """Mass, spring, friction and lips, integrated: shut and home within a microsecond."""
    plate = ORDINARY.tappet

    def change(_: float, s: Any) -> list[float]:
        lips = plate.lips_force if s[0] < plate.lips_touch else 0.0
        return [s[1], -(plate.spring_force + plate.spring_rate * s[0] - plate.friction - lips) / plate.mass]

    def passing(place: float) -> Callable[..., float]:
        def passes(_: float, s: Any) -> float:
            return float(s[0] - place)

        return passes

    done = solve_ivp(
        change,
        (0.0, 0.02),
        [plate.travel, 0.0],
        events=[passing(plate.feed_closes), passing(0.0)],
        rtol=1e-10,
        atol=1e-12,
        max_step=1e-5,
    )
    found = plate_return(plate)
    assert found.shut == pytest.approx(float(done.t_events[0][0]), abs=1e-6)
    assert found.home == pytest.approx(float(done.t_events[1][0]), abs=1e-6)


def test_a_weak_tappet_spring_never_brings_the_nozzle_home() -> None:
    """Friction above its force holds the plate back; lips above what is left stop it before home."""
    weak = ordinary(tappet__spring_force=0.5, tappet__spring_rate=10.0, tappet__friction=2.0).tappet
    assert plate_return(weak).shut == math.inf
    stiff = ordinary(tappet__lips_force=60.0).tappet
    assert isinstance(stiff, TappetPlate)
    assert plate_return(stiff).shut < plate_return(stiff).home == math.inf


def test_a_result_stays_read_only_when_it_is_kept() -> None:
    """Pickled and copied, and still nothing can be written to."""
    burst = simulate_drive(ORDINARY, shots=1)
    for kept in (pickle.loads(pickle.dumps(burst)), copy.deepcopy(burst)):  # noqa: S301  our own
        assert not kept.speed.flags.writeable


def test_work_is_bounded() -> None:
    """A cycle takes under 130 steps."""
    burst = simulate_drive(ORDINARY, shots=20)
    assert burst.outcome is BurstOutcome.RESTED
    assert burst.steps + burst.rejected <= 130 * 21


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"gears__ratio": 0.5}, "impossible"),
        ({"sector__full_teeth": 29}, "leave no free arc"),
        ({"sector__cut_at_release": 15}, "leaves 1"),
        ({"sector__lead": 9e-3}, "meets the rack"),
        ({"load__stroke": 40e-3}, "do not fit"),
        ({"motor__no_load_current": 90.0, "motor__resistance": 0.2}, "motor.no_load_current.*motor.resistance.*contradict"),
        ({"tappet__pull_end": 3.0}, "do not follow each other"),
        ({"tappet__feed_closes": 9e-3}, "do not follow each other"),
        ({"battery__state_of_charge": 1.5}, "impossible"),
    ],
)
def test_parts_that_cannot_be_are_refused(changes: dict[str, Any], said: str) -> None:
    """With the fields, and what would be right."""
    with pytest.raises(OutOfRange, match=said):
        simulate_drive(ordinary(**changes), shots=2)


def test_what_makes_no_burst_is_refused() -> None:
    """Shots, tolerance, a start outside a turn."""
    for shots in (0, 500, 1.5, True):
        with pytest.raises(InputError, match="no burst"):
            simulate_drive(ORDINARY, shots=shots)  # type: ignore[arg-type]
    with pytest.raises(InputError, match="cannot be kept"):
        simulate_drive(ORDINARY, shots=1, tolerance=1.0)
    with pytest.raises(OutOfRange, match="between two releases"):
        simulate_drive(ORDINARY, shots=1, start_angle=7.0)


def test_a_choked_inlet_is_beyond_the_model() -> None:
    """Blocked vent and nozzle: no number."""
    with pytest.raises(OutsideValidity, match="air gets in"):
        simulate_drive(ordinary(load__inlet_area=1e-6), shots=1)


def test_impossible_motors_wires_and_gears_are_refused() -> None:
    """Each names its field."""
    with pytest.raises(OutOfRange, match="not below"):
        motor_operating_point(voltage=7.4, resistance=2.0, back_emf_constant=0.004, no_load_current=5.0, load_torque=0.0)
    with pytest.raises(OutOfRange):
        wire_resistance(gauge=60, length=1.0)
    with pytest.raises(OutOfRange):
        battery_open_circuit_voltage(1.2, cells=3)
    with pytest.raises(OutOfRange):
        contact_ratio(teeth_1=2, teeth_2=40, module=1e-3, pressure_angle=0.35)
    with pytest.raises(OutOfRange, match="too much for a pinion"):
        least_pressure_angle_without_interference(pitch_diameter=10e-3, addendum=6e-3)
    with pytest.raises(InputError, match="no pair"):
        winding_temperature(
            [3.0],  # type: ignore[list-item]
            winding_heat_capacity=17.0,
            housing_heat_capacity=55.0,
            winding_to_housing=3.0,
            housing_to_air=10.0,
        )
