"""Scatter within groups and the difference of two groups against the certified analysis-of-variance data sets."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

from stripdown.core.shot_statistics import analyse_string, compare_strings
from tests.published import Published

STRD = Path(__file__).parents[2] / "data" / "strd"


def _read(name: str) -> tuple[dict[int, list[float]], float, float]:
    """Groups of numbers, certified F statistic, certified residual standard deviation."""
    text = (STRD / f"{name}.dat").read_text(encoding="ascii")
    statistic = re.search(r"^Between.*\s(\S+)\s*$", text, re.MULTILINE)
    residual = re.search(r"Certified Residual\s+Standard Deviation\s+(\S+)", text)
    assert statistic is not None
    assert residual is not None
    groups: dict[int, list[float]] = {}
    for line in text.splitlines()[60:]:
        group, value = line.split()
        groups.setdefault(int(group), []).append(float(value))
    return groups, float(statistic[1]), float(residual[1])


@pytest.mark.source(
    "nist_strd", "analysis of variance, certified residual standard deviations", because="digits that doubles hold"
)
@pytest.mark.parametrize(
    ("name", "rtol"), [("SiRstv", 1e-12), ("AtmWtAg", 1e-9), ("SmLs01", 1e-12), ("SmLs04", 1e-8), ("SmLs07", 1e-2)]
)
def test_nist_strd_residual_deviation(published: Published, name: str, rtol: float) -> None:
    """Standard deviations of the groups, pooled, are the certified residual standard deviation."""
    groups, _, residual = _read(name)
    pooled = freedom = 0.0
    for values in groups.values():
        deviation = analyse_string(values, ball_mass=None).standard_deviation
        assert deviation is not None
        pooled += (len(values) - 1) * deviation**2
        freedom += len(values) - 1
    published(f"{name}: residual standard deviation", found=math.sqrt(pooled / freedom), expected=residual, unit="1", rtol=rtol)


@pytest.mark.source("nist_strd", "AtmWtAg, two groups of 24", rtol=1e-7, because="seven leading digits are constant in doubles")
def test_nist_strd_welch(published: Published) -> None:
    """Of two groups of one size, Welch's statistic squared is the certified F statistic."""
    groups, certified, _ = _read("AtmWtAg")
    found = compare_strings(groups[1], groups[2]).speed.statistic
    assert found is not None
    published("AtmWtAg: t squared", found=found**2, expected=certified, unit="1")
