from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterator
from typing import Any

import pytest

from stripdown.core.shot_statistics import MeasuredState, PredictedState
from stripdown.reports.content import FigureFooting, Sheet, Table
from stripdown.reports.sheet import sheet_of
from tests.demo_cases import over_the_limit, whole_case, without_after, without_before, without_limit


@pytest.fixture(scope="module")
def sheet() -> Sheet:
    """What the sheet of the whole demo case says."""
    return sheet_of(whole_case())


def _tables(value: Any) -> Iterator[Table]:
    if isinstance(value, Table):
        yield value
    elif dataclasses.is_dataclass(value):
        for field in dataclasses.fields(value):
            yield from _tables(getattr(value, field.name))


def _words(table: Table | None) -> str:
    return "" if table is None else " ".join(f"{cell.text} {cell.small}" for row in table.rows for cell in row)


def test_every_figure_in_a_table_stands_under_its_standing(sheet: Sheet) -> None:
    """A column without a standing holds words: balls, how they were read, what is ordinary, and no other figure."""
    for table in _tables(sheet):
        for place, column in enumerate(table.columns):
            if column.footing is None:
                for row in table.rows:
                    bare = re.sub(r"[\d., ]*\d g\b|read at [\d.]+ m|limit [\d.]+ m/s|ordinary: up to [\d.]+", "", str(row[place]))
                    assert not re.search(r"\d\.\d", bare), (column.head, row[place])


def test_rows_have_as_many_cells_as_columns(sheet: Sheet) -> None:
    """Else the printer would shift every cell after."""
    tables = list(_tables(sheet))
    assert len(tables) == 4
    assert all(len(row) == len(table.columns) for table in tables for row in table.rows)


def test_a_prediction_is_an_estimate_and_never_a_pass(sheet: Sheet) -> None:
    """Its figures are marked as estimates, its words are those of predictions, and no measured state is among them."""
    assert sheet.limit is not None
    table = sheet.limit.predicted
    assert table is not None
    assert {column.footing for column in table.columns} == {None, FigureFooting.ESTIMATE}
    assert {row[0].text for row in table.rows} <= {state.value for state in PredictedState}
    assert not any(cell.is_strong for row in table.rows for cell in row)
    cells = {cell.text for row in table.rows for cell in row}
    assert not cells & {state.value for state in MeasuredState}
    assert "pass" not in _words(table)


def test_three_numbers_stand_under_three_names(sheet: Sheet) -> None:
    """Mean, bound, chance; and the guard band beside them."""
    assert sheet.limit is not None
    assert sheet.limit.measured is not None
    heads = [column.head for column in sheet.limit.measured.columns]
    assert heads[2:5] == ["mean", "bound: 95 % of shots under it, 95 % sure", "chance that the next shot exceeds"]
    assert "guard band" in _words(sheet.limit.measured)


def test_figures_are_those_of_the_case(sheet: Sheet) -> None:
    """Mean speeds, change and its interval, as the study has them."""
    pair = whole_case().comparisons[0]
    assert pair.comparison is not None
    assert sheet.change.table is not None
    row = sheet.change.table.rows[0]
    low, high = pair.comparison.interval
    assert row[1].text == f"{pair.before.statistics.mean:.1f} m/s"
    assert row[2].text == f"{pair.after.statistics.mean:.1f} m/s"
    assert row[3].text == f"+{pair.comparison.difference:.1f} m/s"
    assert row[3].small.startswith(f"+{low:.1f} to +{high:.1f}")


def test_speeds_are_in_feet_on_the_imperial_scale() -> None:
    """Speeds alone: balls stay in grams, limits in joules."""
    imperial = sheet_of(whole_case(), scale="imperial")
    assert imperial.change.table is not None
    assert "ft/s" in _words(imperial.change.table)
    assert "m/s" not in _words(imperial.change.table)
    assert "J" in _words(imperial.change.table)


def test_the_verdict_comes_first_in_short_and_unfired_balls_second(sheet: Sheet) -> None:
    """The owner's question before all others; what nobody fired stands apart, as an estimate that proves nothing."""
    proved, unfired = sheet.short[:2]
    assert (proved.name, proved.footing) == ("limit", FigureFooting.MEASURED)
    assert proved.text.startswith("Under the limit with 0.20 g on semi")
    assert (unfired.name, unfired.footing) == ("not fired", FigureFooting.ESTIMATE)
    assert unfired.text.startswith("Nothing is proved with ")


def test_a_gun_over_its_limit_is_called_over_first() -> None:
    """The worst state leads, with the balls it was fired with."""
    sheet = sheet_of(over_the_limit())
    assert sheet.short[0].text.startswith("Over the limit with 0.20 g on semi")
    assert sheet.limit is not None
    assert sheet.limit.measured is not None
    assert {row[1].text for row in sheet.limit.measured.rows} == {"over the limit"}
    assert "of them over" in _words(sheet.limit.measured)


