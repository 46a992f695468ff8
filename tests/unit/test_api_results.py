"""What the interface gives back can be kept, sent and copied, and stays read-only; what it is given is looked at first."""

from __future__ import annotations

import copy
import dataclasses
import pickle
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from stripdown import api

_EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.fixture(scope="module")
def results() -> Mapping[str, Any]:
    """One of each kind that carries arrays or read-only mappings."""
    gun = api.load_gun(_EXAMPLES / "brackenmoor-07-healthy.toml")
    masses = [0.20e-3, 0.30e-3]
    return {
        "gun": gun,
        "shot": api.simulate_shot(gun),
        "batch": api.simulate_shots(gun, variations={"ball.mass": masses}),
        "creep": api.sweep_ball_masses(gun, ball_masses=masses),
        "case": api.study_case(api.load_case(_EXAMPLES / "brackenmoor-07")),
        "job": api.study_job(api.load_job(_EXAMPLES / "brackenmoor-12" / "job.toml")),
        "faults": api.load_faults(),
        "inspection": api.load_inspection(),
    }


def _arrays(thing: Any) -> Iterator[np.ndarray[Any, Any]]:
    if isinstance(thing, np.ndarray):
        yield thing
    elif dataclasses.is_dataclass(thing) and not isinstance(thing, type):
        for field in dataclasses.fields(thing):
            yield from _arrays(getattr(thing, field.name))
    elif isinstance(thing, tuple):
        for entry in thing:
            yield from _arrays(entry)


def _pickled(thing: Any) -> Any:
    return pickle.loads(pickle.dumps(thing))  # noqa: S301  made in this line


@pytest.mark.parametrize("name", ["gun", "shot", "batch", "creep", "case", "job", "faults", "inspection"])
@pytest.mark.parametrize("way", [_pickled, copy.copy, copy.deepcopy])
def test_a_result_is_kept_and_copied_and_stays_read_only(
    results: Mapping[str, Any], name: str, way: Callable[[Any], Any]
) -> None:
    """Whatever way it went: of the same kind, with the same arrays, none of which can be written to."""
    thing = results[name]
    again = way(thing)
    assert type(again) is type(thing)
    before, after = list(_arrays(thing)), list(_arrays(again))
    assert all(np.array_equal(one, two) for one, two in zip(before, after, strict=True))
    assert not any(array.flags.writeable for array in (*before, *after))


@pytest.mark.parametrize("bad", [-1.0, float("inf"), float("nan"), None, "1", True])
def test_what_is_no_uncertainty_is_refused(bad: Any) -> None:
    """Negative, endless, missing, a text or a switch: named, with what would be right."""
    speeds = [90.0, 91.0, 92.0]
    calls: list[Callable[[], object]] = [
        lambda: api.analyse_string(speeds, ball_mass=0.2e-3, ball_mass_uncertainty=bad),
        lambda: api.analyse_string(speeds, ball_mass=0.2e-3, chronograph=api.Chronograph(standard_uncertainty=bad)),
        lambda: api.compare_strings(speeds, speeds, ball_mass=0.2e-3, setup_uncertainty=bad),
        lambda: api.muzzle_from_reading(90.0, ball_mass=0.2e-3, distance=0.0, ball_mass_uncertainty=bad),
        lambda: api.limit_verdict(speeds, ball_mass=0.2e-3, limit=1.0, ball_mass_uncertainty=bad),
        lambda: api.limit_verdict(speeds, ball_mass=0.2e-3, limit=1.0, chronograph=api.Chronograph(relative_uncertainty=bad)),
    ]
    for call in calls:
        with pytest.raises(api.InputError, match="uncertainty"):
            call()


def test_a_mask_is_refused() -> None:
    """Numpy would count what the mask hides."""
    masked = np.ma.masked_array([90.0, 5.0, 91.0], mask=[False, True, False])
    with pytest.raises(api.InputError, match="has a mask"):
        api.analyse_string(masked, ball_mass=None)


@pytest.mark.parametrize("bad", [5, None, {"a": 90.0}, "90 91"])
def test_what_is_no_sequence_of_numbers_is_named(bad: Any) -> None:
    """The type, and what would be right."""
    with pytest.raises(api.InputError, match="speeds"):
        api.analyse_string(bad, ball_mass=None)
