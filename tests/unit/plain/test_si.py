from __future__ import annotations

import json

import pytest

from stripdown import __version__
from stripdown.bench.gun import Assumed
from stripdown.core.interior_ballistics.result import Outcome, ShotSummary
from stripdown.plain.si import assumed_fields, ledger_fields, si_fields, si_key, written
from stripdown.quantities import leaves, value_at
from stripdown.references.provenance import Footing
from tests.synthetic_shots import LEDGER, make_shot


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
        "is_typical": False,
        "footing": "common_practice",
        "source": None,
        "reason": "six holes",
    }


def test_the_text_is_strict_json_with_the_version() -> None:
    """Not-a-number has no place in JSON, and is refused instead of written."""
    assert json.loads(written({"gun": "Räck"})) == {"gun": "Räck", "program_version": __version__}
    with pytest.raises(ValueError, match="JSON"):
        written({"speed": float("nan")})
