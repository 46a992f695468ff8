"""How a calculator's command ends: asked, drawn and printed."""

from __future__ import annotations

from collections.abc import Mapping

from stripdown.bench.calculators import Asked
from stripdown.cli.ending import BY_KEYS, Shown, end
from stripdown.plain.calculators import calculator_fields
from stripdown.studies.calculators import Answered, calculate
from stripdown.words.calculators import calculator_answer


def end_calculated(key: str, record: object, shown: Shown) -> None:
    """Ask a calculator, and end the command with its answer."""
    end_answered(calculate(Asked(key=key, record=record)), shown)


def end_answered(answered: Answered, shown: Shown, *, named: Mapping[str, str] = BY_KEYS) -> None:
    """End a command with the answer of a calculator."""
    end(
        shown,
        answer=lambda: calculator_answer(answered, scale=shown.scale),
        plain=lambda: calculator_fields(answered),
        drawn=answered,
        named=named,
    )
