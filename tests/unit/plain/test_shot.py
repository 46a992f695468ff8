from __future__ import annotations

from stripdown.core.interior_ballistics.result import Outcome
from stripdown.plain.shot import sweep_fields
from tests.synthetic_studies import make_creep


def test_each_ball_of_a_sweep_is_a_row_with_units() -> None:
    """Every column carries its unit, what did not happen is none; numbers are plain ones."""
    rows = sweep_fields(make_creep([0.2e-3, 0.4e-3], [1.0, 0.0], [Outcome.LEFT_MUZZLE, Outcome.DID_NOT_MOVE]))["shots"]
    assert [row["ball_mass_kg"] for row in rows] == [0.2e-3, 0.4e-3]
    assert rows[0]["time_to_slam_s"] == 0.0125
    assert rows[1]["time_to_muzzle_s"] is None
    assert rows[1]["outcome"] == "did_not_move"
    assert type(rows[0]["muzzle_energy_J"]) is float
