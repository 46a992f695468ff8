from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

import pytest

from stripdown.core.shot_statistics import FireMode, Interval
from stripdown.plain.si import si_record
from stripdown.quantities import Q


@dataclass(frozen=True, kw_only=True)
class _Inner:
    """A record inside another."""

    energy: Annotated[float, Q("J", label="energy")]


@dataclass(frozen=True, kw_only=True)
class _Record:
    """One field of every kind."""

    speed: Annotated[float | None, Q("m/s", label="speed")]
    share: float
    interval: Interval | None
    shots: tuple[float, ...]
    mode: FireMode
    words: tuple[str, ...]
    count: int
    inner: _Inner | None


_UNITS = {"share": "1", "interval": "m/s", "shots": "m/s"}


def _record(**changed: object) -> _Record:
    fields: dict[str, object] = {
        "speed": 1.5,
        "share": 0.5,
        "interval": Interval(1.0, 2.0),
        "shots": (1.0, 2.0),
        "mode": FireMode.SEMI,
        "words": ("a",),
        "count": 3,
        "inner": _Inner(energy=1.0),
    }
    return _Record(**(fields | changed))  # type: ignore[arg-type]


def test_every_number_has_its_unit_in_its_key() -> None:
    """Declared, or told; a pure number and words have none."""
    assert si_record(_record(), units=_UNITS) == {
        "speed_m_per_s": 1.5,
        "share": 0.5,
        "interval_m_per_s": {"low": 1.0, "high": 2.0},
        "shots_m_per_s": [1.0, 2.0],
        "mode": "semi",
        "words": ["a"],
        "count": 3,
        "inner": {"energy_J": 1.0},
    }


def test_what_is_not_known_is_null_under_the_same_key() -> None:
    """A reader finds the key in any case."""
    fields = si_record(_record(speed=None, interval=None, inner=None), units=_UNITS)
    assert fields["speed_m_per_s"] is None
    assert fields["interval_m_per_s"] is None
    assert fields["inner"] is None


@pytest.mark.parametrize("name", _UNITS)
def test_a_number_without_a_unit_is_a_mistake_of_the_programmer(name: str) -> None:
    """Number, interval or list of numbers."""
    with pytest.raises(TypeError, match=f"{name} is a number without a unit"):
        si_record(_record(), units={key: unit for key, unit in _UNITS.items() if key != name})


def test_what_is_not_wanted_is_left_out() -> None:
    """It needs no unit then."""
    assert "shots_m_per_s" not in si_record(_record(), units=_UNITS, leave_out=("shots",))
