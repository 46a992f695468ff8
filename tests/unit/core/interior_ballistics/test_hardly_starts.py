from __future__ import annotations

import numpy as np
import pytest

from stripdown.core.interior_ballistics.result import Outcome
from stripdown.core.interior_ballistics.simulate import integrate_shots
from tests.synthetic_shots import PARAMETERS


@pytest.mark.parametrize(("path", "low", "high"), [("hop_up.normal_force", 15.0, 22.0), ("hop_up.break_away_force", 6.0, 12.0)])
def test_a_ball_that_hardly_starts_ends_as_an_outcome(path: str, low: float, high: float) -> None:
    """Held a hair's breadth from not moving at all it leaves, stays or does not move: it never runs out behind its seat."""
    forces = np.linspace(low, high, 200)
    batch = integrate_shots(PARAMETERS, variations={path: forces, "ball.mass": np.full(200, 0.4e-3)}, until_muzzle=True)
    outcomes = set(batch.outcome)
    assert Outcome.LEFT_MUZZLE in outcomes
    assert outcomes - {Outcome.LEFT_MUZZLE} <= {Outcome.STAYED_IN_BARREL, Outcome.DID_NOT_MOVE, Outcome.TIMED_OUT}
    assert len(outcomes) > 1
