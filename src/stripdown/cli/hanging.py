"""A line with a lead, whose further lines hang below its words."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rich.console import Console


def print_hanging(console: Console, lead: str, text: str) -> None:
    """Print a lead and a text that is wrapped to the terminal's width, below its own beginning."""
    lines = textwrap.wrap(
        text,
        console.width,
        initial_indent=lead,
        subsequent_indent=" " * len(lead),
        break_long_words=False,
        break_on_hyphens=False,
    )
    console.print("\n".join(lines) or lead, soft_wrap=True)
