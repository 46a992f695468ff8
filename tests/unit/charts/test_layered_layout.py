from __future__ import annotations

import itertools

import numpy as np
import pytest

from stripdown.charts.layered_layout import Layout, Node, Spacing, lay_out

_SPACING = Spacing(between=4.0, passing=5.0, edge=6.0)


def _random_graph(seed: int) -> tuple[list[Node], list[tuple[str, str]], list[str]]:
    chance = np.random.default_rng(seed)
    bands = ["one", "two", "three", "four"]
    nodes = [
        Node(key=str(number), band=str(chance.choice(bands)), height=float(chance.choice([12.0, 20.0, 28.0])))
        for number in range(30)
    ]
    keys = [node.key for node in nodes]
    edges = [(one, other) for place, one in enumerate(keys) for other in keys[place + 1 :] if chance.random() < 0.07]
    return nodes, edges, bands


def _layout(seed: int) -> Layout:
    nodes, edges, bands = _random_graph(seed)
    return lay_out(nodes, edges, bands=bands, spacing=_SPACING, least_columns=3)


@pytest.mark.parametrize("seed", range(12))
def test_no_two_nodes_overlap(seed: int) -> None:
    """In one column they keep their distance; no line in passing goes through a node."""
    layout = _layout(seed)
    for one, other in itertools.combinations(layout.nodes.values(), 2):
        if one.column == other.column:
            assert abs(one.middle - other.middle) >= (one.height + other.height) / 2.0 + _SPACING.between - 1e-9
    for stops in layout.lines.values():
        for column, height in stops[1:-1]:
            for node in layout.nodes.values():
                if node.column == column:
                    assert abs(node.middle - height) >= node.height / 2.0 + _SPACING.between - 1e-9


@pytest.mark.parametrize("seed", range(12))
def test_every_node_stands_in_its_band(seed: int) -> None:
    """With the distance that its edges keep; bands follow one another without a gap."""
    layout, nodes = _layout(seed), _random_graph(seed)[0]
    for node in nodes:
        top, bottom = layout.bands[node.band]
        placed = layout.nodes[node.key]
        assert placed.middle - placed.height / 2.0 >= top + _SPACING.edge - 1e-9
        assert placed.middle + placed.height / 2.0 <= bottom - _SPACING.edge + 1e-9
    rooms = list(layout.bands.values())
    assert all(one[1] == other[0] for one, other in itertools.pairwise(rooms))
    assert (rooms[0][0], rooms[-1][1]) == (0.0, layout.height)


@pytest.mark.parametrize("seed", range(12))
def test_lines_run_to_the_right_from_node_to_node(seed: int) -> None:
    """Column by column, and they begin and end at the middles of their nodes."""
    layout = _layout(seed)
    for (first, then), stops in layout.lines.items():
        columns = [column for column, _ in stops]
        assert columns == list(range(layout.nodes[first].column, layout.nodes[then].column + 1))
        assert stops[0][1] == layout.nodes[first].middle
        assert stops[-1][1] == layout.nodes[then].middle


def test_the_same_graph_has_the_same_layout() -> None:
    """No chance, no clock, no order of a set."""
    assert _layout(5) == _layout(5)


def test_a_band_that_hangs_on_one_above_moves_up_to_it() -> None:
    """Its line need not run through all bands between; the others keep their order, an empty one takes no room."""
    nodes = [Node(key=key, band=band, height=10.0) for key, band in (("a", "one"), ("b", "two"), ("c", "three"), ("d", "four"))]
    layout = lay_out(nodes, [("a", "d")], bands=["one", "empty", "two", "three", "four"], spacing=_SPACING)
    assert list(layout.bands) == ["one", "four", "two", "three"]


def test_a_lone_chain_runs_straight() -> None:
    """A tall neighbour in the band does not bend it: what hangs on one another stands at one height."""
    nodes = [Node(key=key, band="one", height=height) for key, height in (("a", 10.0), ("b", 10.0), ("tall", 60.0))]
    layout = lay_out(nodes, [("a", "b")], bands=["one"], spacing=_SPACING, least_columns=3)
    assert layout.nodes["a"].middle == layout.nodes["b"].middle
