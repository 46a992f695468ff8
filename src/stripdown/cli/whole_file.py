"""Files that are there whole or not at all."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from stripdown.errors import InputError


def write_whole(path: Path, content: bytes, *, replace: bool) -> None:
    """Write a file beside its place, then move it there."""
    if not replace and os.path.lexists(path):
        raise _there_already(path)
    if path.parent.exists() and not path.parent.is_dir():
        raise InputError("this is a file, not a folder; nothing was written.", file=str(path.parent), value=str(path.parent))
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
    except (OSError, ValueError) as reason:  # ValueError: a null character in the name
        raise _cannot_be_written(path, reason) from None
    part = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        part.chmod(0o666 & ~_umask())
        _move(part, path, replace=replace)
    except FileExistsError:
        raise _there_already(path) from None
    except OSError as reason:
        raise _cannot_be_written(path, reason) from None
    finally:
        part.unlink(missing_ok=True)


def _move(part: Path, path: Path, *, replace: bool) -> None:
    if replace:
        part.replace(path)
        return
    try:
        os.link(part, path)  # unlike a rename, this fails if somebody made the file meanwhile
    except FileExistsError:
        raise
    except OSError:  # a memory stick's file system knows no links
        part.replace(path)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _there_already(path: Path) -> InputError:
    return InputError(
        "there is such a file already; nothing was written.",
        file=str(path),
        value=str(path),
        hint="Choose another name, or move it.",
    )


def _cannot_be_written(path: Path, reason: Exception) -> InputError:
    why = reason.strerror if isinstance(reason, OSError) and reason.strerror else str(reason)
    return InputError(f"the file cannot be written: {why}.", file=str(path), value=str(path))
