"""What `stripdown seal leak` and `stripdown seal drag` print for people."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.table import Table

from stripdown.cli.printed_basis import print_basis
from stripdown.cli.printed_sheet import print_sentences, print_title
from stripdown.cli.terminal import print_paragraph
from stripdown.units import from_si, show
from stripdown.words.numbers import grams, joules, minus, speed

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.core.part_condition.leak_found import LeakFound
    from stripdown.studies.drag_cost import DragCost
    from stripdown.studies.leak_cost import LeakCost


def print_leak(console: Console, found: LeakFound) -> None:
    """Print what tests say of a leak."""
    print_title(
        console,
        f"Leak {_area(found.leak_area)}, between {_area(found.least_area)} and {_area(found.greatest_area)} (95 %) in a shot",
    )
    print_paragraph(console, f"It is {found.nature.value}." if _is_said_of_it(found) else f"{found.nature.value.capitalize()}.")
    table = _table("test", "at", "leak area", "± two uncertainties")
    for reading in found.readings:
        table.add_row(
            reading.how,
            f"{from_si(reading.pressure - reading.ambient_pressure, 'bar'):.2f} bar over",
            _area(reading.leak_area),
            _area(2.0 * reading.standard_uncertainty),
        )
    console.print(table)
    print_paragraph(
        console,
        "Area of the ideal hole that would do it; as sonic conductance (ISO 6358) "
        f"{found.sonic_conductance * 1e8:.3g} dm³/(s bar).",
    )
    print_sentences(console, found.notes)
    print_basis(console, found.basis)


def print_leak_cost(console: Console, name: str, cost: LeakCost, *, speed_unit: str) -> None:
    """Print what a leak costs a gun."""
    console.print()
    print_title(console, f"{name}, {grams(cost.ball_mass)} ball: what the leak costs")
    table = _table("leak at the cylinder", "area", "muzzle speed", "energy", "lost")
    for what, case in (
        ("none", cost.tight),
        ("as the gun's file has it", cost.as_described),
        ("measured, at least", cost.at_least),
        ("measured, likeliest", cost.measured),
        ("measured, at most", cost.at_most),
    ):
        table.add_row(
            what,
            _area(case.leak_area),
            speed(case.shot.muzzle_speed, speed_unit),
            joules(case.shot.muzzle_energy),
            f"{cost.speed_lost(case) * 100:.1f} %",
        )
    console.print(table)
    print_basis(console, cost.basis)


def print_drag_cost(console: Console, name: str, cost: DragCost, *, speed_unit: str) -> None:
    """Print what drag costs a gun."""
    lost = minus(f"{-cost.speed_lost * 100:+.1f} %")
    print_title(console, f"{name}, {grams(cost.ball_mass)} ball: {lost} velocity")
    for drag, shot in ((cost.reference_drag, cost.reference), (cost.measured_drag, cost.measured)):
        print_paragraph(console, f"drag {show(drag, 'N')}: {speed(shot.muzzle_speed, speed_unit)}, {joules(shot.muzzle_energy)}")
    print_basis(console, cost.basis)


def _is_said_of_it(found: LeakFound) -> bool:
    return found.nature.name in {"HOLE", "CREEPING"}


def _table(*heads: str) -> Table:
    table = Table(box=None, padding=(0, 2, 0, 0), pad_edge=False, header_style="bold")
    for number, head in enumerate(heads):
        table.add_column(head, justify="left" if number == 0 else "right", no_wrap=True)
    return table


def _area(area: float) -> str:
    return show(area, "mm2", digits=2)
