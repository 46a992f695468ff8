"""The choice of shims as an integer programme, solved by HiGHS through SciPy: another method, the same best pack."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from stripdown.core.shim_selection import choose_shims
from tests.published import Published


@pytest.mark.source("scipy", "optimize.milp, fewest shims in the window", atol=0.0, because="a count")
@pytest.mark.parametrize("seed", range(12))
def test_milp_fewest_shims(published: Published, seed: int) -> None:
    """The least number of shims is that of the integer programme, or there is none in both."""
    random = np.random.default_rng(seed)
    kinds = np.sort(random.choice(np.arange(40, 520), size=8, replace=False))
    counts = random.integers(1, 3, size=8)
    gap, low, high = int(random.integers(600, 1700)), 60, 66
    solved = milp(
        np.ones(8),
        integrality=np.ones(8),
        bounds=Bounds(0, counts),
        constraints=[LinearConstraint(kinds, gap - high, gap - low), LinearConstraint(np.ones(8), 0, 6)],
    )
    choice = choose_shims(
        gap=gap * 1e-6,
        gap_uncertainty=0.0,
        float_band=(low * 1e-6, high * 1e-6),
        stock={int(kind) * 1e-6: int(count) for kind, count in zip(kinds, counts, strict=True)},
        most=6,
    )
    expected = round(solved.fun) if solved.success else -1
    found = len(choice.packs[0].thicknesses) if choice.packs else -1
    published("fewest shims, -1 for none", found=found, expected=expected, unit="1")
