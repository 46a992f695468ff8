"""An answer on the terminal: lays out what `words` says, and words the next act as a command; it adds nothing else."""

from __future__ import annotations

import textwrap
from collections.abc import Collection, Iterable
from itertools import groupby
from typing import TYPE_CHECKING, Literal

from rich.align import Align
from rich.table import Table as Grid
from rich.text import Text

from stripdown.cli.acts import ACTS, calculator_command
from stripdown.cli.harmless_text import harmless
from stripdown.cli.terminal import NO_BREAK, print_paragraph

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.words.answer import Answer, Cell, Figure, Named, Sentence, Step, Table

_HEAD = 14  # characters of a head above a column of figures
_BAR = 26  # characters for the whole of which a cell shows a share
_EIGHTHS = " ▏▎▍▌▋▊▉"
_FULL = "█"


def print_answer(console: Console, answer: Answer, *, in_full: Collection[str] = (), heard: set[str] | None = None) -> None:
    """Print an answer with its parts; a caution stands in full once, a long note only if its key is among those asked for."""
    heard = set() if heard is None else heard
    if answer.title:
        console.print(Text(harmless(answer.title), style="bold"), soft_wrap=True)
    has_body = bool(answer.lead or answer.named or answer.figures)
    for sentence in answer.lead:
        print_paragraph(console, harmless(spoken(sentence, in_full)))
    print_named(console, answer.named)
    print_figures(console, answer.figures)
    for table in filter(_said, answer.tables):
        if has_body or any(table.columns[place].head for place in _said(table)):
            console.print()
        print_table(console, table)
        has_body = True
    print_steps(console, answer.steps, in_full=in_full, heard=heard)
    if answer.notes:
        if has_body or answer.steps or not answer.title:
            console.print()
        print_list(console, (spoken(note, in_full) for note in answer.notes))
    for number, part in enumerate(answer.parts):
        if number or answer.title or has_body or answer.notes:
            console.print()
        print_answer(console, part, in_full=in_full, heard=heard)
    if answer.cautions:
        if has_body or answer.title or answer.steps or answer.notes or answer.parts:
            console.print()
        console.print(Text("Cautions", style="bold"))
        print_list(console, (_caution(one, heard) for one in answer.cautions))
    if answer.rests_on:
        console.print()
        print_named(console, answer.rests_on)


def spoken(sentence: Sentence, in_full: Collection[str] = ()) -> str:
    """A sentence, in short if it has a short form that nobody asked past, with the act that it leads to as a command."""
    is_full = not sentence.short or sentence.key in in_full
    act = "" if is_full and sentence.short else ACTS.get(sentence.act, "")
    words = sentence.full if is_full else sentence.short
    return f"{words} {act}" if act else words


def print_list(console: Console, sentences: Iterable[str]) -> None:
    """Print sentences one below the other, each once, with a dash and its lines hanging."""
    for sentence in dict.fromkeys(sentences):
        print_hanging(console, "- ", sentence)


def print_hanging(console: Console, lead: str, text: str, *, small: str = "") -> None:
    """Print a lead and a text that is wrapped to the terminal's width, below its own beginning; `small` names what is dim."""
    lines = textwrap.wrap(
        harmless(text),
        console.width,
        initial_indent=lead,
        subsequent_indent=" " * len(lead),
        break_long_words=False,
        break_on_hyphens=False,
    )
    said = Text(("\n".join(lines) or lead).replace(NO_BREAK, " "))
    if small:
        said.highlight_regex(small, "dim")
    console.print(said, soft_wrap=True)


def print_named(console: Console, entries: Iterable[Named]) -> None:
    """Print names with what is said of each."""
    for entry in entries:
        print_paragraph(console, harmless(f"{entry.name}: {entry.text}"))


