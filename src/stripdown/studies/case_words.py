"""What must be said of a case besides its numbers: what cannot be said, what must be heeded, what it rests on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from stripdown.bench.visit import Visit
from stripdown.core.shot_statistics import FireMode, Occasion
from stripdown.studies.loss_causes import LossExplanation
from stripdown.studies.service_case import ComparisonOfCase, StringOfCase
from stripdown.studies.verdict import GunVerdict

# Sources of what is always used when a question is answered at all; those of the limit and of assumed values come on top.
_STRING_SOURCES = ("nist_handbook", "young_1941", "engelman_hartigan_1969")
_COMPARISON_SOURCES = ("welch_1947", "jcgm_100")
_VERDICT_SOURCES = ("jcgm_106", "jcgm_100")
_WAY_SOURCES = ("clift_gauvin_1970",)
_MODEL_SOURCES = ("iso_6358_1", "dittus_boelter_1930", "us_standard_atmosphere_1976", "picard_2008")


def unsaid_of(strings: Sequence[StringOfCase], comparisons: Sequence[ComparisonOfCase], *, has_limit: bool) -> Iterator[str]:
    """Say what a case cannot say, before anything is computed."""
    occasions = [string.reading.conditions.occasion for string in strings]
    if Occasion.BEFORE not in occasions:
        yield "No string was fired before the work, so what the work changed cannot be said."
    if Occasion.AFTER not in occasions:
        yield "No string was fired after the work, so whether the gun may be used cannot be said: it stays on the rack."
    for string in strings:
        if string.reading.conditions.occasion is None:
            yield f"{_named(string)} does not say whether it was fired before or after the work, and is not used."
    if Occasion.BEFORE in occasions and Occasion.AFTER in occasions and all(pair.comparison is None for pair in comparisons):
        yield "No string before compares with one after, so how much was gained cannot be said."
    paired = [string for pair in comparisons if pair.comparison is not None for string in (pair.before, pair.after)]
    if paired:
        for string, occasion in zip(strings, occasions, strict=True):
            if occasion is not None and all(string is not other for other in paired):
                yield f"{_named(string)} has no partner from the other side of the work, and is not compared."
    for string, occasion in zip(strings, occasions, strict=True):
        if occasion is not None and string.reading.conditions.ball_mass is None:
            yield f"{_named(string)} does not say its ball, so nothing can be said of its energy: write it beside the string."
    if not has_limit:
        yield "No limit was named, so whether the gun may be used where it is played cannot be said."


def cautions_of(explanation: LossExplanation | None) -> tuple[str, ...]:
    """What must be heeded with a gun that comes from the bench."""
    return tuple(_cautions(explanation))


def _cautions(explanation: LossExplanation | None) -> Iterator[str]:
    yield "Wear eye protection rated for impact, you and whoever stands near, whenever the gun is fired or its spring is drawn."
    yield (
        "A clean and reseal alone, without a stronger spring, may put a gun over the law and not only over the site's limit: "
        "no gun leaves the bench without a string on the chronograph."
    )
    yield (
        "First power after closing: turn one cycle by hand, then a limited supply or a fuse in the line, single shots without a "
        "magazine; feel motor and grip, and stop at any smell or noise."
    )
    yield (
        "Before the box is opened again: magazine out, chamber cleared into a trap, battery out, spring relaxed. "
        "A drawn spring throws parts."
    )
    yield "Lithium packs burn: a puffed one is waste, none is drawn below 3.0 V a cell, and they are kept in a fire-proof place."
    if explanation is not None and explanation.was_gained:
        yield "New rings, rubber and springs settle: fire another string after the first few hundred shots."
    yield "The site's own chronograph and marshal, and local law, decide whether the gun may be used."


def sources_of(
    visit: Visit,
    strings: Sequence[StringOfCase],
    comparisons: Sequence[ComparisonOfCase],
    *,
    explanation: LossExplanation | None,
    verdict: GunVerdict | None,
) -> tuple[str, ...]:
    """Keys of the register that a case rests on."""
    keys: list[str] = []
    if verdict is not None and visit.limit_source is not None:
        keys.append(visit.limit_source)
    if strings:
        keys.extend(_STRING_SOURCES)
    if any(pair.comparison is not None for pair in comparisons):
        keys.extend(_COMPARISON_SOURCES)
    if verdict is not None:
        keys.extend(_VERDICT_SOURCES)
    if any(string.reading.conditions.distance for string in strings):
        keys.extend(_WAY_SOURCES)
    if explanation is not None or (verdict is not None and verdict.match is not None):
        keys.extend(_MODEL_SOURCES)
    if explanation is not None:
        keys.extend(cause.fault.provenance.source for cause in explanation.causes if cause.fault.provenance.source is not None)
    return tuple(dict.fromkeys(keys))


def _named(string: StringOfCase) -> str:
    mode = string.reading.conditions.fire_mode
    words = string.reading.words
    more = f", {mode.value}" if mode is FireMode.AUTOMATIC and mode.value not in words else ""
    where = f" ({string.file})" if string.file else ""
    return f"The string {words!r}{more}{where}"
