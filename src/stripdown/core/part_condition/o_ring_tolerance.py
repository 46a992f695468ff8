"""How far an O-ring may differ from its nominal size."""

from __future__ import annotations

import math
from typing import Final

from stripdown.core.part_condition.parameters import CROSS_SECTION, INNER_DIAMETER
from stripdown.errors import OutsideValidity
from stripdown.quantities import check_value

SOURCE: Final = "iso_3601_1"
_ROUNDING: Final = 1e-9  # m: 2.25 mm is within 2.25 mm, however it was multiplied
_CROSS_SECTIONS: Final = ((2.25e-3, 0.08e-3), (3.15e-3, 0.09e-3), (4.5e-3, 0.10e-3), (6.3e-3, 0.13e-3), (8.4e-3, 0.15e-3))


def cross_section_tolerance(cross_section: float) -> float:
    """Tolerance of an O-ring's section.

    Parameters
    ----------
    cross_section
        Nominal section in m, up to 8.4 mm.

    Returns
    -------
    float
        Half the tolerance field, in m.

    Raises
    ------
    OutOfRange
        For an impossible section.
    OutsideValidity
        Beyond the table.

    References
    ----------
    iso_3601_1, class B, tolerances of the cross-section, as a distributor's table quotes them.
    """
    check_value("cross_section", cross_section, CROSS_SECTION)
    for largest, tolerance in _CROSS_SECTIONS:
        if cross_section <= largest + _ROUNDING:
            return tolerance
    last = _CROSS_SECTIONS[-1][0]
    raise OutsideValidity(
        f"cross_section = {cross_section * 1e3:g} mm is beyond the table of tolerances, which ends at {last * 1e3:g} mm: "
        "give the tolerance yourself.",
        model="O-ring tolerance",
        quantity="cross_section",
        value=cross_section,
        limits=(0.0, last),
        reference=SOURCE,
    )


def inner_diameter_tolerance(inner_diameter: float) -> float:
    """Tolerance of an O-ring's inner diameter.

    Parameters
    ----------
    inner_diameter
        Nominal inner diameter in m.

    Returns
    -------
    float
        Half the tolerance field, in m.

    Raises
    ------
    OutOfRange
        For an impossible diameter.

    Notes
    -----
    ``0.009 d^0.95 + 0.11`` with d in mm. The page that was read prints the exponent as 0.93; only 0.95 gives its own table.

    References
    ----------
    iso_3601_1, class B, tolerances of the inner diameter, as a distributor's table quotes them.
    """
    check_value("inner_diameter", inner_diameter, INNER_DIAMETER)
    return 1e-3 * (0.009 * math.pow(inner_diameter * 1e3, 0.95) + 0.11)
