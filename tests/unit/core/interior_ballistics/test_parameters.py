"""What a shot's record refuses: impossible values, and values that cannot both be true."""

from __future__ import annotations

import pytest

from stripdown.catalogue.guns import load_guns
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.parts.gun_parts import GunParts
from stripdown.errors import OutOfRange
from stripdown.quantities import check, leaves, own_fields, replace_at

_PARTS = "stripdown.core.parts."
RIFLE = load_guns()["full_stroke_rifle"].parameters


@pytest.mark.parametrize("path", [leaf.path for leaf in leaves(ShotParameters) if leaf.quantity is not None])
def test_every_number_has_limits_that_bind(path: str) -> None:
    """Below its low limit, above its high one, or no number: refused, naming the field."""
    quantity = next(leaf.quantity for leaf in leaves(ShotParameters) if leaf.path == path)
    assert quantity is not None
    assert quantity.low is not None
    assert quantity.high is not None
    span = quantity.high - quantity.low
    for value in (quantity.low - 0.1 * span, quantity.high + 0.1 * span, float("nan")):
        with pytest.raises(OutOfRange) as caught:
            check(replace_at(RIFLE, path, value))
        assert caught.value.field == path


def test_a_shot_selects_parts_of_the_gun_by_their_own_names() -> None:
    """What the gun's file says of a part is what the shot reads: same name, same record, same order."""
    parts = [(field.path, field.type) for field in own_fields(GunParts)]
    selected = [(field.path, field.type) for field in own_fields(ShotParameters) if field.type.__module__.startswith(_PARTS)]
    assert selected
    assert selected == [part for part in parts if part in selected]


def test_parts_that_do_not_fit_are_refused_without_a_shot() -> None:
    """The ball must pass the bore, whichever discipline asks."""
    parts = GunParts(**{field.path: getattr(RIFLE, field.path) for field in own_fields(GunParts)})
    check(parts)
    with pytest.raises(OutOfRange, match="does not pass"):
        check(replace_at(parts, "ball.diameter", 6.05e-3))


@pytest.mark.parametrize(
    ("path", "value", "complaint"),
    [
        ("ball.diameter", 6.05e-3, "does not pass"),
        ("hop_up.floor_friction", 0.9, "above hop_up.top_friction"),
        ("barrel.seat_depth", 0.1, "barrel"),
    ],
)
def test_values_that_contradict_each_other_are_refused(path: str, value: float, complaint: str) -> None:
    """A ball as wide as the bore, a floor that grips better than the rubber, a ball seated beyond the muzzle."""
    gun = replace_at(RIFLE, "barrel.length", 0.1) if path == "barrel.seat_depth" else RIFLE
    with pytest.raises(OutOfRange, match=complaint):
        check(replace_at(gun, path, value))


def test_a_port_beyond_the_stroke_is_refused_only_if_it_is_there() -> None:
    """A slot that ends after the stroke is refused; with a count of zero it is not looked at."""
    late = replace_at(RIFLE, "cylinder.port_1.start", 0.050)
    check(late)
    with pytest.raises(OutOfRange, match="port_1 ends"):
        check(replace_at(late, "cylinder.port_1.count", 1))


@pytest.mark.parametrize("path", ["cylinder.dead_volume", "nozzle.dead_volume", "cylinder.stroke", "ambient.pressure"])
def test_nothing_where_air_must_be_is_refused(path: str) -> None:
    """No dead volume, no stroke, no air outside: a gun cannot have them, and is told so before the shot."""
    with pytest.raises(OutOfRange):
        check(replace_at(RIFLE, path, 0.0))
