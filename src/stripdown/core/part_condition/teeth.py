"""What does the hardest-worked tooth bear: the last sector tooth, alone, at its tip, under the whole spring?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Final

from stripdown.core.mechanics.gear_teeth import (
    FACE_WIDTH,
    MODULE,
    RACK_TEETH,
    STANDARD_PRESSURE_ANGLE,
    TANGENTIAL_FORCE,
    flank_radius,
    hertz_pressure,
    lewis_form_factor,
    lewis_stress,
    tooth_normal_force,
)
from stripdown.core.part_condition.basis import Basis
from stripdown.quantities import Q

STEEL: Final = 205e9
"""Young's modulus of steel in Pa (estimate: steels lie between 200 and 210 GPa)."""

BASIS: Final = Basis(
    footing="published",
    source="shigley",
    place="bending by Lewis with table 14-2, full load at the tip of one tooth; pressure by Hertz at the pitch line",
    holds_for="Straight teeth of 20°, full depth, 10 or more all round; load at rest over the whole face; metal, stiff plastic.",
    caution="Nominal figures, to compare teeth, modules and springs with each other: no shock, no fillet, no fatigue. A slam, "
    "pre-engagement or a one-sided face makes them far higher. What the tooth looks like decides: chipped, rolled or rounded is "
    "a reject.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ToothLoad:
    """What a tooth and its mate bear when one pair carries everything.

    Parameters
    ----------
    tangential_force
        Force along the pitch line in N.
    module
        In m.
    face_width
        Of the narrower of the two in m.
    tooth_count
        Teeth of the whole gear, a number.
    mate_tooth_count
        Teeth of its mate, a number; None for a rack.
    basis
        What the figures rest on.
    """

    tangential_force: Annotated[float, TANGENTIAL_FORCE]
    module: Annotated[float, MODULE]
    face_width: Annotated[float, FACE_WIDTH]
    tooth_count: float
    mate_tooth_count: float | None
    normal_force: Annotated[float, Q("N", label="force square to the flank")]
    bending_stress: Annotated[float, Q("Pa", label="bending stress at the root", shown="MPa")]
    mate_bending_stress: Annotated[float, Q("Pa", label="bending stress at the mate's root", shown="MPa")]
    contact_pressure: Annotated[float, Q("Pa", label="pressure on the flank", shown="MPa")]
    basis: Basis


def tooth_load(
    *,
    tangential_force: float,
    face_width: float,
    module: float,
    tooth_count: float,
    mate_tooth_count: float | None = None,
    youngs_modulus: float = STEEL,
    mate_youngs_modulus: float = STEEL,
    poisson_ratio: float = 0.3,
    mate_poisson_ratio: float = 0.3,
) -> ToothLoad:
    """Bending and pressure of a tooth that carries its load alone.

    Parameters
    ----------
    tangential_force
        Force along the pitch line in N; for the last sector tooth the spring's force, drawn.
    face_width
        Of the narrower of the two in m.
    module
        In m.
    tooth_count
        Count of teeth that the gear would have all round, a number.
    mate_tooth_count
        Count of teeth of its mate, a number; None for a rack.
    youngs_modulus
        Of the gear in Pa.
    mate_youngs_modulus
        Of its mate in Pa.
    poisson_ratio
        Of the gear, a pure number.
    mate_poisson_ratio
        Of its mate, a pure number.

    Returns
    -------
    ToothLoad

    Raises
    ------
    OutOfRange
        For an impossible value.
    OutsideValidity
        For fewer than ten teeth.

    Notes
    -----
    Both are nominal. The pressure is that at the pitch line; near the base circle of a small gear it is higher.

    References
    ----------
    shigley, table 14-2; hertz_1882, line contact.
    """
    mate = RACK_TEETH if mate_tooth_count is None else mate_tooth_count
    normal = tooth_normal_force(tangential_force=tangential_force)
    bending, mate_bending = (
        lewis_stress(
            tangential_force=tangential_force, face_width=face_width, module=module, form_factor=lewis_form_factor(count)
        )
        for count in (tooth_count, mate)
    )
    pressure = hertz_pressure(
        normal_force=normal,
        contact_length=face_width,
        first_radius=flank_radius(module=module, tooth_count=tooth_count, pressure_angle=STANDARD_PRESSURE_ANGLE),
        second_radius=flank_radius(module=module, tooth_count=mate, pressure_angle=STANDARD_PRESSURE_ANGLE),
        first_youngs_modulus=youngs_modulus,
        second_youngs_modulus=mate_youngs_modulus,
        first_poisson_ratio=poisson_ratio,
        second_poisson_ratio=mate_poisson_ratio,
    )
    return ToothLoad(
        tangential_force=tangential_force,
        module=module,
        face_width=face_width,
        tooth_count=tooth_count,
        mate_tooth_count=mate_tooth_count,
        normal_force=normal,
        bending_stress=bending,
        mate_bending_stress=mate_bending,
        contact_pressure=pressure,
        basis=BASIS,
    )
