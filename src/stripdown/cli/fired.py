"""Commands of calculators that also fire a gun: ball, day, and what the answer costs."""

from __future__ import annotations

import functools
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

from stripdown.bench.calculators import Asked
from stripdown.cli.calculated import end_answered
from stripdown.cli.ending import Shown
from stripdown.cli.quantity_option import ball_option, day_options
from stripdown.cli.terminal import model_at_work
from stripdown.core.parts.conditions import Conditions
from stripdown.files.gun import load_gun
from stripdown.studies.calculators import Fired, calculate

_F = TypeVar("_F", bound=Callable[..., Any])


def fired_options(command: _F) -> _F:
    """Give a command that takes `fired` the options for ball and day; its argument is the gun's file."""

    @functools.wraps(command)
    def fired(*args: Any, gun: Path | None, ball: float | None, day: Conditions | None, **settings: Any) -> Any:
        loaded = None if gun is None else load_gun(gun)
        return command(*args, fired=Fired(gun=loaded, ball_mass=ball, conditions=day or Conditions()), **settings)

    return ball_option(day_options(fired))  # type: ignore[return-value]


def end_priced(key: str, record: object, fired: Fired, shown: Shown, *, doing: str) -> None:
    """Ask a calculator, fire the gun if there is one, and end the command with the answer and its price."""
    answered = calculate(Asked(key=key, record=record), fired)
    if fired.gun is not None:
        from stripdown.studies.prices import priced  # noqa: PLC0415  without a gun nothing waits for the compiler

        with model_at_work(doing, kernel="run_shots"):
            answered = priced(answered, fired)
    end_answered(answered, shown)
