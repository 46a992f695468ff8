"""Leads, connector, fuse and switch."""

from __future__ import annotations

from typing import Annotated

from stripdown.quantities import Q, parameters


@parameters
class Wiring:
    """What stands between pack and motor."""

    lead_resistance: Annotated[
        float, Q("ohm", low=0, high=10, usual=(0.008, 0.03), label="resistance of leads, connector and fuse")
    ]
    switch_resistance: Annotated[float, Q("ohm", low=0, high=10, usual=(0.003, 0.03), label="resistance of the switch")]
