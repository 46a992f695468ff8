"""What `stripdown plan` prints of the calculators' answers: short; the sheet says the rest."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from stripdown.cli.hanging import print_hanging
from stripdown.cli.harmless_text import harmless

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.reports.service_content import Reckoning

_INDENT = " " * 4


def print_reckonings(console: Console, reckonings: Sequence[Reckoning]) -> None:
    """Print each answer with its footing and caution."""
    if not reckonings:
        return
    console.print("Reckoned for this job", style="bold")
    for one in reckonings:
        name = harmless(one.name)
        print_hanging(console, "  ", f"{name[0].upper()}{name[1:]}: {harmless(one.answer)}")
        for line in one.lines:
            print_hanging(console, f"{_INDENT}{line.name:<7} ", line.text)
        print_hanging(console, _INDENT, f"Standing: {one.footing}.")
        print_hanging(console, f"{_INDENT}! ", one.caution)
    console.print()
