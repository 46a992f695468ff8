"""The file to start from: every field explained, loads cleanly as it is and with every comment mark taken away."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stripdown.bench.gun import gun_values
from stripdown.catalogue.defaults import load_defaults
from stripdown.catalogue.guns import load_guns
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.errors import InputError
from stripdown.files.gun import check_gun, load_gun
from stripdown.files.gun_fields import TABLES
from stripdown.files.gun_template import gun_template
from stripdown.quantities import leaves, value_at


def _saved(tmp_path: Path, text: str) -> Path:
    path = tmp_path / "gun.toml"
    path.write_text(text, encoding="utf-8")
    return path


def _uncommented(text: str) -> str:
    """Take the mark away before every field and header, as a technician would who measured everything."""
    names = {f"# {field.name} =" for table in TABLES.values() for field in table.values()} | {"# [[cylinder.port]]"}
    return "\n".join(
        line.removeprefix("# ") if any(line.startswith(name) for name in names) else line for line in text.splitlines()
    )


def test_the_template_loads_cleanly(tmp_path: Path) -> None:
    """Nothing wrong, nothing doubtful, nothing written but the name."""
    check = check_gun(_saved(tmp_path, gun_template(name='Rack "7"')))
    assert check.gun is not None
    assert check.gun.name == 'Rack "7"'
    assert not check.gun.written
    assert not check.doubtful


def test_every_field_stands_in_the_template_with_its_explanation() -> None:
    """Nobody has to look elsewhere to know what can be written."""
    text = gun_template()
    words = " ".join(line.removeprefix("#") for line in text.splitlines()).replace("  ", " ")
    for table in TABLES.values():
        for field in table.values():
            assert f"{field.name} = " in text
            if field.table != "gun":
                assert field.explain in words, field.path


def test_every_figure_of_the_template_is_a_right_one(tmp_path: Path) -> None:
    """With all marks taken away only the rivals among the fields contradict each other: one rule, said once."""
    text = _uncommented(gun_template()).replace("ported = false\n", "")
    rivals = ("wire_diameter", "mean_diameter", "outer_diameter", "active_coils", "total_coils", "free_length", "fitted_length")
    without_rivals = "\n".join(line for line in text.splitlines() if not line.startswith((*rivals, "label", "wire_material")))
    check = check_gun(_saved(tmp_path, without_rivals))
    assert not check.wrong
    assert not check.doubtful
    assert check.missing == ()


@pytest.mark.parametrize("layout", load_guns())
def test_a_layout_is_written_so_that_it_loads_as_that_gun(tmp_path: Path, layout: str) -> None:
    """The figures in which a typical gun differs stand without a mark, the others are those that are assumed."""
    gun = load_gun(_saved(tmp_path, gun_template(layout=layout)))
    values = gun_values(gun.written).values
    typical = load_guns()[layout]
    for leaf in leaves(ShotParameters):
        if not leaf.path.startswith(("ambient.", "cylinder.port_2", "cylinder.port_3")):
            assert values[leaf.path] == value_at(typical.parameters, leaf.path), leaf.path
    assert set(gun.written) == set(typical.differs)


@pytest.mark.parametrize("layout", [key for key, gun in load_guns().items() if gun.differs])
def test_figures_of_a_layout_stay_assumed_until_somebody_measures(tmp_path: Path, layout: str) -> None:
    """They are nobody's measurements: each is assumed until it is changed or its mark is taken away."""
    text = gun_template(layout=layout)
    differs = load_guns()[layout].differs
    check = check_gun(_saved(tmp_path, text))
    assert {one.path for one in check.missing if one.is_typical} == set(differs)
    confirmed = check_gun(_saved(tmp_path, text.replace(", typical", "")))
    assert not [one for one in confirmed.missing if one.is_typical]
    assert confirmed.gun is not None
    assert check.gun is not None
    assert gun_values(confirmed.gun.written).values == gun_values(check.gun.written).values


def test_a_typical_figure_that_was_changed_is_doubted(tmp_path: Path) -> None:
    """Who put a figure of their own in front of the word has measured it, and forgot the word."""
    check = check_gun(_saved(tmp_path, '[barrel]\nlength = "301 mm, typical"\n'))
    assert [doubt.line for doubt in check.doubtful] == [2]
    assert 'take "typical" away' in check.doubtful[0].message


@pytest.mark.parametrize("written", ['"285 mm, typical"', '"285 mm typical"', '"285 mm (typical)"', '"28.5 cm;  Typical "'])
def test_the_word_may_stand_as_people_write(tmp_path: Path, written: str) -> None:
    """With a comma, without, in brackets, in any case; what is in front of it is read as ever."""
    check = check_gun(_saved(tmp_path, f"[barrel]\nlength = {written}\n"))
    assert [(one.path, one.value) for one in check.missing if one.is_typical] == [("barrel.length", 0.285)]


def test_a_typical_rate_gives_way_to_measured_coils(tmp_path: Path) -> None:
    """Measured wire and coils, or lengths, do not contradict a figure that nobody measured: they take its place."""
    coils = 'wire_diameter = "1.30 mm"\nmean_diameter = "11.7 mm"\nactive_coils = 33.5\n'
    lengths = 'free_length = "170 mm"\nfitted_length = "120 mm"\n'
    text = f'[spring]\nrate = "460 N/m, typical"\npreload = "55 mm, typical"\n{coils}{lengths}'
    check = check_gun(_saved(tmp_path, text))
    assert not check.wrong
    assert not [one for one in check.missing if one.is_typical]
    assert {one.path for one in check.derived} == {"spring.rate", "spring.preload"}


def test_an_unknown_layout_is_refused_with_those_that_there_are() -> None:
    """The message is the list."""
    with pytest.raises(InputError, match="carbine, short_carbine"):
        gun_template(layout="cannon")


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(name=st.text(min_size=1).filter(str.strip))
def test_any_name_survives(tmp_path: Path, name: str) -> None:
    """Quotes, backslashes, control characters: the name is data and comes back as it was."""
    gun = load_gun(_saved(tmp_path, gun_template(name=name)))
    assert gun.name == name.encode("utf-8", "replace").decode("utf-8")


def test_the_template_offers_what_is_assumed() -> None:
    """A commented figure is the one that stands in for it."""
    text = gun_template()
    for path, default in load_defaults().items():
        table, _, name = path.rpartition(".")
        if table in TABLES and isinstance(default.value, float):
            assert f"# {name} = {default.text}\n" in text or f'# {name} = "{default.text}"\n' in text
