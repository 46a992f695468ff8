from __future__ import annotations

import pytest

from stripdown.reports.letters import missing_words, shown


@pytest.mark.parametrize(
    "text", ["Łódź, Ørsted, ß", "Привет, Ελλάδα", "±−×²°·–—“”…→ mm²", '#let x = $y$ *a* [b] <c> @d \\ `e` "f"', "a\nb"]
)
def test_letters_of_europe_and_signs_of_markup_stay_as_typed(text: str) -> None:
    """The font has them, and nothing of what is typed means anything to the printer."""
    assert shown(text) == (text, frozenset())


@pytest.mark.parametrize(
    ("typed", "printed", "missing"),
    [
        ("銃 7", "□ 7", frozenset("銃")),
        ("rack 🔫", "rack □", frozenset("🔫")),
        ("turned \u202eround", "turned □round", frozenset("\u202e")),
        ("bell\x07", "bell□", frozenset("\x07")),
    ],
)
def test_what_cannot_be_shown_leaves_a_box(typed: str, printed: str, missing: frozenset[str]) -> None:
    """Letters that the font lacks, and characters that steer instead of showing something."""
    assert shown(typed) == (printed, missing)


def test_a_tab_is_a_blank() -> None:
    """As it looks."""
    assert shown("a\tb") == ("a b", frozenset())


def test_missing_letters_are_told_by_number() -> None:
    """In the order of their numbers; nothing is said when none is missing."""
    assert "U+0007, U+9283" in missing_words({"銃", "\x07"})
    assert missing_words(frozenset()) == ""
