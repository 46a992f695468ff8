"""From records to results: what is refused, what a batch is, and that single, batch, threads and uncompiled code agree."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from stripdown.catalogue.guns import load_guns
from stripdown.core.interior_ballistics.parameters import FlowLaw, HeatLaw
from stripdown.core.interior_ballistics.result import EnergyLedger, EventKind, Outcome
from stripdown.core.interior_ballistics.run import run_shot, run_shots
from stripdown.core.interior_ballistics.simulate import integrate_shot, integrate_shots, run_batch, run_one, settings_row
from stripdown.core.numerics.rows import pack_many, vary
from stripdown.errors import InputError, NumericalFailure, OutOfRange, OutsideValidity
from stripdown.quantities import replace_at, value_at

GUNS = {key: gun.parameters for key, gun in load_guns().items()}
RIFLE = GUNS["full_stroke_rifle"]


def test_a_batch_has_the_numbers_of_its_single_shots() -> None:
    """Fired alone or as a row of a batch, a gun has the same figures, bit for bit."""
    rows = run_batch(pack_many(list(GUNS.values())), settings_row(tolerance=1e-4), threads=1)
    for row, gun in zip(rows, GUNS.values(), strict=True):
        shot = integrate_shot(gun)
        assert row["muzzle_speed"] == shot.figures.muzzle_speed
        assert row["peak_pressure"] == shot.figures.peak_pressure
        assert row["steps"] == shot.solver.steps
        for name in EnergyLedger.ENTRIES:
            assert row[name] == getattr(shot.ledger, name), name


def test_threads_change_nothing() -> None:
    """Two hundred rows over four threads are the rows of one thread, bit for bit, in their order."""
    rows = vary(RIFLE, 200, {"ball.mass": np.linspace(0.12e-3, 0.48e-3, 200)})
    alone, shared = (run_batch(rows, settings_row(tolerance=1e-3), threads=threads) for threads in (1, 4))
    assert np.array_equal(alone, shared)


@pytest.mark.parametrize("threads", [1, 3])
def test_progress_counts_up_to_all(threads: int) -> None:
    """Progress is told after each block, never backwards, and ends at the number of shots."""
    told: list[tuple[int, int]] = []
    integrate_shots(
        RIFLE,
        variations={"ball.mass": np.full(150, 0.2e-3)},
        tolerance=1e-2,
        until_muzzle=True,
        threads=threads,
        progress=lambda done, count: told.append((done, count)),
    )
    assert [done for done, _ in told] == sorted({done for done, _ in told})
    assert told[-1] == (150, 150)


def test_a_batch_describes_itself() -> None:
    """It keeps gun, variations and tolerance; its rows cannot be written to; energies follow each row's own ball."""
    masses = np.array([0.2e-3, 0.3e-3])
    batch = integrate_shots(RIFLE, variations={"ball.mass": masses})
    assert batch.parameters is RIFLE
    assert batch.tolerance == 1e-4
    assert batch.muzzle_energy == pytest.approx(0.5 * masses * batch.muzzle_speed**2, rel=1e-15)
    assert batch.outcome == (Outcome.LEFT_MUZZLE, Outcome.LEFT_MUZZLE)
    with pytest.raises(ValueError, match="read-only"):
        batch.rows["muzzle_speed"][0] = 1.0


def test_one_number_serves_every_row_beside_a_column() -> None:
    """A single value beside a column of them holds for all rows."""
    batch = integrate_shots(RIFLE, variations={"ball.mass": [0.2e-3, 0.3e-3], "spring.rate": np.float64(520.0)})
    plain = integrate_shots(RIFLE, variations={"ball.mass": [0.2e-3, 0.3e-3]})
    assert RIFLE.spring.rate == 520.0
    assert np.array_equal(batch.muzzle_speed, plain.muzzle_speed)


@pytest.mark.parametrize("tolerance", [0.0, -1e-4, 1e-12, 0.1, float("nan"), float("inf")])
def test_a_tolerance_that_cannot_be_kept_is_refused(tolerance: float) -> None:
    """Too strict, too loose, or no number: the complaint gives the limits and what is usual."""
    with pytest.raises(InputError, match="cannot be kept") as caught:
        integrate_shot(RIFLE, tolerance=tolerance)
    assert caught.value.field == "tolerance"
    assert "1e-4 is usual" in str(caught.value)


