"""The sign of each standing, and what is said of the graph of checks."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from stripdown.procedures.procedure import Procedure
from stripdown.procedures.standing import Standing

GRAPH_TITLE = "How the checks stand"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sign:
    """How a standing is told: a letter for pictures, a mark that every keyboard has, and what it means."""

    letter: str
    mark: str
    words: str


SIGNS: Mapping[Standing, Sign] = MappingProxyType(
    {
        Standing.FRESH: Sign(letter="✓", mark="+", words="proved, and nothing has undone it since"),
        Standing.STALE: Sign(letter="↻", mark="~", words="proved once, and undone since: prove it again"),
        Standing.FAILED: Sign(letter="×", mark="x", words="did not pass when it was made last"),
        Standing.NEVER: Sign(letter="–", mark="-", words="not made yet"),
    }
)


def standings_told(procedure: Procedure, signs: Mapping[str, Standing], *, title: str = GRAPH_TITLE) -> str:
    """The graph of checks in words, for who cannot see it."""
    groups = []
    for one in Standing:
        names = [procedure.checks[key].name for key, sign in signs.items() if sign is one]
        if names:
            groups.append(f"{one.value} ({len(names)}): {', '.join(names)}")
    return ". ".join([title, *groups])


def graph_key(
    standings: Collection[Standing], *, has_lines: bool, has_broken_lines: bool, has_boxes: bool
) -> tuple[tuple[str, str], ...]:
    """The lines of the key to the graph of checks: what each explains (a standing, "line", "box"), and the words."""
    lines = [
        (one.value, f"{one.value}: {sign.words} ({sum(other is one for other in standings)})") for one, sign in SIGNS.items()
    ]
    if has_lines:
        lines.append(("line", f"right rests on left{'; broken: the left one does not hold' if has_broken_lines else ''}"))
    if has_boxes:
        lines.append(("box", "to be made, or made again"))
    return tuple(lines)
