# ruff: noqa: INP001  a script in a case's folder, no package
"""Make the invented readings of this case: ``python examples/brackenmoor-07/make_strings.py`` from the root of the project.

The model fires the gun as found and as it left the bench; every shot scatters, the chronograph is off by one share of the
reading on both days, and it stands 0.3 m from the muzzle. One shot before throws two balls, and one after is missed by the
chronograph. The seed is fixed, and was chosen so that no string shows a drift, a heap or an outlier that is not in the story.
The files were made once: a later model need not make the same ones.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import numpy as np

from stripdown.api import Conditions, load_gun, reading_from_muzzle, simulate_shot

_HERE = Path(__file__).parent
_SEED = 20261113
_DISTANCE = 0.3  # m
_CALIBRATION = 0.004  # standard uncertainty, share of the reading
_SHOTS = 10
_STRINGS = (("0.20", "semi"), ("0.40", "semi"), ("0.20", "automatic"))
# Standard deviation from shot to shot, share of the speed: tired gun on semi, sound gun on semi, and a burst of either.
_SCATTER = {"before": 0.009, "after": 0.004}
_BURST = 0.010
_DAYS = {"before": "2026-11-14", "after": "2026-11-21"}
_TWO_BALLS = ("before", "0.20", "semi", 3)
_SPEED_OF_TWO = 0.72  # share of what one ball has
_MISSED = ("after", "0.20", "automatic", 6)


def main() -> None:
    """Write both files."""
    generator = np.random.default_rng(_SEED)
    reads_high = 1.0 + _CALIBRATION * generator.standard_normal()
    for name, gun, celsius in (("before", "brackenmoor-07-as-found.toml", 16), ("after", "brackenmoor-07/gun.toml", 18)):
        lines = [
            f"# Brackenmoor 07, {name} the work. Invented: made by make_strings.py, nobody fired these shots.",
            f"{name}, {_DAYS[name]}",
            f"temperature: {celsius} °C",
            f"distance: {_DISTANCE} m",
            "hop-up: off",
            "",
            "shot;ball;mode;speed m/s",
        ]
        for ball, mode in _STRINGS:
            fired = _string(name, _HERE.parent / gun, (ball, mode), celsius=celsius, reads_high=reads_high, generator=generator)
            lines += [*fired, ""]
        (_HERE / f"{name}.csv").write_text("\n".join(lines).rstrip() + "\n", encoding="utf-8")


def _string(
    name: str, gun: Path, fired: tuple[str, str], *, celsius: int, reads_high: float, generator: np.random.Generator
) -> Iterator[str]:
    """Lines of one string: ten good shots, and what went wrong between them."""
    ball, mode = fired
    mass = float(ball) * 1e-3
    shot = simulate_shot(load_gun(gun), ball_mass=mass, conditions=Conditions(temperature=273.15 + celsius))
    mean = reading_from_muzzle(shot.figures.muzzle_speed, ball_mass=mass, distance=_DISTANCE).speed * reads_high
    number = 0
    for deviation in generator.standard_normal(_SHOTS):
        number += 1
        if (name, ball, mode, number) == _TWO_BALLS:
            yield f"{number};{ball} g;{mode};{mean * _SPEED_OF_TWO:.1f}"
            number += 1
        if (name, ball, mode, number) == _MISSED:
            yield f"{number};{ball} g;{mode};Err"
            number += 1
        scatter = _BURST if mode == "automatic" else _SCATTER[name]
        yield f"{number};{ball} g;{mode};{mean * (1.0 + scatter * deviation):.1f}"


if __name__ == "__main__":
    main()
