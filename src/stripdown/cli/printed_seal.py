"""What `stripdown seal` prints of rings for people."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.table import Table

from stripdown.cli.printed_basis import print_basis
from stripdown.cli.printed_sheet import print_sentences, print_title
from stripdown.cli.terminal import print_paragraph
from stripdown.references import load_references
from stripdown.units import show
from stripdown.words.numbers import ends, minus, share

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.core.part_condition.band import AgainstBand
    from stripdown.core.part_condition.basis import Basis
    from stripdown.core.part_condition.compression_set import RingSet
    from stripdown.core.part_condition.hardness import HardnessComparison
    from stripdown.core.part_condition.o_ring_gland import OringGland
    from stripdown.core.part_condition.piston_ring import FloatingRing


def print_gland(console: Console, gland: OringGland) -> None:
    """Print a ring in its gland."""
    word = "suits its gland" if gland.is_within_all_bands else "does not suit its gland"
    print_title(console, f"A ring of {show(gland.cross_section, 'mm', digits=3)} {word}")
    _print_verdicts(console, gland.verdicts)
    print_paragraph(
        console,
        f"Over the tolerance of the section the squeeze is {share(gland.least_squeeze)} to {share(gland.greatest_squeeze)}.",
    )
    print_sentences(console, gland.notes)
    print_basis(console, gland.basis)


def print_ring(console: Console, ring: FloatingRing) -> None:
    """Print whether a ring floats."""
    print_title(console, "The ring floats" if ring.floats else "The ring does not float")
    for name, length in (
        ("room across", ring.radial_room),
        ("room along", ring.axial_room),
        ("free ring beyond the bore", ring.overlap),
    ):
        print_paragraph(console, f"{name}: {minus(show(length, 'mm', digits=2))}")
    print_sentences(console, ring.notes)
    print_basis(console, ring.basis)


def print_set(console: Console, ring: RingSet) -> None:
    """Print the compression set of a ring."""
    print_title(console, f"Compression set {share(ring.fraction)} ± {share(2.0 * ring.standard_uncertainty)} (two uncertainties)")
    _print_verdicts(console, ring.verdicts)
    strain = "" if ring.standard_strain is None else f"; the standard's test presses by {share(ring.standard_strain)}"
    print_paragraph(console, f"Pressed by {share(ring.strain)} in its gland{strain}.")
    print_sentences(console, ring.notes)
    print_basis(console, ring.basis)


def print_hardness(console: Console, rings: HardnessComparison) -> None:
    """Print a used ring beside a new one."""
    print_title(console, f"{rings.scale.value}: {rings.finding.value}")
    doubt = "" if rings.standard_uncertainty is None else f" ± {2.0 * rings.standard_uncertainty:.1f} (two uncertainties)"
    print_paragraph(
        console,
        minus(f"New {rings.new_mean:.1f}, used {rings.used_mean:.1f}: {rings.change:+.1f} points{doubt}. ")
        + f"Up to {rings.test_tolerance:g} the test cannot show; above {rings.greatest_change:g} replace.",
    )
    print_sentences(console, rings.notes)
    print_basis(console, rings.basis)


def _print_verdicts(console: Console, verdicts: Sequence[AgainstBand]) -> None:
    table = Table(box=None, padding=(0, 2, 0, 0), pad_edge=False, header_style="bold")
    for head in ("figure", "is", "band", "lies", "band's standing"):
        table.add_column(head, no_wrap=head != "band's standing")
    for verdict in verdicts:
        table.add_row(
            verdict.name,
            share(verdict.value),
            ends(verdict.band),
            verdict.place.value.partition(" ")[0],
            _whose(verdict.band.basis),
        )
    console.print(table)


def _whose(basis: Basis) -> str:
    said = f"{basis.footing}: {basis.place}"
    return f"{said} ({load_references()[basis.source].author})" if basis.source else said
