"""Which shims go on which gear, on which face, and where did the old ones come from?

Pure and in SI at the doors; inside, lengths are whole micrometres and nanometres, so that every sum is exact.
"""

from stripdown.core.shim_selection.bearing_end_play import BearingEndPlay, bearing_end_play, class_clearance
from stripdown.core.shim_selection.choose import choose_shims
from stripdown.core.shim_selection.old_shims import LostPlace, OldShim, ShimMap, lost_places, shim_map
from stripdown.core.shim_selection.seats import GearClearance, GearSeat, GearShims, ShimSplit, Unclosable
from stripdown.core.shim_selection.split import choose_split
from stripdown.core.shim_selection.stacks import GearFace, NearestMiss, ShimChoice, ShimmedGear, ShimPack

__all__ = [
    "BearingEndPlay",
    "GearClearance",
    "GearFace",
    "GearSeat",
    "GearShims",
    "LostPlace",
    "NearestMiss",
    "OldShim",
    "ShimChoice",
    "ShimMap",
    "ShimPack",
    "ShimSplit",
    "ShimmedGear",
    "Unclosable",
    "bearing_end_play",
    "choose_shims",
    "choose_split",
    "class_clearance",
    "lost_places",
    "shim_map",
]
