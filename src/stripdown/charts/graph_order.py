"""In what order do the nodes of a column stand, so that few lines cross?"""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence

from stripdown.charts.graph_columns import Edge

Item = tuple[str, ...]
"""A node, ``(key,)``; or the place where a line passes through a column, ``(first, then, column)``."""
Cells = dict[tuple[str, int], list[Item]]
"""What stands in a band's column, from the top."""
_SWEEPS = 12


def chains(edges: Sequence[Edge], columns: Mapping[str, int]) -> dict[Edge, tuple[Item, ...]]:
    """What each line visits, column by column."""
    return {
        (first, then): (
            (first,),
            *((first, then, str(column)) for column in range(columns[first] + 1, columns[then])),
            (then,),
        )
        for first, then in edges
    }


def cells_of(
    bands: Mapping[str, str], columns: Mapping[str, int], lines: Mapping[Edge, Sequence[Item]], places: Sequence[str]
) -> Cells:
    """Bands and columns with what stands there, lines in passing included, in an order in which few lines cross."""
    cells: Cells = {}
    for node, band in bands.items():
        cells.setdefault((band, columns[node]), []).append((node,))
    for (first, then), line in lines.items():
        for column, item in enumerate(line[1:-1], start=columns[first] + 1):
            between = sorted((places.index(bands[first]), places.index(bands[then])))
            # Through the band that has most room there, rather than where it would push others apart.
            band = min(places[between[0] : between[1] + 1], key=lambda one: len(cells.get((one, column), [])))
            cells.setdefault((band, column), []).append(item)
    best, least = _copy(cells), crossings(cells, lines, places)
    for sweep in range(_SWEEPS):
        _sort(cells, lines, places, rightwards=sweep % 2 == 0)
        found = crossings(cells, lines, places)
        if found < least:
            best, least = _copy(cells), found
    return best


def crossings(cells: Cells, lines: Mapping[Edge, Sequence[Item]], places: Sequence[str]) -> int:
    """How many pairs of lines cross between columns."""
    heights = _heights(cells, places)
    pieces = {piece for line in lines.values() for piece in itertools.pairwise(line)}
    gaps: dict[int, list[tuple[float, float]]] = {}
    column_of = {item: column for (_, column), items in cells.items() for item in items}
    for left, right in pieces:
        gaps.setdefault(column_of[left], []).append((heights[left], heights[right]))
    return sum(
        (one[0] - other[0]) * (one[1] - other[1]) < 0
        for pairs in gaps.values()
        for one, other in itertools.combinations(pairs, 2)
    )


def neighbours(lines: Mapping[Edge, Sequence[Item]]) -> tuple[dict[Item, list[Item]], dict[Item, list[Item]]]:
    """What each item is joined to in the column to its left, and in the one to its right."""
    left: dict[Item, list[Item]] = {}
    right: dict[Item, list[Item]] = {}
    for line in lines.values():
        for one, other in itertools.pairwise(line):
            right.setdefault(one, []).append(other)
            left.setdefault(other, []).append(one)
    return left, right


def _sort(cells: Cells, lines: Mapping[Edge, Sequence[Item]], places: Sequence[str], *, rightwards: bool) -> None:
    """Sort each column by the mean height of what its items are joined to in the column before; others keep theirs."""
    joined = neighbours(lines)[0 if rightwards else 1]
    for column in sorted({column for _, column in cells}, reverse=not rightwards):
        heights = _heights(cells, places)
        wish = {item: _mean([heights[other] for other in joined.get(item, [])], heights[item]) for item in heights}
        for place in places:
            cells.get((place, column), []).sort(key=wish.__getitem__)


def _heights(cells: Cells, places: Sequence[str]) -> dict[Item, float]:
    """A first guess at heights: rows counted from the top of the band, bands as tall as their fullest column."""
    tall = {place: max((len(items) for (band, _), items in cells.items() if band == place), default=0) for place in places}
    tops = dict(zip(places, itertools.accumulate((tall[place] for place in places), initial=0), strict=False))
    return {
        item: tops[band] + (number + 0.5) * tall[band] / len(items)
        for (band, _), items in cells.items()
        for number, item in enumerate(items)
    }


def _mean(values: Sequence[float], default: float) -> float:
    return sum(values) / len(values) if values else default


def _copy(cells: Cells) -> Cells:
    return {cell: list(items) for cell, items in cells.items()}
