"""Where a law of the air holds, and what is said where it does not."""

from __future__ import annotations

import dataclasses
import math
from dataclasses import dataclass

from stripdown.errors import OutsideValidity

_ALWAYS = (0.0, math.inf)


@dataclass(frozen=True, slots=True, kw_only=True)
class LawRange:
    """Where a law holds.

    Parameters
    ----------
    model
        Whose law it is.
    reynolds
        Least and greatest Reynolds number, with the diameter.
    spin_ratio
        Least and greatest speed of the surface over that of the ball.
    mach
        Least and greatest Mach number.
    reference
        Key of the source.
    """

    model: str
    reynolds: tuple[float, float] = _ALWAYS
    spin_ratio: tuple[float, float] = _ALWAYS
    mach: tuple[float, float] = _ALWAYS
    reference: str

    def holds(self, **values: float) -> bool:
        """Whether a law holds at some values.

        Parameters
        ----------
        **values
            By the names of the ranges.

        Returns
        -------
        bool
        """
        return all(getattr(self, name)[0] <= value <= getattr(self, name)[1] for name, value in values.items())


def hold_against(law: LawRange, **values: float) -> None:
    """Refuse values at which a law does not hold.

    Parameters
    ----------
    law
        Where it holds.
    **values
        By the names of the ranges.

    Raises
    ------
    OutsideValidity
        With quantity, value and limits.
    """
    for field in dataclasses.fields(law):
        if field.name not in values or law.holds(**{field.name: values[field.name]}):
            continue
        value, (low, high) = values[field.name], getattr(law, field.name)
        raise OutsideValidity(
            f"{law.model}: known from {low:g} to {high:g} of {field.name.replace('_', ' ')}; asked was {value:.4g}.",
            model=law.model,
            quantity=field.name,
            value=value,
            limits=(low, high),
            reference=law.reference,
        )
