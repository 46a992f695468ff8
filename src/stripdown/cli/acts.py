"""The next act that a sentence leads to, worded as a command; a page words the same keys as buttons."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

ACTS: Mapping[str, str] = MappingProxyType(
    {
        "list_assumed": "(--assumed lists them.)",
        "show_rows": "(--rows shows them.)",
    }
)
"""Words by key of the act."""


def calculator_command(calculator: str, *, is_reckoned: bool) -> str:
    """The calculator of a step as its command."""
    done = " (reckoned above for what was measured)" if is_reckoned else ""
    return f"Reckon: stripdown {calculator.replace('_', ' ')}{done}"
