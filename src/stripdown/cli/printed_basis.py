"""What a bench answer rests on, as the terminal shows it below the figures."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stripdown.cli.harmless_text import harmless
from stripdown.cli.terminal import print_paragraph
from stripdown.references import load_references

if TYPE_CHECKING:
    from collections.abc import Iterable

    from rich.console import Console

    from stripdown.core.part_condition.basis import Basis


def print_figures(console: Console, figures: Iterable[tuple[str, str]]) -> None:
    """Print figures, each with what it is, in two columns."""
    rows = list(figures)
    width = max(len(name) for name, _ in rows)
    for name, value in rows:
        console.print(harmless(f"{name:<{width}}  {value}"), soft_wrap=True)


def print_basis(console: Console, basis: Basis) -> None:
    """Print footing, source, range and caution."""
    source = load_references()[basis.source].cite() if basis.source else "none"
    console.print()
    for name, words in (
        ("Standing", basis.footing),
        ("Rests on", basis.place),
        ("Source", source),
        ("Holds for", basis.holds_for),
        ("Caution", basis.caution),
    ):
        print_paragraph(console, f"{name}: {words}")
