"""docs/gun-file.md explains every field as it is declared, and its examples are right."""

from __future__ import annotations

import re
from pathlib import Path

from stripdown.files.gun import check_gun
from stripdown.files.gun_fields import TABLES
from tests.documents.gun_file_tables import tables_in, with_tables

_DOCS = Path(__file__).parents[3] / "docs"
_PAGE = (_DOCS / "gun-file.md").read_text(encoding="utf-8")


def test_the_page_has_every_table_with_every_field_as_declared() -> None:
    """`python -m tests.documents.gun_file_tables docs/gun-file.md` remakes the tables."""
    assert tables_in(_PAGE) == list(TABLES)
    assert with_tables(_PAGE) == _PAGE
    for table in TABLES.values():
        for field in table.values():
            assert f"| `{field.name}` |" in _PAGE


def test_the_examples_of_the_page_are_files_that_can_be_used(tmp_path: Path) -> None:
    """What is shown can be copied."""
    examples = re.findall(r"```toml\n(.*?)```", _PAGE, re.DOTALL)
    assert examples
    for number, example in enumerate(examples):
        path = tmp_path / f"{number}.toml"
        path.write_text(example, encoding="utf-8")
        check = check_gun(path)
        assert not check.wrong
        assert not check.doubtful


def test_the_drawings_are_there_and_speak_to_those_who_cannot_see_them() -> None:
    """Each picture has words beside it and a title inside."""
    drawings = re.findall(r"!\[(.+?)\]\((.+?)\)", _PAGE)
    assert len(drawings) == 3
    for _, file in drawings:
        assert "<title" in (_DOCS / file).read_text(encoding="utf-8")


def test_the_drawings_name_fields_as_the_file_does() -> None:
    """A word with an underscore in a drawing is a field of a gun's file."""
    known = {field.name for table in TABLES.values() for field in table.values()} | set(TABLES)
    for drawing in (_DOCS / "drawings").glob("*.svg"):
        words = re.findall(
            r"\b[a-z]+(?:_[a-z]+)+\b", " ".join(re.findall(r">([^<]+)</text>", drawing.read_text(encoding="utf-8")))
        )
        assert words
        assert set(words) <= known
