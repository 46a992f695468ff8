"""A gun as written, fired: what speed does the ball leave with, and where did the energy go?"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from numpy.typing import ArrayLike

from stripdown.bench.completion import complete
from stripdown.bench.gun import Gun
from stripdown.core.interior_ballistics.result import Shot
from stripdown.core.interior_ballistics.simulate import ShotBatch, integrate_shot, integrate_shots
from stripdown.core.parts.conditions import Conditions


def simulate_shot(
    gun: Gun,
    *,
    ball_mass: float | None = None,
    conditions: Conditions | None = None,
    tolerance: float = 1e-4,
    with_ball: bool = True,
) -> Shot:
    """Fire a gun once, from release until the piston rests.

    Parameters
    ----------
    gun
        As loaded from its file; what it leaves out is assumed from the catalogue.
    ball_mass
        Mass of the ball in kg; None for the file's.
    conditions
        The day; None is a workshop at 20 °C.
    tolerance
        Relative error allowed per step, 1e-11 to 1e-2.
    with_ball
        False fires the gun empty.

    Returns
    -------
    Shot
        Traces, events, outcome, ledger; its notes tell what was computed on the way.

    Raises
    ------
    InputError
        For a value or tolerance that is impossible.
    OutsideValidity
        For a ball that outruns the model (Mach 0.6) or air beyond its range.
    NumericalFailure
        If the integration cannot go on.

    Notes
    -----
    Equations, range and sources: docs/models/shot.md.
    """
    whole = complete(gun, ball_mass=ball_mass, conditions=conditions)
    return integrate_shot(whole.parameters, tolerance=tolerance, with_ball=with_ball)


def simulate_shots(
    gun: Gun,
    *,
    variations: Mapping[str, ArrayLike],
    ball_mass: float | None = None,
    conditions: Conditions | None = None,
    tolerance: float = 1e-4,
    until_muzzle: bool = False,
    threads: int | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> ShotBatch:
    """Fire a gun many times with some of its quantities varied, over all processors.

    Parameters
    ----------
    gun
        As loaded from its file.
    variations
        Dotted path (``"spring.rate"``) to values, SI, shape (n,); all of one length.
    ball_mass
        Mass of the ball in kg; None for the file's.
    conditions
        The day; None is a workshop at 20 °C.
    tolerance
        Relative error allowed per step.
    until_muzzle
        Stop each shot as the ball leaves: about twice as fast, but the slam is then not known.
    threads
        Threads to use; None for as many as there are processors.
    progress
        Called with shots done and shots in all.

    Returns
    -------
    ShotBatch
        One row a shot, no traces.

    Raises
    ------
    InputError
        For an unknown path, arrays of different lengths, or an impossible value.
    NumericalFailure
        If a shot cannot be integrated; names its number.
    """
    whole = complete(gun, ball_mass=ball_mass, conditions=conditions)
    return integrate_shots(
        whole.parameters,
        variations=variations,
        tolerance=tolerance,
        until_muzzle=until_muzzle,
        threads=threads,
        progress=progress,
    )
