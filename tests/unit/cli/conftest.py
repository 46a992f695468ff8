"""A gun's file to call commands with, a runner, and studies that answer at once and remember what they were asked."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from stripdown.core.interior_ballistics.result import Shot
from stripdown.studies import shooting
from tests.synthetic_shots import make_shot

GUN = """
[gun]
name = "Rack 7"
[spring]
rate = "524 N/m"
"""


@pytest.fixture
def runner() -> CliRunner:
    """Calls commands as a person would, and keeps what they print apart."""
    return CliRunner()


@pytest.fixture
def gun_file(tmp_path: Path) -> Path:
    """A gun of which only name and spring rate are written."""
    file = tmp_path / "rack-7.toml"
    file.write_text(GUN, encoding="utf-8")
    return file


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[dict[str, Any]]:
    """What the shot was asked for; it answers with a synthetic one."""
    calls: list[dict[str, Any]] = []

    def simulate_shot(gun: object, **settings: Any) -> Shot:
        calls.append({"gun": gun, **settings})
        return make_shot()

    monkeypatch.setattr(shooting, "simulate_shot", simulate_shot)
    return calls
