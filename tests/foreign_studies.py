"""What the studies claim of foreign guns, kept gun by gun outside the repository: a long run that was stopped goes on.

The results of a gun are kept under a digest of what shapes them: the model, fit and search of causes, their data, corpus, seed.
"""

from __future__ import annotations

import ast
import functools
import hashlib
import inspect
import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

import stripdown
from stripdown.bench.completion import complete
from stripdown.bench.gun import Gun, Written
from stripdown.catalogue.faults import load_faults
from stripdown.core.shot_statistics import limit_forecast
from stripdown.core.shot_statistics.limits import EnergyLimit
from stripdown.studies.explain_loss import explain_loss
from stripdown.studies.match_chronograph import match_chronograph, predict_speeds
from tests.fired_strings import HEAVY, LIGHT, SCATTER, sound_gun
from tests.foreign_corpus import FAMILIES, MASSES, VERSION, Corpus, faulty_guns, kept_in, sound_guns, strings_of

DAY = 0.005
SLOWEST = 20.0  # m/s; a slower ball is no string
GUNS, ILL = 120, 8
"""Sound guns of each family in all, and guns with each fault; a study may take fewer of them."""
FAULTS = load_faults()
SPREAD_OF_LIMITS = 0.06  # share of the gun's own energy by which a limit lies off it, one standard deviation


@dataclass(frozen=True, kw_only=True)
class Predicted:
    """One ball of one gun that was not fired, in m/s: what it does, what was predicted of its mean, scatter that was read."""

    ball_mass: float
    true: float
    expected: float
    uncertainty: float
    scatter: float

    @property
    def holds(self) -> bool:
        """Whether the 95 % interval holds it."""
        return abs(self.true - self.expected) <= 1.96 * self.uncertainty


def predictions(family: str, count: int, fired: Sequence[float], *, of: int = GUNS) -> list[Predicted]:
    """Every ball that was not fired of the first guns of a family of so many."""

    def study(gun: int) -> list[dict[str, float]]:
        generator = np.random.default_rng((31, FAMILIES.index(family), gun, len(fired), round(fired[0] * 1e7)))
        corpus = sound_guns(family, of)
        others = [mass for mass in MASSES if mass not in fired]
        strings = strings_of(corpus, gun, fired, generator)
        expected = predict_speeds(match_chronograph(sound_gun(), strings=strings), ball_masses=others)
        scatter = max(string.scatter / string.muzzle_speed for string in strings)
        return [
            {
                "ball_mass": mass,
                "true": float(corpus.speeds[gun][MASSES.index(mass)]),
                "expected": float(speed),
                "uncertainty": float(uncertainty),
                "scatter": scatter * float(speed),
            }
            for mass, speed, uncertainty in zip(others, expected.muzzle_speed, expected.standard_uncertainty, strict=True)
        ]

    found = _kept(("predictions", family, tuple(fired), *(() if of == GUNS else (of,))), range(count), study)
    return [Predicted(**one) for gun in found for one in gun]


def chances(found: Sequence[Predicted], *, seed: int) -> list[tuple[float, bool]]:
    """Stated chance that a shot exceeds a limit near the ball's energy, and whether one did."""
    generator = np.random.default_rng(seed)
    pairs = []
    for one in found:
        energy = 0.5 * one.ball_mass * one.true**2 * float(np.exp(SPREAD_OF_LIMITS * generator.standard_normal()))
        forecast = limit_forecast(
            one.expected,
            standard_uncertainty=one.uncertainty,
            scatter=one.scatter,
            ball_mass=one.ball_mass,
            limit=EnergyLimit(name="near", energy=energy, measuring_distance=0.0),
        )
        shot = one.true * (1.0 + SCATTER * float(generator.standard_normal()))
        pairs.append((forecast.chance_exceeds, 0.5 * one.ball_mass * shot**2 > energy))
    return pairs


def in_bins(pairs: Sequence[tuple[float, bool]], *, events: float = 100.0) -> list[tuple[float, float, int, float, int]]:
    """Chances in order, cut where `events` were expected: lowest, highest, how many, expected, exceeded."""
    bins: list[list[tuple[float, bool]]] = [[]]
    for pair in sorted(pairs):
        if sum(stated for stated, _ in bins[-1]) >= events:
            bins.append([])
        bins[-1].append(pair)
    if len(bins) > 1 and sum(stated for stated, _ in bins[-1]) < events:
        rest = bins.pop()
        bins[-1] += rest
    return [(one[0][0], one[-1][0], len(one), sum(stated for stated, _ in one), sum(over for _, over in one)) for one in bins]


