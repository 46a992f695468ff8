"""What `stripdown screw` prints for people."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stripdown.catalogue.shell_materials import load_shell_materials
from stripdown.cli.printed_basis import print_basis, print_figures
from stripdown.cli.printed_sheet import print_sentences
from stripdown.units import show

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.studies.screw_tightening import ScrewTightening

_SPARED = {"screw": "spares the screw", "boss": "half of what strips the boss"}


def print_tightening(console: Console, found: ScrewTightening) -> None:
    """Print how tight a screw may be."""
    print_figures(console, _rows(found))
    console.print()
    print_sentences(console, found.notes)
    print_basis(console, found.basis)


def _rows(found: ScrewTightening) -> list[tuple[str, str]]:
    spread = f"{_force(found.least_clamp_force)} to {_force(found.greatest_clamp_force)}"
    rows = [
        (
            f"{found.thread}, class {found.property_class}, at most",
            f"{_torque(found.torque)} ({_SPARED[found.limited_by.value]})",
        ),
        ("clamp force then", f"{_force(found.clamp_force)} ({spread} by hand)"),
        ("screw in a steel nut bears", _torque(found.screw_torque)),
        ("screw breaks at a pull of", _force(found.breaking_force)),
    ]
    if (
        found.stripping_force is not None
        and found.stripping_torque is not None
        and found.engagement is not None
        and found.material
    ):
        held = show(found.engagement, "mm", digits=2)
        rows.append(
            (
                f"{load_shell_materials()[found.material].name}, {held} of thread, strips at",
                f"{_force(found.stripping_force)}, {_torque(found.stripping_torque)}",
            )
        )
    if found.engagement_to_break is not None:
        rows.append(("fresh thread that outlasts the screw", show(found.engagement_to_break, "mm", digits=2)))
    return rows


def _torque(value: float) -> str:
    return show(value, "N m", digits=2)


def _force(value: float) -> str:
    return show(value, "N", digits=2)
