"""The shape of every chart, without its data, as it was last accepted.

Goldens: this program made them, and they prove nothing but that no chart changed its shape unseen; the data are checked as
numbers in tests/unit/charts. To accept new shapes: ``python -m tests.golden.test_chart_specs`` with ``src`` on the path,
and a line in the changelog.
"""

from __future__ import annotations

import functools
import json
import math
from collections.abc import Mapping
from pathlib import Path

import pytest

from stripdown.charts.gland import gland_section
from stripdown.charts.joule_creep import joule_creep
from stripdown.charts.ledger import ledger_at_a_glance
from stripdown.charts.limit import creep_against_limit
from stripdown.charts.loss import causes_of_loss
from stripdown.charts.render import AnyChart
from stripdown.charts.repair import ledger_beside_repair
from stripdown.charts.sensitivity import speed_sensitivity
from stripdown.charts.shim_stack import shim_stack
from stripdown.charts.shot import pressure_travel, speed_travel
from stripdown.charts.standing_graph import standing_graph
from stripdown.charts.string_pairs import before_and_after
from stripdown.charts.strings import string_in_order
from stripdown.charts.themes import PAPER, SCREEN
from stripdown.charts.witness_mark import witness_mark_and_pad
from stripdown.core.interior_ballistics.result import Outcome
from stripdown.core.part_condition.engagement import engagement_pad
from stripdown.core.part_condition.o_ring_gland import o_ring_gland
from stripdown.core.shim_selection import GearSeat, ShimmedGear, choose_shims, choose_split
from tests.synthetic_service import made_procedure, made_standings
from tests.synthetic_shots import AS_FOUND_LEDGER, make_shot
from tests.synthetic_studies import make_creep, make_sensitivity
from tests.synthetic_verdicts import make_explanation, make_pair, make_verdict, measured, predicted
from tests.unit.charts.specs import shape

_FOLDER = Path(__file__).parent / "chart_specs"


@functools.cache
def _charts() -> Mapping[str, AnyChart]:
    healthy, as_found = make_shot(), make_shot(ball_speed=80.0, ledger=AS_FOUND_LEDGER)
    one, two = [healthy], [healthy, as_found]
    name, names = ["healthy"], ["healthy", "as found"]
    creep = make_creep([0.20e-3, 0.25e-3, 0.40e-3], [1.0, 1.05, 0.0], [Outcome.LEFT_MUZZLE] * 2 + [Outcome.STAYED_IN_BARREL])
    fired, unfired = measured(), predicted(0.28e-3, 85.0)
    string = make_pair().after.statistics
    explanation = make_explanation()
    gland = o_ring_gland(cross_section=1.78e-3, gland_depth=1.42e-3, gland_width=2.4e-3)
    pad = engagement_pad(witness_height=0.5e-3, pressure_angle=math.radians(20.0), module=1e-3)
    return {
        "gland-screen": gland_section(gland, theme=SCREEN),
        "witness-mark-paper": witness_mark_and_pad(pad, theme=PAPER),
        "before-and-after-paper": before_and_after([make_pair()], scale="metric", theme=PAPER),
        "causes-paper": causes_of_loss(explanation, theme=PAPER),
        "limit-screen": creep_against_limit(make_verdict(fired, unfired), theme=SCREEN),
        "repair-paper": ledger_beside_repair(as_found, healthy, explanation, theme=PAPER),
        "standing-graph-paper": standing_graph(made_procedure(), made_standings(), theme=PAPER, to_make=["float"]),
        "standing-graph-screen": standing_graph(made_procedure(), made_standings(), theme=SCREEN, with_parts=True),
        "string-screen": string_in_order(string, name="after", scale="metric", theme=SCREEN),
        "string-with-limit-paper": string_in_order(string, verdict=fired.measured, name="after", scale="metric", theme=PAPER),
        "ledger-one-screen": ledger_at_a_glance(one, names=name, speed_unit="m/s", theme=SCREEN),
        "ledger-two-paper": ledger_at_a_glance(two, names=names, speed_unit="m/s", theme=PAPER),
        "pressure-one-paper": pressure_travel(one, names=name, theme=PAPER),
        "pressure-two-screen": pressure_travel(two, names=names, theme=SCREEN),
        "speed-one-screen": speed_travel(one, names=name, speed_unit="ft/s", theme=SCREEN),
        "joule-creep-screen": joule_creep(creep, speed_unit="m/s", theme=SCREEN),
        "shims-gear-screen": shim_stack(
            choose_shims(gap=0.47e-3, gap_uncertainty=0.0, float_band=(0.05e-3, 0.15e-3), stock={0.2e-3: 4, 0.3e-3: 1}),
            theme=SCREEN,
        ),
        "shims-box-paper": shim_stack(
            choose_split(
                seats=[GearSeat(gear=ShimmedGear.SPUR, gap=0.5e-3, gap_uncertainty=0.0, float_band=(0.05e-3, 0.15e-3))],
                stock={0.2e-3: 4},
            ),
            theme=PAPER,
        ),
        "sensitivity-paper": speed_sensitivity(make_sensitivity(), speed_unit="m/s", theme=PAPER),
    }


@pytest.mark.parametrize("name", sorted(path.stem for path in _FOLDER.glob("*.json")))
def test_a_chart_has_the_shape_that_was_accepted(name: str) -> None:
    """Marks, encodings, scales, sizes and words."""
    assert shape(_charts()[name]) == json.loads((_FOLDER / f"{name}.json").read_text(encoding="utf-8"))


def test_every_chart_has_an_accepted_shape() -> None:
    """A new chart is looked at once, and then guarded."""
    assert sorted(path.stem for path in _FOLDER.glob("*.json")) == sorted(_charts())


if __name__ == "__main__":
    _FOLDER.mkdir(exist_ok=True)
    for _name, _chart in _charts().items():
        _text = json.dumps(shape(_chart), indent=1, sort_keys=True, ensure_ascii=False)
        (_FOLDER / f"{_name}.json").write_text(f"{_text}\n", encoding="utf-8")
