from __future__ import annotations

from stripdown.charts.graph_order import Cells, cells_of, chains, crossings


def test_a_line_visits_every_column_between_its_ends() -> None:
    """From column 0 to 2 it passes through column 1."""
    assert chains([("a", "b")], {"a": 0, "b": 2}) == {("a", "b"): (("a",), ("a", "b", "1"), ("b",))}


def test_two_lines_that_change_sides_cross_once() -> None:
    """Counted by hand: a above b, and their ends the other way round."""
    lines = chains([("a", "d"), ("b", "c")], {"a": 0, "b": 0, "c": 1, "d": 1})
    crossed: Cells = {("one", 0): [("a",), ("b",)], ("one", 1): [("c",), ("d",)]}
    assert crossings(crossed, lines, ["one"]) == 1


def test_sweeps_undo_crossings_that_need_not_be() -> None:
    """Three lines, their ends in the opposite order: three crossings, of which none is left."""
    bands, columns = dict.fromkeys("abcxyz", "one"), {**dict.fromkeys("abc", 0), **dict.fromkeys("xyz", 1)}
    lines = chains([("a", "z"), ("b", "y"), ("c", "x")], columns)
    as_given: Cells = {("one", 0): [("a",), ("b",), ("c",)], ("one", 1): [("x",), ("y",), ("z",)]}
    assert crossings(as_given, lines, ["one"]) == 3
    assert crossings(cells_of(bands, columns, lines, ["one"]), lines, ["one"]) == 0


def test_a_line_in_passing_takes_the_band_that_has_room() -> None:
    """Of the bands between its ends, the one with least in that column."""
    bands = {"a": "top", "b": "bottom", "full": "top", "full too": "bottom"}
    columns = {"a": 0, "b": 2, "full": 1, "full too": 1}
    lines = chains([("a", "b")], columns)
    cells = cells_of({**bands, "middle": "middle"}, {**columns, "middle": 0}, lines, ["top", "middle", "bottom"])
    assert ("a", "b", "1") in cells["middle", 1]
