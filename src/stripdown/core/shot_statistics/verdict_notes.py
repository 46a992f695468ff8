"""Sentences that must stand beside a verdict: what was not said, and what it does not cover."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import Final

from stripdown.core.shot_statistics.chronograph import Chronograph
from stripdown.core.shot_statistics.conditions import FireMode
from stripdown.core.shot_statistics.limits import EnergyLimit, LimitScope
from stripdown.core.shot_statistics.moments import Centred
from stripdown.core.shot_statistics.set_aside import Kept
from stripdown.core.shot_statistics.signs import Unsteady

_SUPPOSED: Final = {
    Unsteady.DRIFT: "the chance for the next shot and the bound hold for a steady gun",
    Unsteady.TWO_HEAPS: "the chance for the next shot and the bound hold for one heap only",
    Unsteady.FAST_TAIL: "the chance for the next shot and the bound hold where fast shots are no rarer than slow ones",
}
_USUAL_BALLS: Final = (0.12e-3, 0.48e-3)  # kg; common practice, no source
_AUTOMATIC: Final = (LimitScope.AUTOMATIC_FIRE, LimitScope.AUTOMATIC_GUN)


def verdict_notes(
    sample: Centred,
    kept: Kept,
    unsteady: Collection[Unsteady],
    *,
    limit: EnergyLimit,
    ball_mass: float,
    distance: float | None,
    chronograph: Chronograph,
    fire_mode: FireMode | None,
) -> tuple[str, ...]:
    """Sentences that must stand beside a verdict.

    Parameters
    ----------
    sample
        Speeds at the limit's measuring point.
    kept
        Which shots count.
    unsteady
        Signs that the next shot may not be what these say of it.
    limit
        The limit.
    ball_mass
        In kg.
    distance
        Of the chronograph in m; None if not said.
    chronograph
        The instrument.
    fire_mode
        Selector position; None if not said.

    Returns
    -------
    tuple of str
        One sentence or two each.
    """
    return (
        *_of_the_ball(ball_mass),
        *_of_the_string(sample, kept, unsteady),
        *_of_the_limit(limit, fire_mode),
        *_of_the_instrument(distance, chronograph),
    )


def _of_the_ball(ball_mass: float) -> Iterator[str]:
    low, high = _USUAL_BALLS
    if not low <= ball_mass <= high:
        yield f"A ball of {ball_mass * 1000:g} g is unusual ({low * 1000:g} to {high * 1000:g} g): is a digit out of place?"


def _of_the_string(sample: Centred, kept: Kept, unsteady: Collection[Unsteady]) -> Iterator[str]:
    if sample.count == 1:
        yield "One shot shows no scatter: whether the next one exceeds the limit cannot be said."
    if sample.count > 1 and sample.is_constant:
        yield "All readings are equal: the scatter of the gun is hidden in the chronograph's steps. Give its resolution."
    for sign in unsteady:
        yield f"{sign.value[0].upper()}{sign.value[1:]}: {_SUPPOSED[sign]}, so no such string is under a limit."
    if kept.set_aside:
        yield f"{len(kept.set_aside)} of {len(kept.set_aside) + len(kept.values)} shots were set aside and are not judged."


def _of_the_limit(limit: EnergyLimit, fire_mode: FireMode | None) -> Iterator[str]:
    if limit.applies(fire_mode=fire_mode, can_fire_automatic=None) is False:
        yield f"The limit is for {limit.scope.value}, not for this string."
    elif limit.scope in _AUTOMATIC and fire_mode is not FireMode.AUTOMATIC:
        yield f"The limit is for {limit.scope.value}: fire a string on automatic too."
    if limit.measuring_distance is None:
        yield "The limit does not say where it is measured: it is held at the muzzle, where the ball is fastest."
    if limit.is_law and not limit.was_read:
        yield "The limit is quoted from a secondary source; the law itself was not read."


def _of_the_instrument(distance: float | None, chronograph: Chronograph) -> Iterator[str]:
    if distance is None:
        yield (
            "The distance of the chronograph was not said: the readings are taken to stand at the limit's measuring point. "
            "Each metre farther from the muzzle hides about 8 % of the energy of a 0.20 g ball, and more of a lighter one."
        )
    if chronograph.standard_uncertainty == chronograph.relative_uncertainty == 0.0:
        yield "The chronograph is taken at its word: no uncertainty of the instrument was given."
