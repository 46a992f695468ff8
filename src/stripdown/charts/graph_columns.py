"""In which column of a layered graph does each node stand?"""

from __future__ import annotations

import graphlib
from collections.abc import Mapping, Sequence

Edge = tuple[str, str]
"""From a base to what rests on it."""


def without_detours(edges: Sequence[Edge]) -> tuple[Edge, ...]:
    """Edges without those that a chain of others says as well."""
    bases: dict[str, set[str]] = {}
    for first, then in edges:
        bases.setdefault(then, set()).add(first)
    reached: dict[str, set[str]] = {}
    for node in graphlib.TopologicalSorter(bases).static_order():
        direct = bases.get(node, set())
        reached[node] = direct.union(*(reached[base] for base in direct))
    return tuple(
        (first, then)
        for first, then in dict.fromkeys(edges)
        if not any(first in reached[other] for other in bases[then] if other != first)
    )


def columns_of(bands: Mapping[str, str], heights: Mapping[str, float], edges: Sequence[Edge], *, least: int) -> dict[str, int]:
    """Columns in which every base stands left of what rests on it."""
    bases: dict[str, list[str]] = {node: [] for node in bands}
    resting: dict[str, list[str]] = {node: [] for node in bands}
    for first, then in edges:
        bases[then].append(first)
        resting[first].append(then)
    order = tuple(graphlib.TopologicalSorter(bases).static_order())
    found: dict[str, int] = {}
    for node in order:
        found[node] = max((found[base] + 1 for base in bases[node]), default=0)
    for node in reversed(order):
        if resting[node]:
            found[node] = min(found[then] for then in resting[node]) - 1
    count = max(least, *(column + 1 for column in found.values())) if found else least
    filled = {(band, column): 0.0 for band in bands.values() for column in range(count)}
    for node, band in bands.items():
        if bases[node] or resting[node]:
            filled[band, found[node]] += heights[node]
    for node, band in bands.items():
        if not bases[node] and not resting[node]:
            found[node] = min(range(count), key=lambda column: (filled[band, column], column))
            filled[band, found[node]] += heights[node]
    return {node: found[node] for node in bands}
