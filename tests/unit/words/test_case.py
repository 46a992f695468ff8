from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterator

import pytest

from stripdown.charts.pictures import Look, pictures_of
from stripdown.core.shot_statistics import MeasuredState, PredictedState
from stripdown.references import load_references
from stripdown.studies.service_case import CaseStudy
from stripdown.words.answer import Answer, FigureFooting, Table
from stripdown.words.case import case_answer
from stripdown.words.sources import source_in_short
from tests.demo_cases import over_the_limit, whole_case, without_after, without_before, without_limit


@pytest.fixture(scope="module")
def sheet() -> Answer:
    """What is said of the whole demo case."""
    return case_answer(whole_case(), scale="metric")


def _said(study: CaseStudy) -> Answer:
    return case_answer(study, scale="metric")


def _tables(answer: Answer) -> Iterator[Table]:
    yield from answer.tables
    for part in answer.parts:
        yield from _tables(part)


def _table(answer: Answer, key: str) -> Table:
    return next(table for table in _tables(answer) if table.key == key)


def _part(answer: Answer, key: str) -> Answer:
    part = answer.part(key)
    assert part is not None
    return part


def _words(table: Table) -> str:
    return " ".join(f"{cell.text} {cell.small}" for row in table.rows for cell in row)


def _notes(answer: Answer) -> list[str]:
    return [sentence.full for sentence in answer.notes]


def test_every_figure_in_a_table_stands_under_its_standing(sheet: Answer) -> None:
    """A column without a footing holds words: balls, how they were read, what is ordinary, and no other figure."""
    for table in _tables(sheet):
        for place, column in enumerate(table.columns):
            if column.footing is None:
                for row in table.rows:
                    bare = re.sub(r"[\d., ]*\d g\b|read at [\d.]+ m|limit [\d.]+ m/s|ordinary: up to [\d.]+", "", str(row[place]))
                    assert not re.search(r"\d\.\d", bare), (column.head, row[place])


def test_rows_have_as_many_cells_as_columns(sheet: Answer) -> None:
    """Else the printer would shift every cell after."""
    tables = list(_tables(sheet))
    assert len(tables) == 4
    assert all(len(row) == len(table.columns) for table in tables for row in table.rows)


def test_a_prediction_is_an_estimate_and_never_a_pass(sheet: Answer) -> None:
    """Its figures are marked as estimates, its words are those of predictions, and no measured state is among them."""
    table = _table(sheet, "predicted")
    assert {column.footing for column in table.columns} == {None, FigureFooting.ESTIMATE}
    assert {row[1].text for row in table.rows} <= {state.value for state in PredictedState}
    assert not any(cell.is_strong for row in table.rows for cell in row)
    cells = {cell.text for row in table.rows for cell in row}
    assert not cells & {state.value for state in MeasuredState}
    assert "pass" not in _words(table)


def test_three_numbers_stand_under_three_names(sheet: Answer) -> None:
    """Mean, bound, chance; what a bound is; and the guard band beside them."""
    part = _part(sheet, "limit")
    heads = [column.head for column in _table(part, "measured").columns]
    assert heads[2:] == ["mean", "bound", "next shot exceeds", "highest mean under, and guard band"]
    assert any("bound (95 % of all shots keep to it, 95 % sure)" in note for note in _notes(part))
    verdict = whole_case().verdict
    assert verdict is not None
    found = verdict.balls[0].measured
    assert found is not None
    assert _table(part, "measured").rows[0][5].small == f"{found.guard_band:.2f} J"


def test_rows_and_sentences_name_the_strings_and_balls_that_they_are_about(sheet: Answer) -> None:
    """By keys that no two share: what a screen needs to lead from one to the other."""
    study = whole_case()
    strings = {string.key for string in (*study.before, *study.after)}
    assert len(strings) == len(study.before) + len(study.after)
    for row in _table(sheet, "changes").rows:
        assert {row[1].key, row[2].key} <= strings
    assert {row[0].key for row in _table(sheet, "measured").rows} <= {string.key for string in study.after}
    assert study.explanation is not None
    assert [row[0].key for row in _table(sheet, "causes").rows] == [
        cause.fault.key for cause in study.explanation.causes if cause.stands
    ]
    [aside] = [line for line in sheet.lead if line.key == "not_counted"]
    assert study.before[0].reading.words in aside.full


