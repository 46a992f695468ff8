from __future__ import annotations

import altair as alt

from stripdown.charts.themes import PAPER
from stripdown.charts.wrapped import beside_rows, wrapped
from tests.unit.charts.specs import tables


def test_words_are_wrapped_at_blanks_and_keep_their_own_breaks() -> None:
    """Ten letters a line; a longer word stays whole; no words are one empty line."""
    assert wrapped("one two three four", 10) == ["one two", "three four"]
    assert wrapped("unbreakable-word here", 8)[-1] == "here"
    assert wrapped("1 mm\nwider", 40) == ["1 mm", "wider"]
    assert wrapped("", 10) == [""]


def test_lines_stand_about_the_middle_of_their_row() -> None:
    """Two lines are lifted by half a line, one line by nothing; each row is written once."""
    row = alt.Y("name:N")
    layers = beside_rows({"a": ["a"], "b": ["b", "b"]}, row, at=0, align="left", theme=PAPER, faint=frozenset({"b"}))
    lifts = [layer.to_dict()["mark"]["dy"] for layer in layers]
    assert lifts == [0, -PAPER.small * 1.2 / 2]
    rows = [row for layer in layers for table in tables(layer) for row in table]
    assert [(entry["name"], entry["words"], entry["strength"]) for entry in rows] == [("a", "a", 1.0), ("b", "b\nb", 0.6)]
