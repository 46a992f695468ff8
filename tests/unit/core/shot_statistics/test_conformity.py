"""The chance of conformity is a chance, also far out in the tails."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.shot_statistics import guard_band, probability_of_conformity
from stripdown.errors import OutOfRange

_NUMBER = st.floats(-1e3, 1e3)


@given(_NUMBER, st.floats(1e-3, 1e3), _NUMBER, st.floats(0, 1e3))
def test_inside_and_outside_add_up(value: float, uncertainty: float, lower: float, width: float) -> None:
    """Below, within and above two limits are all there is."""
    within = probability_of_conformity(value=value, standard_uncertainty=uncertainty, lower=lower, upper=lower + width)
    below = probability_of_conformity(value=value, standard_uncertainty=uncertainty, upper=lower)
    above = probability_of_conformity(value=value, standard_uncertainty=uncertainty, lower=lower + width)
    assert within + below + above == pytest.approx(1.0, abs=1e-12)


def test_a_far_tail_keeps_its_digits() -> None:
    """A window ten standard uncertainties away has a tiny chance, and not zero."""
    for sign in (1.0, -1.0):
        low, high = sorted((sign * 10.0, sign * 11.0))
        found = probability_of_conformity(value=0.0, standard_uncertainty=1.0, lower=low, upper=high)
        assert found == pytest.approx(7.619853024160527e-24, rel=1e-9)  # erfc(10/sqrt(2))/2 - erfc(11/sqrt(2))/2


def test_without_uncertainty_it_is_yes_or_no() -> None:
    """A value on the limit conforms."""
    assert probability_of_conformity(value=1.0, standard_uncertainty=0.0, upper=1.0) == 1.0
    assert probability_of_conformity(value=1.01, standard_uncertainty=0.0, upper=1.0) == 0.0


@pytest.mark.parametrize(
    ("arguments", "complaint"),
    [
        ({"value": 1.0, "standard_uncertainty": 0.1}, "no limit"),
        ({"value": 1.0, "standard_uncertainty": -0.1, "upper": 1.0}, "negative"),
        ({"value": math.nan, "standard_uncertainty": 0.1, "upper": 1.0}, "value"),
        ({"value": 1.0, "standard_uncertainty": 0.1, "upper": math.inf}, "upper"),
        ({"value": 1.0, "standard_uncertainty": 0.1, "lower": 2.0, "upper": 1.0}, "Swap"),
    ],
)
def test_nonsense_is_refused(arguments: dict[str, float], complaint: str) -> None:
    """No limit, negative uncertainty, what is not finite, crossed limits."""
    with pytest.raises(OutOfRange, match=complaint):
        probability_of_conformity(**arguments)


def test_a_value_on_the_edge_of_the_guard_band_has_the_accepted_risk() -> None:
    """Guard band and chance of conformity are one statement."""
    edge = 1.0 - guard_band(0.02, false_acceptance=0.025)
    assert probability_of_conformity(value=edge, standard_uncertainty=0.02, upper=1.0) == pytest.approx(0.975)


@pytest.mark.parametrize("risk", [0.0, 1.0, 2.5])
def test_a_risk_is_a_share(risk: float) -> None:
    """Percent by mistake is refused."""
    with pytest.raises(OutOfRange, match="false_acceptance"):
        guard_band(0.02, false_acceptance=risk)
