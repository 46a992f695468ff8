from __future__ import annotations

import pytest

from stripdown.core.parts.cylinder import Cylinder
from stripdown.quantities import leaves
from stripdown.words.numbers import dimension_name, grams, joules, joules_gained, per_cent, slow, speed, toleranced


@pytest.mark.parametrize(
    ("energy", "text"), [(1.0, "1.00 J"), (0.0, "0.00 J"), (0.004, "<0.01 J"), (0.005001, "0.01 J"), (-0.076, "−0.08 J")]
)
def test_an_energy_is_written_to_hundredths(energy: float, text: str) -> None:
    """What is there but rounds to nothing is not written as nothing."""
    assert joules(energy) == text


@pytest.mark.parametrize(("energy", "text"), [(0.123, "+0.12 J"), (-0.36, "−0.36 J"), (0.0049, "0"), (-0.0049, "0")])
def test_a_difference_carries_its_sign(energy: float, text: str) -> None:
    """A difference that rounds to nothing has no sign."""
    assert joules_gained(energy) == text


@pytest.mark.parametrize(("share", "text"), [(0.456, "46 %"), (0.001, "<1 %"), (0.0, "0 %"), (None, ""), (-0.08, "−8 %")])
def test_a_share_is_written_in_per_cent(share: float | None, text: str) -> None:
    """Whole per cent; no share, no words."""
    assert per_cent(share) == text


@pytest.mark.parametrize(("mass", "text"), [(0.0002, "0.20 g"), (0.00025, "0.25 g"), (0.000255, "0.255 g"), (0.002, "2.00 g")])
def test_a_ball_is_named_as_on_its_bag(mass: float, text: str) -> None:
    """Two decimals, a third only where there is one."""
    assert grams(mass) == text


@pytest.mark.parametrize(
    ("value", "unit", "text"), [(100.0, "m/s", "100.0 m/s"), (100.0, "ft/s", "328 ft/s"), (30.48, "ft/s", "100 ft/s")]
)
def test_a_speed_is_written_as_a_chronograph_shows_it(value: float, unit: str, text: str) -> None:
    """A tenth of a metre per second, or whole feet: 0.3048 m are a foot by definition."""
    assert speed(value, unit) == text


def test_a_pistons_speed_keeps_its_tenth_in_feet_too() -> None:
    """3.048 m/s are 10 ft/s."""
    assert slow(3.048, "ft/s") == "10.0 ft/s"
    assert slow(3.91, "m/s") == "3.9 m/s"


def test_a_value_and_its_tolerance_share_one_unit() -> None:
    """The stroke of 52 mm within half a millimetre."""
    stroke = next(leaf.quantity for leaf in leaves(Cylinder) if leaf.path == "stroke")
    assert stroke is not None
    assert toleranced(0.052, 0.0005, stroke) == "52 ± 0.5 mm"


def test_ports_are_told_apart() -> None:
    """A cylinder may have three rings of slots with the same words for each."""
    assert dimension_name("cylinder.port_2.length", "length of the port") == "length of the port (port 2)"
    assert dimension_name("cylinder.bore", "cylinder bore") == "cylinder bore"
