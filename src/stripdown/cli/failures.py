"""What a failure prints, and with which exit code a command ends."""

from __future__ import annotations

import re

from stripdown.cli.harmless_text import harmless
from stripdown.errors import InputError, NumericalFailure, OutsideValidity, ProcedureError, RenderError, StripdownError
from stripdown.references import load_references

_SHOWN = 80  # letters of a longer word
_LONG_WORD = re.compile(r"\S{200,}")
INTERRUPTED = 130  # 128 and the number of SIGINT, as shells have it
_UNKNOWN = 1
_CODES: tuple[tuple[type[StripdownError], int], ...] = (
    (InputError, 2),
    (OutsideValidity, 3),
    (NumericalFailure, 4),
    (ProcedureError, 5),
    (RenderError, 6),
)


def exit_code(failure: StripdownError) -> int:
    """Exit code of a failure, one per sort."""
    return next((code for sort, code in _CODES if isinstance(failure, sort)), _UNKNOWN)


def said_of(failure: StripdownError) -> str:
    """Say what went wrong, for the person at the bench: nothing in it steers the terminal, and no typed word fills the screen."""
    return plain_line(_said(failure))


def plain_line(text: str) -> str:
    """A message without what steers a terminal, its longest words cut."""
    return _LONG_WORD.sub(lambda found: f"{found[0][:_SHOWN]}…", harmless(text))


def _said(failure: StripdownError) -> str:
    if isinstance(failure, NumericalFailure):
        return (
            f"{failure} This is a fault of the program, not yours: please send in the gun's file with these figures: "
            f"{failure.time:.6g} s after release, {failure.steps} steps, {failure.rejected} rejected, "
            f"{failure.evaluations} evaluations, state {', '.join(f'{value:.6g}' for value in failure.state)}."
        )
    if isinstance(failure, OutsideValidity) and failure.reference:
        references = load_references()
        source = references[failure.reference].cite() if failure.reference in references else failure.reference
        return f"{failure} Range of the model: {source}"
    return str(failure)
