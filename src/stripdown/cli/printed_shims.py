"""What `stripdown shims` prints for people."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Final

from stripdown.cli.harmless_text import harmless
from stripdown.cli.printed_sheet import print_heading, print_sentences, print_title
from stripdown.cli.terminal import print_paragraph
from stripdown.core.shim_selection import GearFace, ShimmedGear
from stripdown.words.numbers import bare_millimetres, micrometred, shims_listed

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.core.shim_selection import BearingEndPlay, GearShims, LostPlace, ShimChoice, ShimMap, ShimPack, ShimSplit

_MOST_LINES: Final = 6


def print_choice(console: Console, choice: ShimChoice) -> None:
    """Print which packs fit one gear."""
    low, high = choice.float_band
    doubt = f" ± {micrometred(choice.gap_uncertainty)}" if choice.gap_uncertainty else ""
    asked = f"Play {micrometred(choice.gap)}{doubt}, float wanted {bare_millimetres(low)} to {micrometred(high)}"
    if choice.rejected is not None:
        print_title(console, f"{asked}: measurement rejected")
        print_paragraph(console, choice.rejected)
        return
    none = "no pack fits" if not choice.only_nominal else "no pack fits for sure"
    print_title(console, asked if choice.packs else f"{asked}: {none}")
    for number, pack in enumerate(choice.packs[:_MOST_LINES], start=1):
        console.print(f"{number}. {_pack(pack)}", soft_wrap=True)
    if len(choice.packs) > _MOST_LINES:
        console.print(f"   and {len(choice.packs) - _MOST_LINES} more (--json lists all)")
    if not choice.packs:
        _print_miss(console, choice)
    print_sentences(console, choice.notes)


def print_split(console: Console, name: str, split: ShimSplit) -> None:
    """Print the shims of a whole box by gear and face."""
    print_title(console, f"{name}: shims by gear and face")
    if split.rejected is not None:
        print_paragraph(console, f"Measurement rejected. {split.rejected}")
    elif split.unclosable is not None:
        print_paragraph(console, f"The chain cannot be closed. {split.unclosable.sentence}")
    elif split.gears:
        _print_gears(console, split.gears)
    else:
        print_paragraph(console, "The shims at hand do not do for all gears at once.")
        if split.buy:
            print_paragraph(console, f"Buy {shims_listed(split.buy)}; then:")
            _print_gears(console, split.gears_after_buying)
    print_sentences(console, split.notes)


def print_old_shims(console: Console, old: ShimMap, lost: Sequence[LostPlace] | None) -> None:
    """Print where the old shims came from, and which did not go back there."""
    if not old.shims:
        return
    print_heading(console, "Where the old shims came from")
    for gear in ShimmedGear:
        for face in GearFace:
            here = [
                harmless(shim.label) + (f" ({micrometred(shim.thickness)})" if shim.thickness is not None else " (not measured)")
                for shim in old.at(gear, face)
            ]
            if here:
                console.print(f"{gear.value:<7}{face.value:<6}{', '.join(here)}", soft_wrap=True)
    if lost is None:
        words = "The same shims back on the same faces keep the pack that was chosen; the closed float is proved again."
    elif not lost:
        words = "All are back: the pack that was chosen still holds; prove the float of the closed shell again."
    else:
        words = "The pack that was chosen no longer holds: measure the floats, and choose anew."
    print_paragraph(console, words)
    print_sentences(console, [place.reason for place in lost or ()])


def print_end_play(console: Console, low: BearingEndPlay, high: BearingEndPlay) -> None:
    """Print how much of a float is in the bearings."""
    print_heading(console, "Of the float, in the bearings")
    print_paragraph(
        console,
        f"{low.end_play * 1e3:.3f} to {high.end_play * 1e3:.3f} mm end play of each new bearing of that class: of the float of a "
        f"gear between two of them as much may be theirs. {low.note} Computed from the class's radial clearance (ISO 5753-1); "
        "that the grooves' radius is 52 % of the ball is an estimate.",
    )


def print_basis_of_shims(console: Console, found: ShimChoice | ShimSplit) -> None:
    """Print footing, source, range and caution."""
    console.print()
    for words in (
        f"Standing of the float: {found.footing}",
        f"Source: {found.source}",
        f"Holds for: {found.holds_for}",
        f"Caution: {found.caution}",
    ):
        print_paragraph(console, words)


def _print_miss(console: Console, choice: ShimChoice) -> None:
    miss = choice.nearest_miss
    if miss is not None:
        ways = [f"{micrometred(by)} too {word}" for by, word in ((miss.too_tight, "tight"), (miss.too_loose, "loose")) if by > 0]
        print_paragraph(console, f"Nearest miss: {_pack(miss.pack)}; it may be {' or '.join(ways)}.")
    if choice.only_nominal:
        print_paragraph(console, f"Fits only if the play is exactly as measured: {_pack(choice.only_nominal[0])}.")
    if choice.pack_after_buying is not None:
        print_paragraph(console, f"Buy {shims_listed(choice.buy)}; then {_pack(choice.pack_after_buying)}.")


def _print_gears(console: Console, gears: Iterable[GearShims]) -> None:
    for shims in gears:
        console.print(
            f"{shims.gear.value:<7}float {micrometred(shims.float_left)}, middle {micrometred(shims.middle)} from the left stop",
            soft_wrap=True,
        )
        for face, thicknesses in ((GearFace.LEFT, shims.left), (GearFace.RIGHT, shims.right)):
            console.print(f"       {face.value:<6}{shims_listed(thicknesses)}", soft_wrap=True)


def _pack(pack: ShimPack) -> str:
    return f"{shims_listed(pack.thicknesses)}: float {micrometred(pack.float_left)}"
