"""Voltage at rest of lithium polymer cells by their charge."""

from __future__ import annotations

from typing import Final

import numpy as np

from stripdown.core.numerics.compiled import compiled
from stripdown.quantities import Q, check_value

_CHARGE = Q("1", low=0, high=1, label="state of charge", shown="%")
_CELLS = Q("1", low=1, high=100, label="cells in a row")
# Volts per cell at rest from empty to full in steps of 5 %; lipo_rest_table.
_REST: Final = np.array(
    [3.27, 3.61, 3.69, 3.71, 3.73, 3.75, 3.77, 3.79, 3.80, 3.82, 3.84, 3.85, 3.87, 3.91, 3.95, 3.98, 4.02, 4.08, 4.11, 4.15, 4.20]
)


@compiled
def cell_voltage(state_of_charge: float) -> float:
    """Voltage at rest of one lithium polymer cell, straight between the entries of the table; held at its ends.

    Parameters
    ----------
    state_of_charge
        As a fraction.

    Returns
    -------
    float
        In V.
    """
    steps = 20.0 * min(1.0, max(0.0, state_of_charge))
    lower = min(19, int(steps))
    share = steps - lower
    found: float = _REST[lower] + share * (_REST[lower + 1] - _REST[lower])
    return found


def battery_open_circuit_voltage(state_of_charge: float, *, cells: int) -> float:
    """Voltage at rest of a lithium polymer pack.

    Parameters
    ----------
    state_of_charge
        As a fraction, 0 to 1.
    cells
        Count of cells in a row.

    Returns
    -------
    float
        In V.

    Raises
    ------
    OutOfRange
        For a charge below none or above full, or no cells.

    Notes
    -----
    A table of common practice; between 20 and 60 % a meter's error of 10 mV is 3 % of charge. Not for other chemistries.

    References
    ----------
    lipo_rest_table.
    """
    check_value("state_of_charge", state_of_charge, _CHARGE)
    check_value("cells", cells, _CELLS)
    return cells * float(cell_voltage(state_of_charge))