def test_a_ball_expected_over_is_named_apart_from_those_worth_firing() -> None:
    """Nobody has to look for it in a table."""
    assert sheet_of(over_the_limit()).short[1].text.startswith("Expected over the limit: ")


def test_without_a_string_before_the_sheet_says_so_and_still_judges() -> None:
    """No change and no cause; the verdict needs none of it."""
    sheet = sheet_of(without_before())
    assert any("fired before" in line for line in sheet.unsaid)
    assert sheet.causes is None
    assert sheet.change.heading == "After the work"
    assert sheet.change.table is not None
    assert [column.head for column in sheet.change.table.columns] == ["fired with", "after: mean", "mean energy"]
    assert sheet.limit is not None
    assert sheet.limit.measured is not None


def test_without_a_string_after_there_is_no_verdict() -> None:
    """Nothing that was fired before the work allows a gun out; nor does a prediction stand where a verdict would."""
    sheet = sheet_of(without_after())
    assert any("fired after" in line for line in sheet.unsaid)
    assert sheet.limit is not None
    assert sheet.limit.measured is None
    assert sheet.limit.predicted is None
    assert sheet.limit.notes == ("No verdict: the reason stands above, under what cannot be said.",)
    assert all(line.name != "limit" for line in sheet.short)


def test_without_a_limit_the_sheet_says_so() -> None:
    """No part on a limit; what changed and why stay."""
    sheet = sheet_of(without_limit())
    assert any("No limit was named" in line for line in sheet.unsaid)
    assert sheet.limit is None
    assert sheet.causes is not None


def test_a_quoted_law_says_that_it_is_quoted() -> None:
    """Whose word it is, and whether the law itself was read."""
    study = without_after()
    assert study.limit is not None
    law = dataclasses.replace(study.limit, name="a law", is_law=True, was_read=False, measuring_distance=None)
    sheet = sheet_of(dataclasses.replace(study, limit=law))
    assert sheet.limit is not None
    said = {line.name: line.text for line in sheet.limit.limit}
    assert said["whose"].startswith("law; a law; ")
    assert "quoted: the rule itself was not read" in said["whose"]
    assert "the rule does not say where it is measured: held at the muzzle" in said["limit"]


def test_a_limit_by_area_is_written_by_area() -> None:
    """35 000 J/m2 are 3.5 J/cm²."""
    study = without_after()
    assert study.limit is not None
    by_area = dataclasses.replace(study.limit, energy=None, energy_per_area=35_000.0)
    sheet = sheet_of(dataclasses.replace(study, limit=by_area))
    assert sheet.limit is not None
    assert sheet.limit.limit[0].text.startswith("3.5 J/cm² of the ball's largest cross-section")


def test_shots_set_aside_and_lines_left_out_are_named_with_their_reason(sheet: Sheet) -> None:
    """Nobody takes a shot away unseen."""
    assert any("shot 3 set aside: two balls left at once" in note for note in sheet.change.notes)
    left_out = whole_case().left_out
    assert len(sheet.rests_on.left_out) == len(left_out) > 0
    assert left_out[0].reason in sheet.rests_on.left_out[0].text


def test_invented_figures_are_marked(sheet: Sheet) -> None:
    """If the case or the gun says so."""
    assert sheet.is_invented
    study = whole_case()
    real_gun = dataclasses.replace(study.gun, invented=False)
    assert sheet_of(dataclasses.replace(study, invented=True, gun=real_gun)).is_invented
    assert not sheet_of(dataclasses.replace(study, invented=False, gun=real_gun)).is_invented


def test_assumed_values_are_named_with_their_standing(sheet: Sheet) -> None:
    """In the workshop's words, with unit, by how well they are known; the model's own coefficients are counted."""
    study = whole_case()
    text = " ".join(line.text for line in sheet.rests_on.assumed)
    of_the_gun = [entry for entry in study.assumed if not entry.path.startswith("laws.")]
    assert all(entry.text in text for entry in of_the_gun)
    assert {line.name for line in sheet.rests_on.assumed} == {entry.footing.words for entry in of_the_gun}
    assert sheet.rests_on.coefficients.startswith(str(len(study.assumed) - len(of_the_gun)))


def test_causes_carry_amount_range_and_what_to_look_at(sheet: Sheet) -> None:
    """And those that stand farther back or not at all are named."""
    assert sheet.causes is not None
    assert sheet.causes.table is not None
    explanation = whole_case().explanation
    assert explanation is not None
    first = explanation.causes[0]
    row = sheet.causes.table.rows[0]
    assert (row[0].text, row[0].small) == (first.fault.name, first.fault.check)
    assert row[2].text == first.plausibility.value
    named = " ".join(sheet.causes.others).lower() + _words(sheet.causes.table).lower()
    assert all(cause.fault.name.lower() in named for cause in explanation.causes)
