"""One table of the program's own data: what is refused, and with what words."""

from __future__ import annotations

import pytest

from stripdown.errors import CatalogueError
from stripdown.quantities import Q
from stripdown.tables.table import Table, read_tables

_MASS = Q("kg", low=0.0, high=1.0, label="mass", shown="g")
_TEXT = '[a.one]\nname = "x"\nmass = "20 g"\nwords = ["p", "q", "p"]\nis_new = true\nshare = 2\n[[a.one.part]]\nkey = "k"\n'


def _one(text: str = _TEXT) -> Table:
    [table] = read_tables(text, file="a.toml", known=["a"]).sort("a")
    return table


def test_fields_are_read_by_their_type() -> None:
    """Words, numbers with units and without, switches, lists, and tables in tables."""
    table = _one()
    assert (table.key, table.text("name"), table.texts("words")) == ("one", "x", ("p", "q"))
    assert (table.quantity("mass", _MASS), table.number("share"), table.flag("is_new")) == (0.02, 2.0, True)
    assert (table.number("none"), table.amount("none"), table.texts("none"), table.text("none", default="")) == (
        None,
        0.0,
        (),
        "",
    )
    [part] = table.tables("part")
    assert (part.name, part.text("key")) == ("a.one.part", "k")
    assert table.table("none").fields == {}


def _read(text: str) -> None:
    table = _one(text)
    table.only("name", "mass", "words", "is_new", "share", "part")
    table.quantity("mass", _MASS)
    table.amount("share")
    table.tables("part")[0].text("key")


@pytest.mark.parametrize(
    ("old", "new", "line", "said"),
    [
        ('"20 g"', '"20 kg"', 3, '[a.one] mass = "20 kg" (mass) is impossible. It must lie between 0 and 1 kg.'),
        ('"20 g"', '"-1 g"', 3, "is impossible"),
        ("is_new", "is_nwe", 5, "[a.one] is_nwe = True means nothing here. Did you mean is_new?"),
        ("share = 2", "share = -2", 6, "must not be below zero"),
        ('key = "k"', "key = 1", 8, "[a.one.part] key = 1 must be a text"),
        ("[a.one]", "[b.one]", 1, '"b" means nothing here. Known is a.'),
        ("name = ", "name ", 2, "this is not TOML: a key stands without a value"),
    ],
)
def test_a_mistake_is_told_with_file_line_table_and_field(old: str, new: str, line: int, said: str) -> None:
    """And with what would be right."""
    with pytest.raises(CatalogueError) as caught:
        _read(_TEXT.replace(old, new))
    assert said in str(caught.value)
    assert (caught.value.file, caught.value.line) == ("a.toml", line)


def test_a_difference_has_no_limits_but_zero() -> None:
    """An uncertainty is no mass: it may be larger than one, and not below none."""
    assert Table("f", "t", {"by": "2 kg"}).quantity("by", _MASS, difference=True) == 2.0
    with pytest.raises(CatalogueError, match="must not be negative"):
        Table("f", "t", {"by": "-2 g"}).quantity("by", _MASS, difference=True)
