"""Lift of a spinning sphere: published laws of the spin ratio, none of them measured with such a ball.

The spin ratio is the speed of the surface over that of the ball, ``a·w/v``. The laws differ by more than a factor of
three, and near a spin ratio of one half some spheres lose their lift: so it is fitted to what one sees, and the band is shown.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from stripdown.core.exterior_ballistics.parameters import LiftLaw
from stripdown.core.exterior_ballistics.validity import LawRange, hold_against
from stripdown.core.numerics.compiled import compiled
from stripdown.errors import InputError
from stripdown.quantities import Q, check_value

LIFT_RANGES: Final[Mapping[LiftLaw, LawRange]] = MappingProxyType(
    {
        LiftLaw.LOTH: LawRange(model="Loth's lift", reynolds=(0.0, 1e5), spin_ratio=(0.0, 5.0), reference="loth_2008"),
        LiftLaw.TSUJI: LawRange(
            model="Tsuji, Morikawa and Mizuno", reynolds=(550.0, 1600.0), spin_ratio=(0.0, 0.7), reference="tsuji_1985"
        ),
        LiftLaw.RUBINOW_KELLER: LawRange(model="Rubinow and Keller", reynolds=(0.0, 1.0), reference="rubinow_keller_1961"),
        LiftLaw.SAWICKI: LawRange(
            model="Sawicki, Hubbard and Stronge, for baseballs",
            reynolds=(4e4, 4e5),
            spin_ratio=(0.0, 1.0),
            reference="sawicki_2003",
        ),
    }
)
"""Where each law holds; a constant holds where whoever gave it says so."""
_SPIN_RATIO: Final = Q("1", low=0, high=1e6, label="spin ratio")
_REYNOLDS: Final = Q("1", low=1e-12, high=1e12, label="Reynolds number with the diameter")
_FAST: Final = 1e4  # Reynolds number at which Loth's law no longer depends on it


@compiled
def loth(spin_ratio: float, reynolds: float) -> float:
    """Loth's law of 2008 for particles, over all Reynolds numbers."""
    turned = 2.0 * spin_ratio
    lost = 0.675 + 0.15 * (1.0 + math.tanh(0.28 * (turned - 2.0)))
    return turned * (1.0 - lost * math.tanh(0.18 * math.sqrt(reynolds)))


@compiled
def sawicki(spin_ratio: float) -> float:
    """Two straight lines through what was measured of baseballs, seams and all."""
    return 1.5 * spin_ratio if spin_ratio <= 0.1 else 0.09 + 0.6 * spin_ratio


@compiled
def lift_of_law(law: int, constant: float, spin_ratio: float, reynolds: float) -> float:
    """Lift coefficient by a law's number."""
    if law == 2:  # the numbers of `LiftLaw`
        return loth(spin_ratio, reynolds)
    if law == 3:
        return 0.40 * spin_ratio
    if law == 4:
        return 2.0 * spin_ratio
    if law == 5:
        return sawicki(spin_ratio)
    return constant if law == 1 else 0.0


def lift_coefficient(
    spin_ratio: float, *, law: str | LiftLaw = LiftLaw.LOTH, reynolds: float | None = None, extrapolate: bool = False
) -> float:
    """Lift coefficient of a spinning sphere, on its cross-section.

    Parameters
    ----------
    spin_ratio
        Speed of the surface over that of the ball.
    law
        ``"loth"``, ``"tsuji"``, ``"rubinow_keller"`` or ``"sawicki"``.
    reynolds
        Reynolds number with the diameter; None asks for the law where it no longer depends on it, and does not judge it.
    extrapolate
        Whether to go beyond the range of the law.

    Returns
    -------
    float
        Force over ½·density·speed²·cross-section, upward for backspin.

    Raises
    ------
    InputError
        For a law that is not known.
    OutOfRange
        For an impossible number.
    OutsideValidity
        Outside the range of the law.

    Notes
    -----
    At a spin ratio of 0.1 the laws say 0.04 to 0.2. Measured balls can show less, none, or a negative lift near the drag crisis.

    References
    ----------
    loth_2008; tsuji_1985; rubinow_keller_1961; sawicki_2003.
    """
    chosen = lift_law(law)
    if chosen in {LiftLaw.CONSTANT, LiftLaw.NONE}:
        raise InputError("A constant has no law.", field="law", value=str(law), hint="Use the constant itself.")
    check_value("spin_ratio", spin_ratio, _SPIN_RATIO)
    if reynolds is not None:
        check_value("reynolds", reynolds, _REYNOLDS)
    if not extrapolate:
        hold_against(LIFT_RANGES[chosen], spin_ratio=spin_ratio, **({} if reynolds is None else {"reynolds": reynolds}))
    return float(lift_of_law(int(chosen), 0.0, spin_ratio, _FAST if reynolds is None else reynolds))


def lift_law(law: str | LiftLaw) -> LiftLaw:
    """Find a lift law by its name.

    Parameters
    ----------
    law
        Name in any case, or the law itself.

    Returns
    -------
    LiftLaw

    Raises
    ------
    InputError
        For a name that is not known.
    """
    try:
        return LiftLaw[law.upper()] if isinstance(law, str) else LiftLaw(law)
    except (KeyError, ValueError):
        known = ", ".join(one.name.lower() for one in (LiftLaw.NONE, *LIFT_RANGES))
        raise InputError(f'"{law}" is no law of lift.', field="lift", value=str(law), hint=f"Known are {known}.") from None
