"""A gun as written becomes complete parameters, and everything that was assumed is listed."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from stripdown.bench.completion import complete
from stripdown.bench.gun import Gun
from stripdown.catalogue.defaults import load_defaults
from stripdown.catalogue.springs import load_springs
from stripdown.core.air import air_density
from stripdown.core.interior_ballistics.parameters import HeatLaw, ShotParameters
from stripdown.core.parts.conditions import Conditions
from stripdown.errors import OutOfRange, OutsideValidity
from stripdown.files.gun import load_gun
from stripdown.files.gun_template import gun_template
from stripdown.quantities import check, leaves, value_at
from stripdown.references.provenance import Footing

Load = Callable[[str], Gun]


@pytest.fixture
def load(tmp_path: Path) -> Load:
    """Load a gun from the text of its file."""

    def load(text: str) -> Gun:
        path = tmp_path / "gun.toml"
        path.write_text(text, encoding="utf-8")
        return load_gun(path)

    return load


def _assumed(gun: Gun) -> dict[str, object]:
    return {entry.path: entry.value for entry in complete(gun).assumed}


def test_an_empty_gun_is_the_defaults_and_says_so(load: Load) -> None:
    """Every parameter of the gun that matters is listed as assumed, with its value; the day's air is not the gun's."""
    whole = complete(load('[gun]\nname = "nothing measured"\n'))
    check(whole.parameters)
    defaults = load_defaults()
    listed = {entry.path for entry in whole.assumed}
    for leaf in leaves(ShotParameters):
        ports_that_are_not_there = ".port_" in leaf.path and leaf.path != "cylinder.port_1.count"
        if leaf.path.startswith("ambient.") or leaf.path == "piston_start_speed":
            assert leaf.path not in listed
        else:
            assert value_at(whole.parameters, leaf.path) == defaults[leaf.path].value
            assert (leaf.path in listed) != ports_that_are_not_there


def test_what_is_written_is_used_and_not_assumed(load: Load) -> None:
    """Number, switch, choice, and ports in the order of the file."""
    port = '[[cylinder.port]]\nstart = "{} mm"\nlength = "4 mm"\nwidth = "3 mm"\ncount = 2\n'
    gun = load(
        '[spring]\nrate = "500 N/m"\n[piston]\nvented = false\n[laws]\ncylinder_heat_law = "woschni"\n'
        + port.format(1)
        + port.format(8)
    )
    parameters = complete(gun).parameters
    assert parameters.spring.rate == 500.0
    assert parameters.piston.vented is False
    assert parameters.laws.cylinder_heat_law is HeatLaw.WOSCHNI
    assert [(slot.start, slot.count) for slot in parameters.cylinder.ports()] == [(0.001, 2), (0.008, 2), (0.0, 0)]
    assumed = _assumed(gun)
    assert not assumed.keys() & {"spring.rate", "piston.vented", "laws.cylinder_heat_law"}
    assert not [path for path in assumed if ".port_" in path]
    assert "piston.vent_area" not in assumed  # nothing passes the vents of an unvented head


def test_a_label_is_an_assumption_for_what_is_left_out(load: Load) -> None:
    """Rate and mass come from the label and are assumed; the preload that was measured wins."""
    gun = load('[spring]\nlabel = "m120"\npreload = "60 mm"\n')
    labelled = load_springs()["m120"].spring
    whole = complete(gun)
    assert whole.parameters.spring.rate == labelled.rate
    assert whole.parameters.spring.preload == 0.06
    (entry,) = [entry for entry in whole.assumed if entry.path == "spring.rate"]
    assert entry.value == labelled.rate
    assert entry.footing is Footing.COMMON_PRACTICE
    assert "label M120" in entry.reason


def test_what_is_computed_is_noted(load: Load) -> None:
    """Rate from coils and preload from lengths are no assumptions; the material of the wire is one."""
    gun = load(
        '[spring]\nwire_diameter = "1.3 mm"\nmean_diameter = "11.7 mm"\nactive_coils = 33\n'
        'free_length = "170 mm"\nfitted_length = "115 mm"\n'
    )
    whole = complete(gun)
    assert whole.parameters.spring.rate == pytest.approx(79.3e9 * 0.0013**4 / (8 * 0.0117**3 * 33))  # derived: the formula
    assert whole.parameters.spring.preload == pytest.approx(0.055)
    assert [note.split(" ", 1)[0] for note in whole.notes] == ["spring.rate", "spring.preload"]
    assert _assumed(gun)["spring.wire_material"] == 79.3e9
    assert not _assumed(gun).keys() & {"spring.rate", "spring.preload"}


def test_a_cylinder_seen_to_have_no_port_is_not_assumed_to_have_none(load: Load) -> None:
    """`ported = false` is an observation; nothing written is an assumption."""
    assert "cylinder.port_1.count" not in _assumed(load("[cylinder]\nported = false\n"))
    assert _assumed(load('[cylinder]\nbore = "23.8 mm"\n'))["cylinder.port_1.count"] == 0


def test_a_port_without_a_count_is_assumed_to_be_one_slot(load: Load) -> None:
    """Whoever writes a port saw at least one."""
    gun = load('[[cylinder.port]]\nstart = "1 mm"\nlength = "4 mm"\nwidth = "3 mm"\n')
    assert _assumed(gun)["cylinder.port_1.count"] == 1
    assert complete(gun).parameters.cylinder.port_1.count == 1


def test_another_ball_takes_the_place_of_the_files(load: Load) -> None:
    """It is noted if the file had one, and is no assumption either way."""
    whole = complete(load('[ball]\nmass = "0.25 g"\n'), ball_mass=0.32e-3)
    assert whole.parameters.ball.mass == 0.32e-3
    assert [note for note in whole.notes if "0.32 g" in note and "0.25 g" in note]
    other = complete(load("[ball]\n"), ball_mass=0.32e-3)
    assert not other.notes
    assert "ball.mass" not in {entry.path for entry in other.assumed}


def test_the_days_air_has_its_true_density(load: Load) -> None:
    """The ideal gas of the model weighs what moist air of that day weighs, and the metal has the air's temperature."""
    day = Conditions(temperature=303.15, pressure=95000.0, relative_humidity=0.9)
    ambient = complete(load("[gun]\n"), conditions=day).parameters.ambient
    density = air_density(temperature=303.15, pressure=95000.0, relative_humidity=0.9)
    assert ambient.pressure / (ambient.gas_constant * ambient.temperature) == pytest.approx(density, rel=1e-12)
    assert ambient.wall_temperature == 303.15
    assert ambient.heat_capacity_ratio < 1.4


