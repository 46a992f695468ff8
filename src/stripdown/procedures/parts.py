"""What comes off a gun, and what is in front of it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part that is taken off, put back or touched.

    Parameters
    ----------
    key
        Stable name (``"bevel_bearing_left"``).
    name
        How it reads in a sentence, without article.
    place
        Key of the place at the bench where one works on it.
    in_front
        Parts that must be off while it is taken off or put back.
    off, back
        How it comes off and how it goes back.
    care, care_back
        Cautions at these two steps.
    tools
        What either takes.
    minutes
        Time that either takes, in min.
    needs, needs_back
        Guards: checks that must be fresh when it is taken off, and when it is put back.
    is_plural
        Whether its name is a plural ("shims").
    is_labelled
        Whether what lies there has labels of its own, as shims do, and one label cannot lie in two places.
    """

    key: str
    name: str
    place: str = ""
    in_front: tuple[str, ...] = ()
    off: str = ""
    back: str = ""
    care: tuple[str, ...] = ()
    care_back: tuple[str, ...] = ()
    tools: tuple[str, ...] = ()
    minutes: float = 0.0
    needs: tuple[str, ...] = ()
    needs_back: tuple[str, ...] = ()
    is_plural: bool = False
    is_labelled: bool = False

    @property
    def was(self) -> str:
        """The verb that its name asks for: was, or were."""
        return "were" if self.is_plural else "was"