def explained(family: str, fault: str, count: int, fired: Sequence[float] = (LIGHT, HEAVY)) -> list[dict[str, Any]]:
    """For each gun with a fault of about its ordinary amount: causes that stand, in order, and the amount."""

    def study(gun: int) -> dict[str, Any]:
        generator = np.random.default_rng((33, FAMILIES.index(family), gun, list(FAULTS).index(fault), len(fired)))
        written = gun_for(fault)
        sound, ill = _faulty(family)[fault]
        if ill.speeds[gun].min() < SLOWEST:
            return {"certain": False, "order": [], "interval": None, "loss": 1.0, "true": float(ill.amounts[gun])}
        found = explain_loss(
            written,
            before=strings_of(ill, gun, fired, generator, day=DAY),
            after=strings_of(sound, gun, fired, generator, day=DAY),
        )
        cause = next((cause for cause in found.causes if cause.fault.key == fault), None)
        return {
            "certain": bool(found.is_certain),
            "gained": bool(found.was_gained),
            "order": [one.fault.key for one in found.causes if one.stands],
            "fits": [one.fit for one in found.causes if one.stands],
            "multiples": [one.amount / one.fault.ordinary for one in found.causes if one.stands],
            "true": float(ill.amounts[gun]),
            "interval": None if cause is None or cause.low is None else [cause.low, cause.amount, cause.high],
            "loss": float(1.0 - ill.speeds[gun][0] / sound.speeds[gun][0]),
        }

    return list(_kept(("explained", family, fault, tuple(fired)), range(count), study))


@functools.cache
def _faulty(family: str) -> Mapping[str, tuple[Corpus, Corpus]]:
    """Guns with each fault of half to one and a half times what is ordinary; a port cannot go so far."""
    written = {key: complete(gun_for(key)).parameters for key in FAULTS}
    share = {key: (0.9, 1.1) if key == "wrong_port" else (0.5, 1.5) for key in FAULTS}
    return faulty_guns(family, ILL, written, share=share)


@functools.cache
def gun_for(fault: str) -> Gun:
    """The example gun; a port costs speed only behind a long barrel."""
    gun = sound_gun()
    if fault != "wrong_port":
        return gun
    written = {path: one for path, one in gun.written.items() if path != "cylinder.ported"}
    return Gun(name=gun.name, note="", invented=True, written={**written, "barrel.length": Written(value=0.590, text="590 mm")})


def _kept(name: tuple[object, ...], guns: Sequence[int], study: Callable[[int], Any]) -> Iterator[Any]:
    """What a study finds of each gun, from where it was kept, or found now."""
    file = kept_in() / f"{name[0]}-{name[1]}-{_digest(repr(name))}.jsonl"
    known: dict[int, Any] = {}
    if file.is_file():
        for line in file.read_text(encoding="utf-8").splitlines():
            entry = json.loads(line)
            known[entry["gun"]] = entry["found"]
    for gun in guns:
        if gun not in known:
            known[gun] = study(gun)
            with file.open("a", encoding="utf-8") as out:
                out.write(json.dumps({"gun": gun, "found": known[gun]}) + "\n")
        yield known[gun]


def _code(path: Path) -> bytes:
    """A file without its comments and descriptions, which shape nothing."""
    if path.suffix != ".py":
        return b"\n".join(line for line in path.read_bytes().splitlines() if not line.startswith(b"#"))
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant) and isinstance(node.value.value, str):
            node.value.value = ""
    return ast.dump(tree).encode()


@functools.cache
def _digest(name: str) -> str:
    """Of everything that shapes a result."""
    root = Path(inspect.getfile(stripdown)).parent
    studies, data = ["match_chronograph"], ["defaults"]
    if "explained" in name:
        data += ["faults"]
        studies += ["explain_loss", "faulty_gun", "loss_causes", "loss_curves", "loss_pairs"]
    shaping = [
        *(root / "studies" / f"{one}.py" for one in studies),
        *sorted((root / "core" / "interior_ballistics").glob("*.py")),
        *(root / "core" / "mechanics" / f"{one}.py" for one in ("gas_properties", "orifice_flow", "spring_force", "wall_heat")),
        *(root / "catalogue" / "data" / f"{one}.toml" for one in data),
    ]
    digest = hashlib.sha256(f"{VERSION} {name}".encode())
    for path in shaping:
        digest.update(_code(path))
    return digest.hexdigest()[:24]
