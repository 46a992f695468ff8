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

from stripdown.cli.rendered import print_answer
from stripdown.studies.looks import complaint_trees, inspect_parts
from stripdown.words.answer import Answer
from stripdown.words.complaints import complaint_answer, complaints_answer
from stripdown.words.inspection import inspection_answer, part_list_answer

_FOLDER = Path(__file__).parent / "printed_inspection"


_ANSWERS: Mapping[str, Callable[[], Answer]] = {
    "parts": lambda: part_list_answer(inspect_parts()),
    "piston": lambda: inspection_answer(inspect_parts("piston")),
    "seals": lambda: inspection_answer(inspect_parts("seals", variation="version 3")),
    "bevel-gear": lambda: inspection_answer(inspect_parts("bevel gear")),
    "complaints": lambda: complaints_answer(complaint_trees()),
    "will-not-fire": lambda: complaint_answer(complaint_trees("dead", variation="version 3, electronic, latch deleted")),
    "low-velocity": lambda: complaint_answer(complaint_trees("low velocity")),
}


def _printed(name: str) -> str:
    out = io.StringIO()
    print_answer(Console(file=out, width=80, highlight=False, markup=False, emoji=False), _ANSWERS[name]())
    return "".join(f"{line.rstrip()}\n" for line in out.getvalue().splitlines())


@pytest.mark.parametrize("name", sorted(_ANSWERS))
def test_a_print_says_what_was_accepted(name: str) -> None:
    """Looks, grades, words of the standard, damage and trees, line by line."""
    assert _printed(name) == (_FOLDER / f"{name}.txt").read_text(encoding="utf-8")


if __name__ == "__main__":
    _FOLDER.mkdir(exist_ok=True)
    for _name in _ANSWERS:
        (_FOLDER / f"{_name}.txt").write_text(_printed(_name), encoding="utf-8")
