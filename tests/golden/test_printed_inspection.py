"""What `stripdown inspect` and `stripdown complaint` print for people, as it was last accepted.

Goldens: this program printed them from its own data, and they prove nothing but that words and layout did not change unseen. To
accept new ones: ``python -m tests.golden.test_printed_inspection`` with ``src`` on the path, and a line in the changelog.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from rich.console import Console

from stripdown.cli.printed_complaint import print_complaint, print_complaints
from stripdown.cli.printed_inspect import print_inspection, print_parts
from stripdown.procedures.complaints import load_complaints
from stripdown.procedures.damage import load_damage
from stripdown.procedures.inspection import load_inspection
from stripdown.procedures.loading import load_procedures

_FOLDER = Path(__file__).parent / "printed_inspection"


def _inspection(console: Console, words: str, variation: str) -> None:
    sheet = load_inspection().sheet(variation)
    parts = sheet.parts_named(words)
    keys = {part.key for part in parts}
    print_inspection(console, sheet, parts, [one for one in load_damage().patterns(variation) if keys & set(one.parts)])


def _complaint(console: Console, words: str, variation: str) -> None:
    print_complaint(console, load_procedures().procedure(variation), load_complaints().find(words, variation))


def _prints() -> Mapping[str, Callable[[Console], None]]:
    return {
        "parts": lambda console: print_parts(console, load_inspection().sheet("")),
        "piston": lambda console: _inspection(console, "piston", ""),
        "seals": lambda console: _inspection(console, "seals", "version 3"),
        "bevel-gear": lambda console: _inspection(console, "bevel gear", ""),
        "complaints": lambda console: print_complaints(console, load_complaints().trees("").values()),
        "will-not-fire": lambda console: _complaint(console, "dead", "version 3, electronic, latch deleted"),
        "low-velocity": lambda console: _complaint(console, "low velocity", ""),
    }


def _printed(name: str) -> str:
    out = io.StringIO()
    _prints()[name](Console(file=out, width=80, highlight=False, markup=False, emoji=False))
    return "".join(f"{line.rstrip()}\n" for line in out.getvalue().splitlines())


@pytest.mark.parametrize("name", sorted(_prints()))
def test_a_print_says_what_was_accepted(name: str) -> None:
    """Looks, grades, words of the standard, damage and trees, line by line."""
    assert _printed(name) == (_FOLDER / f"{name}.txt").read_text(encoding="utf-8")


if __name__ == "__main__":
    _FOLDER.mkdir(exist_ok=True)
    for _name in _prints():
        (_FOLDER / f"{_name}.txt").write_text(_printed(_name), encoding="utf-8")
