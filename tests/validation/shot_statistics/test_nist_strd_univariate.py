"""Mean, standard deviation and lag-one autocorrelation against the certified univariate data sets."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest

from stripdown.core.shot_statistics import analyse_string
from tests.published import Published

STRD = Path(__file__).parents[2] / "data" / "strd"
EXACT = 4e-15  # the numbers are doubles to the last digit: nothing but rounding of the result is allowed


@dataclass(frozen=True, kw_only=True)
class Certified:
    """A data set with its certified values."""

    name: str
    values: tuple[float, ...]
    mean: float
    standard_deviation: float
    autocorrelation: float
    rtol: float = EXACT


def _file(name: str) -> tuple[float, ...]:
    return tuple(float(line) for line in (STRD / f"{name}.txt").read_text(encoding="ascii").split())


def _digits() -> tuple[float, ...]:
    return tuple(float(digit) for line in (STRD / "PiDigits.txt").read_text(encoding="ascii").split() for digit in line)


def _alternating(first: float, low: float, high: float) -> tuple[float, ...]:
    return (first, *(low, high) * 500)


SETS = (
    Certified(
        name="Lew", values=_file("Lew"), mean=-177.435, standard_deviation=277.332168044316, autocorrelation=-0.307304800605679
    ),
    Certified(
        name="Lottery",
        values=_file("Lottery"),
        mean=518.958715596330,
        standard_deviation=291.699727470969,
        autocorrelation=-0.120948622967393,
    ),
    Certified(
        name="Mavro",
        values=_file("Mavro"),
        mean=2.001856,
        standard_deviation=0.000429123454003053,
        autocorrelation=0.937989183438248,
        rtol=1e-12,  # five-digit decimals about 2: their rounding to doubles is 5e-13 of the deviation
    ),
    Certified(
        name="Michelso",
        values=_file("Michelso"),
        mean=299.8524,
        standard_deviation=0.0790105478190518,
        autocorrelation=0.535199668621283,
        rtol=1e-12,  # the same for decimals about 300
    ),
    Certified(
        name="PiDigits",
        values=_digits(),
        mean=4.5348,
        standard_deviation=2.86733906028871,
        autocorrelation=-0.00355099287237972,
    ),
    Certified(
        name="NumAcc1", values=(10000001.0, 10000003.0, 10000002.0), mean=1e7 + 2, standard_deviation=1.0, autocorrelation=-0.5
    ),
    Certified(
        name="NumAcc2", values=_alternating(1.2, 1.1, 1.3), mean=1.2, standard_deviation=0.1, autocorrelation=-0.999, rtol=1e-14
    ),
    Certified(
        name="NumAcc3",
        values=_alternating(1000000.2, 1000000.1, 1000000.3),
        mean=1000000.2,
        standard_deviation=0.1,
        autocorrelation=-0.999,
        rtol=1e-9,  # as doubles the three numbers are 0.1 apart to 1e-9 only
    ),
    Certified(
        name="NumAcc4",
        values=_alternating(10000000.2, 10000000.1, 10000000.3),
        mean=10000000.2,
        standard_deviation=0.1,
        autocorrelation=-0.999,
        rtol=1e-8,  # and here to 1e-8
    ),
)


@pytest.mark.source("nist_strd", "univariate summary statistics", because="digits certified, and digits that doubles hold")
@pytest.mark.parametrize("known", SETS, ids=lambda known: known.name)
def test_nist_strd_univariate(published: Published, known: Certified) -> None:
    """A certified data set comes out with its certified mean, standard deviation and lag-one autocorrelation."""
    found = analyse_string(known.values, ball_mass=0.2e-3)
    assert found.standard_deviation is not None
    assert found.lag_one_autocorrelation is not None
    published(f"{known.name}: mean", found=found.mean, expected=known.mean, unit="1", rtol=EXACT)
    published(
        f"{known.name}: standard deviation",
        found=found.standard_deviation,
        expected=known.standard_deviation,
        unit="1",
        rtol=known.rtol,
    )
    # certified to 15 digits, which for a small number is fewer relative ones
    published(
        f"{known.name}: lag-one autocorrelation",
        found=found.lag_one_autocorrelation,
        expected=known.autocorrelation,
        unit="1",
        rtol=max(known.rtol, 1e-13),
        atol=1e-15,
    )


@pytest.mark.source("nist_strd", "Michelso and Mavro: measurements that wander", because="drift is seen or it is not", atol=0.0)
@pytest.mark.parametrize(("name", "wanders"), [("Michelso", True), ("Mavro", True), ("Lottery", False)])
def test_nist_strd_drift(published: Published, name: str, wanders: bool) -> None:  # noqa: FBT001
    """The two certified sets with high autocorrelation are called drifting, the draws of a lottery are not."""
    found = analyse_string(_file(name), ball_mass=None)
    published(f"{name}: drift found", found=float(found.has_drift), expected=float(wanders), unit="1")
