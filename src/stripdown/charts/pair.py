"""One shot, or two side by side."""

from __future__ import annotations

from collections.abc import Sequence

from stripdown.core.interior_ballistics.result import Shot

PAIR = 2


def names_apart(shots: Sequence[Shot], names: Sequence[str]) -> None:
    """Refuse what a picture of one or two shots cannot tell apart.

    Parameters
    ----------
    shots
        The shots to draw.
    names
        What they are to be called.

    Raises
    ------
    ValueError
        If there are not one or two shots with a name of its own each.
    """
    if not 1 <= len(shots) <= PAIR or len(names) != len(shots) or len(set(names)) != len(names):
        message = f"one or two shots with a name of its own each are needed, got {len(shots)} called {list(names)}"
        raise ValueError(message)
