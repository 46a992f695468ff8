"""What the calculators say to a job."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from stripdown.core.part_condition.band import AgainstBand, BandPlace
from stripdown.core.part_condition.basis import Basis
from stripdown.core.part_condition.engagement import BASIS as PAD_BASIS
from stripdown.core.shim_selection import GearShims
from stripdown.references import load_references
from stripdown.studies.job_reckonings import Reckoned, ReckonedPad, ReckonedRing, ReckonedShims
from stripdown.units import show
from stripdown.words.answer import Answer, Named, Sentence
from stripdown.words.numbers import bare_millimetres, ends, micrometred, share, shims_listed
from stripdown.words.sentences import capital, caution_sentence
from stripdown.words.sources import source_in_short


def reckoned_answers(reckoned: Reckoned) -> tuple[Answer, ...]:
    """Say what the calculators answered."""
    return (
        *(() if reckoned.shims is None else (_shims(reckoned.shims),)),
        *(() if reckoned.pad is None else (_pad(reckoned.pad),)),
        *(_ring(ring, number) for number, ring in enumerate(reckoned.rings, start=1)),
    )


def _shims(shims: ReckonedShims) -> Answer:
    split, sheet = shims.split, shims.sheet
    lost = ("The pack that was chosen no longer holds: measure the floats, and choose anew.",) if shims.lost else ()
    return _answer(
        "shims",
        f"shims, {sheet.name}{' (invented)' if sheet.invented else ''}",
        _shims_in_short(shims),
        named=_gears(split.gears or split.gears_after_buying),
        notes=(*split.notes, *lost, *(place.reason for place in shims.lost)),
        basis=(split.holds_for, f"of the float: {split.footing}", split.source, split.caution),
        is_drawn=bool(split.gears or split.gears_after_buying),
    )


def _shims_in_short(shims: ReckonedShims) -> str:
    split = shims.split
    if split.rejected is not None:
        return f"Measurement rejected. {split.rejected}"
    if split.unclosable is not None:
        return f"The chain cannot be closed. {split.unclosable.sentence}"
    bands = dict.fromkeys(alone.float_band for alone in split.alone)
    wanted = " or ".join(f"{bare_millimetres(low)} to {micrometred(high)}" for low, high in bands)
    if split.gears:
        return f"Shims at hand leave every gear its float ({wanted})."
    if split.buy:
        return f"Shims at hand do not do for all gears at once ({wanted}). Buy {shims_listed(split.buy)}; then:"
    return f"Shims at hand do not do for all gears at once ({wanted}), nor do any that shops sell."


def _gears(gears: Iterable[GearShims]) -> Iterator[Named]:
    for shims in gears:
        faces = f"left {shims_listed(shims.left)}, right {shims_listed(shims.right)}"
        yield Named(name=shims.gear.value, text=f"{faces}: float {micrometred(shims.float_left)}")


def _pad(reckoned: ReckonedPad) -> Answer:
    pad, mark = reckoned.pad, reckoned.mark
    if pad is None:
        answer = reckoned.refused
    else:
        doubt = " Suspect: the wrong tooth?" if pad.is_suspect else ""
        answer = f"Pad {show(pad.thickness, 'mm', digits=3)} as pressed, on top of what is there.{doubt}"
    read = f"{show(mark.witness_height, 'mm', digits=2)} above the pitch line"
    angle, module = show(mark.pressure_angle, "deg", digits=3), show(mark.module, "mm", digits=2)
    details = [Named(name="mark", text=read), Named(name="rack", text=f"pressure angle {angle}, module {module}")]
    if pad is not None:
        details.append(Named(name="pad", text=f"{pad.share_of_pitch * 100:.0f} % of a pitch"))
    return _answer(
        "pad",
        "pad for the angle of engagement",
        answer,
        named=details,
        notes=() if pad is None else pad.notes,
        basis=_basis(PAD_BASIS),
        is_drawn=pad is not None,
    )


def _ring(reckoned: ReckonedRing, number: int) -> Answer:
    gland = reckoned.gland
    outside = [f"{verdict.name} {verdict.place.value}" for verdict in gland.verdicts if verdict.place is not BandPlace.INSIDE]
    suits = "suits its gland" if not outside else f"does not suit its gland: {', '.join(outside)}"
    spread = f"{share(gland.least_squeeze)} to {share(gland.greatest_squeeze)}"
    details = [Named(name=verdict.name, text=_against(verdict)) for verdict in gland.verdicts]
    details.append(Named(name="tolerance", text=f"over that of the section the squeeze is {spread}"))
    return _answer(
        f"seal_gland_{number}",
        f"ring, {reckoned.ring.name}",
        f"A ring of {show(gland.cross_section, 'mm', digits=3)} {suits}.",
        named=details,
        notes=gland.notes,
        basis=_basis(gland.basis),
    )


def _answer(
    key: str,
    title: str,
    said: str,
    *,
    named: Iterable[Named],
    notes: Iterable[str],
    basis: tuple[str, str, str, str],
    is_drawn: bool = True,
) -> Answer:
    """One answer, with what it holds for, how it is known, on whose word, and what can hurt."""
    holds_for, footing, source, caution = basis
    rests_on = {"Holds for": holds_for, "Standing": footing, "Source": source}
    return Answer(
        key=key,
        title=capital(title),
        lead=(Sentence(full=said, key="answer"),),
        named=tuple(named),
        notes=tuple(Sentence(full=note) for note in notes),
        cautions=(caution_sentence(caution),),
        rests_on=tuple(Named(name=name, text=f"{words.rstrip('.')}.") for name, words in rests_on.items()),
        pictures=(key,) if is_drawn else (),
    )


def _against(verdict: AgainstBand) -> str:
    basis = verdict.band.basis
    author = f" ({load_references()[basis.source].author})" if basis.source else ""
    lies = f"{share(verdict.value)}, {verdict.place.value} ({ends(verdict.band)})"
    return f"{lies}; band {basis.footing}: {basis.place}{author}"


def _basis(basis: Basis) -> tuple[str, str, str, str]:
    source = source_in_short(load_references()[basis.source]) if basis.source else "none"
    return basis.holds_for, f"{basis.footing}; {basis.place}", source, basis.caution
