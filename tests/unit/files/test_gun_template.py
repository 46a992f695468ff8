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
