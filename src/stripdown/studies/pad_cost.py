"""What does a pad on the cylinder head cost: stroke, stored energy, velocity?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Annotated, Final

from stripdown.bench.completion import complete
from stripdown.bench.gun import Gun
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.mechanics.spring_force import stored_energy
from stripdown.core.part_condition.basis import Basis
from stripdown.core.part_condition.parameters import HOLE_DIAMETER, PAD_DIAMETER, PAD_THICKNESS
from stripdown.core.parts.conditions import Conditions
from stripdown.errors import OutOfRange
from stripdown.quantities import Q, check_value
from stripdown.studies.variants import FiredVariant, fire_variants, share_lost

USUAL_PAD_DIAMETER: Final = 0.020  # common practice, no source
USUAL_HOLE_DIAMETER: Final = 0.006  # common practice, no source
BASIS: Final = Basis(
    footing="estimate",
    place="two shots of the gun's model, docs/models/shot.md, with the pad and without",
    holds_for="A pad that adds to preload at home and takes from the stroke as much as it is thick when pressed; the drawn "
    "position, the ports and the pad's rebound stay as they are.",
    caution="A prediction: the chronograph decides, and nothing here says that a gun is under a limit. Glued all round, cured "
    "before the first shot; a pad that comes off jams the box.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PadCost:
    """A gun without and with one more pad.

    Parameters
    ----------
    thickness
        Of the pad as pressed, in m.
    pad_diameter
        Its outer diameter in m.
    hole_diameter
        Of the hole in its middle in m.
    without
        Shot as the gun's file describes it.
    with_pad
        Shot with the pad.
    notes
        What to know, one sentence each.
    basis
        What the answer rests on.
    """

    thickness: Annotated[float, PAD_THICKNESS]
    pad_diameter: Annotated[float, PAD_DIAMETER]
    hole_diameter: Annotated[float, HOLE_DIAMETER]
    stroke_before: Annotated[float, Q("m", label="stroke without the pad", shown="mm")]
    stroke_after: Annotated[float, Q("m", label="stroke with the pad", shown="mm")]
    preload_before: Annotated[float, Q("m", label="preload without the pad", shown="mm")]
    preload_after: Annotated[float, Q("m", label="preload with the pad", shown="mm")]
    dead_volume_before: Annotated[float, Q("m3", label="dead volume without the pad", shown="cm3")]
    dead_volume_after: Annotated[float, Q("m3", label="dead volume with the pad", shown="cm3")]
    stored_before: Annotated[float, Q("J", label="energy the spring gives over the stroke without the pad")]
    stored_after: Annotated[float, Q("J", label="energy the spring gives over the stroke with the pad")]
    ball_mass: Annotated[float, Q("kg", label="mass of the ball", shown="g")]
    without: FiredVariant
    with_pad: FiredVariant
    notes: tuple[str, ...]
    basis: Basis

    @property
    def speed_lost(self) -> float:
        """Velocity lost, as a part of that without the pad."""
        return share_lost(self.with_pad, self.without)

    @property
    def stroke_lost(self) -> float:
        """Stroke lost, as a part of that without the pad."""
        return 1.0 - self.stroke_after / self.stroke_before

    @property
    def stored_lost(self) -> float:
        """Spring energy lost, as a part of that without the pad."""
        return 1.0 - self.stored_after / self.stored_before


def pad_cost(
    gun: Gun,
    *,
    thickness: float,
    pad_diameter: float | None = None,
    hole_diameter: float | None = None,
    ball_mass: float | None = None,
    conditions: Conditions | None = None,
) -> PadCost:
    """Fire a gun without and with one more pad on its cylinder head.

    Parameters
    ----------
    gun
        As loaded from its file; what it leaves out is assumed from the catalogue.
    thickness
        Of the pad as pressed, in m, on top of what the file was measured with.
    pad_diameter
        Outer diameter of the pad in m; None is 20 mm or, in a narrower cylinder, its bore.
    hole_diameter
        Of the hole in its middle in m; None is 6 mm.
    ball_mass
        Mass of the ball in kg; None for the file's.
    conditions
        The day; None is a workshop at 20 °C.

    Returns
    -------
    PadCost

    Raises
    ------
    InputError
        If the ball does not leave the barrel.
    OutOfRange
        For an impossible pad: larger than the cylinder, thicker than the stroke, or reaching a port.
    NumericalFailure
        If a shot cannot be integrated.

    Notes
    -----
    ``stroke - t``, ``preload + t``: the drawn position stays. The piston's face stops t earlier, so the ring does too, and the
    dead volume grows by ``t (bore area - area of the pad)``; an estimate.
    """
    before = complete(gun, ball_mass=ball_mass, conditions=conditions).parameters
    outer = min(USUAL_PAD_DIAMETER, before.cylinder.bore) if pad_diameter is None else pad_diameter
    hole = USUAL_HOLE_DIAMETER if hole_diameter is None else hole_diameter
    _check_pad(before, thickness, outer, hole)
    spring, cylinder = before.spring, before.cylinder
    stroke, preload = cylinder.stroke - thickness, spring.preload + thickness
    rubber = 0.25 * math.pi * (outer**2 - hole**2)
    dead = cylinder.dead_volume + thickness * (0.25 * math.pi * cylinder.bore**2 - rubber)
    without, with_pad = fire_variants(
        gun,
        variations={
            "cylinder.stroke": [cylinder.stroke, stroke],
            "spring.preload": [spring.preload, preload],
            "cylinder.dead_volume": [cylinder.dead_volume, dead],
        },
        ball_mass=ball_mass,
        conditions=conditions,
    )
    drawn = spring.preload + cylinder.stroke
    return PadCost(
        thickness=thickness,
        pad_diameter=outer,
        hole_diameter=hole,
        stroke_before=cylinder.stroke,
        stroke_after=stroke,
        preload_before=spring.preload,
        preload_after=preload,
        dead_volume_before=cylinder.dead_volume,
        dead_volume_after=dead,
        stored_before=stored_energy(rate=spring.rate, compression_start=spring.preload, compression_end=drawn),
        stored_after=stored_energy(rate=spring.rate, compression_start=preload, compression_end=drawn),
        ball_mass=before.ball.mass,
        without=without,
        with_pad=with_pad,
        notes=_notes(pad_diameter, hole_diameter),
        basis=BASIS,
    )


def _check_pad(gun: ShotParameters, thickness: float, outer: float, hole: float) -> None:
    check_value("thickness", thickness, PAD_THICKNESS)
    check_value("pad_diameter", outer, PAD_DIAMETER)
    check_value("hole_diameter", hole, HOLE_DIAMETER)
    cylinder = gun.cylinder
    if outer > cylinder.bore or hole >= outer:
        raise OutOfRange(
            f"A pad of {outer * 1e3:g} mm with a hole of {hole * 1e3:g} mm is none for a bore of {cylinder.bore * 1e3:g} mm.",
            field="pad_diameter",
            value=outer,
            unit="m",
            limits=(hole, cylinder.bore),
            hint="Its outer diameter lies between its hole and the bore.",
        )
    ports_end = max((slot.start + slot.length for slot in cylinder.ports() if slot.count > 0), default=0.0)
    left = cylinder.stroke - thickness
    if left <= ports_end or left <= 0.0:
        raise OutOfRange(
            f"A pad of {thickness * 1e3:g} mm leaves {left * 1e3:g} mm of stroke, and the ports end at {ports_end * 1e3:g} mm: "
            "nothing would be compressed.",
            field="thickness",
            value=thickness,
            unit="m",
            limits=(0.0, cylinder.stroke - ports_end),
            hint="A pad is thinner than one pitch of the rack, 3.1 mm for module 1.",
        )


def _notes(pad_diameter: float | None, hole_diameter: float | None) -> tuple[str, ...]:
    if pad_diameter is not None and hole_diameter is not None:
        return ()
    return ("The pad's diameters were not given: 20 mm with a hole of 6 mm is common practice, no source.",)
