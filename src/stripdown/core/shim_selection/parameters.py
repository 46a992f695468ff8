"""What the calculator of shims is asked for one gear; a whole box has a sheet of its own."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated

from stripdown.core.shim_selection.bearing_end_play import BALL_DIAMETER
from stripdown.core.shim_selection.stacks import FLOAT, GAP, GAP_UNCERTAINTY, THICKNESS, USUAL_FLOAT
from stripdown.quantities import Q, parameters


@parameters
class PlayOfGear:
    """Play of one gear, read or bracketed by two feelers, the float that it wants, and the shims at hand."""

    gap: Annotated[float | None, GAP.explained("Play of one gear without shims, shell closed and screwed up.")] = None
    gap_uncertainty: Annotated[float | None, GAP_UNCERTAINTY.explained("Of the play, either way; 0 if left out.")] = None
    go: Annotated[float | None, GAP.explained("Thickest feeler that goes; with the next instead of the play.")] = None
    no_go: Annotated[float | None, GAP.explained("Thinnest feeler that does not go.")] = None
    float_band: Annotated[
        tuple[float, float], FLOAT.explained("Float that is wanted; what is set here is common practice, no source.")
    ] = USUAL_FLOAT
    stock: Annotated[
        Mapping[float, int] | None, THICKNESS.explained('Shims at hand as the micrometer reads them: "4 x 0.10 mm, 0.31 mm".')
    ] = None
    most: Annotated[int, Q("1", label="most shims on one gear", explain="Most shims on one gear.")] = 4


@parameters
class BearingClass:
    """Clearance class of a gear's ball bearings, and their balls."""

    bearing: Annotated[str | None, "Clearance class of the ball bearings (CN, C3, MC3 …): how much of the float is theirs."] = (
        None
    )
    ball_diameter: Annotated[float, BALL_DIAMETER.explained("Diameter of their balls.")] = 1.588e-3
