"""One gun fired in a few variants: how fast is the ball in each?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Final

from numpy.typing import ArrayLike

from stripdown.bench.gun import Gun
from stripdown.core.interior_ballistics.result import Outcome
from stripdown.core.parts.conditions import Conditions
from stripdown.errors import InputError
from stripdown.quantities import Q
from stripdown.studies.whole_gun import simulate_shots

SOLVER_TOLERANCE: Final = 1e-6  # differences of a thousandth are wanted, and the solver's own error must stay below them


@dataclass(frozen=True, slots=True, kw_only=True)
class FiredVariant:
    """One variant of a gun, fired."""

    outcome: Outcome
    muzzle_speed: Annotated[float, Q("m/s", label="muzzle speed")]
    muzzle_energy: Annotated[float, Q("J", label="muzzle energy")]
    slam_speed: Annotated[float, Q("m/s", label="piston speed at the slam")]


def fire_variants(
    gun: Gun, *, variations: Mapping[str, ArrayLike], ball_mass: float | None, conditions: Conditions | None
) -> tuple[FiredVariant, ...]:
    """Fire a gun in variants, the first of which is what the others are compared with."""
    batch = simulate_shots(gun, variations=variations, ball_mass=ball_mass, conditions=conditions, tolerance=SOLVER_TOLERANCE)
    if batch.outcome[0] is not Outcome.LEFT_MUZZLE:
        message = "The ball does not leave this barrel, so nothing can be said of what it loses."
        raise InputError(message, field="ball.mass", hint="Look at the shot first: stripdown shot.")
    return tuple(
        FiredVariant(outcome=outcome, muzzle_speed=float(speed), muzzle_energy=float(energy), slam_speed=float(slam))
        for outcome, speed, energy, slam in zip(
            batch.outcome, batch.muzzle_speed, batch.muzzle_energy, batch.rows["slam_speed"], strict=True
        )
    )


def share_lost(variant: FiredVariant, reference: FiredVariant) -> float:
    """Velocity that a variant lacks, as a part of the reference's; negative if it gains."""
    return 1.0 - variant.muzzle_speed / reference.muzzle_speed
