"""A technician's file: every mistake is collected, each with its line, and one is raised that counts the others."""

from __future__ import annotations

from pathlib import Path

import pytest

from stripdown.errors import InputError, OutOfRange
from stripdown.quantities import Q
from stripdown.tables.reader import TableReader, first_of
from stripdown.tables.toml_file import read_toml
from stripdown.tables.values import Kind, read_value, read_values

_LENGTH = Q("m", low=0.0, high=0.2, usual=(0.02, 0.03), label="bore", shown="mm")
_TABLES: dict[str, dict[str, Kind]] = {"box": {"name": str, "bore": _LENGTH}, "ring": {"count": int, "is_dry": bool}}


def _reader(folder: Path, text: str) -> TableReader[Kind]:
    file = folder / "box.toml"
    file.write_text(text, encoding="utf-8")
    return TableReader(read_toml(file), _TABLES, lambda kind, raw, field: read_value(raw, kind, field=field), noun="a box")


def test_what_is_right_is_read_and_what_is_wrong_is_collected_with_its_line(tmp_path: Path) -> None:
    """Nothing stops at the first mistake."""
    reader = _reader(tmp_path, '[box]\nname = "b"\nbore = "9 m"\nbroe = 1\n\n[[ring]]\ncount = 2\n\n[rong]\n')
    found = dict(reader.known_tables(_TABLES))
    assert reader.table("box", found["box"], ("box",)) == {"name": "b"}
    assert reader.tables("ring", found["ring"], ("is_dry",)) == [{"count": 2}]
    assert sorted((one.line, one.message) for one in reader.wrong) == [
        (3, 'box.bore = "9 m" (bore) is impossible.'),
        (4, "[box] has no field broe."),
        (6, "[[ring]] has no is_dry."),
        (9, "[rong] is no table of a box."),
    ]
    with pytest.raises(OutOfRange, match=r"line 3: .* between 0 and 0.2 m; usual is 0.02 to 0.03 m\. There are 3 more"):
        reader.refuse()


def _refuse(field: str) -> None:
    raise InputError("no.", field=field)


@pytest.mark.parametrize(
    ("text", "mistake"),
    [
        ("name = 1\n", r"line 1: name stands above all tables\. Move it under \[box\]"),
        ("box = 1\n", r"line 1: box is a table, not a value\. Write \[box\]"),
        ("[[box]]\n", r"line 1: box is one table, not a list"),
        ("[ring]\n", r"line 1: ring is a list of tables\. Write \[\[ring\]\]"),
        ("[box.name]\n", r"line 1: box\.name is a value, not a table"),
    ],
)
def test_a_thing_in_the_wrong_place_is_told_where_it_belongs(tmp_path: Path, text: str, mistake: str) -> None:
    """A field above the tables, a value for a table, a table for a list or a value."""
    reader = _reader(tmp_path, text)
    for name, content in reader.known_tables(_TABLES):
        if name == "ring":
            reader.tables(name, content)
        else:
            reader.table(name, content, (name,))
    with pytest.raises(InputError, match=mistake):
        reader.refuse()


def test_a_rule_is_told_at_the_field_that_it_names_or_at_its_table(tmp_path: Path) -> None:
    """So that the eye goes where the hand must."""
    reader = _reader(tmp_path, '[box]\nname = "b"\n[[ring]]\ncount = 1\n')
    for field in ("box.name", "elsewhere"):
        with reader.rule("ring"):
            _refuse(field)
    assert [one.line for one in reader.wrong] == [2, 3]
    assert str(first_of(reader.wrong, more_at="look again")).endswith("There is one more mistake: look again.")


def test_one_value_stands_for_a_list_of_one() -> None:
    """Each value of a list is read as one alone would be."""
    assert read_values("1 mm", _LENGTH, field="x") == (0.001,)
    assert read_values(["1 mm", "0,2 mm"], _LENGTH, field="x") == (0.001, 0.0002)
    with pytest.raises(InputError, match=r"x holds a control character \(U\+001B\)"):
        read_values(["a\x1b"], str, field="x")
