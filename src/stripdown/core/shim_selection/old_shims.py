"""Where did each old shim come from, and did each go back to its own place?"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from stripdown.core.shim_selection.stacks import THICKNESS, GearFace, ShimmedGear
from stripdown.core.shim_selection.tray import stock_of
from stripdown.errors import OutOfRange
from stripdown.quantities import check_value


@dataclass(frozen=True, slots=True, kw_only=True)
class OldShim:
    """One shim that was taken off, or put on.

    Parameters
    ----------
    label
        What tells it from every other: the number of its bag or of its place on the mat.
    gear
        Gear that it belongs to.
    face
        Face of that gear.
    thickness
        As the micrometer reads it, in m; None if it was not measured.
    """

    label: str
    gear: ShimmedGear
    face: GearFace
    thickness: float | None = None

    @property
    def place(self) -> str:
        """Gear and face in words."""
        return place_words(self.gear, self.face)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShimMap:
    """Every shim of a box with its gear and face.

    Parameters
    ----------
    shims
        Each label once.
    """

    shims: tuple[OldShim, ...]

    def at(self, gear: ShimmedGear, face: GearFace) -> tuple[OldShim, ...]:
        """Shims of one face.

        Parameters
        ----------
        gear
            Of the box.
        face
            Of that gear.

        Returns
        -------
        tuple of OldShim
            In the order in which they were written down.
        """
        return tuple(shim for shim in self.shims if shim.gear is gear and shim.face is face)

    def stock(self) -> dict[float, int]:
        """The measured shims as shims at hand.

        Returns
        -------
        dict
            Count by thickness in m; a shim that was not measured is left out.
        """
        return stock_of(shim.thickness for shim in self.shims if shim.thickness is not None)


@dataclass(frozen=True, slots=True, kw_only=True)
class LostPlace:
    """One reason why the pack that was chosen is not the pack that is in.

    Parameters
    ----------
    label
        Of the shim.
    reason
        What happened to it, one sentence.
    """

    label: str
    reason: str


def shim_map(shims: Iterable[OldShim]) -> ShimMap:
    """Write down where shims belong.

    Parameters
    ----------
    shims
        In any order.

    Returns
    -------
    ShimMap

    Raises
    ------
    OutOfRange
        If a label is empty or stands for two shims, or a thickness is none.
    """
    places: dict[str, OldShim] = {}
    for shim in shims:
        if not shim.label.strip():
            raise OutOfRange(
                f"A shim of the {shim.place} has no label.",
                field="label",
                value=shim.label,
                hint="Number the bags, so that no two shims can be taken for each other.",
            )
        if shim.thickness is not None:
            check_value("thickness", shim.thickness, THICKNESS)
        other = places.setdefault(shim.label, shim)
        if other is not shim:
            twice = f"twice on the {shim.place}" if other.place == shim.place else f"on the {other.place} and on the {shim.place}"
            raise OutOfRange(
                f"The same shim, {shim.label}, stands {twice}: one shim is in one place.",
                field="label",
                value=shim.label,
                hint="Look which of the two it is; give the other shim a label of its own.",
            )
    return ShimMap(shims=tuple(places.values()))


def lost_places(before: ShimMap, after: ShimMap) -> tuple[LostPlace, ...]:
    """Compare where shims were with where they are.

    Parameters
    ----------
    before
        As the box was opened.
    after
        As it is closed.

    Returns
    -------
    tuple of LostPlace
        Empty if every shim is back on its own gear and face: the pack that was chosen then still holds, and only the float of the
        closed shell is to be proved again.
    """
    now = {shim.label: shim for shim in after.shims}
    then = {shim.label: shim for shim in before.shims}
    lost = []
    for label, shim in then.items():
        if label not in now:
            lost.append(LostPlace(label=label, reason=f"{label} was on the {shim.place} and is not in the box."))
        elif now[label].place != shim.place:
            lost.append(LostPlace(label=label, reason=f"{label} was on the {shim.place} and is on the {now[label].place}."))
    lost.extend(
        LostPlace(label=label, reason=f"{label} is on the {shim.place} and was not in the box.")
        for label, shim in now.items()
        if label not in then
    )
    return tuple(lost)


def place_words(gear: ShimmedGear, face: GearFace) -> str:
    """Name a place for shims.

    Parameters
    ----------
    gear
        Of the box.
    face
        Of that gear.

    Returns
    -------
    str
        Such as ``"sector gear's left face"``.
    """
    return f"{gear.value} gear's {face.value} face"