def test_impossible_parameters_are_refused_before_the_shot() -> None:
    """A gun that breaks a rule is refused with field and value, alone and as the start of a batch."""
    wrong = replace_at(RIFLE, "ball.diameter", 6.1e-3)
    with pytest.raises(OutOfRange, match="does not pass"):
        integrate_shot(wrong)
    with pytest.raises(OutOfRange, match="does not pass"):
        integrate_shots(wrong, variations={"ball.mass": [0.2e-3]})


@pytest.mark.parametrize(
    ("variations", "complaint"),
    [
        ({}, "nothing to simulate"),
        ({"ball.mass": []}, "nothing to simulate"),
        ({"ball.weight": [1.0]}, "no quantity called 'ball.weight'"),
        ({"ball.mass": [0.2e-3, 0.3e-3, 0.4e-3], "spring.rate": [500.0, 510.0]}, "3 shots were asked for"),
    ],
)
def test_variations_that_cannot_be_are_refused(variations: dict[str, Any], complaint: str) -> None:
    """No shots, an unknown path, columns that do not match: said with path and numbers."""
    with pytest.raises(InputError, match=complaint):
        integrate_shots(RIFLE, variations=variations)


@pytest.mark.parametrize(
    ("path", "value", "right"),
    [
        ("ball.mass", -0.2e-3, "lie between 1e-06 and 1"),
        ("ball.mass", float("nan"), "lie between 1e-06 and 1"),
        ("laws.flow_law", 7, r"one of 0 \(iso_6358\), 1 \(isentropic\)"),
        ("laws.flow_law", 0.5, r"one of 0 \(iso_6358\), 1 \(isentropic\)"),
        ("laws.cylinder_heat_law", float("nan"), r"0 \(none\), 1 \(adair\), 2 \(woschni\), 3 \(hohenberg\)"),
        ("piston.vented", 0.5, r"one of 0 \(no\), 1 \(yes\)"),
        ("piston.vented", 2, r"one of 0 \(no\), 1 \(yes\)"),
        ("cylinder.port_1.count", 2.5, "be a whole number between 0 and 12"),
        ("cylinder.port_1.count", 13, "be a whole number between 0 and 12"),
    ],
)
def test_an_impossible_value_of_a_batch_is_out_of_range(path: str, value: float, right: str) -> None:
    """A number beyond its limits, a choice that there is not, half a switch, part of a slot: path, value, shot, what is right.

    Choices and switches were once taken as they came and cut to whole numbers.
    """
    with pytest.raises(OutOfRange, match=rf"{path} = {value:g} \(shot 2\) is impossible.*{right}") as caught:
        integrate_shots(RIFLE, variations={path: [float(value_at(RIFLE, path)), value]})
    assert caught.value.field == path


def test_every_choice_can_be_varied() -> None:
    """Flow laws, heat laws and switches each give the shot that they give alone."""
    for path, choices in (("laws.flow_law", FlowLaw), ("laws.cylinder_heat_law", HeatLaw), ("piston.vented", (False, True))):
        batch = integrate_shots(RIFLE, variations={path: [float(choice) for choice in choices]}, until_muzzle=True)
        alone = [integrate_shot(replace_at(RIFLE, path, choice)).figures.muzzle_speed for choice in choices]
        assert batch.muzzle_speed.tolist() == alone


def test_a_path_to_a_whole_part_is_refused() -> None:
    """A path that stops at a part, such as ``spring``, names no quantity, and is said to."""
    with pytest.raises(InputError, match="spring"):
        integrate_shots(RIFLE, variations={"spring": [1.0, 2.0]})


def test_a_row_that_breaks_a_rule_between_fields_is_refused() -> None:
    """A ball larger than the bore is refused in a batch as it is alone, with the shot's number."""
    with pytest.raises(InputError, match="shot 2"):
        integrate_shots(RIFLE, variations={"ball.diameter": [5.95e-3, 6.1e-3]})


@pytest.mark.parametrize("path", ["cylinder.dead_volume", "nozzle.dead_volume"])
def test_a_shot_that_cannot_be_integrated_says_when_and_how_far(path: str) -> None:
    """Air of no volume has no pressure: the failure carries time, state and the work done, not a number that is none."""
    with pytest.raises(NumericalFailure, match="ms after release") as caught:
        run_one(replace_at(RIFLE, path, 0.0), settings_row(tolerance=1e-4))
    assert caught.value.time >= 0.0
    assert len(caught.value.state) == 22
    assert caught.value.evaluations > 0


