"""What a session may claim: nothing of a limit by doubtful files, how a gun came but not how it leaves, figures at one place."""

from __future__ import annotations

from pathlib import Path

import pytest

from stripdown.core.shot_statistics import EnergyLimit, PredictedState, muzzle_from_reading
from stripdown.errors import InputError
from stripdown.files.chronograph_session import SetAsideLine, load_session
from stripdown.plain.limits import session_verdict_fields
from stripdown.plain.strings import session_comparison_fields
from stripdown.studies.session_answers import study_comparison, study_strings, study_verdict
from stripdown.words.limit import verdict_answer
from stripdown.words.strings import comparison_answer, strings_answer
from tests.fired_strings import sound_gun

SHOTS = (98.2, 97.9, 98.5, 98.1, 97.7, 98.4, 98.0, 98.3, 97.8, 98.6)
LIMIT = EnergyLimit(name="2 J at the muzzle", energy=2.0, measuring_distance=0.0)


def _file(folder: Path, *lines: object) -> list[Path]:
    path = folder / "string.csv"
    path.write_text("\n".join(map(str, lines)) + "\n", encoding="utf-8")
    return [path]


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        ([f"{shot} m/s" for shot in SHOTS[:5]] + ["322 fps", "321 fps"], "different units"),
        (["m/s", *SHOTS[:2], *(322,) * 5], "most lines of its file gave no reading"),
    ],
)
def test_a_doubtful_file_gets_no_verdict(tmp_path: Path, lines: list[object], words: str) -> None:
    """The strings are still told, with the doubt in the first lines."""
    session = load_session(_file(tmp_path, "0.20 g", "distance: 0 m", *lines))
    with pytest.raises(InputError, match=words):
        study_verdict(sound_gun(), session, limit=LIMIT, ball_masses=[0.2e-3])
    assert any(words in line.full for line in strings_answer(study_strings(session), scale="metric").lead if line.key == "doubt")


@pytest.mark.parametrize("occasion", ["before", "after"])
def test_a_verdict_on_strings_before_says_so(tmp_path: Path, occasion: str) -> None:
    """First, and in the data."""
    session = load_session(_file(tmp_path, occasion, "0.20 g", "distance: 0 m", *SHOTS))
    study = study_verdict(sound_gun(), session, limit=LIMIT, ball_masses=[0.2e-3])
    is_before = occasion == "before"
    assert [line.key for line in verdict_answer(study, scale="metric").lead] == ["before_the_work"] * is_before
    assert session_verdict_fields(study)["is_before_the_work"] is is_before


def test_strings_of_two_distances_show_all_figures_at_the_muzzle(tmp_path: Path) -> None:
    """Means, energies and change; once the means stood as read, and their difference was another than the change."""
    lines = ("0.20 g", "0.3 m", "before", *SHOTS, "1 m", "after", *SHOTS)
    study = study_comparison(load_session(_file(tmp_path, *lines)))
    (pair,) = study.pairs
    means = [muzzle_from_reading(98.15, ball_mass=0.2e-3, distance=place).speed for place in (0.3, 1.0)]
    assert [found.mean for found in pair.statistics] == pytest.approx(means, rel=5e-4)
    assert pair.comparison is not None
    assert pair.comparison.difference == pytest.approx(means[1] - means[0], rel=0.01)
    (row,) = comparison_answer(study, scale="metric").tables[0].rows
    assert [cell.text for cell in row[1:3]] == [f"{mean:.1f} m/s" for mean in means]
    assert "at the muzzle" in row[0].small
    (fields,) = session_comparison_fields(study)["comparisons"]
    assert (fields["mean_before_m_per_s"], fields["mean_after_m_per_s"]) == pytest.approx(tuple(means), rel=5e-4)


def test_a_line_that_may_be_the_mean_is_asked_about_first(tmp_path: Path) -> None:
    """It counts until somebody says that it is none, and is not asked about again then."""
    files = _file(tmp_path, "ft/s", 322, 321, 324, 322, 319, 323, 321, 323, 320, 324, 322)
    study = study_strings(load_session(files))
    (line,) = strings_answer(study, scale="metric").lead
    assert (line.key, "equals the mean" in line.full, study.strings[0].statistics.count) == ("asked", True, 11)
    aside = SetAsideLine(file=str(files[0]), line=12, reason="the mean")
    answered = strings_answer(study_strings(load_session(files, set_aside=[aside])), scale="metric")
    assert [line.key for line in answered.lead] == ["not_counted"]


def test_days_stand_beside_the_strings(tmp_path: Path) -> None:
    """In the head of a side whose strings share one; a day that nobody said is missed."""
    lines = ("0.20 g", "before, 2026-11-14", *SHOTS, "after 21.11.2026", *SHOTS)
    answer = comparison_answer(study_comparison(load_session(_file(tmp_path, *lines))), scale="metric")
    assert [column.head for column in answer.tables[0].columns[1:3]] == ["before (2026-11-14): mean", "after (2026-11-21): mean"]
    assert not [note for note in answer.notes if note.key == "day_unsaid"]
    silent = comparison_answer(study_comparison(load_session(_file(tmp_path, "before", *SHOTS, "after", *SHOTS))), scale="metric")
    assert [note for note in silent.notes if note.key == "day_unsaid"]


def test_no_word_of_a_prediction_says_under() -> None:
    """Neither its words nor its key."""
    assert not [state for state in PredictedState if "under" in f"{state.value} {state.name}".lower()]
