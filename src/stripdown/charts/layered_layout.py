"""A graph in layers: columns from left to right, bands from top to bottom; where does each node stand and each line run?"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from stripdown.charts.graph_columns import Edge, columns_of, without_detours
from stripdown.charts.graph_order import Cells, Item, cells_of, chains, neighbours

_PASSES = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class Node:
    """What is to be placed."""

    key: str
    band: str
    height: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Spacing:
    """Distances, in the unit of the nodes' heights."""

    between: float
    passing: float
    edge: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """Where a node stands."""

    column: int
    middle: float
    height: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """A graph, laid out."""

    columns: int
    height: float
    nodes: Mapping[str, Placed]
    bands: Mapping[str, tuple[float, float]]
    lines: Mapping[Edge, tuple[tuple[int, float], ...]]


def lay_out(
    nodes: Sequence[Node], edges: Sequence[Edge], *, bands: Sequence[str], spacing: Spacing, least_columns: int = 1
) -> Layout:
    """Place nodes in columns, bases left of what rests on them, each within its band, with few crossings."""
    band_of = {node.key: node.band for node in nodes}
    drawn = without_detours(edges)
    places = _near(band_of, drawn, bands)
    columns = columns_of(band_of, {node.key: node.height for node in nodes}, drawn, least=least_columns)
    lines = chains(drawn, columns)
    cells = cells_of(band_of, columns, lines, places)
    stacks = _Stacks(spacing=spacing, heights={(node.key,): node.height for node in nodes})
    rooms = _rooms(cells, places, stacks)
    middles = _middles(cells, lines, rooms, stacks)
    return Layout(
        columns=max(least_columns, *(column + 1 for column in columns.values())) if columns else least_columns,
        height=max((bottom for _, bottom in rooms.values()), default=0.0),
        nodes={node.key: Placed(column=columns[node.key], middle=middles[node.key,], height=node.height) for node in nodes},
        bands=rooms,
        lines={
            edge: tuple((columns[edge[0]] + step, middles[item]) for step, item in enumerate(line))
            for edge, line in lines.items()
        },
    )


def _near(band_of: Mapping[str, str], edges: Sequence[Edge], bands: Sequence[str]) -> list[str]:
    """Bands that have nodes; one whose lines all come from above stands right below the last of those it comes from."""
    places = [band for band in bands if band in set(band_of.values())]
    for band in list(places):
        joined = {band_of[one] for edge in edges for one in edge if band in (band_of[edge[0]], band_of[edge[1]])} - {band}
        lowest = max((places.index(other) for other in joined), default=len(places))
        if lowest < places.index(band):
            places.remove(band)
            places.insert(lowest + 1, band)
    return places


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stacks:
    """Items one under another."""

    spacing: Spacing
    heights: Mapping[Item, float]

    def height(self, item: Item) -> float:
        return self.heights.get(item, self.spacing.passing)

    def of(self, items: Sequence[Item]) -> float:
        """Height of a whole stack."""
        return sum(map(self.height, items)) + self.spacing.between * (len(items) - 1)

    def place(self, items: Sequence[Item], wish: Mapping[Item, float], room: tuple[float, float]) -> Iterator[tuple[Item, float]]:
        """Middles of items, each at its wish or below it, and none below the room that those under it need."""
        top = room[0] + self.spacing.edge
        bottom = room[1] - self.spacing.edge - self.of(items)
        for item in items:
            height = self.height(item)
            bottom += height
            middle = min(max(wish.get(item, 0.0), top + height / 2.0), bottom - height / 2.0)
            yield item, middle
            top = middle + height / 2.0 + self.spacing.between
            bottom += self.spacing.between


def _rooms(cells: Cells, places: Sequence[str], stacks: _Stacks) -> dict[str, tuple[float, float]]:
    """Top and bottom of each band: as tall as its fullest column."""
    tall = dict.fromkeys(places, 0.0)
    for (place, _), items in cells.items():
        tall[place] = max(tall[place], stacks.of(items))
    edges = itertools.accumulate((tall[place] + 2.0 * stacks.spacing.edge for place in places), initial=0.0)
    return dict(zip(places, itertools.pairwise(edges), strict=True))


def _middles(
    cells: Cells, lines: Mapping[Edge, Sequence[Item]], rooms: Mapping[str, tuple[float, float]], stacks: _Stacks
) -> dict[Item, float]:
    """Heights in which each item stands as near as it can to what it is joined to, in its order and its band."""
    middles: dict[Item, float] = {}
    for (place, _), items in cells.items():
        middles.update(stacks.place(items, {}, rooms[place]))
    for sweep in range(_PASSES):
        joined = neighbours(lines)[sweep % 2]
        for place, column in sorted(cells, key=lambda cell: cell[1], reverse=sweep % 2 == 1):
            items = cells[place, column]
            wish = {item: _mean([middles[other] for other in joined.get(item, [item])]) for item in items}
            middles.update(stacks.place(items, wish, rooms[place]))
    return middles


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values)
