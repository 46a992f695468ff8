from __future__ import annotations

from pathlib import Path

import pytest

from stripdown.errors import InputError
from stripdown.files.gun import load_gun
from stripdown.studies.drag_cost import drag_cost
from stripdown.studies.variants import fire_variants, share_lost
from tests.fired_strings import sound_gun


def test_the_first_variant_is_the_measure() -> None:
    """Equal variants lose nothing; a weaker spring does."""
    same, weaker = fire_variants(sound_gun(), variations={"spring.rate": [520.0, 470.0]}, ball_mass=None, conditions=None)
    assert share_lost(same, same) == 0.0
    assert share_lost(weaker, same) > 0.0


def test_a_ball_that_stays_has_no_velocity_to_lose(tmp_path: Path) -> None:
    """One message instead of a division by nothing."""
    file = tmp_path / "stuck.toml"
    file.write_text('[gun]\nname = "x"\n[hop_up]\nbreak_away_force = "100 N"\n', encoding="utf-8")
    with pytest.raises(InputError, match="does not leave"):
        drag_cost(load_gun(file), drag=8.0)
