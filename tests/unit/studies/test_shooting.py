from __future__ import annotations

import dataclasses
from typing import Any

import pytest

from stripdown.bench.gun import Written
from stripdown.core.interior_ballistics.result import Shot
from stripdown.core.shot_statistics.conditions import HopState
from stripdown.errors import InputError
from stripdown.quantities import leaves, replace_at, value_at
from stripdown.studies import shooting
from stripdown.studies.shooting import input_digest, shoot
from tests.synthetic_shots import PARAMETERS, make_shot
from tests.synthetic_studies import make_gun

_HOP = "hop_up.normal_force"


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[dict[str, Any]]:
    """What the model was asked for; it answers with a synthetic shot."""
    calls: list[dict[str, Any]] = []

    def simulate_shot(gun: object, **settings: Any) -> Shot:
        calls.append({"gun": gun, **settings})
        return make_shot()

    monkeypatch.setattr(shooting, "simulate_shot", simulate_shot)
    return calls


@pytest.mark.usefixtures("asked")
@pytest.mark.parametrize(
    ("guns", "names"),
    [
        ([("Rack 7", "a.toml"), ("Rack 8", "b.toml")], ["Rack 7", "Rack 8"]),
        ([("Rack 7", "a.toml"), ("Rack 7", "b.toml")], ["Rack 7 (a)", "Rack 7 (b)"]),
        ([("Rack 7", "a.toml"), ("Rack 7", "a.toml")], ["Rack 7 (1)", "Rack 7 (2)"]),
    ],
)
def test_guns_on_one_sheet_have_different_names(guns: list[tuple[str, str]], names: list[str]) -> None:
    """By name, else by file, else by number."""
    fired = shoot([dataclasses.replace(make_gun(name), origin=origin) for name, origin in guns])
    assert [each.name for each in fired.shootings] == names


@pytest.mark.usefixtures("asked")
def test_a_made_up_gun_says_so_wherever_it_is_named() -> None:
    """Nobody takes invented figures for measured ones."""
    [fired] = shoot([make_gun(invented=True)]).shootings
    assert fired.name == "Rack 7 (invented)"


def test_gun_and_completion_belong_together(asked: list[dict[str, Any]]) -> None:
    """What is reported as assumed was assumed for the ball that was fired."""
    [fired] = shoot([make_gun()], ball_mass=0.3e-3).shootings
    assert asked[0]["ball_mass"] == 0.3e-3
    assert fired.complete.parameters.ball.mass == 0.3e-3
    assert "ball.mass" not in {entry.path for entry in fired.complete.assumed}


def test_the_digest_changes_with_every_input() -> None:
    """The last bit of any parameter, and the tolerance, make another digest; the same input makes the same."""
    digest = input_digest(PARAMETERS, tolerance=1e-4)
    assert digest == input_digest(dataclasses.replace(PARAMETERS), tolerance=1e-4)
    assert digest != input_digest(PARAMETERS, tolerance=1e-5)
    changed = {digest}
    numbers = [leaf for leaf in leaves(type(PARAMETERS)) if leaf.type is float]
    for leaf in numbers:
        other = replace_at(PARAMETERS, leaf.path, value_at(PARAMETERS, leaf.path) + 1e-9)
        changed.add(input_digest(other, tolerance=1e-4))
    assert len(changed) == len(numbers) + 1


def test_a_gun_is_fired_with_its_hop_up_off_or_as_it_is_set(asked: list[dict[str, Any]]) -> None:
    """Off presses with nothing; set leaves the file's force, which must be one."""
    gun = dataclasses.replace(make_gun(), written={_HOP: Written(value=3.0, text="3 N")})
    for hop in (HopState.OFF, HopState.SET, None):
        shoot([gun], hop=hop)
    assert [call["gun"].written[_HOP].value for call in asked] == [0.0, 3.0, 3.0]
    off = dataclasses.replace(gun, written={_HOP: Written(value=0.0, text="0 N")})
    with pytest.raises(InputError, match="has its hop-up off"):
        shoot([off], hop=HopState.SET)
