"""What `stripdown limits` prints for people."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from stripdown.cli.printed_sheet import print_named
from stripdown.cli.terminal import print_paragraph
from stripdown.reports.against_limit import limit_part

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.catalogue.limits import CatalogueLimit

_NO_ADVICE = (
    "No legal advice: laws change, and the site's own rule, chronograph and marshal decide. "
    "A rule of your own: --limit '1.14 J at 0.3 m' or '350 ft/s on 0.20 g at 1 m'."
)


def print_limits(console: Console, limits: Sequence[CatalogueLimit]) -> None:
    """Print limits, one below the other."""
    for limit in limits:
        console.print(limit.key, style="bold")
        print_named(console, limit_part(None, limit.limit, unit="m/s", picture=None).limit)
        console.print()
    print_paragraph(console, _NO_ADVICE)
