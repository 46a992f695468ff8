"""What the commands of the verdict print for people, as it was last accepted.

Goldens: this program printed them from made-up strings and causes, and they prove nothing but that words and layout did not
change unseen. To accept new ones: ``python -m tests.golden.test_printed_case`` with ``src`` on the path, and a line in the
changelog.
"""

from __future__ import annotations

import io
from collections.abc import Mapping
from pathlib import Path

import numpy as np
import pytest
from rich.console import Console

from stripdown.bench.gun import Gun
from stripdown.bench.strings import ChronographSession
from stripdown.catalogue.limits import load_limits
from stripdown.cli.rendered import print_answer
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.shot_statistics import HopState
from stripdown.quantities import leaves
from stripdown.studies.match_chronograph import LOSS, WORK, ChronographMatch, FittedNumber, SecondBall, SpeedPrediction
from stripdown.studies.observation import Observation
from stripdown.studies.session_answers import SessionComparison, SessionMatch, SessionStrings, SessionVerdict
from stripdown.words.answer import Answer
from stripdown.words.case import case_answer
from stripdown.words.causes import cause_part
from stripdown.words.limit import limits_answer, verdict_answer
from stripdown.words.match import match_answer
from stripdown.words.strings import comparison_answer, strings_answer
from tests.synthetic_shots import PARAMETERS
from tests.synthetic_verdicts import (
    AFTER,
    BEFORE,
    make_case,
    make_explanation,
    make_pair,
    make_string,
    make_verdict,
    measured,
    predicted,
)

_FOLDER = Path(__file__).parent / "printed_case"
_QUANTITIES = {leaf.path: leaf.quantity for leaf in leaves(ShotParameters)}
_GUN = Gun(name="Rack 7", note="", invented=True, origin="rack.toml", written={})


def _match() -> ChronographMatch:
    """Two numbers fitted to two strings; the second hardly learnt."""
    strings = tuple(
        Observation(
            ball_mass=mass,
            muzzle_speed=speed,
            standard_error=0.13,
            scatter=0.4,
            common_uncertainty=0.0,
            count=10,
            hop=HopState.OFF,
        )
        for mass, speed in ((0.20e-3, 100.0), (0.40e-3, 70.0))
    )
    fitted = tuple(
        FittedNumber(
            name=number.name,
            path=number.path,
            quantity=quantity,
            start=start,
            value=value,
            low=low,
            high=high,
            learnt=learnt,
        )
        for number, (start, value, low, high, learnt) in (
            (WORK, (520.0, 530.0, 495.0, 568.0, 0.82)),
            (LOSS, (0.1e-6, 0.12e-6, 0.01e-6, 1.2e-6, 0.03)),
        )
        if (quantity := _QUANTITIES[number.path]) is not None
    )
    return ChronographMatch(
        parameters=PARAMETERS,
        fitted=fitted,
        correlation=np.eye(2),
        strings=strings,
        predicted=np.array([100.1, 69.5]),
        misfit=1.0,
        notes=("Made up.",),
        numbers=(WORK, LOSS),
        places=np.zeros(2),
    )


def _expected() -> SpeedPrediction:
    return SpeedPrediction(
        ball_mass=np.array([0.25e-3, 0.30e-3]),
        muzzle_speed=np.array([90.0, 82.0]),
        standard_uncertainty=np.array([0.3, 0.02]),
        second=SecondBall(ball_mass=0.40e-3, open_now=0.02, open_then=0.008),
    )


def _answers() -> Mapping[str, Answer]:
    strings = (make_string(BEFORE), make_string(AFTER))
    pairs = (make_pair(), make_pair(ball_mass=0.40e-3, obstacles=("Made up: they do not compare.",)))
    paired = tuple(string for pair in pairs for string in (pair.before, pair.after))
    session = ChronographSession(strings=())
    verdict = make_verdict(measured(), measured(0.25e-3), predicted(0.28e-3, 85.0), predicted(0.40e-3, 76.0))
    gained, lost = make_explanation(), make_explanation(was_gained=False)
    limits = load_limits()
    fitted = SessionMatch(
        session=session, strings=(), gun=_GUN, assumed=(), match=_match(), expected=_expected(), hop=HopState.OFF
    )
    judged = SessionVerdict(session=session, strings=(), gun=_GUN, assumed=(), verdict=verdict)
    return {
        "strings": strings_answer(SessionStrings(session=session, strings=strings), scale="metric"),
        "compare": comparison_answer(SessionComparison(session=session, strings=paired, pairs=pairs), scale="imperial"),
        "causes": cause_part(gained, scale="metric"),
        "causes-imperial": cause_part(lost, scale="imperial"),
        "verdict": verdict_answer(judged, scale="metric"),
        "match": match_answer(fitted, scale="metric"),
        "limits": limits_answer({key: limits[key] for key in ("italy", "site_350")}),
        "case": case_answer(make_case(_GUN), scale="metric"),
    }


def _printed(name: str) -> str:
    out = io.StringIO()
    print_answer(Console(file=out, width=80, highlight=False, markup=False, emoji=False), _answers()[name])
    return "".join(f"{line.rstrip()}\n" for line in out.getvalue().splitlines())


@pytest.mark.parametrize("name", sorted(_answers()))
def test_a_print_says_what_was_accepted(name: str) -> None:
    """Figures, tables, remarks and layout, line by line."""
    assert _printed(name) == (_FOLDER / f"{name}.txt").read_text(encoding="utf-8")


if __name__ == "__main__":
    _FOLDER.mkdir(exist_ok=True)
    for _name in _answers():
        (_FOLDER / f"{_name}.txt").write_text(_printed(_name), encoding="utf-8")