def test_figures_are_those_of_the_case(sheet: Answer) -> None:
    """Mean speeds, change and its interval, as the study has them."""
    pair = whole_case().comparisons[0]
    assert pair.comparison is not None
    row = _table(sheet, "changes").rows[0]
    low, high = pair.comparison.interval
    assert row[1].text == f"{pair.before.statistics.mean:.1f} m/s"
    assert row[2].text == f"{pair.after.statistics.mean:.1f} m/s"
    assert row[3].text == f"+{pair.comparison.difference:.1f} m/s"
    assert row[3].small.startswith(f"+{low:.1f} to +{high:.1f}")


def test_speeds_are_in_feet_on_the_imperial_scale() -> None:
    """Speeds alone: balls stay in grams, limits in joules."""
    words = _words(_table(case_answer(whole_case(), scale="imperial"), "changes"))
    assert "ft/s" in words
    assert "m/s" not in words
    assert "J" in words


def test_the_verdict_comes_first_in_short_and_unfired_balls_second(sheet: Answer) -> None:
    """The owner's question before all others; what nobody fired stands apart, as an estimate that proves nothing."""
    proved, unfired = _part(sheet, "short").named[:2]
    assert (proved.name, proved.footing) == ("limit", FigureFooting.MEASURED)
    assert proved.text.startswith("Under the limit with 0.20 g on semi")
    assert (unfired.name, unfired.footing) == ("not fired", FigureFooting.ESTIMATE)
    assert unfired.text.startswith("Nothing is proved with ")


def test_a_gun_over_its_limit_is_called_over_first() -> None:
    """The worst state leads, with the balls it was fired with."""
    sheet = _said(over_the_limit())
    assert _part(sheet, "short").named[0].text.startswith("Over the limit with 0.20 g on semi")
    table = _table(sheet, "measured")
    assert {row[1].text for row in table.rows} == {"over the limit"}
    assert "of them over" in _words(table)


def test_a_ball_expected_over_is_named_apart_from_those_worth_firing() -> None:
    """Nobody has to look for it in a table."""
    assert _part(_said(over_the_limit()), "short").named[1].text.startswith("Expected over the limit: ")


def test_without_a_string_before_the_strings_stand_alone_and_are_judged() -> None:
    """No change and no cause; the verdict needs none of it."""
    sheet = _said(without_before())
    assert any("fired before" in line for line in _notes(_part(sheet, "unsaid")))
    assert sheet.part("causes") is None
    assert sheet.part("change") is None
    assert _part(sheet, "strings").title == "After the work"
    rows = _table(sheet, "strings").rows
    assert [row[2].text for row in rows] == [f"{string.statistics.mean:.1f} m/s" for string in without_before().after]
    assert _table(sheet, "measured").rows


def test_without_a_string_after_there_is_no_verdict() -> None:
    """Nothing that was fired before the work allows a gun out; nor does a prediction stand where a verdict would."""
    sheet = _said(without_after())
    assert any("fired after" in line for line in _notes(_part(sheet, "unsaid")))
    assert _part(sheet, "strings").title == "Before the work"
    limit = _part(sheet, "limit")
    assert limit.tables == ()
    assert _notes(limit) == ["No verdict: the reason stands above, under what cannot be said."]
    assert all(line.name != "limit" for line in _part(sheet, "short").named)


def test_without_a_limit_the_sheet_says_so() -> None:
    """No part on a limit; what changed and why stay."""
    sheet = _said(without_limit())
    assert any("No limit was named" in line for line in _notes(_part(sheet, "unsaid")))
    assert sheet.part("limit") is None
    assert sheet.part("causes") is not None


def test_a_quoted_law_says_that_it_is_quoted() -> None:
    """Whose word it is, and whether the law itself was read."""
    study = without_after()
    assert study.limit is not None
    law = dataclasses.replace(study.limit, name="a law", is_law=True, was_read=False, measuring_distance=None)
    said = {line.name: line.text for line in _part(_said(dataclasses.replace(study, limit=law)), "limit").named}
    assert said["whose"].startswith("law; a law; ")
    assert "quoted: the rule itself was not read" in said["whose"]
    assert "the rule does not say where it is measured: held at the muzzle" in said["limit"]


