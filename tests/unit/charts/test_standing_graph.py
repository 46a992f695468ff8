from __future__ import annotations

from typing import Any

import pytest

from stripdown.charts.render import to_spec, to_svg
from stripdown.charts.standing_graph import drawn_checks, standing_graph
from stripdown.charts.standing_signs import MARKS
from stripdown.charts.themes import PAPER, SCREEN
from stripdown.procedures.standing import Standing
from stripdown.reports.letters import shown
from stripdown.words.signs import SIGNS
from tests.synthetic_service import made_procedure, made_standings
from tests.unit.charts.specs import table_with

_BY_KEY = {"check": "axial float in the trial closing", "stands": "stale", "about": "bevel's left bearing, bevel's left shims"}


def _boxes(**options: Any) -> list[dict[str, Any]]:
    chart = standing_graph(made_procedure(), made_standings(), theme=PAPER, **options)
    return table_with(chart, "key", "why")


def test_every_check_is_drawn_with_its_standing_reason_and_parts() -> None:
    """As the log says; the parts in the words of the bench."""
    boxes = {box["key"]: box for box in _boxes()}
    assert list(boxes) == list(made_procedure().checks)
    assert {name: boxes["float"][name] for name in _BY_KEY} == _BY_KEY
    assert boxes["float"]["why"] == "stale since the bevel's left bearing was bonded on 3 May."


def test_a_check_without_a_standing_was_never_made() -> None:
    """A log says nothing of it."""
    chart = standing_graph(made_procedure(), {}, theme=PAPER)
    assert {box["stands"] for box in table_with(chart, "key")} == {"never"}


def test_a_standing_is_told_by_letter_and_shape_and_not_by_colour_alone() -> None:
    """No two share a letter; those whose marks have one shape are dark and white; the font has every letter."""
    assert len({sign.letter for sign in SIGNS.values()}) == len(Standing) == len(SIGNS)
    assert len({(mark.shape, mark.fill) for mark in MARKS.values()}) == len(MARKS) == len(SIGNS)
    assert len({mark.shape for standing, mark in MARKS.items() if standing is not Standing.NEVER}) == len(MARKS) - 1
    assert not any(shown(sign.letter)[1] for sign in SIGNS.values())


def test_the_key_counts_every_standing() -> None:
    """Two of seven are fresh, and so on; what a broken line and an empty box mean stands there too."""
    chart = standing_graph(made_procedure(), made_standings(), theme=PAPER, to_make=["float"])
    rows = [row["words"] for table in to_spec(chart)["datasets"].values() for row in table if "words" in row]
    found = [words for words in rows if ":" in words or words == "to be made, or made again"]
    assert [words.split(":")[0] + words[-4:] for words in found[:4]] == ["fresh (2)", "stale (2)", "failed (1)", "never (2)"]
    assert found[4:] == ["right rests on left; broken: the left one does not hold", "to be made, or made again"]


def test_a_line_from_what_does_not_hold_is_broken() -> None:
    """The string was never fired, so the verdict hangs on nothing; the pack is fresh, so the float hangs on it."""
    lines = table_with(standing_graph(made_procedure(), made_standings(), theme=PAPER), "line", "broken")
    assert {row["line"]: row["broken"] for row in lines} == {"pack float": False, "string verdict": True}


def test_only_what_is_asked_for_is_drawn_with_its_bases() -> None:
    """The verdict brings its string."""
    assert drawn_checks(made_procedure(), ["verdict"]) == ("string", "verdict")
    assert [box["key"] for box in _boxes(only=["verdict"])] == ["string", "verdict"]


def test_parts_stand_below_the_name_if_asked_for() -> None:
    """Those that two lines hold, and how many more there are."""
    assert "bevel's left bearing +2" in " ".join(_words(with_parts=True))
    assert "bearing +2" not in " ".join(_words(with_parts=False))


def _words(*, with_parts: bool) -> list[str]:
    chart = standing_graph(made_procedure(), made_standings(), theme=SCREEN, with_parts=with_parts)
    return [row["words"] for table in to_spec(chart)["datasets"].values() for row in table if "words" in row]


def test_the_picture_is_told_in_words() -> None:
    """Every check under its standing, for who cannot see it."""
    said = to_spec(standing_graph(made_procedure(), made_standings(), theme=PAPER))["description"]
    assert "failed (1): seal of the cylinder" in said
    assert "fresh (2): shim pack of the bevel gear, label of the battery" in said


@pytest.mark.parametrize("theme", [PAPER, SCREEN], ids=["paper", "screen"])
def test_the_same_standings_give_the_same_picture(theme: Any) -> None:
    """To the letter."""
    first, second = (to_svg(standing_graph(made_procedure(), made_standings(), theme=theme)) for _ in range(2))
    assert first == second
