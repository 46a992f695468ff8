"""The parts of one gun. A discipline selects from them: its own record names what it needs, by the same names."""

from __future__ import annotations

from stripdown.core.parts.ball import Ball
from stripdown.core.parts.barrel import Barrel
from stripdown.core.parts.cylinder import Cylinder, CylinderHead
from stripdown.core.parts.hop_up import HopUp
from stripdown.core.parts.nozzle import Leaks, Nozzle
from stripdown.core.parts.piston import Piston
from stripdown.core.parts.spring import Spring
from stripdown.errors import OutOfRange
from stripdown.quantities import parameters


@parameters
class GunParts:
    """Every part of a gun that is measured or assumed, in the order of a gun's file."""

    spring: Spring
    piston: Piston
    cylinder: Cylinder
    cylinder_head: CylinderHead
    nozzle: Nozzle
    leaks: Leaks
    hop_up: HopUp
    barrel: Barrel
    ball: Ball

    def cross_check(self) -> None:
        """Refuse parts that do not fit each other.

        Raises
        ------
        OutOfRange
            With both sizes.
        """
        check_ball_in_barrel(self.ball, self.barrel)


def check_ball_in_barrel(ball: Ball, barrel: Barrel) -> None:
    """Refuse a ball that does not fit its barrel.

    Parameters
    ----------
    ball, barrel
        The two parts.

    Raises
    ------
    OutOfRange
        With both diameters.
    """
    if ball.diameter >= barrel.bore:
        raise OutOfRange(
            f"ball.diameter = {ball.diameter * 1e3:g} mm does not pass barrel.bore = {barrel.bore * 1e3:g} mm.",
            field="ball.diameter",
            value=ball.diameter,
            unit="m",
            limits=(0, barrel.bore),
            hint="The ball must be smaller than the bore; usual is 5.95 mm in 6.03 to 6.08 mm.",
        )
