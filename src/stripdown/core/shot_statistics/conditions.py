"""How a string was fired: what two strings must share before their difference means anything."""

from __future__ import annotations

import dataclasses
import enum
from typing import Annotated, Final

from stripdown.quantities import Q, parameters


class Occasion(enum.Enum):
    """When in a service a string was fired."""

    BEFORE = "before"
    AFTER = "after"


class HopState(enum.Enum):
    """Whether the hop-up pressed on the ball."""

    OFF = "off"
    SET = "set"


class FireMode(enum.Enum):
    """Selector position."""

    SEMI = "semi"
    AUTOMATIC = "automatic"


@parameters
class StringConditions:
    """How a string was fired and where it was read; None for what was not said."""

    occasion: Occasion | None = None
    ball_mass: Annotated[
        float | None, Q("kg", low=1e-6, high=1, usual=(0.00012, 0.00048), label="mass of the ball", shown="g")
    ] = None
    hop: HopState | None = None
    fire_mode: FireMode | None = None
    distance: Annotated[
        float | None,
        Q("m", low=0, high=100, usual=(0.0, 3.0), label="from the muzzle to the middle of the screens"),
    ] = None
    temperature: Annotated[
        float | None, Q("K", low=200, high=350, usual=(263.15, 313.15), label="air temperature", shown="degC")
    ] = None
    day: str | None = None
    """ISO 8601, such as 2026-11-28; as it was written where that can be read in two ways."""
    gun: str | None = None
    """Its name as written; empty for the gun that the visit is about."""
    chronograph: str | None = None
    """Its name as written, where there are several."""

    @property
    def is_of_reference(self) -> bool:
        """Whether the workshop's reference gun was fired, and not the gun that the question is about."""
        return self.gun is not None and self.gun.casefold().startswith(REFERENCE)


REFERENCE: Final = "reference"
"""How the name of the workshop's reference gun begins."""


_SAME_MASS: Final = 0.005  # relative; ten balls weighed together repeat to about this
_SAME_DISTANCE: Final = 0.05  # m; worth 0.2 % of speed with the lightest usual ball
_SAME_TEMPERATURE: Final = 10.0  # K; air alone is then worth 0.1 % of speed, cold rubber and grease more


def comparison_obstacles(before: StringConditions, after: StringConditions) -> tuple[str, ...]:
    """Why two strings do not compare.

    Parameters
    ----------
    before, after
        How each was fired.

    Returns
    -------
    tuple of str
        One sentence per reason; empty if nothing that was said speaks against it.
    """
    found = []
    if _differ(before.ball_mass, after.ball_mass, relative=_SAME_MASS):
        found.append("The balls have different masses: the speeds compare only through a model of the gun.")
    if _differ(before.distance, after.distance, absolute=_SAME_DISTANCE):
        found.append("The chronograph stood at different distances: bring both strings to the muzzle first.")
    if None not in (before.hop, after.hop) and before.hop is not after.hop:
        found.append("The hop-up was off for one string and set for the other.")
    if None not in (before.fire_mode, after.fire_mode) and before.fire_mode is not after.fire_mode:
        found.append("One string was fired on semi and the other on automatic.")
    if _are_others(before.gun, after.gun):
        found.append(f"The strings are of two guns, {before.gun} and {after.gun}.")
    if _are_others(before.chronograph, after.chronograph):
        found.append(
            f"The strings were read on two chronographs, {before.chronograph} and {after.chronograph}: what these differ by "
            "would be in the change. A reference gun read with each string takes it out."
        )
    return tuple(found)


def comparison_cautions(before: StringConditions, after: StringConditions) -> tuple[str, ...]:
    """What weakens a comparison without forbidding it.

    Parameters
    ----------
    before, after
        How each was fired.

    Returns
    -------
    tuple of str
        One sentence per caution.
    """
    unsaid = [words for field, words in _WORDS.items() if getattr(before, field) is None or getattr(after, field) is None]
    found = [f"Not said for both strings, so taken as equal: {', '.join(unsaid)}."] if unsaid else []
    if _differ(before.temperature, after.temperature, absolute=_SAME_TEMPERATURE):
        found.append("The temperatures differ by more than 10 °C: cold rubber and grease slow a gun, and are not corrected for.")
    return tuple(found)


_WORDS: Final = {
    "ball_mass": "mass of the ball",
    "hop": "hop-up",
    "fire_mode": "semi or automatic",
    "distance": "distance of the chronograph",
}


def filled_in(conditions: StringConditions, fallback: StringConditions) -> StringConditions:
    """Conditions with the gaps filled from others.

    Parameters
    ----------
    conditions
        What was said.
    fallback
        What holds where nothing was said.

    Returns
    -------
    StringConditions
    """
    gaps = {
        field.name: getattr(fallback, field.name)
        for field in dataclasses.fields(conditions)
        if getattr(conditions, field.name) is None
    }
    return dataclasses.replace(conditions, **gaps)


def _are_others(one: str | None, other: str | None) -> bool:
    """Whether two names that were said are not the same."""
    return bool(one and other) and " ".join(str(one).casefold().split()) != " ".join(str(other).casefold().split())


def _differ(one: float | None, other: float | None, *, relative: float = 0.0, absolute: float = 0.0) -> bool:
    if one is None or other is None:
        return False
    return abs(one - other) > absolute + relative * max(abs(one), abs(other))
