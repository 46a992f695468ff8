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
from stripdown.studies.loss_causes import Cause, TellingTest

Array = NDArray[np.float64]

# What a further test can see: a string of ten with 0.4 % scatter, set up anew; and a sound recording read to 0.15 ms (estimates).
_STRING_ERROR = math.hypot(0.004 / math.sqrt(10.0), 0.001) * math.sqrt(2.0)
_SOUND_ERROR = 0.15e-3
_SEPARATE = 2.0
CANDIDATE_BALLS = (0.20e-3, 0.25e-3, 0.28e-3, 0.30e-3, 0.32e-3, 0.36e-3, 0.40e-3)


def telling_tests(sound: ShotParameters, standing: Sequence[Cause], fired: Sequence[float]) -> tuple[TellingTest, ...]:
    """Find which one or two further balls, or the sound of the shot, would separate the causes that stand.

    Parameters
    ----------
    sound
        The gun without a fault.
    standing
        Causes that the strings leave.
    fired
        Ball masses that the strings already hold, in kg.

    Returns
    -------
    tuple of TellingTest
        The most telling first; empty if at most one cause stands.
    """
    pairs = list(itertools.combinations(range(len(standing)), 2))
    if not pairs:
        return ()
    balls = [mass for mass in CANDIDATE_BALLS if all(abs(mass / other - 1.0) > 0.03 for other in fired)]
    lost = np.array([_losses_with(sound, with_fault(sound, cause.fault, cause.amount), balls) for cause in standing])
    choices: list[tuple[tuple[float, ...], set[tuple[int, int]]]] = []
    for many in (1, 2):
        for chosen in itertools.combinations(range(len(balls)), many):
            apart = {(i, j) for i, j in pairs if any(abs(lost[i, m] - lost[j, m]) > _SEPARATE * _STRING_ERROR for m in chosen)}
            choices.append((tuple(balls[m] for m in chosen), apart))
    # The fewest balls that do it; among equals the heaviest, which differ most from a light one already fired.
    choices.sort(key=lambda choice: (-len(choice[1]), len(choice[0]), -sum(choice[0])))
    sounds = [cause.signature.muzzle_to_slam for cause in standing]
    heard = {
        (i, j)
        for i, j in pairs
        if (one := sounds[i]) is not None and (two := sounds[j]) is not None and abs(one - two) > _SEPARATE * _SOUND_ERROR
    }
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
    )


def _losses_with(sound: ShotParameters, ill: ShotParameters, balls: Sequence[float]) -> Array:
    speeds = [
        np.maximum(integrate_shots(gun, variations={"ball.mass": balls}, tolerance=1e-6, until_muzzle=True).muzzle_speed, 1.0)
        for gun in (sound, ill)
    ]
    return np.asarray(np.log(speeds[0] / speeds[1]), dtype=np.float64)
