"""What a ball can hurt: eye protection at the muzzle, published harm by distance, what sites ask for. Local rules first."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from stripdown.units import show
from stripdown.words.answer import Answer, Cell, Column, FigureFooting, Sentence, Table
from stripdown.words.numbers import grams, joules
from stripdown.words.sources import on_whose_word

if TYPE_CHECKING:
    from stripdown.catalogue.injuries import CatalogueInjury
    from stripdown.studies.impact import Impact, LensClass

_ESTIMATE: Final = FigureFooting.ESTIMATE
LOCAL_RULE = Sentence(
    key="local_rule",
    full="The site's own rule, its marshal and local law come first. This is no legal advice, and no promise that nobody is "
    "hurt.",
)
AT_THE_MUZZLE = Sentence(
    key="at_the_muzzle",
    full="Eye protection is judged at the muzzle, with the hottest ball and selector position, whatever the distance: the mark "
    "must "
    "stand on lens and frame, unscratched and not past its date. A steel test ball is harsher than a plastic one of equal "
    "energy, "
    "but that is no certified margin.",
)
_NOT_SORTED = Sentence(
    key="not_sorted",
    full="Each threshold is one experiment on its own eyes or skins: never sort them, never draw a line between two, and never "
    "read "
    "below as safe. Half of the eyes were hurt at a 50 % value; some are hurt at less.",
)


def impact_part(impact: Impact) -> Answer:
    """Say which eye protection is not enough, which published harm a ball reaches where, and what sites ask for."""
    return Answer(
        key="impact",
        title="What it can hurt",
        lead=(LOCAL_RULE, Sentence(key="hottest", full=_hottest(impact))),
        tables=(_lenses(impact), _by_place(impact), _harm(impact)),
        notes=(_engagement(impact), _NOT_SORTED),
    )


def lens_words(lens: LensClass) -> str:
    """Say what a class is to this gun."""
    if lens.is_enough is None:
        return "says nothing of a fast ball"
    return "tested above this gun's energy" if lens.is_enough else "not enough"


def _hottest(impact: Impact) -> str:
    margin = f"A lens is held against {(impact.lens_energy / impact.energy - 1.0) * 100:.0f} % more."
    density = show(impact.energy_per_area, "J/cm2", digits=3)
    if impact.is_measured:
        return f"Hottest shot as told: {joules(impact.energy)} at the muzzle, {density}. {margin}"
    ball = "" if impact.ball_mass is None else f" with the {grams(impact.ball_mass)} ball"
    scaled = ", all balls brought to the speed that was read" if impact.is_scaled else ""
    return (
        f"Hottest of the usual balls: {joules(impact.energy)} at the muzzle{ball}, {density}, predicted{scaled}. A string with "
        f"that ball, on semi and on automatic, would tell. {margin}"
    )


def _lenses(impact: Impact) -> Table:
    columns = (
        Column(head="eye protection"),
        Column(head="worn as"),
        Column(head="tested at", is_figure=True, footing=FigureFooting.COMPUTED),
        Column(head="for this gun"),
    )
    rows = tuple(
        (
            Cell(text=f"{one.protection.standard}, {one.protection.mark}", key=one.protection.key),
            Cell(text=one.protection.worn_as),
            Cell(text=joules(one.protection.energy)),
            Cell(text=lens_words(one), is_strong=one.is_enough is False),
        )
        for one in impact.lenses
    )
    return Table(key="lenses", columns=columns, rows=rows)


def _by_place(impact: Impact) -> Table:
    columns = (
        Column(head="worst ball at", is_figure=True),
        Column(head="ball", is_figure=True),
        Column(head="energy", is_figure=True, footing=_ESTIMATE),
        Column(head="energy per area", is_figure=True, footing=_ESTIMATE),
    )
    rows = tuple(
        (
            Cell(text=f"{one.distance:g} m"),
            Cell(text=grams(one.ball_mass)),
            Cell(text=joules(one.energy)),
            Cell(text=show(one.energy_per_area, "J/cm2", digits=2)),
        )
        for one in impact.places
    )
    return Table(key="places", columns=columns, rows=rows)


def _harm(impact: Impact) -> Table:
    columns = (
        Column(head="harm that was seen"),
        Column(head="at", is_figure=True),
        *(Column(head=f"{one.distance:g} m", footing=_ESTIMATE) for one in impact.places),
        Column(head="year"),
    )
    rows = tuple(
        (
            Cell(text=injury.name, key=key),
            Cell(text=_amount(injury)),
            *(Cell(text="reached" if key in one.reached else "below", is_strong=key in one.reached) for one in impact.places),
            Cell(text=injury.date, small=""),
        )
        for key, injury in impact.injuries.items()
    )
    return Table(key="harm", columns=columns, rows=rows)


def _amount(injury: CatalogueInjury) -> str:
    if injury.energy is not None:
        return joules(injury.energy)
    return show(injury.energy_per_area or 0.0, "J/cm2", digits=3)


def _engagement(impact: Impact) -> Sentence:
    band = impact.engagement
    if band is None:
        return Sentence(
            key="engagement", full="Above all energies for which published site rules name a least distance: ask the site."
        )
    said = f"no distance, or up to {band.usual_to:g} m" if band.distance == 0.0 else f"{band.distance:g} to {band.usual_to:g} m"
    return Sentence(
        key="engagement",
        full=f"Least distance between players that published site rules ask for with {band.name}: {said} ({band.place}, "
        f"{band.date}; "
        f"{on_whose_word(band.provenance)}). {band.remark}",
        act="tell_sources",
    )
