"""Strings fired by the model of an example gun, sound or with a fault, with scatter: what a study must find is known."""

from __future__ import annotations

import functools
from collections.abc import Sequence
from pathlib import Path

import numpy as np

from stripdown.bench.completion import complete
from stripdown.bench.gun import Gun
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.simulate import integrate_shots
from stripdown.core.shot_statistics import FireMode, HopState
from stripdown.files.gun import load_gun
from stripdown.studies.observation import Observation, observe

LIGHT, HEAVY = 0.20e-3, 0.40e-3
SCATTER = 0.004  # share of the speed from shot to shot; a healthy gun keeps within 0.2 to 0.5 % (common practice, no source)
SHOTS = 10

SOUND_FILE = Path(__file__).parents[1] / "examples" / "brackenmoor-07-healthy.toml"


@functools.cache
def sound_gun() -> Gun:
    """The invented rack gun as it left the bench."""
    return load_gun(SOUND_FILE)


@functools.cache
def sound_parameters() -> ShotParameters:
    """The same, completed."""
    return complete(sound_gun()).parameters


def muzzle_speeds(parameters: ShotParameters, ball_masses: Sequence[float], *, hop: HopState | None = None) -> np.ndarray:
    """Speeds of the model in m/s, one for each ball mass in kg."""
    force = 0.0 if hop is HopState.OFF else parameters.hop_up.normal_force
    columns = {"ball.mass": list(ball_masses), "hop_up.normal_force": [force] * len(ball_masses)}
    return integrate_shots(parameters, variations=columns, tolerance=1e-6, until_muzzle=True).muzzle_speed


def fire(
    parameters: ShotParameters,
    ball_masses: Sequence[float],
    generator: np.random.Generator | None,
    *,
    hop: HopState | None = None,
    fire_mode: FireMode | None = None,
    scatter: float = SCATTER,
) -> list[Observation]:
    """One string of ten for each ball mass in kg, read at the muzzle; without a generator every shot is the mean."""
    strings = []
    for mass, speed in zip(ball_masses, muzzle_speeds(parameters, ball_masses, hop=hop), strict=True):
        deviations = _even() if generator is None else generator.standard_normal(SHOTS)
        strings.append(observe(speed * (1.0 + scatter * deviations), ball_mass=mass, hop=hop, fire_mode=fire_mode))
    return strings


def _even() -> np.ndarray:
    """Ten deviations with mean zero and standard deviation one."""
    deviations = np.linspace(-1.0, 1.0, SHOTS)
    return np.asarray(deviations / deviations.std(ddof=1))
