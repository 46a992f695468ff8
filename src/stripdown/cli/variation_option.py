"""The option that says what gun it is."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

import click

_F = TypeVar("_F", bound=Callable[..., Any])


def variation_option(command: _F) -> _F:
    """Give a command the choice of variation."""
    return click.option(
        "--variation",
        default="",
        metavar="TEXT",
        help='What gun it is, as "version 3, quick-change guide, bushings"; what is not said is assumed.',
    )(command)
