"""The bytes of a file that somebody names: an ordinary file, or standard input, and never more than was said."""

from __future__ import annotations

import os
import stat
from pathlib import Path

from stripdown.errors import InputError

_PIPED = ("/dev/stdin", "/dev/fd/0", "/proc/self/fd/0")


def read_bytes(name: str, *, most: int, noun: str, missing: str | None = None) -> bytes:
    """Read a file; what is no file, or far too large to be what it should be, is refused before it is read."""
    try:
        with open(name, "rb", opener=_without_waiting) as file:
            found = os.fstat(file.fileno())
            if not stat.S_ISREG(found.st_mode) and name not in _PIPED:
                raise InputError("this is no ordinary file.", file=name, value=name, hint=f"Name {noun}.")
            content = file.read(most + 1)
    except FileNotFoundError:
        raise InputError("there is no such file.", file=name, value=name, hint=missing) from None
    except IsADirectoryError:
        raise InputError("this is a folder, not a file.", file=name, value=name, hint=missing) from None
    except (OSError, ValueError) as reason:  # ValueError: a null character in the name
        if isinstance(reason, InputError):
            raise
        why = reason.strerror if isinstance(reason, OSError) and reason.strerror else str(reason)
        raise InputError(f"the file cannot be read: {why}.", file=name, value=name) from None
    if len(content) > most:
        hint = f"At most {most / 1e6:g} MB are read."
        raise InputError(f"the file is too large for {noun}.", file=name, value=name, hint=hint)
    return content


def _without_waiting(name: str, flags: int) -> int:
    """Open without waiting for somebody to write into a pipe."""
    if name not in _PIPED and Path(name).is_fifo():
        hint = "Name a file; a pipe can be read as /dev/stdin."
        raise InputError("this is no ordinary file.", file=name, value=name, hint=hint)
    return os.open(name, flags)