def test_a_limit_by_area_is_written_by_area() -> None:
    """35 000 J/m2 are 3.5 J/cm²."""
    study = without_after()
    assert study.limit is not None
    by_area = dataclasses.replace(study.limit, energy=None, energy_per_area=35_000.0)
    limit = _part(_said(dataclasses.replace(study, limit=by_area)), "limit")
    assert limit.named[0].text.startswith("3.5 J/cm² of the ball's largest cross-section")


def test_shots_set_aside_and_lines_left_out_are_named_with_their_reason(sheet: Answer) -> None:
    """Nobody takes a shot away unseen."""
    assert any("shot 3: two balls left at once" in line.full for line in sheet.lead)
    left_out = whole_case().left_out
    told = [note for note in _part(sheet, "rests_on").notes if note.key == "left_out"]
    assert len(told) == len(left_out) > 0
    assert left_out[0].reason in told[0].full


def test_invented_figures_are_marked(sheet: Answer) -> None:
    """If the case or the gun says so."""
    study = whole_case()
    real_gun = dataclasses.replace(study.gun, invented=False)
    marked = (sheet, _said(dataclasses.replace(study, invented=True, gun=real_gun)))
    for answer in marked:
        assert answer.lead[0].full == "Invented figures: no real gun"
    assert "Invented" not in "".join(line.full for line in _said(dataclasses.replace(study, invented=False, gun=real_gun)).lead)


def test_what_does_not_count_stands_first(sheet: Answer) -> None:
    """Lines that gave nothing and shots that were set aside are named before any figure."""
    [line] = [line.full for line in sheet.lead if line.key == "not_counted"]
    assert line == (
        "Not counted: line 35 of after.csv (no reading); before, 0.20 g, hop-up off, semi (shot 3: two balls left at once)."
    )


def test_assumed_values_are_named_with_their_standing(sheet: Answer) -> None:
    """In the workshop's words, with unit, by how well they are known; the model's own coefficients are counted."""
    study = whole_case()
    [said] = [note for note in _part(sheet, "rests_on").notes if note.key == "assumed"]
    text = said.full.replace("\u00a0", " ")
    of_the_gun = [entry for entry in study.assumed if not entry.path.startswith("laws.")]
    assert all(entry.text in text for entry in of_the_gun)
    assert all(f"{entry.footing.words}: " in text for entry in of_the_gun)
    assert f"{len(study.assumed) - len(of_the_gun)} coefficients of the model" in text
    assert f"{len(of_the_gun)} of the gun's dimensions" in said.short
    assert set(said.about) == {entry.path for entry in study.assumed}


def test_causes_carry_amount_range_and_what_to_look_at(sheet: Answer) -> None:
    """Every cause that stands has its row, the first three what to look at; those that do not stand are named."""
    part = _part(sheet, "causes")
    explanation = whole_case().explanation
    assert explanation is not None
    first = explanation.causes[0]
    row = _table(sheet, "causes").rows[0]
    assert (row[0].text, row[0].small) == (first.fault.name, first.fault.amount.label)
    assert row[2].text == first.plausibility.value
    checks = [note for note in part.notes if note.key == "check"]
    assert len(checks) == 3
    assert checks[0].full.endswith(first.fault.check)
    named = " ".join([*_notes(part), _words(_table(sheet, "causes"))]).lower()
    assert all(cause.fault.name.lower() in named for cause in explanation.causes)


def test_sources_are_named_so_that_they_can_be_found(sheet: Answer) -> None:
    """Author, year and place of each, on the terminal as on paper."""
    [sources] = [line.text for line in _part(sheet, "rests_on").rests_on if line.key == "sources"]
    register = load_references()
    assert all(source_in_short(register[key]) in sources for key in whole_case().sources)


def test_every_picture_of_a_case_is_named_where_it_belongs(sheet: Answer) -> None:
    """By the key under which it is drawn, so that a page finds it; none is drawn that nothing names."""
    named = [key for part in sheet.parts for key in part.pictures]
    assert sorted(named) == sorted(pictures_of(whole_case(), Look()))
