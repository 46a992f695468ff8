"""The cylinder with its ports, and the head that closes it."""

from __future__ import annotations

from typing import Annotated

from stripdown.errors import OutOfRange
from stripdown.quantities import Q, parameters


@parameters
class PortSlot:
    """One ring of equal slots in the cylinder wall; a count of zero means none."""

    start: Annotated[
        float,
        Q(
            "m",
            low=0,
            high=0.2,
            usual=(0, 0.015),
            label="start of the port",
            shown="mm",
            explain="Travel of the seal line from the drawn position to the slot's near edge.",
        ),
    ]
    length: Annotated[
        float,
        Q(
            "m",
            low=0,
            high=0.2,
            usual=(0.003, 0.02),
            label="length of the port",
            shown="mm",
            explain="Length of the slot along the cylinder.",
        ),
    ]
    width: Annotated[
        float,
        Q(
            "m",
            low=0,
            high=0.05,
            usual=(0.002, 0.008),
            label="width of the port",
            shown="mm",
            explain="Width of the slot around the cylinder.",
        ),
    ]
    count: Annotated[
        int,
        Q("1", low=0, high=12, usual=(0, 4), label="number of equal slots", explain="Slots at this place around the cylinder."),
    ]


@parameters
class Cylinder:
    """Cylinder, with up to three rings of port slots."""

    bore: Annotated[
        float,
        Q(
            "m",
            low=0.001,
            high=0.2,
            usual=(0.0235, 0.0240),
            label="cylinder bore",
            shown="mm",
            explain="Inner diameter where the ring runs.",
        ),
    ]
    stroke: Annotated[
        float,
        Q(
            "m",
            low=1e-3,
            high=0.5,
            usual=(0.044, 0.054),
            label="piston travel at the seal",
            shown="mm",
            explain="Travel of the ring from drawn to home, measured at the ring, not at the piston's face.",
        ),
    ]
    dead_volume: Annotated[
        float,
        Q(
            "m3",
            low=1e-9,
            high=1e-3,
            usual=(0.3e-6, 1.0e-6),
            label="dead volume of the cylinder",
            shown="cm3",
            explain="Air left between ring and cylinder head with the piston home.",
        ),
    ]
    port_1: PortSlot
    port_2: PortSlot
    port_3: PortSlot

    def ports(self) -> tuple[PortSlot, PortSlot, PortSlot]:
        """List the three rings of slots.

        Returns
        -------
        tuple of PortSlot
            Those with a count of zero included.
        """
        return (self.port_1, self.port_2, self.port_3)

    def cross_check(self) -> None:
        """Refuse a port that ends beyond the stroke.

        Raises
        ------
        OutOfRange
            Naming the port, its end and the stroke.
        """
        for number, slot in enumerate(self.ports(), start=1):
            end = slot.start + slot.length
            if slot.count > 0 and end > self.stroke:
                raise OutOfRange(
                    f"cylinder.port_{number} ends {end * 1e3:g} mm after the drawn position, "
                    f"beyond the stroke of {self.stroke * 1e3:g} mm.",
                    field=f"cylinder.port_{number}.length",
                    value=end,
                    unit="m",
                    limits=(0, self.stroke),
                    hint="The slot must end before the stroke does.",
                )


@parameters
class CylinderHead:
    """Cylinder head with its pad."""

    restitution: Annotated[
        float,
        Q(
            "1",
            low=0,
            high=0.95,
            usual=(0.2, 0.6),
            label="restitution of the pad",
            explain="Speed after the slam divided by speed before it.",
        ),
    ]
    capture_speed: Annotated[
        float,
        Q(
            "m/s",
            low=0.001,
            high=1,
            usual=(0.02, 0.1),
            label="rebound speed that counts as rest",
            explain="A rebound slower than this ends the bouncing.",
        ),
    ]
