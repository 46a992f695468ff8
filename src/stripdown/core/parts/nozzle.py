"""The nozzle, and what leaks around it and around the ring."""

from __future__ import annotations

from typing import Annotated

from stripdown.quantities import Q, parameters


@parameters
class Nozzle:
    """Air nozzle between cylinder head and hop-up rubber, forward and sealed."""

    bore: Annotated[
        float,
        Q(
            "m",
            low=1e-4,
            high=0.05,
            usual=(0.0040, 0.0052),
            label="nozzle bore",
            shown="mm",
            explain="Narrowest inner diameter between cylinder and ball.",
        ),
    ]
    discharge_coefficient: Annotated[
        float,
        Q(
            "1",
            low=0.1,
            high=1,
            usual=(0.75, 0.93),
            label="discharge coefficient of the nozzle",
            explain="Flow through the bore divided by the ideal flow; higher with a rounded inlet.",
        ),
    ]
    critical_ratio: Annotated[
        float,
        Q(
            "1",
            low=0.05,
            high=0.6,
            usual=(0.4, 0.53),
            label="critical pressure ratio of the nozzle",
            explain="Pressure ratio below which the flow no longer grows (ISO 6358).",
        ),
    ]
    dead_volume: Annotated[
        float,
        Q(
            "m3",
            low=1e-9,
            high=1e-3,
            usual=(0.5e-6, 1.0e-6),
            label="dead volume behind the ball",
            shown="cm3",
            explain="Air between the narrowest place and the seated ball: nozzle, its tube and the rubber's mouth.",
        ),
    ]


@parameters
class Leaks:
    """Areas through which air is lost. Shooting cannot tell the first three apart."""

    piston_seal: Annotated[
        float,
        Q(
            "m2",
            low=0,
            high=1e-3,
            usual=(0, 0.3e-6),
            label="leak past the piston head",
            shown="mm2",
            explain="Equivalent hole at the piston's ring while the air presses on it.",
        ),
    ]
    head_ring: Annotated[
        float,
        Q(
            "m2",
            low=0,
            high=1e-3,
            usual=(0, 0.2e-6),
            label="leak at the cylinder head's rings",
            shown="mm2",
            explain="Equivalent hole at the cylinder head's O-rings.",
        ),
    ]
    nozzle_tube: Annotated[
        float,
        Q(
            "m2",
            low=0,
            high=1e-3,
            usual=(0, 0.3e-6),
            label="leak between nozzle and tube",
            shown="mm2",
            explain="Equivalent hole between the nozzle and the cylinder head's tube, nozzle forward.",
        ),
    ]
    hop_lip: Annotated[
        float,
        Q(
            "m2",
            low=0,
            high=1e-3,
            usual=(0, 0.2e-6),
            label="leak at the hop-up rubber's lips",
            shown="mm2",
            explain="Equivalent hole where the nozzle's tip meets the rubber.",
        ),
    ]
    discharge_coefficient: Annotated[
        float,
        Q(
            "1",
            low=0.1,
            high=1,
            usual=(0.6, 0.9),
            label="discharge coefficient of leaks and ports",
            explain="Flow through a leak or port divided by the ideal flow through the same area.",
        ),
    ]
    critical_ratio: Annotated[
        float,
        Q(
            "1",
            low=0.05,
            high=0.6,
            usual=(0.4, 0.53),
            label="critical pressure ratio of leaks and ports",
            explain="Pressure ratio below which the flow no longer grows (ISO 6358).",
        ),
    ]
