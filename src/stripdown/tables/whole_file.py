"""Files that are there whole or not at all, and never in the place of something that is not of their sort."""

from __future__ import annotations

import contextlib
import errno
import os
import stat
import tempfile
from collections.abc import Iterator
from pathlib import Path

from stripdown.errors import InputError

_SORTS = {b"%PDF-": "PDF", b"<svg": "SVG picture", b"\x89PNG": "PNG picture", b"<!DOCTYPE html": "page"}


def write_whole(path: Path, content: bytes, *, replace: bool) -> None:
    """Write a file where nobody sees it, then put it in its place; it replaces only what is of its own sort."""
    place = _place(path, content, replace=replace)
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        with _unseen(place.parent, content) as part:
            _put(part, place, replace=replace)
    except FileExistsError:
        raise _there_already(path) from None
    except (OSError, ValueError) as reason:  # ValueError: a null character in the name
        raise _cannot_be_written(path, reason) from None


def _place(path: Path, content: bytes, *, replace: bool) -> Path:
    """Where to write, a link followed; refuses what is no ordinary file, and what somebody else may miss."""
    if not replace and os.path.lexists(path):
        raise _there_already(path)
    try:
        place = path.resolve() if path.is_symlink() else path
        if place.parent.exists() and not place.parent.is_dir():
            raise InputError("this is a file, not a folder; nothing was written.", file=str(path.parent), value=str(path.parent))
        if not os.path.lexists(place):
            return place
        if not stat.S_ISREG(place.stat().st_mode):
            raise InputError("this is no ordinary file; nothing was written.", file=str(path), value=str(path))
        with place.open("rb") as there:
            old = there.read(max(map(len, _SORTS)))
    except (OSError, ValueError, RuntimeError) as reason:  # RuntimeError: links in a circle
        if isinstance(reason, InputError):
            raise
        raise _cannot_be_written(path, reason) from None
    sort = next((start for start in _SORTS if content.startswith(start)), None)
    if old and sort is not None and not old.startswith(sort):
        hint = "Choose another name: it may be something that you need."
        raise InputError(f"this is no {_SORTS[sort]}; nothing was written.", file=str(path), value=str(path), hint=hint)
    return place


@contextlib.contextmanager
def _unseen(folder: Path, content: bytes) -> Iterator[str]:
    """A name under which the content can be linked: of a file without a name of its own, so that a kill leaves nothing."""
    try:
        handle, name = os.open(folder, os.O_TMPFILE | os.O_WRONLY, 0o666), ""
    except (OSError, AttributeError):  # a system, or a file system, without such files
        handle, name = tempfile.mkstemp(prefix=".stripdown-", dir=folder)
        os.chmod(name, 0o666 & ~_umask())  # noqa: PTH101  beside a name from `tempfile`
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
            yield name or f"/proc/self/fd/{file.fileno()}"
    finally:
        if name:
            with contextlib.suppress(FileNotFoundError):
                os.unlink(name)  # noqa: PTH108


def _put(part: str, place: Path, *, replace: bool) -> None:
    """Link a file into its place, or, where something is to be replaced, rename it there."""
    try:
        _link(part, place)  # unlike a rename, this fails if somebody made the file meanwhile
    except FileExistsError:
        if not replace:
            raise
        beside = place.with_name(f".stripdown-{os.getpid()}")
        beside.unlink(missing_ok=True)
        _link(part, beside)
        try:
            beside.replace(place)
        finally:
            beside.unlink(missing_ok=True)
    except OSError as reason:  # a memory stick's file system knows no links
        if reason.errno not in {errno.EOPNOTSUPP, errno.EPERM, errno.EXDEV, errno.ENOSYS} or part.startswith("/proc/"):
            raise
        os.replace(part, place)  # noqa: PTH105


def _link(part: str, place: Path) -> None:
    # With a folder named, a link in /proc is followed to the file that it stands for.
    folder = os.open(place.parent, os.O_RDONLY)
    try:
        os.link(part, place, src_dir_fd=folder, follow_symlinks=True)
    finally:
        os.close(folder)


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