def test_a_failed_row_is_named_by_its_number() -> None:
    """One row of a batch that cannot be integrated is named, counted from one."""
    settings = settings_row(tolerance=1e-4)
    settings["most_steps"] = 5
    rows = run_batch(vary(RIFLE, 2, {}), settings, threads=1)
    assert (rows["code"] == 5).all()
    impossible = replace_at(RIFLE, "nozzle.dead_volume", 0.0)
    with pytest.raises((NumericalFailure, OutOfRange), match=r"Shot 1 of 2|dead_volume"):
        integrate_shots(impossible, variations={"ball.mass": [0.2e-3, 0.3e-3]})


def test_a_ball_too_fast_for_lumped_volumes_is_refused() -> None:
    """Beyond Mach 0.6 of the gas behind it the model promises too much, and says so instead of a speed."""
    strong = replace_at(replace_at(RIFLE, "spring.rate", 4000.0), "ball.mass", 0.12e-3)
    with pytest.raises(OutsideValidity, match="Mach") as caught:
        integrate_shot(strong)
    assert caught.value.value > 180.0
    assert caught.value.model == "shot"
    noted = run_one(strong, settings_row(tolerance=1e-4))
    assert any("Mach" in note for note in noted.notes)


def test_a_pressure_beyond_ten_bar_is_noted() -> None:
    """Where the ideal gas errs by more than a per cent the result says so."""
    stuck = replace_at(replace_at(RIFLE, "hop_up.break_away_force", 100.0), "spring.rate", 3000.0)
    assert any("10 bar" in note for note in run_one(stuck, settings_row(tolerance=1e-4)).notes)
    assert integrate_shot(RIFLE).notes == ()


def test_an_event_that_did_not_happen_has_no_time() -> None:
    """Asked for the time of what did not happen the shot answers None."""
    shot = integrate_shot(RIFLE)
    assert shot.event_time(EventKind.PORT_1_STARTS) is None
    assert shot.event_time(EventKind.PISTON_LANDS) == shot.figures.time_to_slam
    assert shot.summary() is shot.figures


def test_a_long_trace_is_never_cut_short() -> None:
    """A shot of more samples than there is room for at first is recorded whole."""
    shot = run_one(RIFLE, settings_row(tolerance=1e-10))
    assert len(shot.time) > 4096
    assert shot.time[-1] == shot.figures.time_to_rest


@pytest.mark.skipif(os.environ.get("NUMBA_DISABLE_JIT") == "1", reason="with the compiler off there are no signatures")
def test_each_kernel_has_one_compiled_signature() -> None:
    """After single shots and batches each kernel has been compiled once."""
    integrate_shot(RIFLE)
    integrate_shots(RIFLE, variations={"ball.mass": [0.2e-3]})
    assert len(run_shot.signatures) == 1  # type: ignore[attr-defined]
    assert len(run_shots.signatures) == 1  # type: ignore[attr-defined]


_ONE_SHOT = """
from stripdown.catalogue.guns import load_guns
from stripdown.core.interior_ballistics.simulate import integrate_shots, run_one, settings_row
gun = load_guns()["carbine"].parameters
shot = run_one(gun, settings_row(tolerance=1e-2, until_muzzle=True))
batch = integrate_shots(gun, variations={"ball.mass": [gun.ball.mass]}, tolerance=1e-2, until_muzzle=True)
print(shot.figures.muzzle_speed, shot.figures.backspin, shot.solver.steps, batch.muzzle_speed[0])
"""


def test_the_kernels_give_the_same_numbers_with_the_compiler_off() -> None:
    """Plain Python runs the same source to the same muzzle speed, spin and number of steps, alone and as a batch."""
    root = Path(__file__).resolve().parents[4]
    done = subprocess.run(
        [sys.executable, "-W", "error", "-c", _ONE_SHOT],
        env=os.environ | {"NUMBA_DISABLE_JIT": "1", "PYTHONPATH": os.pathsep.join(filter(None, sys.path))},
        cwd=root,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    speed, spin, steps, batch_speed = (float(word) for word in done.stdout.split())
    shot = run_one(GUNS["carbine"], settings_row(tolerance=1e-2, until_muzzle=True))
    assert speed == pytest.approx(shot.figures.muzzle_speed, rel=1e-9)
    assert spin == pytest.approx(shot.figures.backspin, rel=1e-9)
    assert steps == shot.solver.steps
    assert batch_speed == speed
