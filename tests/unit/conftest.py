"""The two shots that every chart is drawn from."""

from __future__ import annotations

import pytest

from stripdown.core.interior_ballistics.result import Shot
from tests.synthetic_shots import AS_FOUND_LEDGER, make_shot


@pytest.fixture
def healthy() -> Shot:
    """A shot at 100 m/s."""
    return make_shot()


@pytest.fixture
def as_found() -> Shot:
    """A shot at 80 m/s that lost a third of its energy to leaks and drag."""
    return make_shot(ball_speed=80.0, ledger=AS_FOUND_LEDGER)
