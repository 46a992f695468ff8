"""The pad on the cylinder head, as it is cut."""

from __future__ import annotations

from stripdown.quantities import Q

PAD_THICKNESS = Q(
    "m",
    low=0,
    high=0.05,
    usual=(0.5e-3, 4e-3),
    label="thickness of the pad, as pressed",
    shown="mm",
    explain="What comes on top of what the gun's file was measured with.",
)
PAD_DIAMETER = Q("m", low=1e-3, high=0.2, usual=(0.018, 0.0236), label="outer diameter of the pad", shown="mm")
HOLE_DIAMETER = Q("m", low=0, high=0.2, usual=(0.004, 0.012), label="hole of the pad", shown="mm")
