from __future__ import annotations

from stripdown.cli.harmless_text import harmless


def test_what_steers_a_terminal_is_shown_as_a_mark() -> None:
    """Escape, bell, and the sign that turns round what follows; the rest stays."""
    assert harmless("a\x1b[31mb\x07c\u202ed") == "a\ufffd[31mb\ufffdc\ufffdd"


def test_words_of_any_language_and_line_breaks_stay() -> None:
    """A tab becomes a blank."""
    assert harmless("größe 銃 — ½\tx\r\ny") == "größe 銃 — ½ x\ny"
