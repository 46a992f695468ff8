"""Numbers that belong to a session at the chronograph: declared here, so that commands and case files ask for them alike.

Loads nothing heavy, so that a command's help can show them.
"""

from __future__ import annotations

from typing import Final

from stripdown.quantities import Q

FIRED_BALL_MASS: Final = Q(
    "kg",
    low=0.1e-3,
    high=0.6e-3,
    usual=(0.00012, 0.00048),
    label="mass of the ball",
    shown="g",
    explain="Weigh ten and divide by ten.",
)
SETUP_UNCERTAINTY: Final = Q(
    "m/s",
    low=0,
    high=20,
    usual=(0, 1),
    label="standard uncertainty of setting the chronograph up anew",
    explain="What packing the chronograph away and setting it up again changes; a bias that stays the same is not in it.",
)
BALL_MASS_UNCERTAINTY: Final = Q(
    "kg",
    low=0,
    high=1e-4,
    usual=(0, 5e-6),
    label="standard uncertainty of the ball's mass",
    shown="mg",
    explain="Of the mean mass of the balls: balance and weighing, not the scatter from ball to ball.",
)
