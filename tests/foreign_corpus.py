"""Strings of many foreign guns, fired once and kept outside the repository, so that a long study can be stopped and resumed."""

from __future__ import annotations

import hashlib
import os
import tempfile
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from stripdown.catalogue.defaults import load_defaults
from stripdown.catalogue.faults import load_faults
from stripdown.core.interior_ballistics.parameters import FlowLaw, HeatLaw, ShotParameters
from stripdown.core.interior_ballistics.simulate import integrate_shots
from stripdown.quantities import leaves, replace_at, value_at
from stripdown.studies.faulty_gun import with_fault
from stripdown.studies.match_chronograph import tolerance_ends
from stripdown.studies.observation import Observation, observe
from tests.fired_strings import HEAVY, LIGHT, SCATTER, SHOTS, sound_parameters
from tests.foreign_guns import Array, draw_laws, foreign_speeds

MASSES = (0.12e-3, 0.20e-3, 0.25e-3, 0.28e-3, 0.30e-3, 0.36e-3, 0.40e-3, 0.43e-3)
PAIR = (LIGHT, HEAVY)
VERSION = 1
"""Of corpus and laws: a higher one fires all guns anew."""
FAMILIES = ("orifice", "gap", "own")
"""*own*: the program's kernel with other laws and wider hidden numbers; the other two share nothing with it."""

DIAMETER_SPREAD = 0.010e-3  # m, from make to make of balls (common practice, no source: 5.95 within 0.01 mm)
MASS_SPREAD = 0.007  # share, from make to make, of what the bag says (estimate)
_QUANTITIES = {leaf.path: leaf.quantity for leaf in leaves(ShotParameters) if leaf.quantity is not None}
# Laws and hidden numbers of a gun of the program's own kernel: factor e^spread about what is assumed.
_HIDDEN = {
    "hop_up.break_away_force": 0.6,
    "hop_up.break_away_length": 0.4,
    "hop_up.normal_force": 0.35,
    "laws.cylinder_heat": 0.7,
    "laws.barrel_heat": 0.5,
    "laws.gas_inertia": 0.25,
    "laws.annulus_discharge": 0.15,
    "leaks.piston_seal": 0.6,
    "leaks.hop_lip": 0.6,
}


@dataclass(frozen=True, kw_only=True)
class Corpus:
    """Muzzle speeds, shape (guns, masses), of guns of one family; sound, or with one fault at an amount."""

    masses: tuple[float, ...]
    speeds: Array
    amounts: Array


def sound_guns(family: str, count: int) -> Corpus:
    """Guns without a fault, with every ball."""
    base = sound_parameters()

    def fire() -> dict[str, Array]:
        one = _draw(family, None, count, MASSES, base, (1.0, 1.0))
        return {"sound": _speeds(family, [(one.guns, one)])[0]}

    found = _kept(f"{family}-sound", repr((VERSION, family, count, MASSES, base)), fire)
    return Corpus(masses=MASSES, speeds=found["sound"], amounts=np.zeros(count))


def faulty_guns(
    family: str, count: int, written: Mapping[str, ShotParameters], *, share: Mapping[str, tuple[float, float]]
) -> Mapping[str, tuple[Corpus, Corpus]]:
    """For each fault the same guns sound and with it, 0.20 g and 0.40 g; amounts between two multiples of the ordinary."""

    def fire() -> dict[str, Array]:
        drawn = {key: _draw(family, key, count, PAIR, base, share[key]) for key, base in written.items()}
        rounds = [(guns, one) for one in drawn.values() for guns in (one.guns, one.ill)]
        speeds = iter(_speeds(family, rounds))
        return {
            name: array
            for key, one in drawn.items()
            for name, array in ((f"{key}-sound", next(speeds)), (f"{key}-ill", next(speeds)), (f"{key}-amount", one.amounts))
        }

    told = repr((VERSION, family, count, PAIR, sorted(written.items()), sorted(share.items())))
    found = _kept(f"{family}-faulty", told, fire)
    return {
        key: tuple(  # type: ignore[misc]
            Corpus(masses=PAIR, speeds=found[f"{key}-{which}"], amounts=found[f"{key}-amount"]) for which in ("sound", "ill")
        )
        for key in written
    }


def _kept(name: str, told: str, fire: Callable[[], dict[str, Array]]) -> Mapping[str, Array]:
    """What was fired, from where it is kept, or fired now."""
    kept = kept_in() / f"{name}-{hashlib.sha256(told.encode()).hexdigest()[:24]}.npz"
    if not kept.is_file():
        part = kept.with_suffix(f".{os.getpid()}.npz")
        np.savez(part, **fire())  # type: ignore[arg-type]
        part.replace(kept)
    with np.load(kept) as found:
        return {key: found[key] for key in found.files}


