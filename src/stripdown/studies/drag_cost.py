"""What does drag of the piston cost in velocity?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Final

from stripdown.bench.completion import complete
from stripdown.bench.gun import Gun
from stripdown.core.part_condition.basis import Basis
from stripdown.core.part_condition.parameters import DRAG
from stripdown.core.parts.conditions import Conditions
from stripdown.quantities import Q, check_value
from stripdown.studies.variants import FiredVariant, fire_variants, share_lost

BASIS: Final = Basis(
    footing="estimate",
    place="two shots of the gun's model, docs/models/shot.md; that 8 N instead of 4 cost 5 to 6 % is common practice, no source",
    holds_for="Drag that is the same along the stroke and at every speed, as a spring scale shows it with the nozzle off.",
    caution="Start-up after a rest can be several times the running drag. A prediction: the chronograph decides.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class DragCost:
    """A gun with two different drags of its piston.

    Parameters
    ----------
    reference_drag
        What is compared with, in N.
    measured_drag
        As pulled, in N.
    is_own
        Whether what it is compared with is the gun's own, as its file has it or as assumed.
    reference
        Shot with the drag that is compared with.
    measured
        Shot with the drag as measured.
    basis
        What the answer rests on.
    """

    reference_drag: Annotated[float, DRAG]
    measured_drag: Annotated[float, DRAG]
    is_own: bool
    ball_mass: Annotated[float, Q("kg", label="mass of the ball", shown="g")]
    reference: FiredVariant
    measured: FiredVariant
    basis: Basis

    @property
    def speed_lost(self) -> float:
        """Velocity lost, as a part of that with the reference drag; negative if it gains."""
        return share_lost(self.measured, self.reference)


def drag_cost(
    gun: Gun,
    *,
    drag: float,
    reference_drag: float | None = None,
    ball_mass: float | None = None,
    conditions: Conditions | None = None,
) -> DragCost:
    """Fire a gun with the drag of its piston as measured, and with its own or another.

    Parameters
    ----------
    gun
        As loaded from its file.
    drag
        Force that moves the piston in its cylinder, nozzle off, in N.
    reference_drag
        What it is compared with, in N; None for the gun's own: as its file has it, else as assumed.
    ball_mass
        Mass of the ball in kg; None for the file's.
    conditions
        The day; None is a workshop at 20 °C.

    Returns
    -------
    DragCost

    Raises
    ------
    InputError
        If the ball does not leave the barrel with the reference drag.
    OutOfRange
        For an impossible drag.
    NumericalFailure
        If a shot cannot be integrated.
    """
    check_value("drag", drag, DRAG)
    whole = complete(gun, ball_mass=ball_mass, conditions=conditions).parameters
    is_own = reference_drag is None
    reference_drag = whole.piston.seal_drag if reference_drag is None else reference_drag
    check_value("reference_drag", reference_drag, DRAG)
    reference, measured = fire_variants(
        gun, variations={"piston.seal_drag": [reference_drag, drag]}, ball_mass=ball_mass, conditions=conditions
    )
    return DragCost(
        reference_drag=reference_drag,
        measured_drag=drag,
        is_own=is_own,
        ball_mass=whole.ball.mass,
        reference=reference,
        measured=measured,
        basis=BASIS,
    )
