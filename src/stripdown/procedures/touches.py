"""In what way was a part touched?"""

from __future__ import annotations

import enum
from collections.abc import Mapping


class Touch(enum.Enum):
    """Kinds of touch: what a check is about, it is about in certain kinds."""

    INSPECT = "inspect"
    CLEAN = "clean"
    LUBRICATE = "lubricate"
    ADJUST = "adjust"
    REFIT = "refit"
    PLACE_LOST = "place_lost"
    REPLACE = "replace"
    MODIFY = "modify"
    BOND = "bond"

    @property
    def happened(self) -> str:
        """How it reads after "was"."""
        return _HAPPENED[self]


_HAPPENED: Mapping[Touch, str] = {
    Touch.INSPECT: "looked at",
    Touch.CLEAN: "cleaned",
    Touch.LUBRICATE: "lubricated",
    Touch.ADJUST: "adjusted",
    Touch.REFIT: "taken out or put back",
    Touch.PLACE_LOST: "fitted in another place than before",
    Touch.REPLACE: "replaced",
    Touch.MODIFY: "modified",
    Touch.BOND: "bonded",
}


PartTouch = tuple[str, Touch]
"""Key of a part, and how it was touched."""
