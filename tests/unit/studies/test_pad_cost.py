from __future__ import annotations

import math
from pathlib import Path

import pytest

from stripdown.bench.completion import complete
from stripdown.errors import OutOfRange
from stripdown.files.gun import load_gun
from stripdown.studies.pad_cost import PadCost, pad_cost
from tests.fired_strings import sound_gun


@pytest.fixture(scope="module")
def cost() -> PadCost:
    """Two millimetres on the sound gun."""
    return pad_cost(sound_gun(), thickness=2e-3)


def test_the_drawn_position_stays(cost: PadCost) -> None:
    """What the stroke loses, the preload gains."""
    gun = complete(sound_gun()).parameters
    assert cost.stroke_before == gun.cylinder.stroke
    assert cost.stroke_after + cost.preload_after == pytest.approx(gun.cylinder.stroke + gun.spring.preload)
    assert cost.stroke_before - cost.stroke_after == pytest.approx(2e-3)


def test_the_energy_lost_is_that_of_the_first_millimetres(cost: PadCost) -> None:
    """R t (c + t/2): the spring no longer relaxes over the pad's thickness."""
    spring = complete(sound_gun()).parameters.spring
    expected = spring.rate * 2e-3 * (spring.preload + 1e-3)
    assert cost.stored_before - cost.stored_after == pytest.approx(expected, rel=1e-9)


def test_the_dead_volume_gains_what_the_rubber_leaves_free(cost: PadCost) -> None:
    """Thickness times bore area less the ring of 20 and 6 mm."""
    bore = complete(sound_gun()).parameters.cylinder.bore
    free = 0.25 * math.pi * (bore**2 - 0.020**2 + 0.006**2)
    assert cost.dead_volume_after - cost.dead_volume_before == pytest.approx(2e-3 * free, rel=1e-9)
    assert any("common practice" in note for note in cost.notes)


def test_a_pad_costs_stroke_energy_and_velocity(cost: PadCost) -> None:
    """And far less velocity than stroke: the last millimetres before home hardly push the ball."""
    assert 0.0 < cost.speed_lost < cost.stored_lost < cost.stroke_lost


def test_no_pad_costs_nothing() -> None:
    """Two equal shots."""
    nothing = pad_cost(sound_gun(), thickness=0.0, pad_diameter=0.020, hole_diameter=0.006)
    assert nothing.speed_lost == 0.0
    assert nothing.notes == ()


@pytest.mark.parametrize(
    ("wrong", "field"),
    [
        ({"thickness": -1e-3}, "thickness"),
        ({"thickness": 49.9e-3 + 3e-3}, "thickness"),
        ({"thickness": 2e-3, "pad_diameter": 30e-3}, "pad_diameter"),
        ({"thickness": 2e-3, "pad_diameter": 10e-3, "hole_diameter": 10e-3}, "pad_diameter"),
    ],
)
def test_what_cannot_be_is_refused_by_name(wrong: dict[str, float], field: str) -> None:
    """Negative, as thick as the stroke, wider than the bore, all hole."""
    with pytest.raises(OutOfRange) as refused:
        pad_cost(sound_gun(), **wrong)  # type: ignore[arg-type]
    assert refused.value.field == field
    assert refused.value.hint


def test_a_pad_that_leaves_nothing_behind_the_port_is_refused(tmp_path: Path) -> None:
    """The seal would land while the port is still open."""
    file = tmp_path / "ported.toml"
    port = 'start = "0 mm"\nlength = "50 mm"\nwidth = "5 mm"'
    file.write_text(f'[gun]\nname = "x"\n[cylinder]\nstroke = "51 mm"\n[[cylinder.port]]\n{port}\n', encoding="utf-8")
    with pytest.raises(OutOfRange, match="ports end at 50 mm"):
        pad_cost(load_gun(file), thickness=1.5e-3)
