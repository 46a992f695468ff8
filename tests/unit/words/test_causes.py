from __future__ import annotations

import dataclasses
import json

from stripdown.bench.as_found import AS_FOUND_READINGS
from stripdown.bench.gun import Gun
from stripdown.catalogue.faults import load_faults
from stripdown.charts.pictures import Look, pictures_of
from stripdown.plain.causes import explanation_fields
from stripdown.quantities import Q
from stripdown.studies.loss_causes import AsFoundNeed, AsFoundReading, LossExplanation
from stripdown.words.case import case_answer
from stripdown.words.causes import cause_in_short, cause_part
from tests.synthetic_verdicts import make_case, make_explanation, make_no_change

GUN = Gun(name="Rack 7", note="", invented=True, origin="rack.toml", written={})


def test_where_nothing_changed_that_comes_first_and_nothing_else() -> None:
    """The first line of a case; no cause, no table of causes, no picture of them, no repair."""
    case = dataclasses.replace(make_case(GUN), explanation=make_no_change())
    answer = case_answer(case, scale="metric")
    first = answer.parts[0].named[0]
    assert first.key == "no_change"
    assert first.text.startswith("No change is shown: all strings together moved by −0.1 % (95 % interval −1.5 % to +1.3 %")
    assert "0.5 % for each day, an estimate" in first.text
    assert answer.part("causes") is None
    assert not any(named.key == "cause" for part in answer.parts for named in part.named)
    assert not {"causes", "where-it-went"} & set(pictures_of(case, Look()))


def test_an_explanation_without_a_change_has_one_sentence() -> None:
    """No table, no notes, no pictures."""
    part = cause_part(make_no_change(), scale="metric")
    assert len(part.lead) == 1
    assert (part.tables, part.notes, part.pictures) == ((), (), ())


def test_plain_values_say_whether_anything_changed() -> None:
    """One test with its interval, also where there is no end of degrees of freedom; and no cause where there is none."""
    fields = explanation_fields(make_no_change())
    assert fields["is_certain"] is False
    assert fields["causes"] == []
    assert fields["change"]["degrees_of_freedom"] is None
    assert fields["change"]["between_days"] == 0.005
    json.dumps(fields, allow_nan=False)
    assert explanation_fields(make_explanation())["change"]["low"] == 0.23


def test_one_ball_mass_names_no_cause_before_another() -> None:
    """The short form counts them; with two masses it names those that fit best."""
    found = make_explanation()
    alike = tuple(dataclasses.replace(cause, fit=None) for cause in found.causes)
    one = dataclasses.replace(found, causes=alike)
    assert cause_in_short(one, scale="metric") == (
        "2 single faults would do it, and one ball mass puts none of them before another."
    )
    assert cause_in_short(found, scale="metric").startswith("Piston drags")


def _with_reading(*, found: float, share: float, agrees: bool) -> LossExplanation:
    quantity = AS_FOUND_READINGS["piston_drag"].quantity
    assert isinstance(quantity, Q)
    need = AsFoundNeed(fault=load_faults()["seal_drag"], needed=17.0, found_is_more=False, agrees=agrees)
    read = AsFoundReading(
        key="piston_drag", path="piston.seal_drag", quantity=quantity, sound=4.0, found=found, share=share, needs=(need,)
    )
    return dataclasses.replace(make_explanation(), held=(read,))


def test_what_was_measured_is_held_against_what_a_cause_needs() -> None:
    """13 N found where 17 N would be needed is too little; what it explains by itself is said; and both are plain values."""
    found = _with_reading(found=13.0, share=0.6, agrees=False)
    said = [note.full for note in cause_part(found, scale="metric").notes if note.key == "as_found"]
    assert said[0].endswith("13 N instead of 4.0 N. By itself that explains 60 % of the loss.")
    assert said[1] == "Piston drags would need 17 N; found 13 N, too little, so it is not this alone."
    [read] = explanation_fields(found)["as_found"]
    assert (read["found_N"], read["needed"][0]["needed_N"], read["needed"][0]["agrees"]) == (13.0, 17.0, False)


def test_what_agrees_is_said_to_agree() -> None:
    """Within the interval; and a reading that explains more than was lost is said to."""
    found = _with_reading(found=17.5, share=1.3, agrees=True)
    said = [note.full for note in cause_part(found, scale="metric").notes if note.key == "as_found"]
    assert said[0].endswith("explains 100 % of the loss, and more than was lost.")
    assert said[1].endswith("found 18 N, which agrees.")
