"""Grades of lubricants: three scales that share no numbers, kept apart by their types.

Grease is graded by how deep a cone sinks into it (NLGI), oil by its viscosity at 40 °C (ISO VG), and silicone oil is sold by its
viscosity at 25 °C, which is no ISO VG grade: the same oil is thinner at 40 °C.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from stripdown.errors import InputError, OutOfRange
from stripdown.quantities import Q, check_value

PENETRATION = Q("1", low=48, high=1000, usual=(85, 475), label="worked penetration, in tenths of a millimetre")
VISCOSITY = Q("m2/s", low=1e-7, high=1.0, usual=(1e-6, 1e-2), label="kinematic viscosity")
TEMPERATURE = Q("K", low=200, high=500, label="temperature of the viscosity", shown="degC")

OIL_TEMPERATURE = 313.15
"""Temperature at which ISO VG grades hold, in K (iso_3448)."""

_VG_SPREAD = 0.10
_SAME_TEMPERATURE = 0.5  # K: what a thermostat holds
_CENTISTOKE = 1e-6

# Worked penetration of the NLGI numbers, astm_d217. Between them lie gaps: 300 is no grade.
_NLGI: Mapping[str, tuple[float, float]] = MappingProxyType(
    {
        "000": (445, 475),
        "00": (400, 430),
        "0": (355, 385),
        "1": (310, 340),
        "2": (265, 295),
        "3": (220, 250),
        "4": (175, 205),
        "5": (130, 160),
        "6": (85, 115),
    }
)
# Midpoints in cSt by grade. From 10 on the midpoint is the grade, iso_3448; the first four are general knowledge of it, not read.
_VG: Mapping[int, float] = MappingProxyType(
    {2: 2.2, 3: 3.2, 5: 4.6, 7: 6.8}
    | {grade: float(grade) for grade in (10, 15, 22, 32, 46, 68, 100, 150, 220, 320, 460, 680, 1000, 1500)}
)
_SPELT_NLGI = re.compile(r"(?:nlgi|gkn)\s*(?:no\.?|number|grade|class)?\s*([0-9]+)")
_SPELT_VG = re.compile(r"(?:iso\s*)?vg\s*([0-9]+)")
_CST = r"([0-9]+(?:[.,][0-9]+)?)\s*(?:cst|mm2/s|mm²/s)"
_SPELT_SILICONE = re.compile(rf"silicone(?:\s+oil)?\s*{_CST}|{_CST}\s*silicone(?:\s+oil)?")


@dataclass(frozen=True, slots=True, kw_only=True)
class ConsistencyGrade:
    """How stiff a grease is: its NLGI number.

    Parameters
    ----------
    number
        ``"000"``, the softest, to ``"6"``.
    penetration
        Worked penetration of the grade, least and most, each a number of tenths of a millimetre.
    """

    number: str
    penetration: tuple[float, float]

    def __str__(self) -> str:
        """As it stands on a tin."""
        return f"NLGI {self.number}"


@dataclass(frozen=True, slots=True, kw_only=True)
class ViscosityGrade:
    """How thick an oil is at 40 °C: its ISO VG grade.

    Parameters
    ----------
    number
        2 to 1500.
    viscosity
        Kinematic viscosity of the grade at 40 °C, least and most, in m2/s.
    """

    number: int
    viscosity: tuple[float, float]

    def __str__(self) -> str:
        """As it stands on a can."""
        return f"ISO VG {self.number}"


@dataclass(frozen=True, slots=True, kw_only=True)
class SiliconeViscosity:
    """How thick a silicone oil is at 25 °C: the figure by which it is sold. It is no grade.

    Parameters
    ----------
    viscosity
        Kinematic viscosity at 25 °C in m2/s.
    """

    viscosity: float

    def __str__(self) -> str:
        """As it stands on a bottle."""
        return f"silicone oil {self.viscosity / _CENTISTOKE:g} cSt at 25 °C"


LubricantGrade = ConsistencyGrade | ViscosityGrade | SiliconeViscosity
"""One of the three: which, says its type."""


def penetration_grade(penetration: float) -> str | None:
    """NLGI number of a grease from its worked penetration.

    Parameters
    ----------
    penetration
        A number as the standard has it: worked penetration in tenths of a millimetre (265 for 26.5 mm), 25 °C, 60 strokes.

    Returns
    -------
    str or None
        ``"000"`` to ``"6"``; None in the gaps between the numbers and beyond them.

    Raises
    ------
    OutOfRange
        If it is below 48 or above 1000: so metres and millimetres are refused, which would all be too small.
    InputError
        For a viscosity, or a grade of another scale.

    Notes
    -----
    The one number of this interface that is not in SI: the scale itself is defined in tenths of a millimetre. The numbers leave
    gaps on purpose: a grease at 300 lies between 1 and 2 and has neither.

    References
    ----------
    astm_d217, classes of consistency by worked penetration.
    """
    _refuse_other(penetration, "penetration", "a worked penetration in tenths of a millimetre, for example 280")
    try:
        check_value("penetration", penetration, PENETRATION)
    except OutOfRange as reason:
        raise OutOfRange(
            f"penetration = {penetration:g} is no worked penetration.",
            field="penetration",
            value=penetration,
            unit="0.1 mm",
            limits=(PENETRATION.low, PENETRATION.high),
            hint="It counts tenths of a millimetre, as the standard does: 265 stands for 26.5 mm. Greases have 85 to 475.",
        ) from reason
    return next((number for number, (low, high) in _NLGI.items() if low <= penetration <= high), None)


def consistency_grade(number: str) -> ConsistencyGrade:
    """What an NLGI number means.

    Parameters
    ----------
    number
        ``"000"`` to ``"6"``.

    Returns
    -------
    ConsistencyGrade

    Raises
    ------
    InputError
        If there is no such number.

    References
    ----------
    astm_d217, classes of consistency by worked penetration.
    """
    if number not in _NLGI:
        raise InputError(f"NLGI {number} does not exist.", field="number", value=number, hint=f"Numbers: {', '.join(_NLGI)}.")
    return ConsistencyGrade(number=number, penetration=_NLGI[number])


def viscosity_grade(viscosity: float, *, temperature: float) -> ViscosityGrade | None:
    """ISO VG grade of an oil from its kinematic viscosity at 40 °C.

    Parameters
    ----------
    viscosity
        Kinematic viscosity in m2/s (1 cSt is 1e-6 m2/s).
    temperature
        At which that viscosity holds, in K; only 40 °C is accepted.

    Returns
    -------
    ViscosityGrade or None
        None in the gaps between the grades and beyond them.

    Raises
    ------
    OutOfRange
        For an impossible viscosity, or one at another temperature.
    InputError
        For a penetration class, or the figure of a silicone oil.

    References
    ----------
    iso_3448, each grade within 10 % of its midpoint.
    """
    _refuse_other(viscosity, "viscosity", "a kinematic viscosity at 40 °C in m2/s, for example 32e-6")
    check_value("viscosity", viscosity, VISCOSITY)
    check_value("temperature", temperature, TEMPERATURE)
    if abs(temperature - OIL_TEMPERATURE) > _SAME_TEMPERATURE:
        raise OutOfRange(
            f"temperature = {temperature - 273.15:g} °C: an ISO VG grade is a viscosity at 40 °C.",
            field="temperature",
            value=temperature,
            unit="K",
            limits=(OIL_TEMPERATURE, OIL_TEMPERATURE),
            hint="Silicone oil is sold by its viscosity at 25 °C; that is no ISO VG grade.",
        )
    grades = (_vg(number) for number in _VG)
    return next((grade for grade in grades if grade.viscosity[0] <= viscosity <= grade.viscosity[1]), None)


def read_lubricant_grade(text: str) -> LubricantGrade:
    """Understand a grade as it stands on a tin, can or bottle.

    Parameters
    ----------
    text
        ``"NLGI 2"``, ``"ISO VG 32"``, ``"silicone oil 350 cSt"``, in any case.

    Returns
    -------
    ConsistencyGrade, ViscosityGrade or SiliconeViscosity

    Raises
    ------
    InputError
        If the text does not say which of the three scales its number is on, or the scale has no such grade.

    References
    ----------
    astm_d217, classes of consistency; iso_3448, grades.
    """
    said = " ".join(text.casefold().split())
    if found := _SPELT_NLGI.fullmatch(said):
        return consistency_grade(found[1])
    if found := _SPELT_VG.fullmatch(said):
        if int(found[1]) not in _VG:
            numbers = ", ".join(map(str, _VG))
            raise InputError(f'"{text}" does not exist.', field="grade", value=text, hint=f"ISO VG grades: {numbers}.")
        return _vg(int(found[1]))
    if found := _SPELT_SILICONE.fullmatch(said):
        viscosity = float((found[1] or found[2]).replace(",", ".")) * _CENTISTOKE
        check_value("viscosity", viscosity, VISCOSITY)
        return SiliconeViscosity(viscosity=viscosity)
    raise InputError(
        f'"{text}" does not say on which scale it is.',
        field="grade",
        value=text,
        hint='Write "NLGI 2" for a grease, "ISO VG 32" for an oil, "silicone oil 350 cSt" for a silicone oil.',
    )


def _vg(number: int) -> ViscosityGrade:
    middle = _VG[number] * _CENTISTOKE
    return ViscosityGrade(number=number, viscosity=(middle * (1.0 - _VG_SPREAD), middle * (1.0 + _VG_SPREAD)))


def _refuse_other(given: object, field: str, wanted: str) -> None:
    """Refuse a figure of another scale, or none at all."""
    if isinstance(given, ConsistencyGrade | ViscosityGrade | SiliconeViscosity):
        raise InputError(f"{field}: {given} is on another scale.", field=field, value=given, hint=f"It must be {wanted}.")
    if isinstance(given, bool) or not isinstance(given, int | float):
        raise InputError(f"{field}: {given!r} is not a number.", field=field, value=given, hint=f"It must be {wanted}.")
