"""Resistance of the leads between pack and motor."""

from __future__ import annotations

import math
from typing import Final

from stripdown.quantities import Q, check_value

_GAUGE = Q("1", low=-3, high=40, label="gauge number")
_LENGTH = Q("m", low=0, high=1e3, label="length of the lead, there and back")
COPPER_RESISTIVITY: Final = 1.7241e-8  # ohm m at 20 °C, standard annealed copper; wire tables agree within 0.2 %
STRANDED: Final = 1.04  # seven strands, by a printed wire table


def wire_resistance(*, gauge: float, length: float, stranded: bool = False) -> float:
    """Resistance of a copper wire of an American gauge at 20 °C.

    Parameters
    ----------
    gauge
        Number of the gauge; 0000 is -3.
    length
        In m; there and back.
    stranded
        Whether it has seven strands, which are 4 % worse than one.

    Returns
    -------
    float
        In ohm.

    Raises
    ------
    OutOfRange
        For a gauge or a length that no wire has.

    References
    ----------
    cirris_wire_table; awg_strand_table.
    """
    check_value("gauge", gauge, _GAUGE)
    check_value("length", length, _LENGTH)
    diameter: float = 0.127e-3 * 92.0 ** ((36.0 - gauge) / 39.0)
    solid = COPPER_RESISTIVITY * length / (0.25 * math.pi * diameter**2)
    return solid * STRANDED if stranded else solid
