"""What lies between days and between chronographs: what a reference gun takes out, and how the site's chronograph reads."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from stripdown.units import Scale
from stripdown.words.answer import Answer, Cell, Column, Figure, FigureFooting, Sentence, Table
from stripdown.words.numbers import minus, share_changed_to_a_tenth, speed, speed_unit

if TYPE_CHECKING:
    from stripdown.core.shot_statistics import DayFactor
    from stripdown.studies.service_case import ComparisonOfCase
    from stripdown.studies.site_chronograph import GunOnBoth, SiteChronograph

_MEASURED, _COMPUTED = FigureFooting.MEASURED, FigureFooting.COMPUTED
_ENOUGH = 3  # guns, for the scatter between them to be more than an estimate


def chronographs_answer(found: SiteChronograph, *, scale: Scale) -> Answer:
    """Say how the site's chronograph reads against the bench's, gun by gun and together."""
    unit = speed_unit(scale)
    columns = (
        Column(head="gun"),
        Column(head=f"on {found.own_name}", footing=_MEASURED, is_figure=True),
        Column(head=f"on {found.site_name}", footing=_MEASURED, is_figure=True),
        Column(head="difference", footing=_COMPUTED, is_figure=True),
    )
    low, high = found.offset.interval()
    reach = 1.96 * found.offset.of_next_gun()
    figures = (
        Figure(
            key="offset",
            label=f"{found.site_name} reads, against {found.own_name}",
            text=f"{share_changed_to_a_tenth(found.offset.ratio - 1.0)} "
            f"(95 % interval {share_changed_to_a_tenth(low - 1.0)} to {share_changed_to_a_tenth(high - 1.0)})",
            value=found.offset.ratio - 1.0,
            low=low - 1.0,
            high=high - 1.0,
            footing=_COMPUTED,
        ),
        Figure(
            key="next_gun",
            label="one gun more",
            text=f"within {reach * 100:.1f} % of that, 95 times in 100",
            value=reach,
            footing=_COMPUTED,
        ),
    )
    return Answer(
        key="chronographs",
        title="One chronograph against another",
        figures=figures,
        tables=(Table(key="guns", columns=columns, rows=tuple(_row(gun, unit) for gun in found.guns)),),
        notes=tuple(_notes(found)),
    )


def site_sentence(found: SiteChronograph) -> Sentence:
    """Say beside a verdict that it is of what the site's chronograph would read."""
    reach = 1.96 * found.offset.of_next_gun() * 100
    full = (
        f"Held against the limit as “{found.site_name}” would read: {share_changed_to_a_tenth(found.offset.ratio - 1.0)} against "
        f"“{found.own_name}”, ± {reach:.1f} % for one gun; {_guns(len(found.guns))} read on both."
    )
    return Sentence(full=full, key="site_chronograph")


def between_days_notes(pairs: tuple[ComparisonOfCase, ...]) -> Iterator[Sentence]:
    """Say what lies between the days of pairs, in the interval or taken out of the change."""
    compared = [pair for pair in pairs if pair.comparison is not None]
    for factor in dict.fromkeys(pair.reference for pair in compared if pair.reference is not None):
        yield Sentence(full=_taken_out(factor), key="reference_gun")
    if compared and all(pair.reference is None for pair in compared):
        taken = compared[0].between_days
        if taken > 0.0:
            full = (
                f"A change allows {taken * 100:.1f} % a day for air, chronograph and day; a reference gun, ten shots before each "
                "session, takes most of it out."
            )
        else:
            full = (
                "What day, air and chronograph change without any work is not in the interval of a change: it was given as none."
            )
        yield Sentence(full=full, key="between_days")


def _taken_out(factor: DayFactor) -> str:
    low, high = factor.interval()
    return (
        f"The reference gun read {share_changed_to_a_tenth(factor.ratio - 1.0)} on the later day "
        f"({share_changed_to_a_tenth(low - 1.0)} to {share_changed_to_a_tenth(high - 1.0)}): day, air and chronograph did that. "
        f"It is taken out of the strings after the work; {factor.left_between_days * 100:.1f} % a day is left in the interval."
    )


def _row(gun: GunOnBoth, unit: str) -> tuple[Cell, ...]:
    own, site = gun.compared
    reading = gun.own.reading
    return (
        Cell(text=reading.conditions.gun or reading.label or reading.words, key=gun.own.key),
        Cell(text=speed(own.mean, unit), small=_shots(own.count)),
        Cell(text=speed(site.mean, unit), small=_shots(site.count)),
        Cell(text=share_changed_to_a_tenth(gun.ratio - 1.0)),
    )


def _notes(found: SiteChronograph) -> Iterator[Sentence]:
    scatter = minus(f"{found.offset.between_guns * 100:.1f}")
    full = f"From gun to gun the difference scatters by {scatter} % (standard deviation)."
    if len(found.guns) < _ENOUGH:
        full += f" {_guns(len(found.guns)).capitalize()} cannot show that: it is mostly an estimate. Read three or more on both."
    yield Sentence(full=full, key="between_guns")
    for string in found.alone:
        words = f"{string.reading.words}: no string on the other chronograph is of this gun, fired alike."
        yield Sentence(full=words, key="alone", about=(string.key,))


def _guns(count: int) -> str:
    return "one gun" if count == 1 else f"{count} guns"


def _shots(count: int) -> str:
    return f"{count} shots"
