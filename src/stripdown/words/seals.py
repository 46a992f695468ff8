"""What is said of rings, of leaks and of the piston's drag."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from stripdown.core.part_condition.band import AgainstBand, BandPlace
from stripdown.references import load_references
from stripdown.units import from_si, show
from stripdown.words.answer import Answer, Cell, Column, Figure, Sentence, Table
from stripdown.words.basis import fired_title, notes, rests_on
from stripdown.words.numbers import ends, joules, minus, share, share_changed_to_a_tenth, speed, speed_unit
from stripdown.words.sentences import caution_sentence

if TYPE_CHECKING:
    from stripdown.core.part_condition.basis import Basis
    from stripdown.core.part_condition.compression_set import RingSet
    from stripdown.core.part_condition.hardness import HardnessComparison
    from stripdown.core.part_condition.leak_found import LeakFound
    from stripdown.core.part_condition.o_ring_gland import OringGland
    from stripdown.core.part_condition.piston_ring import FloatingRing
    from stripdown.studies.calculators import Answered
    from stripdown.studies.drag_cost import DragCost
    from stripdown.studies.leak_cost import LeakCost
    from stripdown.units import Scale


def gland_answer(answered: Answered, _: Scale) -> Answer:
    """Whether a ring suits its gland."""
    gland: OringGland = answered.found
    outside = [f"{verdict.name} {verdict.place.value}" for verdict in gland.verdicts if verdict.place is not BandPlace.INSIDE]
    suits = f"does not suit its gland: {', '.join(outside)}" if outside else "suits its gland"
    spread = f"{share(gland.least_squeeze)} to {share(gland.greatest_squeeze)}"
    return Answer(
        key="gland",
        title="",
        lead=(Sentence(full=f"A ring of {show(gland.cross_section, 'mm', digits=3)} {suits}."),),
        tables=(_verdicts(gland.verdicts),),
        notes=notes([f"Over the tolerance of the section the squeeze is {spread}.", *gland.notes]),
        cautions=(caution_sentence(gland.basis.caution),),
        rests_on=rests_on(gland.basis),
        pictures=("gland",),
    )


def gland_figures(gland: OringGland) -> list[str]:
    """What stands beside the section through a ring in its gland."""
    depth, width = (show(length, "mm", digits=3) for length in (gland.gland_depth, gland.gland_width))
    return [
        f"squeeze {_tenths(gland.squeeze)}",
        f"fill {_tenths(gland.fill)}",
        f"ring {show(gland.cross_section, 'mm', digits=3)}, dashed: free",
        f"gland {depth} deep, {width} wide",
        *(() if gland.stretch is None else (f"stretch {_tenths(gland.stretch)}",)),
    ]


def ring_answer(answered: Answered, _: Scale) -> Answer:
    """Whether a ring floats."""
    ring: FloatingRing = answered.found
    rooms = (
        ("radial_room", "room across", ring.radial_room),
        ("axial_room", "room along", ring.axial_room),
        ("overlap", "free ring beyond the bore", ring.overlap),
    )
    return Answer(
        key="ring",
        title="",
        lead=(Sentence(full="The ring floats." if ring.floats else "The ring does not float."),),
        figures=tuple(
            Figure(key=key, label=label, text=minus(show(length, "mm", digits=2)), value=length) for key, label, length in rooms
        ),
        notes=notes(ring.notes),
        cautions=(caution_sentence(ring.basis.caution),),
        rests_on=rests_on(ring.basis),
    )


def set_answer(answered: Answered, _: Scale) -> Answer:
    """How much of its squeeze a ring has lost for good."""
    ring: RingSet = answered.found
    doubt = share(2.0 * ring.standard_uncertainty)
    strain = "" if ring.standard_strain is None else f"; the standard's test presses by {share(ring.standard_strain)}"
    return Answer(
        key="compression_set",
        title="",
        lead=(
            Sentence(full=f"Compression set {share(ring.fraction)} ± {doubt} (two uncertainties)."),
            Sentence(full=f"Pressed by {share(ring.strain)} in its gland{strain}."),
        ),
        tables=(_verdicts(ring.verdicts),),
        notes=notes(ring.notes),
        cautions=(caution_sentence(ring.basis.caution),),
        rests_on=rests_on(ring.basis),
    )


def hardness_answer(answered: Answered, _: Scale) -> Answer:
    """A used ring beside a new one."""
    rings: HardnessComparison = answered.found
    doubt = "" if rings.standard_uncertainty is None else f" ± {2.0 * rings.standard_uncertainty:.1f} (two uncertainties)"
    change = minus(f"New {rings.new_mean:.1f}, used {rings.used_mean:.1f}: {rings.change:+.1f} points{doubt}. ")
    limits = f"Up to {rings.test_tolerance:g} the test cannot show; above {rings.greatest_change:g} replace."
    return Answer(
        key="hardness",
        title="",
        lead=(Sentence(full=f"{rings.scale.value}: {rings.finding.value}."), Sentence(full=f"{change}{limits}")),
        notes=notes(rings.notes),
        cautions=(caution_sentence(rings.basis.caution),),
        rests_on=rests_on(rings.basis),
    )


def leak_answer(answered: Answered, _: Scale) -> Answer:
    """What tests say of a leak."""
    found: LeakFound = answered.found
    areas = f"{_area(found.leak_area)}, between {_area(found.least_area)} and {_area(found.greatest_area)} (95 %)"
    is_said_of_it = found.nature.name in {"HOLE", "CREEPING"}
    nature = f"It is {found.nature.value}." if is_said_of_it else f"{found.nature.value.capitalize()}."
    conductance = f"{found.sonic_conductance * 1e8:.3g} dm³/(s bar)"
    return Answer(
        key="leak",
        title="",
        lead=(Sentence(full=f"Leak {areas} in a shot."), Sentence(full=nature)),
        tables=(
            _table(
                "readings",
                ("test", "at", "leak area", "± two uncertainties"),
                [
                    (
                        reading.how,
                        f"{from_si(reading.pressure - reading.ambient_pressure, 'bar'):.2f} bar over",
                        _area(reading.leak_area),
                        _area(2.0 * reading.standard_uncertainty),
                    )
                    for reading in found.readings
                ],
            ),
        ),
        notes=notes([f"Area of the ideal hole that would do it; as sonic conductance (ISO 6358) {conductance}.", *found.notes]),
        cautions=(caution_sentence(found.basis.caution),),
        rests_on=rests_on(found.basis),
    )


def leak_cost_answer(answered: Answered, scale: Scale) -> Answer:
    """What a leak costs a gun."""
    cost: LeakCost = answered.cost
    unit = speed_unit(scale)
    cases = (
        ("none", cost.tight),
        ("as the gun's file has it", cost.as_described),
        ("measured, at least", cost.at_least),
        ("measured, likeliest", cost.measured),
        ("measured, at most", cost.at_most),
    )
    return Answer(
        key="leak_cost",
        title=f"{fired_title(answered.gun, cost.ball_mass)}: what the leak costs",
        tables=(
            _table(
                "leak_cost",
                ("leak at the cylinder", "area", "muzzle speed", "energy", "lost"),
                [
                    (
                        what,
                        _area(case.leak_area),
                        speed(case.shot.muzzle_speed, unit),
                        joules(case.shot.muzzle_energy),
                        f"{cost.speed_lost(case) * 100:.1f} %",
                    )
                    for what, case in cases
                ],
            ),
        ),
        cautions=(caution_sentence(cost.basis.caution),),
        rests_on=rests_on(cost.basis),
    )


def drag_answer(answered: Answered, scale: Scale) -> Answer:
    """What drag costs a gun."""
    cost: DragCost = answered.cost
    unit = speed_unit(scale)
    own = ""
    if cost.is_own and answered.gun is not None:
        own = ", as the gun's file has it" if "piston.seal_drag" in answered.gun.written else ", as assumed for the gun"
    fired = (
        ("reference", cost.reference_drag, cost.reference, own),
        ("measured", cost.measured_drag, cost.measured, ", as pulled"),
    )
    return Answer(
        key="drag",
        title=f"{fired_title(answered.gun, cost.ball_mass)}: {share_changed_to_a_tenth(-cost.speed_lost)} velocity",
        figures=tuple(
            Figure(
                key=key,
                label=f"drag {show(drag, 'N')}{whose}",
                text=f"{speed(shot.muzzle_speed, unit)}, {joules(shot.muzzle_energy)}",
                value=shot.muzzle_speed,
            )
            for key, drag, shot, whose in fired
        ),
        cautions=(caution_sentence(cost.basis.caution),),
        rests_on=rests_on(cost.basis),
    )


def _verdicts(verdicts: Sequence[AgainstBand]) -> Table:
    rows = [
        (
            Cell(text=verdict.name, key=verdict.name),
            Cell(text=share(verdict.value)),
            Cell(text=ends(verdict.band)),
            Cell(text=verdict.place.value.partition(" ")[0], is_strong=verdict.place is not BandPlace.INSIDE),
            Cell(text=_whose(verdict.band.basis)),
        )
        for verdict in verdicts
    ]
    columns = (
        Column(head="figure"),
        *(Column(head=head, is_figure=True) for head in ("is", "band", "lies")),
        Column(head="the band's footing"),
    )
    return Table(key="verdicts", columns=columns, rows=tuple(rows))


def _whose(basis: Basis) -> str:
    said = f"{basis.footing}: {basis.place}"
    return f"{said} ({load_references()[basis.source].author})" if basis.source else said


def _table(key: str, heads: Sequence[str], rows: Sequence[Sequence[str]]) -> Table:
    """A table whose first column is words, and all others figures."""
    columns = tuple(Column(head=head, is_figure=number > 0) for number, head in enumerate(heads))
    cells = tuple(tuple(Cell(text=text, key=row[0] if text == row[0] else "") for text in row) for row in rows)
    return Table(key=key, columns=columns, rows=cells)


def _area(area: float) -> str:
    return show(area, "mm2", digits=2)


def _tenths(value: float) -> str:
    return minus(f"{value * 100:.1f} %")


OF_SEALS: Final = {
    "gland": gland_answer,
    "ring": ring_answer,
    "compression_set": set_answer,
    "hardness": hardness_answer,
    "leak": leak_answer,
    "drag": drag_answer,
}
PRICE_OF_LEAK: Final = {"leak": leak_cost_answer}
