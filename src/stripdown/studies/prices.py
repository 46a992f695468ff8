"""What the answer of a calculator costs a gun: the gun is fired with it and without."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Final

from stripdown.studies.calculators import Answered, Fired
from stripdown.studies.drag_cost import drag_cost
from stripdown.studies.leak_cost import found_leak_cost
from stripdown.studies.pad_cost import pad_cost

if TYPE_CHECKING:
    from stripdown.bench.gun import Gun


def priced(answered: Answered, fired: Fired) -> Answered:
    """Fire a gun with what a calculator answered.

    Parameters
    ----------
    answered
        From `calculate`.
    fired
        Which gun, with which ball (in kg), on which day.

    Returns
    -------
    Answered
        With what it costs; as it was, without a gun or for a calculator whose answers cost nothing.

    Raises
    ------
    InputError
        If the ball does not leave the barrel.
    NumericalFailure
        If a shot cannot be integrated.
    """
    gun = fired.gun
    if gun is None or answered.key not in PRICES:
        return answered
    return dataclasses.replace(answered, gun=gun, cost=PRICES[answered.key](gun, answered, fired))


def _pad(gun: Gun, answered: Answered, fired: Fired) -> object:
    asked = answered.asked.record
    return pad_cost(
        gun,
        thickness=answered.found.thickness,
        pad_diameter=asked.pad_diameter,
        hole_diameter=asked.hole_diameter,
        ball_mass=fired.ball_mass,
        conditions=fired.conditions,
    )


def _leak(gun: Gun, answered: Answered, fired: Fired) -> object:
    return found_leak_cost(gun, found=answered.found, ball_mass=fired.ball_mass, conditions=fired.conditions)


def _drag(gun: Gun, answered: Answered, fired: Fired) -> object:
    asked = answered.asked.record
    return drag_cost(
        gun,
        drag=asked.drag,
        reference_drag=asked.reference_drag,
        ball_mass=fired.ball_mass,
        conditions=fired.conditions,
    )


PRICES: Final[Mapping[str, Callable[[Gun, Answered, Fired], Any]]] = MappingProxyType({"pad": _pad, "leak": _leak, "drag": _drag})
"""By key of the calculator."""
