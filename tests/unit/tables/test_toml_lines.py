"""Lines of a TOML file: right through comments, quotes, brackets in strings, dotted keys and arrays of tables."""

from __future__ import annotations

import json
import tomllib
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from stripdown.tables.toml_lines import find_lines

_TEXT = '''# [not.a.table]
title = "a # [b] = c"   # comment with "quotes" and [brackets]
[spring]
  rate = "500 N/m"

"wire.diameter" = '1.3 mm'
note = """several
[lines]
rate = "no"
"quoted" at the end"""
[ cylinder . "head" ]
sizes = [ 1, # one ]
  2,
  "]",
]
port.start = 3
[[port]]
start = 1
[[port]]
start = 2
[port.slot]
width = 4
'''


def test_headers_and_assignments_have_their_lines() -> None:
    """Nothing inside a comment, a string or an array is taken for a header or a key."""
    lines = find_lines(_TEXT)
    assert lines.tables == {("spring",): 3, ("cylinder", "head"): 11, ("port", 0): 17, ("port", 1): 19, ("port", 1, "slot"): 21}
    assert lines.keys == {
        ("title",): 2,
        ("spring", "rate"): 4,
        ("spring", "wire.diameter"): 6,
        ("spring", "note"): 7,
        ("cylinder", "head", "sizes"): 12,
        ("cylinder", "head", "port", "start"): 16,
        ("port", 0, "start"): 18,
        ("port", 1, "start"): 20,
        ("port", 1, "slot", "width"): 22,
    }
    assert lines.inline == frozenset()


def test_inline_tables_are_seen() -> None:
    """Alone, or as an array of tables."""
    lines = find_lines('a = { b = 1 }\nc = [ {d = 1},\n {d = 2} ]\ne = "{"\nf = ["{"]\n')
    assert lines.inline == {("a",), ("c",)}


def test_a_path_without_a_line_of_its_own_takes_the_nearest_around_it() -> None:
    """A missing field is told at its table; an unknown place has no line."""
    lines = find_lines("[a]\nb = 1\n[[c]]\nd = 1\n")
    assert lines.line(("a", "b")) == 2
    assert lines.line(("a", "missing")) == 1
    assert lines.line(("c",)) == 3
    assert lines.line(("elsewhere",)) is None
    assert find_lines("x = 1\na.b.c = 2\n").line(("a", "b")) == 2


_names = st.text(st.characters(codec="utf-8", categories=("L", "N", "P", "Z", "S")), min_size=1, max_size=6)
_values = st.one_of(
    st.integers(-99, 99).map(str),
    st.text(st.characters(codec="utf-8", exclude_characters="\x7f"), max_size=8).map(
        lambda text: json.dumps(text, ensure_ascii=False)
    ),
    st.sampled_from(["'''\n[x]\n'''", '"""\ny = "1"\n"""', "[1, # ]\n 2]", "true"]),
)


@given(
    tables=st.lists(
        st.tuples(_names, st.dictionaries(_names, _values, max_size=4), st.sampled_from(["", "# [c]\n", "\n\n"])),
        max_size=4,
        unique_by=lambda table: table[0],
    )
)
def test_every_key_of_any_document_is_found_on_its_line(tables: list[tuple[str, dict[str, str], str]]) -> None:
    """Whatever names and values are, each key that the standard reader finds stands on the line that is reported."""
    text = ""
    expected: dict[tuple[Any, ...], int] = {}
    for table, fields, before in tables:
        text += f"{before}[{json.dumps(table, ensure_ascii=False)}]\n"
        for name, value in fields.items():
            expected[table, name] = text.count("\n") + 1
            text += f"{json.dumps(name, ensure_ascii=False)} = {value}  # [d]\n"
    document = tomllib.loads(text)
    found = find_lines(text)
    assert found.keys == expected
    assert set(found.keys) == {(table, name) for table, fields in document.items() for name in fields}
