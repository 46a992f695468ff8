"""How the answers of the bench calculators are written: shims to a micrometre, shares of rings, ends of a band."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from stripdown.charts.wording import minus

if TYPE_CHECKING:
    from stripdown.core.part_condition.band import Band


def micrometred(length: float) -> str:
    """Write a length as a micrometer reads it."""
    return f"{bare_millimetres(length)} mm"


def bare_millimetres(length: float) -> str:
    """Write a length in mm without its unit, to a micrometre, and to a hundredth if that is all."""
    return minus(f"{length * 1e3:.3f}".removesuffix("0"))


def shims_listed(thicknesses: Iterable[float]) -> str:
    """Write down the shims of one face."""
    found = list(thicknesses)
    return f"{' + '.join(map(bare_millimetres, found))} mm" if found else "no shim"


def share(value: float) -> str:
    """Write a fraction in per cent, to a tenth."""
    return minus(f"{value * 100:.1f}".removesuffix(".0")) + " %"


def ends(band: Band) -> str:
    """Write from where to where a figure is good."""
    if band.low is None:
        return f"up to {share(band.high or 0.0)}"
    return f"{band.low * 100:.0f} to {share(band.high or 0.0)}"
