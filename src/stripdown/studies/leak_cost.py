"""What does a measured leak at the cylinder cost in velocity, and what would a repair return?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Final

from stripdown.bench.completion import complete
from stripdown.bench.gun import Gun
from stripdown.core.part_condition.basis import Basis
from stripdown.core.part_condition.leak_found import LeakFound
from stripdown.core.part_condition.parameters import LEAK_AREA
from stripdown.core.parts.conditions import Conditions
from stripdown.quantities import Q, check_value
from stripdown.studies.variants import FiredVariant, fire_variants, share_lost

BASIS: Final = Basis(
    footing="estimate",
    place="shots of the gun's model, docs/models/shot.md, with the leak as one hole between cylinder and air",
    holds_for="A leak that stays in the shot as the test showed it, at ring, cylinder head and nozzle tube together: shooting "
    "cannot tell the three apart.",
    caution="A prediction: a static test cannot see a ring that seals or flips only in motion, and the chronograph decides. A "
    "resealed gun may leave the bench over the limit or the law.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LeakingShot:
    """A shot with one leak between cylinder and air.

    Parameters
    ----------
    leak_area
        Effective area between cylinder and air, in m2.
    shot
        How the gun shoots with it.
    """

    leak_area: Annotated[float, LEAK_AREA]
    shot: FiredVariant


@dataclass(frozen=True, slots=True, kw_only=True)
class LeakCost:
    """A gun shot with no leak at its cylinder, as its file describes it, and as measured.

    Parameters
    ----------
    tight
        Without any leak at the cylinder.
    as_described
        With the three leaks of the gun's file, or those assumed of a healthy one.
    measured
        With the leak as measured, likeliest area.
    at_least
        With the lower end of the measured interval.
    at_most
        With its upper end.
    basis
        What the answer rests on.
    """

    ball_mass: Annotated[float, Q("kg", label="mass of the ball", shown="g")]
    tight: LeakingShot
    as_described: LeakingShot
    measured: LeakingShot
    at_least: LeakingShot
    at_most: LeakingShot
    basis: Basis

    def speed_lost(self, case: LeakingShot) -> float:
        """Velocity that a leak takes, as a part of that of a tight cylinder.

        Parameters
        ----------
        case
            One of the shots of this record.

        Returns
        -------
        float
            Fraction.
        """
        return share_lost(case.shot, self.tight.shot)


def leak_cost(
    gun: Gun,
    *,
    leak_area: float,
    least_area: float | None = None,
    greatest_area: float | None = None,
    ball_mass: float | None = None,
    conditions: Conditions | None = None,
) -> LeakCost:
    """Fire a gun with a leak between its cylinder and the air.

    Parameters
    ----------
    gun
        As loaded from its file.
    leak_area
        Effective area of all leaks at the cylinder together, in m2: discharge coefficient times hole.
    least_area
        Lower end of its interval in m2; None is the area itself.
    greatest_area
        Upper end of its interval in m2; None is the area itself.
    ball_mass
        Mass of the ball in kg; None for the file's.
    conditions
        The day; None is a workshop at 20 °C.

    Returns
    -------
    LeakCost

    Raises
    ------
    InputError
        If the ball of the tight gun does not leave the barrel.
    OutOfRange
        For an impossible area.
    NumericalFailure
        If a shot cannot be integrated.

    Notes
    -----
    The model has a hole of `leaks.discharge_coefficient`; the effective area is divided by it.
    """
    least = leak_area if least_area is None else least_area
    greatest = leak_area if greatest_area is None else greatest_area
    for name, area in (("leak_area", leak_area), ("least_area", least), ("greatest_area", greatest)):
        check_value(name, area, LEAK_AREA)
    parameters = complete(gun, ball_mass=ball_mass, conditions=conditions).parameters
    leaks = parameters.leaks
    described = leaks.discharge_coefficient * (leaks.piston_seal + leaks.head_ring + leaks.nozzle_tube)
    areas = (0.0, described, leak_area, least, greatest)
    shots = fire_variants(
        gun,
        variations={
            "leaks.piston_seal": [area / leaks.discharge_coefficient for area in areas],
            "leaks.head_ring": [0.0] * len(areas),
            "leaks.nozzle_tube": [0.0] * len(areas),
        },
        ball_mass=ball_mass,
        conditions=conditions,
    )
    tight, as_described, measured, at_least, at_most = (
        LeakingShot(leak_area=area, shot=shot) for area, shot in zip(areas, shots, strict=True)
    )
    return LeakCost(
        ball_mass=parameters.ball.mass,
        tight=tight,
        as_described=as_described,
        measured=measured,
        at_least=at_least,
        at_most=at_most,
        basis=BASIS,
    )


def found_leak_cost(
    gun: Gun, *, found: LeakFound, ball_mass: float | None = None, conditions: Conditions | None = None
) -> LeakCost:
    """Fire a gun with the leak that tests have found.

    Parameters
    ----------
    gun
        As loaded from its file.
    found
        From `find_leak`.
    ball_mass
        Mass of the ball in kg; None for the file's.
    conditions
        The day; None is a workshop at 20 °C.

    Returns
    -------
    LeakCost

    Raises
    ------
    InputError
        If the ball of the tight gun does not leave the barrel.
    NumericalFailure
        If a shot cannot be integrated.
    """
    return leak_cost(
        gun,
        leak_area=found.leak_area,
        least_area=found.least_area,
        greatest_area=found.greatest_area,
        ball_mass=ball_mass,
        conditions=conditions,
    )
