"""A gun's file becomes a gun: what is written is kept as typed, in SI, with its line."""

from __future__ import annotations

import dataclasses
import hashlib
from collections.abc import Callable
from pathlib import Path

import pytest

from stripdown.bench.gun import Gun
from stripdown.files.gun import check_gun, load_gun, read_gun
from stripdown.files.gun_fields import TABLES

_EXAMPLES = sorted((Path(__file__).parents[3] / "examples").glob("brackenmoor-*.toml"))
Write = Callable[[str], Path]


@pytest.fixture
def write(tmp_path: Path) -> Write:
    """Write a gun's file and return its path."""

    def write(text: str) -> Path:
        path = tmp_path / "gun.toml"
        path.write_text(text, encoding="utf-8")
        return path

    return write


_FULL = """# a gun
[gun]
name = "Rack 7"
note = "measured on a Tuesday"
invented = true

[spring]
rate = "0,52 N/mm"  # decimal comma

[[cylinder.port]]
start = "2.4 mm"
length = "8 mm"
width = "4 mm"
count = 2

[cylinder]
"bore" = "23.80 mm"

[piston]
vented = false

[cylinder_head]
restitution = 0.4

[laws]
cylinder_heat_law = "woschni"
"""


def test_what_is_written_is_kept_as_typed_and_in_si(write: Write) -> None:
    """Each value has its SI number and the text that was typed; one with a decimal comma its line."""
    path = write(_FULL)
    gun, digest = read_gun(path)
    check = check_gun(path)
    assert (gun.name, gun.note, gun.invented, gun.origin) == ("Rack 7", "measured on a Tuesday", True, "gun.toml")
    assert digest == hashlib.sha256(_FULL.encode()).hexdigest()
    seen = {path: (found.value, found.text) for path, found in gun.written.items()}
    assert seen == {
        "spring.rate": (520.0, "0,52 N/mm"),
        "cylinder.port_1.start": (0.0024, "2.4 mm"),
        "cylinder.port_1.length": (0.008, "8 mm"),
        "cylinder.port_1.width": (0.004, "4 mm"),
        "cylinder.port_1.count": (2, "2"),
        "cylinder.bore": (0.0238, "23.80 mm"),
        "piston.vented": (False, "no"),
        "cylinder_head.restitution": (0.4, "0.4"),
        "laws.cylinder_heat_law": (2, "woschni"),
    }
    assert (check.reworded["spring.rate"].line, check.reworded["spring.rate"].understood) == (8, "0.52 N/mm")


def test_a_gun_cannot_be_changed(write: Write) -> None:
    """It is what the file said; a change belongs in the file or in a variation."""
    gun = load_gun(write(_FULL))
    with pytest.raises(dataclasses.FrozenInstanceError):
        gun.name = "other"  # type: ignore[misc]
    with pytest.raises(TypeError):
        gun.written["spring.rate"] = gun.written["cylinder.bore"]  # type: ignore[index]


def test_a_gun_without_a_name_is_called_after_its_file(write: Write) -> None:
    """A file of one line is a gun."""
    gun = load_gun(write('[spring]\nrate = "500 N/m"\n'))
    assert (gun.name, gun.note, gun.invented) == ("gun", "", False)


def test_dotted_keys_say_the_same_as_tables(write: Write) -> None:
    """TOML allows both, so both are read."""
    gun = load_gun(write('spring.rate = "500 N/m"\ncylinder.bore = "23.7 mm"\n'))
    assert gun.written["spring.rate"].value == 500.0
    assert gun.written["cylinder.bore"].value == 0.0237


def test_a_decimal_comma_is_understood_and_said(write: Write) -> None:
    """1,2 mm is 1.2 mm, never 12: the check prints how it was read."""
    check = check_gun(write('[spring]\nwire_diameter = "1,2 mm"\n'))
    assert check.gun is not None
    assert check.gun.written["spring.wire_diameter"].value == 0.0012
    assert check.reworded["spring.wire_diameter"].understood == "1.2 mm"


def test_the_spring_may_be_given_by_wire_and_coils(write: Write) -> None:
    """Rate from G d^4 / (8 D^3 n), the outer diameter and all coils standing in for mean diameter and active coils."""
    text = '[spring]\nwire_diameter = "1.3 mm"\n{0} = "{1} mm"\n{2} = {3}\n'
    expected = 79.3e9 * 0.0013**4 / (8 * 0.0117**3 * 33.5)  # derived: the formula, with ASTM A228 wire
    for fields in (("mean_diameter", "11.7", "active_coils", "33.5"), ("outer_diameter", "13.0", "total_coils", "35.5")):
        (derived,) = check_gun(write(text.format(*fields))).derived
        assert derived.path == "spring.rate"
        assert derived.value == pytest.approx(expected, rel=1e-12)


def test_another_wire_has_another_rate(write: Write) -> None:
    """The rate goes as the shear modulus of the material that is named."""
    text = '[spring]\nwire_diameter = "1.3 mm"\nmean_diameter = "11.7 mm"\nactive_coils = 33\nwire_material = "{}"\n'
    music, patented = (check_gun(write(text.format(name))).derived[0].value for name in ("music_wire", "patented_steel"))
    assert patented / music == pytest.approx(81.5 / 79.3)


def test_a_measured_rate_wins_over_coils_and_label(write: Write) -> None:
    """A figure that was measured is never replaced."""
    text = (
        '[spring]\nrate = "540 N/m"\nlabel = "M100"\nwire_diameter = "1.3 mm"\nmean_diameter = "11.7 mm"\nactive_coils = 33.5\n'
    )
    check = check_gun(write(text))
    assert not check.derived
    assert check.gun is not None
    assert check.gun.written["spring.rate"].value == 540.0


def test_the_preload_may_be_given_by_two_lengths(write: Write) -> None:
    """Free length less fitted length."""
    (derived,) = check_gun(write('[spring]\nfree_length = "170 mm"\nfitted_length = "115 mm"\n')).derived
    assert derived.path == "spring.preload"
    assert derived.value == pytest.approx(0.055)


@pytest.mark.parametrize("path", _EXAMPLES, ids=lambda path: path.stem)
def test_the_examples_can_be_used_and_say_that_they_are_invented(path: Path) -> None:
    """Brackenmoor is no club, and nobody shall take its figures for measurements."""
    gun = load_gun(path)
    assert gun.invented
    assert "nvented" in gun.note
    assert "nvented" in path.read_text(encoding="utf-8").splitlines()[0] + path.read_text(encoding="utf-8").splitlines()[1]


def test_the_example_guns_are_one_gun_in_two_states() -> None:
    """As found and healthy differ in piston seal, lips and drag, and in nothing else that is measured."""
    found, healthy = (load_gun(path) for path in _EXAMPLES)
    differing = {path for path in found.written if found.written[path].value != healthy.written[path].value}
    assert found.written.keys() == healthy.written.keys()
    assert differing == {"leaks.piston_seal", "leaks.hop_lip", "piston.seal_drag"}


def test_every_field_explains_itself() -> None:
    """The template, the documents and the mistakes all rest on it."""
    for table in TABLES.values():
        for field in table.values():
            assert field.explain.endswith((".", '."')), field.path


def test_a_gun_is_a_plain_record() -> None:
    """Its fields are those that studies and reports read."""
    assert [field.name for field in dataclasses.fields(Gun)] == ["name", "note", "invented", "origin", "variation", "written"]
