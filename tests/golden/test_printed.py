"""What the commands print for people, as it was last accepted.

Goldens: this program printed them, and they prove nothing but that words and layout did not change unseen. To accept new
ones: ``python -m tests.golden.test_printed`` with ``src`` on the path, and a line in the changelog.
"""

from __future__ import annotations

import contextlib
import io
from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path

import pytest
from rich.console import Console

from stripdown.cli.rendered import print_answer
from stripdown.core.interior_ballistics.result import Outcome
from stripdown.files.gun import check_gun
from stripdown.studies.shooting import FiredAlike
from stripdown.words.answer import Answer
from stripdown.words.gun import gun_check_answer
from stripdown.words.shot import sensitivity_answer, shot_answer, sweep_answer
from tests.synthetic_shots import AS_FOUND_LEDGER, make_shot
from tests.synthetic_studies import make_creep, make_gun, make_sensitivity, make_shooting

_FOLDER = Path(__file__).parent / "printed"
_GUN_CHECKS = Path(__file__).parent / "gun_check"
_EXAMPLES = Path(__file__).parents[2] / "examples"


def _answers() -> Mapping[str, Callable[[], Answer]]:
    healthy = make_shooting("Rack 7, healthy", make_shot())
    as_found = make_shooting("Rack 7, as found", make_shot(ball_speed=80.0, ledger=AS_FOUND_LEDGER))
    stuck = make_shooting("Rack 7, stuck", make_shot(outcome=Outcome.DID_NOT_MOVE))
    creep = make_creep([0.20e-3, 0.25e-3, 0.40e-3], [1.0, 1.05, 0.0], [Outcome.LEFT_MUZZLE] * 2 + [Outcome.STAYED_IN_BARREL])
    mine = make_gun("Rack 7, healthy", invented=True)
    return {
        "shot-one": lambda: shot_answer(FiredAlike(shootings=(healthy,)), scale="metric"),
        "shot-two": lambda: shot_answer(FiredAlike(shootings=(healthy, as_found)), scale="imperial"),
        "shot-three": lambda: shot_answer(FiredAlike(shootings=(healthy, as_found, stuck)), scale="metric"),
        "sweep": lambda: sweep_answer(replace(creep, gun=mine), scale="metric"),
        "sensitivity": lambda: sensitivity_answer(replace(make_sensitivity(), gun=mine), scale="metric"),
        "gun-check-as-found": lambda: gun_check_answer(check_gun("brackenmoor-07-as-found.toml")),
        "gun-check-mistakes": lambda: gun_check_answer(check_gun("mistakes.toml")),
    }


def _printed(name: str) -> str:
    out = io.StringIO()
    with contextlib.chdir(_GUN_CHECKS if name == "gun-check-mistakes" else _EXAMPLES):
        print_answer(Console(file=out, width=80, highlight=False, markup=False, emoji=False), _answers()[name]())
    return "".join(f"{line.rstrip()}\n" for line in out.getvalue().splitlines())


@pytest.mark.parametrize("name", sorted(_answers()))
def test_a_print_says_what_was_accepted(name: str) -> None:
    """Figures, ledger, remarks and layout, line by line."""
    assert _printed(name) == (_FOLDER / f"{name}.txt").read_text(encoding="utf-8")


if __name__ == "__main__":
    _FOLDER.mkdir(exist_ok=True)
    for _name in _answers():
        (_FOLDER / f"{_name}.txt").write_text(_printed(_name), encoding="utf-8")
