"""The sector gear and the rack that it draws."""

from __future__ import annotations

from typing import Annotated

from stripdown.quantities import Q, parameters


@parameters
class SectorGear:
    """Sector gear, its cut, and where it meets the rack."""

    round_teeth: Annotated[
        float,
        Q(
            "1",
            low=8,
            high=200,
            usual=(28, 36),
            label="teeth if the sector went all round",
            explain="Tip diameter over module, less two: the most telling dimension of the drive.",
        ),
    ]
    module: Annotated[float, Q("m", low=1e-4, high=0.1, usual=(0.001, 0.001), label="module", shown="mm")]
    pressure_angle: Annotated[float, Q("rad", low=0.1, high=0.7, usual=(0.349, 0.35), label="pressure angle", shown="deg")]
    full_teeth: Annotated[int, Q("1", low=2, high=100, usual=(14, 16), label="teeth of the unshortened sector")]
    cut_at_pick_up: Annotated[int, Q("1", low=0, high=50, usual=(0, 3), label="teeth taken off at the pick-up end")]
    cut_at_release: Annotated[int, Q("1", low=0, high=50, usual=(0, 3), label="teeth taken off at the release end")]
    lead: Annotated[
        float,
        Q(
            "m",
            low=-0.05,
            high=0.05,
            usual=(0, 0.006),
            label="lead of the pick-up tooth at home",
            shown="mm",
            explain="How far before the pitch point its driven flank stands: 5.5 mm less the pad.",
        ),
    ]
    second_tooth_present: bool
    home_tolerance: Annotated[
        float,
        Q(
            "m",
            low=0,
            high=0.05,
            usual=(0.0005, 0.003),
            label="how far from home the piston may be when the sector comes again",
            shown="mm",
        ),
    ]
    rack_efficiency: Annotated[
        float, Q("1", low=0.05, high=1, usual=(0.8, 0.95), label="efficiency of sector on rack, and of the rails", shown="%")
    ]
