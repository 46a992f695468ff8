"""An energy limit: how much, where measured, for which shots, and on whose word.

Standard library only: the catalogue loads this without arrays.
"""

from __future__ import annotations

import enum
import math
from dataclasses import dataclass

from stripdown.core.shot_statistics.conditions import FireMode
from stripdown.errors import OutOfRange


class LimitScope(enum.Enum):
    """Which guns or shots a limit is for."""

    EVERY_SHOT = "every shot"
    AUTOMATIC_GUN = "guns that can fire automatic, on semi too"
    SINGLE_SHOT_GUN = "guns that cannot fire automatic"
    SEMI_FIRE = "shots on semi"
    AUTOMATIC_FIRE = "shots on automatic"


@dataclass(frozen=True, slots=True, kw_only=True)
class EnergyLimit:
    """A limit on the energy of a ball.

    Parameters
    ----------
    name
        What a technician calls it.
    place
        Where it holds: country, or the site.
    energy
        In J; None if it is given by area.
    energy_per_area
        In J/m2 of the ball's largest cross-section; None if it is given as an energy.
    measuring_distance
        From the muzzle in m, 0 at the muzzle; None if the rule does not say.
    scope
        Which guns or shots it is for.
    source
        Whose rule it is: law, section, site.
    date
        Of the rule, or when it was written down; empty if not known.
    is_law
        False for a site's own rule.
    was_read
        Whether the rule itself was read; False if it is only quoted elsewhere.
    remark
        What else must be known.
    """

    name: str
    place: str = ""
    energy: float | None = None
    energy_per_area: float | None = None
    measuring_distance: float | None = None
    scope: LimitScope = LimitScope.EVERY_SHOT
    source: str = ""
    date: str = ""
    is_law: bool = False
    was_read: bool = False
    remark: str = ""

    def __post_init__(self) -> None:
        """Refuse a limit without exactly one amount, or an impossible one."""
        amounts = [amount for amount in (self.energy, self.energy_per_area) if amount is not None]
        if len(amounts) != 1 or not (math.isfinite(amounts[0]) and amounts[0] > 0.0):
            raise OutOfRange(
                f"The limit {self.name!r} needs one amount above zero.",
                field="energy",
                value=self.energy if self.energy is not None else self.energy_per_area,
                limits=(0.0, None),
                hint="Give an energy in J, or an energy per area in J/m2.",
            )
        distance = self.measuring_distance
        if distance is not None and not 0.0 <= distance <= 100.0:
            raise OutOfRange(
                f"The limit {self.name!r} is measured {distance:g} m from the muzzle.",
                field="measuring_distance",
                value=distance,
                unit="m",
                limits=(0.0, 100.0),
                hint="Use 0 for the muzzle.",
            )

    def energy_for(self, ball_diameter: float) -> float:
        """Limit for one ball.

        Parameters
        ----------
        ball_diameter
            In m.

        Returns
        -------
        float
            In J.
        """
        if self.energy is not None:
            return self.energy
        return (self.energy_per_area or 0.0) * 0.25 * math.pi * ball_diameter**2

    def speed_for(self, ball_mass: float, ball_diameter: float) -> float:
        """Speed at which a ball has the limit's energy.

        Parameters
        ----------
        ball_mass
            In kg.
        ball_diameter
            In m.

        Returns
        -------
        float
            In m/s, at the limit's measuring point.
        """
        return math.sqrt(2.0 * self.energy_for(ball_diameter) / ball_mass)

    def applies(self, *, fire_mode: FireMode | None, can_fire_automatic: bool | None) -> bool | None:
        """Whether the limit is for these shots.

        Parameters
        ----------
        fire_mode
            Selector position; None if not said.
        can_fire_automatic
            Whether the gun can fire more than one shot for one pull; None if not said.

        Returns
        -------
        bool or None
            None if what was not said decides it.
        """
        if self.scope is LimitScope.EVERY_SHOT:
            return True
        if self.scope in (LimitScope.AUTOMATIC_GUN, LimitScope.SINGLE_SHOT_GUN):
            can = True if fire_mode is FireMode.AUTOMATIC else can_fire_automatic
            return None if can is None else can is (self.scope is LimitScope.AUTOMATIC_GUN)
        if fire_mode is None:
            return None
        return (fire_mode is FireMode.AUTOMATIC) is (self.scope is LimitScope.AUTOMATIC_FIRE)


def limit_from_speed(speed: float, ball_mass: float) -> float:
    """Energy that a rule means when it names a speed on a ball.

    Parameters
    ----------
    speed
        In m/s.
    ball_mass
        Of the ball that the rule names, in kg.

    Returns
    -------
    float
        In J. The rule then holds for every ball by this energy: a fixed speed would let a heavy ball carry more.
    """
    return 0.5 * ball_mass * speed * speed