def print_figures(console: Console, figures: Iterable[Figure]) -> None:
    """Print figures, each with what it is, in two columns."""
    rows = list(figures)
    width = max((len(row.label) for row in rows), default=0)
    for row in rows:
        console.print(Text(harmless(f"{row.label:<{width}}  {row.text}")), soft_wrap=True)


def print_table(console: Console, table: Table) -> None:
    """Print a table; what is small on paper stands in a line of its own, and columns to fill in by hand are left to paper."""
    said = _said(table)
    has_heads = any(table.columns[place].head for place in said)
    grid = Grid(box=None, padding=(0, 2, 0, 0), pad_edge=False, header_style="bold", show_header=has_heads)
    for column in (table.columns[place] for place in said):
        side: Literal["left", "right"] = "right" if column.is_figure else "left"
        head = Text(harmless("\n".join(textwrap.wrap(column.head, _HEAD)) if column.is_figure else column.head))
        top = Align(head, side, vertical="bottom")
        grid.add_column(top, justify=side, no_wrap=column.is_figure, vertical="top", overflow="fold")
    for row in table.rows:
        grid.add_row(*(_cell(row[place]) for place in said))
    console.print(grid)


_OF_THINGS = frozenset({"caution_part", "caution_reading"})
"""Cautions that concern no person."""


def print_steps(console: Console, steps: Iterable[Step], *, in_full: Collection[str], heard: set[str]) -> None:
    """Print steps by place, each with a box; how each is done only if that is asked for."""
    for place, some in groupby(steps, key=lambda step: step.place):
        console.print(Text(harmless(place), style="bold"), soft_wrap=True)
        for step in some:
            purpose = f" ({step.purpose})" if step.purpose else ""
            print_hanging(console, f"  [ ] {step.number:>3} ", f"{step.name}{purpose} [{step.key}]", small=rf"\[{step.key}\]")
            for lead, text in _below(step, in_full, heard):
                if text:
                    print_hanging(console, f"{' ' * 10}{lead}", text)


def _below(step: Step, in_full: Collection[str], heard: set[str]) -> Iterable[tuple[str, str]]:
    """The lines below the name of a step."""
    yield "", step.not_before
    for caution in step.cautions:
        yield "- " if caution.key in _OF_THINGS else "! ", _caution(caution, heard)
    yield "", step.trial
    if "how" in in_full:
        yield "", f"{step.method}: {step.how}" if step.method else step.how
    if "short" in in_full:
        yield "", step.short
        yield "Passed: ", step.seen
    if step.calculator:
        done = " (calculated above for what was measured)" if step.is_calculated else ""
        yield "", f"Calculate: {calculator_command(step.calculator)}{done}"
    yield "", step.grades
    yield "", step.alike
    yield "", step.expect
    if step.blank is not None and step.blank.limits:
        yield "", f"{step.blank.label}: {step.blank.limits}."
    yield "", step.wait


def _said(table: Table) -> list[int]:
    """Places of the columns that say something; the others are a form to be filled in, or say nothing in any row."""
    return [
        place
        for place, column in enumerate(table.columns)
        if not column.by_hand and any(_is_written(row[place]) for row in table.rows)
    ]


def _is_written(cell: Cell) -> bool:
    return bool(cell.text or cell.small or cell.share is not None)


def _cell(cell: Cell) -> Text:
    if cell.share is not None:
        return Text(_bar(cell.share), no_wrap=True)
    return Text(harmless(f"{cell.text}\n{cell.small}" if cell.small else cell.text))


def _bar(share: float) -> str:
    """Length of a share in eighths of a character; what is too small for one eighth, or less than nothing, shows nothing."""
    eighths = round(min(max(share, 0.0), 1.0) * _BAR * 8)
    return _FULL * (eighths // 8) + _EIGHTHS[eighths % 8].strip()


def _caution(sentence: Sentence, heard: set[str]) -> str:
    words = sentence.brief if sentence.full in heard else sentence.full
    heard.add(sentence.full)
    return words
