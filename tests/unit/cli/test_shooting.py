from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from stripdown.cli.shooting import shoot
from stripdown.core.parts.conditions import Conditions


@pytest.mark.usefixtures("asked")
@pytest.mark.parametrize(
    ("files", "names"),
    [
        ({"a.toml": "Rack 7", "b.toml": "Rack 8"}, ["Rack 7", "Rack 8"]),
        ({"a.toml": "Rack 7", "b.toml": "Rack 7"}, ["Rack 7 (a)", "Rack 7 (b)"]),
        ({"one/a.toml": "Rack 7", "two/a.toml": "Rack 7"}, ["Rack 7 (1)", "Rack 7 (2)"]),
    ],
)
def test_guns_on_one_sheet_have_different_names(tmp_path: Path, files: dict[str, str], names: list[str]) -> None:
    """By name, else by file, else by number."""
    paths = [tmp_path / file for file in files]
    for path, name in zip(paths, files.values(), strict=True):
        path.parent.mkdir(exist_ok=True)
        path.write_text(f'[gun]\nname = "{name}"\n', encoding="utf-8")
    shootings = shoot(paths, ball_mass=None, conditions=Conditions(), tolerance=1e-4)
    assert [shooting.name for shooting in shootings] == names


@pytest.mark.usefixtures("asked")
def test_a_made_up_gun_says_so_wherever_it_is_named(tmp_path: Path) -> None:
    """Nobody takes invented figures for measured ones."""
    path = tmp_path / "gun.toml"
    path.write_text('[gun]\nname = "Rack 7"\ninvented = true\n', encoding="utf-8")
    [shooting] = shoot([path], ball_mass=None, conditions=Conditions(), tolerance=1e-4)
    assert shooting.name == "Rack 7 (invented)"


def test_gun_and_completion_belong_together(gun_file: Path, asked: list[dict[str, Any]]) -> None:
    """What is reported as assumed was assumed for the ball that was fired."""
    [shooting] = shoot([gun_file], ball_mass=0.3e-3, conditions=Conditions(), tolerance=1e-4)
    assert asked[0]["ball_mass"] == 0.3e-3
    assert shooting.complete.parameters.ball.mass == 0.3e-3
    assert "ball.mass" not in {entry.path for entry in shooting.complete.assumed}
