from __future__ import annotations

import dataclasses
import json

import pytest

from stripdown import __version__
from stripdown.bench.gun import Assumed
from stripdown.core.interior_ballistics.result import Outcome, ShotSummary
from stripdown.plain.si import assumed_fields, input_digest, ledger_fields, si_fields, si_key, si_rows, written
from stripdown.quantities import leaves, replace_at, value_at
from stripdown.references.provenance import Footing
from tests.synthetic_shots import LEDGER, PARAMETERS, make_shot
from tests.synthetic_studies import make_creep


@pytest.mark.parametrize(
    ("name", "unit", "key"),
    [
        ("muzzle_speed", "m/s", "muzzle_speed_m_per_s"),
        ("muzzle_energy", "J", "muzzle_energy_J"),
        ("peak_pressure", "Pa", "peak_pressure_Pa"),
        ("backspin", "rad/s", "backspin_rad_per_s"),
        ("spin_ratio", "1", "spin_ratio"),
        ("gas_constant", "J/(kg K)", "gas_constant_J_per_kg_K"),
        ("vent_area", "m2", "vent_area_m2"),
    ],
)
def test_a_key_carries_its_unit(name: str, unit: str, key: str) -> None:
    """A reader of the JSON needs no manual for the units."""
    assert si_key(name, unit) == key


def test_every_figure_of_a_summary_arrives() -> None:
    """One key per field, SI values unchanged, the outcome by name, None where something did not happen."""
    summary = make_shot(outcome=Outcome.DID_NOT_MOVE).figures
    fields = si_fields(summary)
    assert list(fields.values())[1:] == [value_at(summary, leaf.path) for leaf in leaves(ShotSummary)][1:]
    assert fields["outcome"] == "did_not_move"
    assert fields["time_to_muzzle_s"] is None
    assert fields["time_to_slam_s"] == 12.5e-3


def test_the_ledger_in_json_adds_up() -> None:
    """Fourteen entries, what they add up to, and what is missing; the ways of what was blown out stand apart."""
    fields = ledger_fields(LEDGER)
    entries = dict(fields["ledger_J"])
    put_in, residual = entries.pop("put_in"), entries.pop("residual")
    assert len(entries) == 14
    assert sum(entries.values()) + residual == pytest.approx(put_in, abs=1e-12)
    assert sum(fields["put_in_J"].values()) == pytest.approx(put_in, abs=1e-12)
    assert fields["blown_out_J"]["leaked_past_ball"] == 0.080


def test_columns_become_rows_with_units() -> None:
    """Declared columns carry their own unit, tuples of times the one that they are given; numbers are plain ones."""
    rows = si_rows(
        make_creep([0.2e-3, 0.4e-3], [1.0, 0.0], [Outcome.LEFT_MUZZLE, Outcome.DID_NOT_MOVE]), units={"time_to_slam": "s"}
    )
    assert [row["ball_mass_kg"] for row in rows] == [0.2e-3, 0.4e-3]
    assert rows[0]["time_to_slam_s"] == 0.0125
    assert rows[1]["time_to_muzzle"] is None
    assert rows[1]["outcome"] == "did_not_move"
    assert type(rows[0]["muzzle_energy_J"]) is float


def test_an_assumption_says_where_it_comes_from() -> None:
    """Field, SI value, unit, workshop text, footing, source and reason."""
    entry = Assumed(
        path="piston.vent_area", value=6e-6, text="6 mm²", footing=Footing.COMMON_PRACTICE, source=None, reason="six holes"
    )
    assert assumed_fields(entry) == {
        "field": "piston.vent_area",
        "value": 6e-6,
        "unit": "m2",
        "text": "6 mm²",
        "footing": "common_practice",
        "source": None,
        "reason": "six holes",
    }


def test_the_digest_changes_with_every_input() -> None:
    """The last bit of any parameter, and the tolerance, make another digest; the same input makes the same."""
    digest = input_digest(PARAMETERS, tolerance=1e-4)
    assert digest == input_digest(dataclasses.replace(PARAMETERS), tolerance=1e-4)
    assert digest != input_digest(PARAMETERS, tolerance=1e-5)
    changed = {digest}
    numbers = [leaf for leaf in leaves(type(PARAMETERS)) if leaf.type is float]
    for leaf in numbers:
        other = replace_at(PARAMETERS, leaf.path, value_at(PARAMETERS, leaf.path) + 1e-9)
        changed.add(input_digest(other, tolerance=1e-4))
    assert len(changed) == len(numbers) + 1


def test_the_text_is_strict_json_with_the_version() -> None:
    """Not-a-number has no place in JSON, and is refused instead of written."""
    assert json.loads(written({"gun": "Räck"})) == {"gun": "Räck", "program_version": __version__}
    with pytest.raises(ValueError, match="JSON"):
        written({"speed": float("nan")})
