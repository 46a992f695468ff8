"""Entries of a catalogue: nothing claims to be known better than it is."""

from __future__ import annotations

import pytest

from stripdown.catalogue.balls import load_balls, read_balls
from stripdown.catalogue.springs import load_springs, read_springs
from stripdown.catalogue.wires import DEFAULT_WIRE, load_wires, read_wires
from stripdown.errors import CatalogueError
from stripdown.references.provenance import Footing

_WIRE = """[wire.my_wire]
name = "my wire"
shear_modulus = "80 GPa"
footing = "published"
source = "astm_a228"
where = "table 1"
"""


def test_an_entry_is_read_with_its_provenance() -> None:
    """Value in SI, footing, source and place."""
    wire = read_wires(_WIRE, file="my.toml")["my_wire"]
    assert (wire.name, wire.shear_modulus) == ("my wire", 80e9)
    assert (wire.provenance.footing, wire.provenance.source, wire.provenance.where) == (
        Footing.PUBLISHED,
        "astm_a228",
        "table 1",
    )


@pytest.mark.parametrize(
    ("old", "new", "field", "said"),
    [
        ("80 GPa", "80 N", "wire.my_wire.shear_modulus", "is a force, not a pressure"),
        ("80 GPa", "80 MPa", "wire.my_wire.shear_modulus", "impossible"),
        ('shear_modulus = "80 GPa"\n', "", "wire.my_wire.shear_modulus", "must be a text"),
        ('"80 GPa"', "80e9", "wire.my_wire.shear_modulus", "must be a text"),
        ("published", "well known", "wire.my_wire.footing", "must be one of measured, published"),
        ('footing = "published"\n', "", "wire.my_wire.footing", "must be one of"),
        ('source = "astm_a228"\n', "", "wire.my_wire.source", "is missing, and the footing is published"),
        ("published", "common_practice", "wire.my_wire.source", "contradicts the footing"),
        ("astm_a228", "astm_a229", "wire.my_wire.source", "Did you mean astm_a228"),
        ('where = "table 1"\n', "", "wire.my_wire.where", "must be a text"),
        ("name =", "nmae =", "wire.my_wire.nmae", "means nothing here. Did you mean name?"),
        ("wire.my_wire", "wire.MyWire", "wire.MyWire.key", "small letters"),
        ("wire.my_wire", "spring.my_wire", "spring", "Known is wire"),
        ("[wire.my_wire]", "[wire.my_wire", None, "not TOML"),
    ],
)
def test_an_entry_that_breaks_the_rules_is_refused(old: str, new: str, field: str | None, said: str) -> None:
    """With file, entry and field: a figure without a source cannot slip in."""
    assert old in _WIRE
    with pytest.raises(CatalogueError) as caught:
        read_wires(_WIRE.replace(old, new), file="my.toml")
    assert said in str(caught.value)
    assert (caught.value.file, caught.value.field) == ("my.toml", field)


def test_springs_carry_what_a_label_stands_for() -> None:
    """A stronger label is a stiffer spring, and two of one label differ by a tenth (common practice, no source)."""
    springs = list(load_springs().values())
    assert [spring.name for spring in springs] == ["M80", "M90", "M100", "M110", "M120", "M130", "M140"]
    assert [spring.spring.rate for spring in springs] == sorted(spring.spring.rate for spring in springs)
    for spring in springs:
        assert spring.key == spring.name.lower()
        assert spring.rate_uncertainty == pytest.approx(0.1 * spring.spring.rate, rel=0.02)
        assert spring.provenance.footing is Footing.COMMON_PRACTICE


def test_a_spring_without_its_uncertainty_is_refused() -> None:
    """A label that pretends to be exact would be worse than none."""
    text = '[spring.m1]\nname = "M1"\nrate = "500 N/m"\npreload = "55 mm"\nmass = "14 g"\nfree_length = "170 mm"\n'
    with pytest.raises(CatalogueError, match=r"spring\.m1\.uncertainty\] rate must be a text"):
        read_springs(text + 'footing = "common_practice"\nwhere = "x"\n', file="my.toml")


def test_balls_come_from_light_to_heavy() -> None:
    """A sweep over masses takes them in this order; the key is the mass in hundredths of a gram."""
    balls = load_balls()
    masses = [ball.ball.mass for ball in balls.values()]
    assert masses == sorted(masses)
    assert (masses[0], masses[-1]) == (0.00012, 0.00048)
    for key, ball in balls.items():
        assert key == f"g{round(ball.ball.mass * 1e5):03d}"


def test_balls_are_sorted_whatever_the_file_says() -> None:
    """A user's own file need not be in order."""
    entry = '[ball.{0}]\nname = "{0}"\nmass = "{1} g"\ndiameter = "5.95 mm"\nuncertainty = {{ mass = "2 mg" }}\n'
    rest = 'footing = "common_practice"\nwhere = "x"\n'
    text = "".join(entry.format(key, mass) + rest for key, mass in (("heavy", 0.4), ("light", 0.2)))
    assert list(read_balls(text, file="my.toml")) == ["light", "heavy"]


def test_the_usual_wire_is_in_the_catalogue() -> None:
    """Coils without a material are taken to be of it. Published: 79.3 GPa (ASTM A228), 81.5 GPa (EN 10270-1)."""
    wires = load_wires()
    assert wires[DEFAULT_WIRE].shear_modulus == 79.3e9
    assert wires["patented_steel"].shear_modulus == 81.5e9
    assert wires["chrome_silicon"].provenance.footing is Footing.ESTIMATE
