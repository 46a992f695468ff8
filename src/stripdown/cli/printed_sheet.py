"""Parts of the owner's sheet on the terminal: the same words and figures as on paper."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable
from typing import TYPE_CHECKING

from rich.text import Text

from stripdown.cli.harmless_text import harmless
from stripdown.cli.terminal import NO_BREAK

if TYPE_CHECKING:
    from rich.console import Console

_HANG = "  "


def print_title(console: Console, words: str) -> None:
    """Print what an answer is about."""
    console.print(Text(harmless(words), style="bold"), soft_wrap=True)
    console.print()


def print_heading(console: Console, words: str) -> None:
    """Print the heading of a part, with a blank line above."""
    console.print()
    console.print(Text(harmless(words), style="bold"), soft_wrap=True)


def print_sentences(console: Console, sentences: Iterable[str]) -> None:
    """Print sentences one below the other, each with a dash and its lines hanging."""
    for sentence in dict.fromkeys(sentences):
        text = textwrap.fill(
            harmless(sentence),
            console.width,
            initial_indent="- ",
            subsequent_indent=_HANG,
            break_long_words=False,
            break_on_hyphens=False,
        )
        console.print(Text(text.replace(NO_BREAK, " ")), soft_wrap=True)
