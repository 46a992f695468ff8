"""From a gun's file to its shot, with what the person should see meanwhile."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from stripdown.cli.terminal import model_at_work

if TYPE_CHECKING:
    from stripdown.bench.completion import CompleteGun
    from stripdown.bench.gun import Gun
    from stripdown.core.interior_ballistics.result import Shot
    from stripdown.core.parts.conditions import Conditions


@dataclass(frozen=True, slots=True, kw_only=True)
class Shooting:
    """One gun, as completed, with its shot."""

    name: str
    path: Path
    gun: Gun
    complete: CompleteGun
    shot: Shot


def shoot(paths: Sequence[Path], *, ball_mass: float | None, conditions: Conditions, tolerance: float) -> tuple[Shooting, ...]:
    """Read every gun first, so that a mistake in one is told before anything is computed; then shoot them."""
    from stripdown.files.gun import load_gun  # noqa: PLC0415  heavy imports belong inside commands

    guns = [load_gun(path) for path in paths]
    with model_at_work("Shooting", kernel="run_shot"):
        from stripdown.bench.completion import complete  # noqa: PLC0415
        from stripdown.studies.whole_gun import simulate_shot  # noqa: PLC0415

        completed = [complete(gun, ball_mass=ball_mass, conditions=conditions) for gun in guns]
        shots = [simulate_shot(gun, ball_mass=ball_mass, conditions=conditions, tolerance=tolerance) for gun in guns]
    names = _names_apart(guns, paths)
    return tuple(
        Shooting(name=name, path=path, gun=gun, complete=filled, shot=shot)
        for name, path, gun, filled, shot in zip(names, paths, guns, completed, shots, strict=True)
    )


def display_name(gun: Gun) -> str:
    """What to call a gun on a sheet; made-up figures are said to be made up."""
    return f"{gun.name} (invented)" if gun.invented else gun.name


def _names_apart(guns: Sequence[Gun], paths: Sequence[Path]) -> list[str]:
    """What to call each gun; where two have the same name, file or number tell them apart."""
    names = [display_name(gun) for gun in guns]
    for labels in (names, [f"{name} ({path.stem})" for name, path in zip(names, paths, strict=True)]):
        if len(set(labels)) == len(labels):
            return labels
    return [f"{name} ({number})" for number, name in enumerate(names, start=1)]