def test_metal_may_be_warmer_than_the_air_and_the_piston_still_be_drawn(load: Load) -> None:
    """Both belong to the day, not to the gun."""
    parameters = complete(load("[gun]\n"), conditions=Conditions(wall_temperature=310.0, piston_start_speed=-0.5)).parameters
    assert parameters.ambient.wall_temperature == 310.0
    assert parameters.piston_start_speed == -0.5


@pytest.mark.parametrize(
    ("conditions", "field"),
    [
        (Conditions(relative_humidity=1.2), "conditions.relative_humidity"),
        (Conditions(temperature=20.0), "conditions.temperature"),
        (Conditions(wall_temperature=20.0), "conditions.wall_temperature"),
        (Conditions(pressure=1013.25), "conditions.pressure"),
        (Conditions(temperature=float("nan")), "conditions.temperature"),
    ],
)
def test_an_impossible_day_is_refused(load: Load, conditions: Conditions, field: str) -> None:
    """Degrees for kelvin, hectopascal for pascal: the field is named."""
    with pytest.raises(OutOfRange) as caught:
        complete(load("[gun]\n"), conditions=conditions)
    assert caught.value.field == field


def test_air_beyond_the_range_of_its_formula_is_refused(load: Load) -> None:
    """Possible, and not known well enough."""
    with pytest.raises(OutsideValidity):
        complete(load("[gun]\n"), conditions=Conditions(temperature=330.0))


@pytest.mark.parametrize("mass", [0.0, -1e-3, float("nan"), 5.0])
def test_an_impossible_ball_is_refused(load: Load, mass: float) -> None:
    """As an impossible mass in the file would be."""
    with pytest.raises(OutOfRange) as caught:
        complete(load("[gun]\n"), ball_mass=mass)
    assert caught.value.field == "ball.mass"


def test_the_template_makes_the_gun_of_the_defaults(load: Load) -> None:
    """What `stripdown gun new` writes loads, and all that it leaves commented out is assumed."""
    from_template = complete(load(gun_template()))
    from_nothing = complete(load("[gun]\n"))
    assert from_template == from_nothing
