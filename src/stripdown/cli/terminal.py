"""The terminal: answers on standard output, everything else on standard error."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rich.console import Console

_FIRST_TIME = "Preparing the model for this computer: once, about half a minute."
NO_BREAK = "\u00a0"
_NARROWEST = 20  # columns; a terminal that says it has none is none to measure by
_WIDEST = 100  # columns; longer lines are hard to follow


def answers() -> Console:
    """Console for answers."""
    return _console(stderr=False)


def remarks() -> Console:
    """Console for progress, remarks and mistakes."""
    return _console(stderr=True)


def print_paragraph(console: Console, text: str) -> None:
    """Print a paragraph in lines of the terminal's width."""
    lines = textwrap.fill(text, console.width, break_long_words=False, break_on_hyphens=False)
    console.print(lines.replace(NO_BREAK, " "), soft_wrap=True)


@contextmanager
def working(words: str) -> Iterator[None]:
    """Show that something goes on, while it does; silent where nobody watches."""
    with remarks().status(words):
        yield


@contextmanager
def model_at_work(words: str, *, kernel: str) -> Iterator[Callable[[int, int], None]]:
    """Show that the model works, and how far it has come; the first time also that it is being made ready."""
    from rich.progress import BarColumn, Progress, SpinnerColumn, TextColumn  # noqa: PLC0415  `stripdown --help` does without

    console = remarks()
    columns = (SpinnerColumn(), TextColumn("{task.description}", markup=False), BarColumn())
    with Progress(*columns, console=console, transient=True, disable=not console.is_terminal) as progress:
        task = progress.add_task(words, total=None)
        from stripdown.core.numerics.compiled import cache_is_warm  # noqa: PLC0415  the import itself takes a second

        if not cache_is_warm(kernel):
            progress.update(task, description=_FIRST_TIME)
            if not console.is_terminal:
                console.print(_FIRST_TIME)
        yield lambda done, total: progress.update(task, description=words, completed=done, total=total)


def _console(*, stderr: bool) -> Console:
    from rich.console import Console  # noqa: PLC0415  `stripdown --help` does without

    console = Console(stderr=stderr, highlight=False, markup=False, emoji=False)
    console.width = max(min(console.width, _WIDEST), _NARROWEST)
    return console
