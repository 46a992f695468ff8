"""How numbers are written on pictures and in the terminal: joules, per cent, ball masses, speeds."""

from __future__ import annotations

from stripdown.units import from_si, unit_named

_HALF_A_HUNDREDTH = 0.005
_SPEED_DECIMALS = {"m/s": 1, "ft/s": 0}


def joules(energy: float) -> str:
    """Write an energy to hundredths of a joule, never as a misleading zero.

    Parameters
    ----------
    energy
        In J.

    Returns
    -------
    str
        Such as ``"0.21 J"``.
    """
    if 0 < abs(energy) < _HALF_A_HUNDREDTH:
        return "<0.01 J"
    return f"{_minus(f'{energy:.2f}')} J"


def joules_gained(energy: float) -> str:
    """Write a difference of energies with its sign.

    Parameters
    ----------
    energy
        In J.

    Returns
    -------
    str
        Such as ``"+0.12 J"``; ``"0"`` when it rounds to nothing.
    """
    return "0" if abs(energy) < _HALF_A_HUNDREDTH else f"{_minus(f'{energy:+.2f}')} J"


def per_cent(share: float | None) -> str:
    """Write a share, empty if there is none.

    Parameters
    ----------
    share
        Part of one, or None.

    Returns
    -------
    str
        Such as ``"9 %"``.
    """
    if share is None:
        return ""
    return "<1 %" if 0 < abs(share) < _HALF_A_HUNDREDTH else f"{_minus(f'{share * 100:.0f}')} %"


def grams(mass: float) -> str:
    """Write the mass of a ball as it stands on its bag: two decimals, a third only if it has one.

    Parameters
    ----------
    mass
        In kg.

    Returns
    -------
    str
        Such as ``"0.20 g"``.
    """
    text = f"{mass * 1e3:.3f}"
    return f"{text.removesuffix('0')} g"


def speed(value: float, unit: str) -> str:
    """Write a speed to what a chronograph shows.

    Parameters
    ----------
    value
        In m/s.
    unit
        ``"m/s"`` or ``"ft/s"``.

    Returns
    -------
    str
        Such as ``"98.4 m/s"`` or ``"323 ft/s"``.
    """
    return f"{_minus(f'{from_si(value, unit):.{speed_decimals(unit)}f}')} {unit_named(unit).shown}"


def speed_decimals(unit: str) -> int:
    """How many decimals of a speed mean something to a reader.

    Parameters
    ----------
    unit
        ``"m/s"`` or ``"ft/s"``.

    Returns
    -------
    int
    """
    return _SPEED_DECIMALS.get(unit, 1)


def _minus(number: str) -> str:
    return number.replace("-", "−")
