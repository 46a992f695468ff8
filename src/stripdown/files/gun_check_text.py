"""What a check of a gun's file says, as plain text."""

from __future__ import annotations

from collections.abc import Iterator

from stripdown.bench.gun import Assumed
from stripdown.files.gun import GunCheck

_LAWS = "laws."


def check_text(check: GunCheck) -> str:
    """Say what is wrong, doubtful, reworded, computed and assumed in a gun's file."""
    return "\n".join(_lines(check)) + "\n"


def _lines(check: GunCheck) -> Iterator[str]:
    if check.gun is None:
        yield f"{check.path}: {_count(len(check.wrong), 'complaint')}; the gun cannot be used as it stands."
    else:
        invented = " (invented)" if check.gun.invented else ""
        yield f"{check.path}: {check.gun.name}{invented}, can be used."
    if check.wrong:
        yield "\nWrong"
        yield from (f"  {complaint}" for complaint in check.wrong)
    if check.doubtful:
        yield "\nDoubtful: possible, and unusual; look again"
        yield from (f"  {'' if doubt.line is None else f'line {doubt.line}: '}{doubt.message}" for doubt in check.doubtful)
    if check.reworded:
        yield "\nRead with a decimal comma"
        yield from (
            f'  line {found.line}: {path} = "{found.text}" is read as {found.understood}'
            for path, found in check.reworded.items()
        )
    if check.derived:
        yield "\nComputed from what is written"
        yield from (f"  {derived.path} = {derived.text}: {derived.reason}" for derived in check.derived)
    parts = [entry for entry in check.missing if not entry.path.startswith(_LAWS)]
    if parts:
        yield "\nMissing, so assumed"
        yield from _assumed(parts)
    laws = [entry for entry in check.missing if entry.path.startswith(_LAWS)]
    if laws:
        yield f"\nCoefficients of the model, as the catalogue has them: {len(laws)} (write a table [laws] to change one)"


def _assumed(entries: list[Assumed]) -> Iterator[str]:
    path_width = max(len(entry.path) for entry in entries)
    text_width = max(len(entry.text) for entry in entries)
    for entry in entries:
        yield f"  {entry.path:<{path_width}}  {entry.text:<{text_width}}  {entry.footing.words}: {entry.reason}"


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
