"""Which further test would tell causes of a loss apart: another ball or two before and after, or the sound of the shot?"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.simulate import integrate_shots
from stripdown.studies.faulty_gun import with_fault
from stripdown.studies.loss_causes import BALL_DISCREPANCY, GROWTH_DISCREPANCY, Cause, Signature, TellingTest

Array = NDArray[np.float64]

# What a further test can see: a string of ten with 0.4 % scatter, set up anew; and a sound recording read to 0.15 ms, before and
# after (estimates).
_STRING_ERROR = math.hypot(0.004 / math.sqrt(10.0), 0.001) * math.sqrt(2.0)
_SOUND_ERROR = 0.15e-3 * math.sqrt(2.0)
# How far the model's own word on a shift of the slam may be off, share of the shift (estimate).
_SHIFT_DISCREPANCY = 0.15
# A wrong cause is contradicted on the 1 % level in eight of ten tests: (z(0.995) + z(0.80))².
_APART = 11.7
_ANY_AMOUNT = 10.0  # relative standard deviation that stands for "by whatever amount"
CANDIDATE_BALLS = (0.20e-3, 0.25e-3, 0.28e-3, 0.30e-3, 0.32e-3, 0.36e-3, 0.40e-3)


def telling_tests(
    sound: ShotParameters, sound_signature: Signature, standing: Sequence[Cause], fired: Sequence[float]
) -> tuple[TellingTest, ...]:
    """Find which one or two further balls, or the sound of the shot, would separate the causes that stand."""
    pairs = list(itertools.combinations(range(len(standing)), 2))
    if not pairs:
        return ()
    balls = [mass for mass in CANDIDATE_BALLS if all(abs(mass / other - 1.0) > 0.03 for other in fired)]
    every = [*fired, *balls]
    lost = np.array([_losses_with(sound, with_fault(sound, cause.fault, cause.amount), every) for cause in standing])
    masses = np.array(every)
    known = list(range(len(fired)))
    choices: list[tuple[tuple[float, ...], set[tuple[int, int]]]] = []
    for many in (1, 2):
        for chosen in itertools.combinations(range(len(fired), len(every)), many):
            apart = {(i, j) for i, j in pairs if _are_apart(lost[i], lost[j], masses, known, chosen)}
            choices.append((tuple(every[place] for place in chosen), apart))
    # The fewest balls that do it; among equals the heaviest, which differ most from a light one already fired.
    choices.sort(key=lambda choice: (-len(choice[1]), len(choice[0]), -sum(choice[0])))
    heard = {(i, j) for i, j in pairs if _sound_apart(sound_signature, standing[i].signature, standing[j].signature)}
    keys = [cause.fault.key for cause in standing]
    found = [*choices[:1], ((), heard)]
    if choices and len(choices[0][0]) > 1:
        found += [choice for choice in choices if len(choice[0]) == 1][:1]
    found.sort(key=lambda choice: -len(choice[1]))
    return tuple(
        TellingTest(
            ball_masses=masses,
            separated=tuple((keys[i], keys[j]) for i, j in pairs if (i, j) in apart),
            undecided=tuple((keys[i], keys[j]) for i, j in pairs if (i, j) not in apart),
        )
        for masses, apart in found
        if apart
    )


def _are_apart(one: Array, two: Array, masses: Array, known: Sequence[int], chosen: Sequence[int]) -> bool:
    """Whether further balls tell two causes apart, over and above what the balls that were fired have left."""
    gained = []
    for true, other in ((one, two), (two, one)):
        before, after = (_distance(true, other, masses, places) for places in (list(known), [*known, *chosen]))
        gained.append(after - before)
    return min(gained) > _APART


def _distance(true: Array, other: Array, masses: Array, places: list[int]) -> float:
    """How much strings made by one cause contradict another, as an expected chi-square."""
    true, other, masses = true[places], other[places], masses[places]
    growth = GROWTH_DISCREPANCY * true * np.log(masses / masses[0])
    covariance = (
        np.diag(_STRING_ERROR**2 + (BALL_DISCREPANCY * true) ** 2)
        + np.outer(growth, growth)
        + np.outer(_ANY_AMOUNT * other, _ANY_AMOUNT * other)
    )
    difference = true - other
    return float(difference @ np.linalg.solve(covariance, difference))


def _sound_apart(sound: Signature, one: Signature, two: Signature) -> bool:
    times = [signature.muzzle_to_slam for signature in (sound, one, two)]
    home, first, second = times
    if home is None or first is None or second is None:
        return False
    shift = _SHIFT_DISCREPANCY * max(abs(first - home), abs(second - home))
    return (first - second) ** 2 > _APART * (_SOUND_ERROR**2 + shift**2)


def _losses_with(sound: ShotParameters, ill: ShotParameters, balls: Sequence[float]) -> Array:
    speeds = [
        np.maximum(integrate_shots(gun, variations={"ball.mass": balls}, tolerance=1e-6, until_muzzle=True).muzzle_speed, 1.0)
        for gun in (sound, ill)
    ]
    return np.asarray(np.log(speeds[0] / speeds[1]), dtype=np.float64)
