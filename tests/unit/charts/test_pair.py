from __future__ import annotations

import pytest

from stripdown.charts.pair import names_apart, short_names
from stripdown.core.interior_ballistics.result import Shot


@pytest.mark.parametrize(
    ("names", "short"),
    [
        (["Rack 7, healthy", "Rack 7, as found"], ["healthy", "as found"]),
        (["Rack 7, healthy (invented)", "Rack 7, as found (invented)"], ["healthy", "as found"]),
        (["Rack 7", "Rack 8"], ["7", "8"]),
        (["Rack 7", "Rack 7 resealed"], ["Rack 7", "Rack 7 resealed"]),
        (["Only one"], ["Only one"]),
        (["one", "two", "three"], ["one", "two", "three"]),
        (["a name that goes on and on"], ["a name that goes on a…"]),
        (["x" * 30 + "1", "x" * 30 + "2"], ["no. 1", "no. 2"]),
    ],
)
def test_names_are_cut_to_what_tells_them_apart(names: list[str], short: list[str]) -> None:
    """What all names share is left out, long ones are cut, and no two become the same."""
    assert short_names(names) == short


@pytest.mark.parametrize("names", [[], ["one"], ["same", "same"], ["a", "b", "c"]])
def test_shots_that_cannot_be_told_apart_are_refused(healthy: Shot, as_found: Shot, names: list[str]) -> None:
    """Two shots need two different names."""
    with pytest.raises(ValueError, match="a name of its own"):
        names_apart([healthy, as_found], names)
