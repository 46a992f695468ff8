"""What can the ball of this gun hurt: eye protection at the muzzle, published harm by distance, least distances of sites?"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated, Final

import numpy as np

from stripdown.catalogue.engagement import CatalogueEngagement, load_engagement
from stripdown.catalogue.injuries import CatalogueInjury, load_injuries
from stripdown.catalogue.protection import CatalogueProtection, ImpactTest, load_protection
from stripdown.core.exterior_ballistics import DragLaw, FlightLaws, FlightParameters, Launch, LiftLaw, Sphere, Wind, integrate_fan
from stripdown.core.parts.conditions import Conditions
from stripdown.quantities import Q, check_value
from stripdown.studies.muzzle import MuzzleState
from stripdown.studies.verdict import USUAL_BALLS
from stripdown.studies.whole_gun import simulate_shots

PLACES: Final = (0.0, 5.0, 10.0, 15.0, 20.0, 30.0)
"""Distances from the muzzle at which a ball is held against published harm, in m."""
MARGIN_OF_PREDICTION: Final = 0.20
MARGIN_OF_STRING: Final = 0.05
"""Shares by which a shot may have more energy than was predicted, or than a string has shown: estimates of ours."""
_ENERGY: Final = Q("J", low=0.001, high=100, label="highest energy that was measured")
_HIGH: Final = 1000.0  # m over the ground, so that no ball lands before it is looked at


@dataclass(frozen=True, slots=True, kw_only=True)
class LensClass:
    """One class of eye protection against this gun, at the muzzle and nowhere else.

    Parameters
    ----------
    protection
        The class.
    is_enough
        Whether its test has at least the energy, and the energy per area, of the hottest ball at the muzzle; None where the
        test says nothing of a fast ball.
    """

    protection: CatalogueProtection
    is_enough: bool | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ImpactAt:
    """The worst ball at one distance.

    Parameters
    ----------
    distance
        From the muzzle, in m.
    ball_mass
        Of the ball with the most energy there, in kg.
    energy
        In J, with the published drag that slows least.
    energy_per_area
        In J/m2 of the ball's cross-section.
    reached
        Keys of the harm that was seen at as much, in the order of the catalogue.
    """

    distance: Annotated[float, Q("m", label="distance from the muzzle")]
    ball_mass: Annotated[float, Q("kg", label="mass of the ball", shown="g")]
    energy: Annotated[float, Q("J", label="energy")]
    energy_per_area: Annotated[float, Q("J/m2", label="energy per area", shown="J/cm2")]
    reached: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Impact:
    """A gun with its hottest ball against eye protection and published harm.

    Parameters
    ----------
    ball_mass
        Of the hottest ball, in kg; None if its energy was measured and told.
    energy
        Of the hottest ball at the muzzle, in J.
    is_measured
        Whether that energy was told as measured; otherwise it is a prediction for the usual balls.
    is_scaled
        Whether the predictions were brought to a speed that was read.
    energy_per_area
        In J/m2.
    lens_energy
        What a lens is held against, in J: more, as a shot may be hotter than was predicted or seen.
    lenses
        Each class, judged at the muzzle.
    places
        The worst ball by distance.
    injuries
        By key.
    engagement
        What sites ask for a gun of this energy; None above all bands.
    """

    ball_mass: float | None
    energy: Annotated[float, Q("J", label="energy of the hottest ball at the muzzle")]
    is_measured: bool
    is_scaled: bool
    energy_per_area: Annotated[float, Q("J/m2", label="energy per area", shown="J/cm2")]
    lens_energy: Annotated[float, Q("J", label="energy that a lens is held against")]
    lenses: tuple[LensClass, ...]
    places: tuple[ImpactAt, ...]
    injuries: Mapping[str, CatalogueInjury]
    engagement: CatalogueEngagement | None


def study_impact(
    muzzle: MuzzleState, *, hottest: float | None, conditions: Conditions | None, balls: Sequence[float] = USUAL_BALLS
) -> Impact:
    """Hold a gun against eye protection and published harm.

    Parameters
    ----------
    muzzle
        How one ball leaves it.
    hottest
        Highest energy in J that a string has shown, with any ball and selector position; None if none was measured.
    conditions
        The day; None is a workshop at 20 °C.
    balls
        Masses in kg that a player may bring.

    Returns
    -------
    Impact

    Raises
    ------
    OutOfRange
        For an impossible energy.
    """
    if hottest is not None:
        check_value("hottest", hottest, _ENERGY)
    masses = np.array(sorted({*balls, muzzle.ball.mass}), dtype=np.float64)
    batch = simulate_shots(muzzle.gun, variations={"ball.mass": masses}, conditions=conditions, until_muzzle=True)
    speeds = batch.muzzle_speed * (muzzle.speed / muzzle.predicted_speed)
    leaves = speeds > 0.0
    masses, speeds = masses[leaves], speeds[leaves]
    energies = 0.5 * masses * speeds**2
    told = 0.0 if hottest is None else hottest
    most = int(np.argmax(energies))
    is_measured = told >= float(energies[most])
    if is_measured:  # no ball is named: whichever it was, each may have it
        speeds = np.sqrt(2.0 * told / masses)
    energy = max(told, float(energies[most]))
    against = energy * (1.0 + (MARGIN_OF_STRING if is_measured else MARGIN_OF_PREDICTION))
    area = 0.25 * math.pi * muzzle.ball.diameter**2
    injuries = load_injuries()
    places = tuple(_Leaving(masses, speeds, muzzle, area).at(place, injuries) for place in PLACES)
    return Impact(
        ball_mass=None if is_measured else float(masses[most]),
        energy=energy,
        is_measured=is_measured,
        lens_energy=against,
        is_scaled=muzzle.reading is not None and not is_measured,
        energy_per_area=energy / area,
        lenses=tuple(
            LensClass(protection=one, is_enough=_is_enough(one, against, against / area)) for one in load_protection().values()
        ),
        places=places,
        injuries=injuries,
        engagement=next((band for band in load_engagement().values() if band.over <= energy <= band.up_to), None),
    )


def _is_enough(protection: CatalogueProtection, energy: float, energy_per_area: float) -> bool | None:
    if protection.test is not ImpactTest.FAST_BALL:
        return None
    return protection.energy >= energy and protection.energy_per_area >= energy_per_area


@dataclass(frozen=True, slots=True)
class _Leaving:
    """Balls as they leave the muzzle, and the air that they meet."""

    masses: np.ndarray
    speeds: np.ndarray
    muzzle: MuzzleState
    area: float

    def at(self, place: float, injuries: Mapping[str, CatalogueInjury]) -> ImpactAt:
        """The ball that has the most energy at a distance, slowed as little as any published law allows."""
        there = self.speeds
        if place > 0.0:
            level = FlightParameters(
                ball=Sphere(mass=float(self.masses[0]), diameter=self.muzzle.ball.diameter),
                launch=Launch(z=_HIGH, speed_x=float(self.speeds[0])),
                air=self.muzzle.air,
                wind=Wind(),
                laws=FlightLaws(drag=DragLaw.MORRISON, lift=LiftLaw.NONE),
            )
            varied = {"ball.mass": self.masses, "launch.speed_x": self.speeds}
            there = integrate_fan(level, variations=varied, until=place).speed
        energies = 0.5 * self.masses * there**2
        worst = int(np.argmax(energies))
        has = {"energy": float(energies[worst]), "energy_per_area": float(energies[worst]) / self.area}
        return ImpactAt(
            distance=place,
            ball_mass=float(self.masses[worst]),
            reached=tuple(key for key, one in injuries.items() if one.is_reached(**has)),
            **has,
        )
