"""docs/visit-folder.md explains every field as it is declared, and its examples can be used."""

from __future__ import annotations

import re
from pathlib import Path

from stripdown.files.readings import read_readings
from stripdown.files.visit import load_case
from stripdown.files.visit_fields import TABLES
from tests.documents.visit_file_tables import tables_in, with_tables

_PAGE = (Path(__file__).parents[3] / "docs" / "visit-folder.md").read_text(encoding="utf-8")


def test_the_page_has_every_table_with_every_field_as_declared() -> None:
    """`python -m tests.documents.visit_file_tables docs/visit-folder.md` remakes the tables."""
    assert tables_in(_PAGE) == list(TABLES)
    assert with_tables(_PAGE) == _PAGE
    for table in TABLES.values():
        for field in table.values():
            assert f"| `{field.name}` |" in _PAGE
            assert field.explain


def test_the_examples_of_the_page_are_a_visit(tmp_path: Path) -> None:
    """What is shown can be copied: visit, and readings of which every line counts."""
    [case] = re.findall(r"```toml\n(.*?)```", _PAGE, re.DOTALL)
    [text] = re.findall(r"```text\n(.*?)```", _PAGE, re.DOTALL)
    (tmp_path / "visit.toml").write_text(case, encoding="utf-8")
    (tmp_path / "gun.toml").write_text("[gun]\nname = 'Rack 7'\n", encoding="utf-8")
    (tmp_path / "before.csv").write_text(text, encoding="utf-8")
    (tmp_path / "after.csv").write_text(text.replace("before", "after"), encoding="utf-8")
    found = load_case(tmp_path)
    assert found.limit is not None
    assert len(found.found) == 2
    assert found.notes == ()
    assert read_readings(text, file="x").left_out == ()
