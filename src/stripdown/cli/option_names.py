"""Mistakes of a study, in the words of the command line."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager

from stripdown.errors import InputError


@contextmanager
def options_named(**options: str) -> Iterator[None]:
    """Name options where a study names its parameters; it also decorates a command."""
    try:
        yield
    except InputError as reason:
        names = re.compile(rf"(?<![\w-])({'|'.join(map(re.escape, options))})(?= = | is missing|: | \()")
        reason.message = names.sub(lambda found: options[found[0]], reason.message)
        if reason.field in options:
            reason.field = options[reason.field]
            if reason.field not in reason.message:
                reason.message = f"{reason.field}: {reason.message}"
        raise
