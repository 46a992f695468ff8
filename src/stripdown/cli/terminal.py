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
_WIDEST = 100  # columns; longer lines are hard to follow


def answers() -> Console:
    """Console for answers.

    Returns
    -------
    rich.console.Console
        It takes text as it is: a gun's name may hold brackets.
    """
    return _console(stderr=False)


def remarks() -> Console:
    """Console for progress, remarks and complaints.

    Returns
    -------
    rich.console.Console
    """
    return _console(stderr=True)


def print_paragraph(console: Console, text: str) -> None:
    """Print a paragraph in lines of the terminal's width.

    Parameters
    ----------
    console
        Where to print.
    text
        Its words; a no-break space keeps a number beside its unit.
    """
    lines = textwrap.fill(text, console.width, break_long_words=False, break_on_hyphens=False)
    console.print(lines.replace(NO_BREAK, " "), soft_wrap=True)


@contextmanager
def working(words: str) -> Iterator[None]:
    """Show that something goes on, while it does; silent where nobody watches.

    Parameters
    ----------
    words
        What is being done.

    Yields
    ------
    None
    """
    with remarks().status(words):
        yield


@contextmanager
def model_at_work(words: str, *, kernel: str) -> Iterator[Callable[[int, int], None]]:
    """Show that the model works, and how far it has come; the first time also that it is being made ready.

    Parameters
    ----------
    words
        What is being done.
    kernel
        Name of the compiled function that does it.

    Yields
    ------
    callable
        To be called with how much is done and how much there is, by whatever counts.
    """
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
    console.width = min(console.width, _WIDEST)
    return console
