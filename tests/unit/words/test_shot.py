from __future__ import annotations

import dataclasses

import pytest

from stripdown.bench.gun import Assumed
from stripdown.core.interior_ballistics.result import Outcome
from stripdown.core.shot_statistics import EnergyLimit
from stripdown.references.provenance import Footing
from stripdown.studies.shooting import FiredAlike, Shooting
from stripdown.words.gun import PREDICTION, assumed_sentence, outcome_words
from stripdown.words.shot import short_names, shot_answer, sweep_answer
from tests.synthetic_shots import make_shot
from tests.synthetic_studies import COMPLETE, make_creep, make_shooting

_ONE = make_shooting("Rack 7", make_shot())


def _notes(*shootings: Shooting) -> list[str]:
    return [note.full for note in shot_answer(FiredAlike(shootings=shootings), scale="metric").notes]


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


def test_a_head_has_room_for_more_of_a_name_than_a_bar() -> None:
    """Beside each other two names stand in lines: neither is cut where both fit a terminal of eighty columns."""
    names = ["Carbine of the north rack", "Old rifle after the wet winter"]
    assert short_names(names, longest=42) == names
    assert short_names(names) != names


@pytest.mark.parametrize("outcome", Outcome)
def test_every_outcome_has_words(outcome: Outcome) -> None:
    """A shot can end in no way that cannot be told."""
    assert outcome_words(outcome)


def test_only_what_did_not_end_well_is_told() -> None:
    """A ball that leaves the muzzle is what one expects."""
    stuck = dataclasses.replace(_ONE, name="Rack 8", shot=dataclasses.replace(_ONE.shot, outcome=Outcome.STAYED_IN_BARREL))
    assert [note for note in _notes(_ONE, stuck) if "ball" in note] == ["Rack 8: the ball stays in the barrel."]


def test_a_remark_that_all_share_is_told_once() -> None:
    """One that belongs to one of them names it."""
    both = dataclasses.replace(_ONE.shot, notes=("Gas is fast.",))
    one = dataclasses.replace(_ONE.shot, notes=("Gas is fast.", "Gas is hot."))
    notes = _notes(dataclasses.replace(_ONE, shot=both), dataclasses.replace(_ONE, name="Rack 8", shot=one))
    assert [note for note in notes if "Gas" in note] == ["Gas is fast.", "Rack 8: Gas is hot."]


def test_what_is_assumed_is_told_once_for_all_that_share_it() -> None:
    """The gun's own dimensions one by one, the model's coefficients counted; in short a count of both."""
    nothing = dataclasses.replace(_ONE, name="Rack 8", complete=dataclasses.replace(COMPLETE, assumed=()))
    [shared] = [note for note in shot_answer(FiredAlike(shootings=(_ONE, _ONE)), scale="metric").notes if note.key == "assumed"]
    [owned] = [note for note in shot_answer(FiredAlike(shootings=(_ONE, nothing)), scale="metric").notes if note.key == "assumed"]
    said = "Assumed, because the gun's file leaves it out: estimate: open area of the head's vents 6 mm². "
    assert shared.full.replace("\u00a0", " ") == f"{said}Also assumed: 1 coefficient of the model as the catalogue has them."
    assert shared.about == ("piston.vent_area", "laws.barrel_heat")
    assert shared.act == "list_assumed"
    assert owned.short == f"Rack 7 (invented): {shared.short}"


def test_many_assumptions_are_counted() -> None:
    """A count each, and nothing at all where nothing is assumed."""
    part = Assumed(path="spring.mass", value=0.014, text="14 g", footing=Footing.ESTIMATE, source=None, reason="usual")
    sentence = assumed_sentence([part, *COMPLETE.assumed])
    assert sentence is not None
    counts = "2 of the gun's dimensions and 1 coefficient of the model"
    assert sentence.short == f"Assumed, because the gun's file leaves them out: {counts}."
    assert assumed_sentence([]) is None


def test_figures_of_one_gun_carry_key_and_si_value() -> None:
    """100 m/s are 328 ft/s on the sheet and 100 m/s below it; what a ball that stays has not, is none."""
    figures = {figure.key: figure for figure in shot_answer(FiredAlike(shootings=(_ONE,)), scale="imperial").figures}
    assert (figures["muzzle_speed"].text, figures["muzzle_speed"].value) == ("328 ft/s", 100.0)
    stuck = dataclasses.replace(_ONE, shot=make_shot(outcome=Outcome.STAYED_IN_BARREL))
    figures = {figure.key: figure for figure in shot_answer(FiredAlike(shootings=(stuck,)), scale="metric").figures}
    assert (figures["muzzle_speed"].text, figures["muzzle_speed"].value) == ("–", None)


def test_a_ledger_of_one_shot_has_a_share_for_each_bar() -> None:
    """Of 2.19 J put in, the ball's 1.000 J are 45.66 %."""
    [table] = shot_answer(FiredAlike(shootings=(_ONE,)), scale="metric").tables
    label, bar, _ = table.rows[0]
    assert label.key == "ball_flight"
    assert bar.share == pytest.approx(1.0 / 2.19)


def test_four_shots_stand_in_two_tables_of_each_kind() -> None:
    """Three side by side are what eighty columns hold; two of them have a difference."""
    names = [dataclasses.replace(_ONE, name=name) for name in "abcde"]
    tables = shot_answer(FiredAlike(shootings=tuple(names)), scale="metric").tables
    assert [(table.key, len(table.columns)) for table in tables] == [("figures", 4), ("ledger", 4)] * 2


def test_a_prediction_passes_no_judgement() -> None:
    """Said of every print, before what comes next."""
    assert "pass" not in PREDICTION.full
    assert "not measured" in PREDICTION.full
    assert _notes(_ONE)[-2] == PREDICTION.full


@pytest.mark.parametrize(
    ("energy", "said"),
    [
        (1.006, "Limit 1.01 J: predicted over it: 0.30 g."),
        (1.5, "Limit 1.50 J: none of these is predicted over it, which permits nothing."),
    ],
)
def test_a_limit_beside_energies_permits_nothing(energy: float, said: str) -> None:
    """Balls over it are named; that none is over it is no permission."""
    creep = dataclasses.replace(make_creep([0.2e-3, 0.3e-3], [1.0, 1.01]), limit=EnergyLimit(name="wood", energy=energy))
    assert [note.full for note in sweep_answer(creep, scale="metric").notes if note.key == "limit"] == [said]


def test_every_answer_about_a_gun_says_what_comes_next() -> None:
    """A technician who has the figure wants the next question."""
    assert shot_answer(FiredAlike(shootings=(_ONE,)), scale="metric").notes[-1].act == "after_shot"
