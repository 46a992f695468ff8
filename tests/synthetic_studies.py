"""Answers of studies, made up, so that what a picture or a print shows of them is derived in the test."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from stripdown.bench.completion import CompleteGun
from stripdown.bench.gun import Assumed, Gun
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.result import Outcome, Shot
from stripdown.quantities import leaves
from stripdown.references.provenance import Footing
from stripdown.studies.joule_creep import JouleCreep
from stripdown.studies.sensitivity import Sensitivity, SensitivityRow
from stripdown.studies.shooting import Shooting
from tests.synthetic_shots import PARAMETERS

COMPLETE = CompleteGun(
    parameters=PARAMETERS,
    assumed=(
        Assumed(path="piston.vent_area", value=6e-6, text="6 mm²", footing=Footing.ESTIMATE, source=None, reason="holes"),
        Assumed(path="laws.barrel_heat", value=1.0, text="1", footing=Footing.ESTIMATE, source=None, reason="unscaled"),
    ),
    notes=("spring.preload = 55.00 mm, 170 mm free less 115 mm fitted.",),
)


def make_gun(name: str = "Rack 7", *, invented: bool = False) -> Gun:
    """A gun of which nothing is written but its name."""
    return Gun(name=name, note="", invented=invented, origin="rack.toml", written={})


def make_shooting(name: str, shot: Shot) -> Shooting:
    """One invented gun with its shot."""
    gun = make_gun(name, invented=True)
    return Shooting(name=gun.shown_name, gun=gun, complete=COMPLETE, shot=shot, tolerance=1e-4)


def make_creep(masses: Sequence[float], energies: Sequence[float], outcomes: Sequence[Outcome] | None = None) -> JouleCreep:
    """Balls of given masses in kg that leave with given energies in J."""
    mass, energy = np.array(masses), np.array(energies)
    count = len(masses)
    left = [Outcome.LEFT_MUZZLE] * count if outcomes is None else list(outcomes)
    return JouleCreep(
        gun=make_gun(),
        complete=COMPLETE,
        ball_mass=mass,
        muzzle_speed=np.sqrt(2 * energy / mass),
        muzzle_energy=energy,
        backspin=np.full(count, 1000.0),
        spin_ratio=np.full(count, 0.03),
        slam_speed=np.full(count, 4.0),
        time_to_muzzle=tuple(0.010 if outcome is Outcome.LEFT_MUZZLE else None for outcome in left),
        time_to_slam=(0.0125,) * count,
        outcome=tuple(left),
    )


def make_sensitivity() -> Sensitivity:
    """Two dimensions: a measured spring worth 3.048 m/s each way, an assumed drag worth 1.5 m/s."""
    quantities = {leaf.path: leaf.quantity for leaf in leaves(ShotParameters)}

    def row(path: str, value: float, step: float, up: float, *, assumed: bool) -> SensitivityRow:
        quantity = quantities[path]
        assert quantity is not None
        return SensitivityRow(
            path=path,
            quantity=quantity,
            value=value,
            step=step,
            speed_change_up=up,
            speed_change_down=-up,
            derivative=up / step,
            relative=up / step * value / 100.0,
            is_assumed=assumed,
        )

    return Sensitivity(
        gun=make_gun(),
        muzzle_speed=100.0,
        ball_mass=0.2e-3,
        solver_noise=1e-6,
        rows=(
            row("spring.rate", 520.0, 26.0, 3.048, assumed=False),
            row("piston.seal_drag", 4.0, 1.0, -1.5, assumed=True),
        ),
        without_effect=("piston.vent_area",),
    )
