"""How much squeeze, fill and stretch a static O-ring should have, and on whose word."""

from __future__ import annotations

import math
from typing import Final

from stripdown.core.part_condition.band import Band
from stripdown.core.part_condition.basis import Basis

_HOLDS_FOR = (
    "Round rings that do not move, in a rectangular groove: cylinder head, nozzle tube. Not for the ring of a piston head."
)
_CAUTION = (
    "Measure the gland, not the drawing; a groove that is round on one side only squeezes on one side only. Oil or solvent that "
    "swells the ring changes all three figures."
)
GLAND_BASIS: Final = Basis(
    footing="published",
    source="engineers_edge_o_rings",
    place="gland tables: squeeze = (section - depth) / section",
    holds_for=_HOLDS_FOR,
    caution=_CAUTION,
)
GREATEST_SQUEEZE: Final = 0.30
_SQUEEZE_BASIS: Final = Basis(
    footing="published",
    source="mechanical_engineers_handbook_3",
    place="page 290: 30 % at most for a static ring; the lower end is what a gland table gives a ring that moves (estimate)",
    holds_for=_HOLDS_FOR,
    caution=_CAUTION,
)
# Reciprocating glands by section, engineers_edge_o_rings: least squeeze, both tolerances against it. At rest no less is wanted.
_LEAST_SQUEEZE: Final = ((2.2e-3, 0.15), (3.1e-3, 0.10), (4.4e-3, 0.09), (6.2e-3, 0.08), (math.inf, 0.11))
FILL_BAND: Final = Band(
    low=None,
    high=0.85,
    basis=Basis(
        footing="estimate",
        place="rubber does not shrink when pressed, so a gland over full bursts or bites; 15 % of room for swelling and heat",
        holds_for=_HOLDS_FOR,
        caution=_CAUTION,
    ),
)
STRETCH_BAND: Final = Band(
    low=0.01,
    high=0.05,
    basis=Basis(
        footing="published",
        source="seal_makers_design_guides",
        place="stretch of a ring on its groove: 1 to 5 %, 2 % ideal",
        holds_for=_HOLDS_FOR,
        caution=_CAUTION,
    ),
)


def squeeze_band(cross_section: float) -> Band:
    """Squeeze that a static ring of this section should have.

    Parameters
    ----------
    cross_section
        Thickness of the ring's cord in m.

    Returns
    -------
    Band
        Fractions.

    References
    ----------
    mechanical_engineers_handbook_3, page 290; engineers_edge_o_rings, reciprocating glands.
    """
    least = next(low for largest, low in _LEAST_SQUEEZE if cross_section <= largest)
    return Band(low=least, high=GREATEST_SQUEEZE, basis=_SQUEEZE_BASIS)
