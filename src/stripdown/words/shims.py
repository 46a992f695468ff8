"""What is said of shims: which go where, what float they leave, what to buy, and where the old ones came from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, Final

from stripdown.core.shim_selection import GearFace, ShimmedGear, ShimSplit
from stripdown.words.answer import Answer, Named, Sentence
from stripdown.words.basis import notes
from stripdown.words.numbers import bare_millimetres, micrometred, minus, shims_listed
from stripdown.words.sentences import caution_sentence

if TYPE_CHECKING:
    from stripdown.core.shim_selection import BearingEndPlay, GearShims, LostPlace, ShimChoice, ShimMap, ShimPack
    from stripdown.studies.calculators import Answered, ShimsFound
    from stripdown.units import Scale

_MOST_LINES: Final = 6
_ROUNDING: Final = 1e-9  # m


def shims_answer(answered: Answered, _: Scale) -> Answer:
    """Which shims for one gear, or for a whole box."""
    shims: ShimsFound = answered.found
    found = shims.found
    gears = (found.gears or found.gears_after_buying) if isinstance(found, ShimSplit) else ()
    is_drawn = bool(gears) or not isinstance(found, ShimSplit)
    old = [] if shims.sheet is None else [_old_shims(shims.sheet.old_shims, shims.lost)]
    return Answer(
        key="shims",
        title="",
        lead=tuple(_split(found) if isinstance(found, ShimSplit) else _choice(found)),
        named=tuple(_by_gear(gears) if isinstance(found, ShimSplit) else _packs(found)),
        notes=notes(found.notes),
        parts=(*(part for part in old if part is not None), *([] if shims.end_plays is None else [_end_play(*shims.end_plays)])),
        cautions=(caution_sentence(found.caution),),
        rests_on=(
            Named(key="footing", name="Footing of the float", text=found.footing),
            Named(key="source", name="Source", text=found.source),
            Named(key="holds_for", name="Holds for", text=found.holds_for),
        ),
        pictures=("shims",) if is_drawn else (),
    )


def float_wanted(bands: Iterable[tuple[float, float]]) -> str:
    """Bands of float, each once."""
    return " or ".join(f"{bare_millimetres(low)} to {micrometred(high)}" for low, high in dict.fromkeys(bands))


def float_verdict(float_left: float, band: tuple[float, float]) -> str:
    """Float that is left, and whether it lies in its band."""
    low, high = band
    place = (
        "under the band" if float_left < low - _ROUNDING else "over the band" if float_left > high + _ROUNDING else "in the band"
    )
    return f"{minus(f'{float_left * 1e3:.3f}')} left, {place}"


def _choice(choice: ShimChoice) -> Iterator[Sentence]:
    doubt = f" ± {micrometred(choice.gap_uncertainty)}" if choice.gap_uncertainty else ""
    asked = f"Play {micrometred(choice.gap)}{doubt}, float wanted {float_wanted([choice.float_band])}"
    if choice.rejected is not None:
        yield Sentence(full=f"{asked}: measurement rejected.")
        yield Sentence(full=choice.rejected)
        return
    none = "no pack fits for sure" if choice.only_nominal else "no pack fits"
    yield Sentence(full=f"{asked}." if choice.packs else f"{asked}: {none}.")
    miss = None if choice.packs else choice.nearest_miss
    if miss is not None:
        ways = [f"{micrometred(by)} too {word}" for by, word in ((miss.too_tight, "tight"), (miss.too_loose, "loose")) if by > 0]
        yield Sentence(full=f"Nearest miss: {_pack(miss.pack)}; it may be {' or '.join(ways)}.")
    if not choice.packs and choice.only_nominal:
        yield Sentence(full=f"Fits only if the play is exactly as measured: {_pack(choice.only_nominal[0])}.")
    if choice.pack_after_buying is not None:
        yield Sentence(full=f"Buy {shims_listed(choice.buy)}; then {_pack(choice.pack_after_buying)}.")


def _packs(choice: ShimChoice) -> Iterator[Named]:
    for number, pack in enumerate(choice.packs[:_MOST_LINES], start=1):
        yield Named(name=f"{number}. {shims_listed(pack.thicknesses)}", text=f"float {micrometred(pack.float_left)}")
    if len(choice.packs) > _MOST_LINES:
        yield Named(name="and more", text=f"{len(choice.packs) - _MOST_LINES} that fit less well")


def _split(split: ShimSplit) -> Iterator[Sentence]:
    wanted = float_wanted(alone.float_band for alone in split.alone)
    if split.rejected is not None:
        yield Sentence(full=f"Measurement rejected. {split.rejected}")
    elif split.unclosable is not None:
        yield Sentence(full=f"The chain cannot be closed. {split.unclosable.sentence}")
    elif split.gears:
        yield Sentence(full=f"Shims at hand leave every gear its float ({wanted}).")
    elif split.buy:
        yield Sentence(full=f"Shims at hand do not do for all gears at once ({wanted}). Buy {shims_listed(split.buy)}; then:")
    elif any(alone.enough is not None for alone in split.alone):
        most = max(alone.most for alone in split.alone)
        yield Sentence(full=f"Shims at hand do not do for all gears at once ({wanted}), not with at most {most} on each.")
    else:
        yield Sentence(full=f"Shims at hand do not do for all gears at once ({wanted}), nor do any that shops sell.")


def _by_gear(gears: Iterable[GearShims]) -> Iterator[Named]:
    for shims in gears:
        faces = f"left {shims_listed(shims.left)}, right {shims_listed(shims.right)}"
        middle = f"middle {micrometred(shims.middle)} from the left stop"
        yield Named(key=shims.gear.value, name=shims.gear.value, text=f"{faces}: float {micrometred(shims.float_left)}, {middle}")


def _old_shims(old: ShimMap, lost: Sequence[LostPlace] | None) -> Answer | None:
    if not old.shims:
        return None
    if lost is None:
        words = "The same shims back on the same faces keep the pack that was chosen; the closed float is proved again."
    elif not lost:
        words = "All are back: the pack that was chosen still holds; prove the float of the closed shell again."
    else:
        words = "The pack that was chosen no longer holds: measure the floats, and choose anew."
    return Answer(
        key="old_shims",
        title="Where the old shims came from",
        named=tuple(_places(old)),
        notes=(Sentence(full=words), *notes([place.reason for place in lost or ()])),
    )


def _places(old: ShimMap) -> Iterator[Named]:
    for gear in ShimmedGear:
        for face in GearFace:
            here = [
                shim.label + (f" ({micrometred(shim.thickness)})" if shim.thickness is not None else " (not measured)")
                for shim in old.at(gear, face)
            ]
            if here:
                yield Named(name=f"{gear.value} {face.value}", text=", ".join(here))


def _end_play(low: BearingEndPlay, high: BearingEndPlay) -> Answer:
    ends = f"{low.end_play * 1e3:.3f} to {high.end_play * 1e3:.3f} mm"
    return Answer(
        key="bearing_end_play",
        title="Of the float, in the bearings",
        lead=(
            Sentence(
                full=f"{ends} end play of each new bearing of that class: of the float of a gear between two of them as much may "
                f"be theirs. {low.note} Computed from the class's radial clearance (ISO 5753-1); that the grooves' radius is "
                "52 % of the ball is an estimate."
            ),
        ),
    )


def _pack(pack: ShimPack) -> str:
    return f"{shims_listed(pack.thicknesses)}: float {micrometred(pack.float_left)}"


OF_SHIMS: Final = {"shims": shims_answer}