def kept_in() -> Path:
    """Where long runs keep what they found."""
    folder = Path(os.environ.get("STRIPDOWN_STUDIES", Path(tempfile.gettempdir()) / "stripdown-studies"))
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def strings_of(
    corpus: Corpus, gun: int, masses: Sequence[float], generator: np.random.Generator, **more: float
) -> list[Observation]:
    """Strings of one gun: `shots` of them, `scatter`, and `day`, what the day does to all alike."""
    shots, scatter, day = int(more.get("shots", SHOTS)), more.get("scatter", SCATTER), more.get("day", 0.0)
    alike = 1.0 + day * float(generator.standard_normal())
    speeds = [corpus.speeds[gun][corpus.masses.index(mass)] * alike for mass in masses]
    return [
        observe(speed * (1.0 + scatter * generator.standard_normal(shots)), ball_mass=mass)
        for mass, speed in zip(masses, speeds, strict=True)
    ]


@dataclass(frozen=True, kw_only=True)
class _Drawn:
    """Guns with their laws and their balls, and the same guns with a fault."""

    guns: list[ShotParameters]
    ill: list[ShotParameters]
    laws: list[Any]
    mass: Array
    diameter: Array
    amounts: Array


def _draw(
    family: str, fault: str | None, count: int, masses: tuple[float, ...], written: ShotParameters, share: tuple[float, float]
) -> _Drawn:
    faults = load_faults()
    generator = np.random.default_rng((FAMILIES.index(family), 1 + list(faults).index(fault) if fault else 0, count))
    guns = [_drawn(written, generator, is_own=family == "own") for _ in range(count)]
    amounts = (faults[fault].ordinary if fault else 0.0) * generator.uniform(*share, size=count)
    ill = [with_fault(gun, faults[fault], amount) for gun, amount in zip(guns, amounts, strict=True)] if fault else []
    # Every mass is a make of its own, and the same bag is fired before and after.
    mass = np.array(masses) * (1.0 + MASS_SPREAD * generator.standard_normal((count, len(masses))))
    widest = np.array([gun.barrel.bore for gun in guns])[:, np.newaxis] - 0.02e-3
    diameter = np.minimum(written.ball.diameter + DIAMETER_SPREAD * generator.standard_normal(mass.shape), widest)
    laws: list[Any] = [
        (FlowLaw(generator.choice(list(FlowLaw))), HeatLaw(generator.choice(list(HeatLaw))))
        if family == "own"
        else draw_laws(family, generator, written=written)
        for _ in guns
    ]
    return _Drawn(guns=guns, ill=ill, laws=laws, mass=mass, diameter=diameter, amounts=amounts)


def _speeds(family: str, rounds: Sequence[tuple[list[ShotParameters], _Drawn]]) -> list[Array]:
    """Muzzle speeds of each round, all fired at once."""
    if family == "own":
        return [_own_speeds(guns, one) for guns, one in rounds]
    count = rounds[0][1].mass.shape[1]
    fired = foreign_speeds(
        [gun for guns, _ in rounds for gun in guns for _ in range(count)],
        [law for _, one in rounds for law in one.laws for _ in range(count)],
        ball_mass=np.concatenate([one.mass.ravel() for _, one in rounds]),
        ball_diameter=np.concatenate([one.diameter.ravel() for _, one in rounds]),
    )
    return [part.reshape(-1, count) for part in np.split(fired, len(rounds))]


def _own_speeds(guns: Sequence[ShotParameters], one: _Drawn) -> Array:
    rows = []
    for gun, (flow, heat), masses, diameters in zip(guns, one.laws, one.mass, one.diameter, strict=True):
        other = replace_at(replace_at(gun, "laws.flow_law", flow), "laws.cylinder_heat_law", heat)
        columns = {"ball.mass": list(masses), "ball.diameter": list(diameters)}
        rows.append(integrate_shots(other, variations=columns, tolerance=1e-6, until_muzzle=True).muzzle_speed)
    return np.array(rows)


def _drawn(written: ShotParameters, generator: np.random.Generator, *, is_own: bool) -> ShotParameters:
    """A gun whose every dimension is off by its own tolerance; in the program's own kernel the hidden numbers by more."""
    gun = written
    steps = {path: default.tolerance for path, default in load_defaults().items() if default.tolerance}
    for path, (low, high) in tolerance_ends(written).items():
        quantity, value = _QUANTITIES[path], float(value_at(written, path))
        if is_own and path in _HIDDEN:
            value = max(value, 1e-9) * float(np.exp(_HIDDEN[path] * generator.standard_normal()))
        else:
            value += steps.get(path, high - low) * float(generator.standard_normal())
        gun = replace_at(gun, path, float(np.clip(value, quantity.low, quantity.high)))
    return gun
