from __future__ import annotations

import graphlib

import numpy as np
import pytest

from stripdown.charts.graph_columns import columns_of, without_detours


def test_a_line_that_a_chain_says_as_well_is_left_out() -> None:
    """Of a → b → c and a → c the last is a detour; of a → b and a → c none is."""
    assert without_detours([("a", "b"), ("b", "c"), ("a", "c")]) == (("a", "b"), ("b", "c"))
    assert without_detours([("a", "b"), ("a", "c")]) == (("a", "b"), ("a", "c"))


def test_what_rests_on_itself_is_refused() -> None:
    """A circle has no layers."""
    with pytest.raises(graphlib.CycleError):
        without_detours([("a", "b"), ("b", "a")])


def test_a_base_stands_left_of_what_rests_on_it_and_as_near_as_it_can() -> None:
    """The short branch d of the chain a → b → c joins it one column before its end, not at the start."""
    found = columns_of(dict.fromkeys("abcd", "one"), dict.fromkeys("abcd", 1.0), [("a", "b"), ("b", "c"), ("d", "c")], least=1)
    assert found == {"a": 0, "b": 1, "c": 2, "d": 1}


def test_what_nothing_binds_fills_the_emptiest_column_of_its_band() -> None:
    """Three alike spread over three columns; a tall one is worth two of the others."""
    assert columns_of(dict.fromkeys("abc", "one"), dict.fromkeys("abc", 1.0), [], least=3) == {"a": 0, "b": 1, "c": 2}
    found = columns_of(dict.fromkeys("abcd", "one"), {"a": 2.0, "b": 1.0, "c": 1.0, "d": 1.0}, [], least=2)
    assert found == {"a": 0, "b": 1, "c": 1, "d": 0}


def test_no_nodes_make_no_columns() -> None:
    """An empty graph is one too."""
    assert columns_of({}, {}, [], least=2) == {}


@pytest.mark.parametrize("seed", range(20))
def test_in_any_graph_without_circles_bases_stand_left(seed: int) -> None:
    """Random graphs: every line goes to the right."""
    chance = np.random.default_rng(seed)
    keys = [str(number) for number in range(12)]
    edges = [(one, other) for place, one in enumerate(keys) for other in keys[place + 1 :] if chance.random() < 0.2]
    found = columns_of(dict.fromkeys(keys, "one"), dict.fromkeys(keys, 1.0), edges, least=3)
    assert all(found[first] < found[then] for first, then in edges)
    assert min(found.values()) >= 0
