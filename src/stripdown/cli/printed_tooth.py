"""What `stripdown tooth` prints for people."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stripdown.cli.printed_basis import print_basis, print_figures
from stripdown.units import show

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.core.part_condition.teeth import ToothLoad


def print_tooth(console: Console, found: ToothLoad) -> None:
    """Print what a tooth bears."""
    mate = "rack" if found.mate_tooth_count is None else f"gear of {found.mate_tooth_count:.0f} teeth"
    print_figures(
        console,
        [
            (f"bending, tooth of a gear of {found.tooth_count:.0f}", _stress(found.bending_stress)),
            (f"bending, tooth of the {mate}", _stress(found.mate_bending_stress)),
            ("pressure on the flank", _stress(found.contact_pressure)),
            ("force square to the flank", show(found.normal_force, "N", digits=3)),
        ],
    )
    print_basis(console, found.basis)


def _stress(value: float) -> str:
    return show(value, "MPa", digits=2)
