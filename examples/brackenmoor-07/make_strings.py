"""Make the invented readings of this case: ``python examples/brackenmoor-07/make_strings.py`` from the root of the project.

The model fires the gun as found and as it left the bench; every shot scatters, the chronograph is off by one share of the
reading on all days, and it stands 0.3 m from the muzzle. The seed is fixed, so the files come out the same as long as the model
does; they were made once, and a later model need not agree with them.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np

from stripdown.api import Conditions, load_gun, reading_from_muzzle, simulate_shot

_HERE = Path(__file__).parent
_SEED = 20261107
_DISTANCE = 0.3  # m
_CALIBRATION = 0.004  # standard uncertainty, share of the reading
_SHOTS = 10
# Standard deviation from shot to shot, share of the speed: tired gun on semi, sound gun on semi, and a burst of either.
_BEFORE, _AFTER, _BURST = 0.009, 0.004, 0.010
_STRINGS = (("0.20", "semi"), ("0.40", "semi"), ("0.20", "automatic"))
_TWO_BALLS = 3  # shot of the first string before that throws two
_MISSED = 6  # shot of the burst after that the chronograph missed


def main() -> None:
    """Write both files."""
    generator = np.random.default_rng(_SEED)
    reads_high = 1.0 + _CALIBRATION * generator.standard_normal()
    for name, gun, scatter, celsius in (
        ("before", "brackenmoor-07-as-found.toml", _BEFORE, 16.0),
        ("after", "brackenmoor-07/gun.toml", _AFTER, 18.0),
    ):
        lines = [
            f"# Brackenmoor 07, {name} the work. Invented: made by make_strings.py, nobody fired these shots.",
            name,
            f"temperature: {celsius:.0f} °C",
            f"distance: {_DISTANCE} m",
            "hop-up: off",
            "",
            "shot;ball;mode;speed m/s",
        ]
        day = Conditions(temperature=273.15 + celsius)
        for ball, mode in _STRINGS:
            mass = float(ball) * 1e-3
            muzzle = simulate_shot(load_gun(_HERE.parent / gun), ball_mass=mass, conditions=day).figures.muzzle_speed
            mean = reading_from_muzzle(muzzle, ball_mass=mass, distance=_DISTANCE).speed * reads_high
            spread = _BURST if mode == "automatic" else scatter
            for shot, deviation in enumerate(generator.standard_normal(_SHOTS), start=1):
                speed = mean * (1.0 + spread * deviation)
                if (name, ball, mode, shot) == ("before", "0.20", "semi", _TWO_BALLS):
                    speed *= 0.72
                number = shot
                if (name, mode) == ("after", "automatic") and shot >= _MISSED:
                    number += 1
                    if shot == _MISSED:
                        lines.append(f"{_MISSED};{ball} g;{mode};Err")
                lines.append(f"{number};{ball} g;{mode};{speed:.1f}")
            lines.append("")
        (_HERE / f"{name}.csv").write_text("\n".join(lines).rstrip() + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
