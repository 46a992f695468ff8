"""Typical guns of the catalogue: whole, healthy, and without brand."""

from __future__ import annotations

import pytest

from stripdown.catalogue.defaults import load_defaults
from stripdown.catalogue.guns import load_guns, read_guns
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.errors import CatalogueError
from stripdown.quantities import is_usual, leaves, value_at

_GUN = """[gun.mine]
name = "mine"
footing = "common_practice"
where = "x"
[gun.mine.differs]
barrel.length = "285 mm"
cylinder.port_1.count = 1
piston.vented = false
"""


def test_a_gun_is_the_defaults_with_what_differs() -> None:
    """What an entry names is replaced, everything else stands."""
    gun = read_guns(_GUN, file="my.toml")["mine"]
    replaced = {"barrel.length": 0.285, "cylinder.port_1.count": 1, "piston.vented": False}
    for path, default in load_defaults().items():
        assert value_at(gun.parameters, path) == replaced.get(path, default.value)
    assert gun.differs["barrel.length"].text == "285 mm"


@pytest.mark.parametrize("key", load_guns())
def test_every_figure_of_a_typical_gun_is_usual(key: str) -> None:
    """A typical gun has nothing that a check would call doubtful."""
    for leaf in leaves(ShotParameters):
        value = value_at(load_guns()[key].parameters, leaf.path)
        if leaf.quantity is not None:
            assert is_usual(value, leaf.quantity), leaf.path


@pytest.mark.parametrize("key", load_guns())
def test_ports_end_where_the_layouts_of_the_trade_have_them(key: str) -> None:
    """The seal line passes the port's end between 0.2 and 0.45 of the stroke (common practice, no source), or there is none."""
    cylinder = load_guns()[key].parameters.cylinder
    ends = [(port.start + port.length) / cylinder.stroke for port in cylinder.ports() if port.count]
    assert all(0.15 <= end <= 0.45 for end in ends)


@pytest.mark.parametrize(
    ("old", "new", "field", "said"),
    [
        ("barrel.length", "barrel.lenght", "gun.mine.differs.barrel.lenght", "is no parameter of a shot"),
        ('"285 mm"', '"285 g"', "gun.mine.differs.barrel.length", "is a mass, not a length"),
        ('"285 mm"', '"9 m"', "gun.mine.differs.barrel.length", "impossible"),
        (
            'barrel.length = "285 mm"',
            'cylinder.port_1.start = "50 mm"',
            "gun.mine.differs.cylinder.port_1.length",
            "beyond the stroke",
        ),
        ("[gun.mine.differs]", "[gun.mine.changes]", "gun.mine.changes", "means nothing here"),
    ],
)
def test_a_gun_that_breaks_the_rules_is_refused(old: str, new: str, field: str, said: str) -> None:
    """With file, entry and field."""
    with pytest.raises(CatalogueError) as caught:
        read_guns(_GUN.replace(old, new), file="my.toml")
    assert said in str(caught.value)
    assert (caught.value.file, caught.value.field) == ("my.toml", field)
