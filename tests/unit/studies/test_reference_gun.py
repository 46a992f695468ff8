"""A reference gun takes out what day, air and chronograph change; guns read on both chronographs teach how the site's reads."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from stripdown.api import load_gun
from stripdown.bench.strings import ChronographSession
from stripdown.core.shot_statistics import EnergyLimit, analyse_string, chronograph_offset, day_factor
from stripdown.errors import InputError, OutOfRange
from stripdown.files.chronograph_session import load_session
from stripdown.plain.limits import session_verdict_fields
from stripdown.plain.strings import session_comparison_fields
from stripdown.studies.session_answers import study_comparison, study_verdict
from stripdown.studies.site_chronograph import study_site_chronograph
from stripdown.words.chronographs import chronographs_answer
from stripdown.words.limit import verdict_answer
from stripdown.words.strings import comparison_answer
from tests.fired_strings import SOUND_FILE

# Ten readings about a mean of which the squares sum to 10·0.4² = 1.6: s = sqrt(1.6/9) = 0.42164.
STEPS = (0.4, -0.4, -0.4, 0.4, -0.4, 0.4, 0.4, -0.4, -0.4, 0.4)
S = math.sqrt(1.6 / 9)


def _lines(mean: float, factor: float = 1.0) -> str:
    return "\n".join(f"{factor * (mean + step):.4f}" for step in STEPS)


def _session(tmp_path: Path, *, later: float, with_reference: bool = True) -> ChronographSession:
    """A gun of 88 m/s before and 97 m/s after; everything on the later day reads `later` times as much."""
    for name, mean, factor in (("before", 88.0, 1.0), ("after", 97.0, later)):
        reference = f"reference gun\n{_lines(95.0, factor)}\n" if with_reference else ""
        (tmp_path / f"{name}.csv").write_text(f"0.20 g\n{reference}{name}\n{_lines(mean, factor)}\n", encoding="utf-8")
    return load_session([tmp_path / "before.csv", tmp_path / "after.csv"])


def test_the_day_is_taken_out_of_the_change(tmp_path: Path) -> None:
    """By hand. The chronograph reads 1 % more on the later day, by the reference gun too: the change is 9.0 m/s, not 9.97.

    Scatter of the reference: 2·(0.42164/95)²/10 = 3.940e-6; its own two days: 2·0.002² = 8e-6; together u = 0.003455.
    Left for each day: sqrt(0.003455²/2 + 0.002²) = 0.003157, at the middle of 88 and 97 m/s 0.2921 m/s. With the scatter of the
    two strings, 0.42164/sqrt(10) = 0.13333 m/s each: sqrt(2·0.13333² + 2·0.2921²) = 0.4541 m/s.
    """
    (pair,) = study_comparison(_session(tmp_path, later=1.01)).pairs
    assert pair.comparison is not None
    assert pair.reference is not None
    assert pair.reference.ratio == pytest.approx(1.01, rel=1e-5)
    assert pair.reference.standard_uncertainty == pytest.approx(0.003455, abs=1e-6)
    assert pair.reference.left_between_days == pytest.approx(0.003157, abs=1e-6)
    assert pair.comparison.difference == pytest.approx(9.0, abs=1e-3)
    assert pair.comparison.speed.standard_uncertainty == pytest.approx(0.4541, abs=1e-3)
    assert [found.mean for found in pair.statistics] == pytest.approx([88.0, 97.0], abs=1e-3)


def test_without_one_the_day_is_in_the_interval(tmp_path: Path) -> None:
    """By hand: 0.5 % of the middle of 88 and 97.97 m/s is 0.46493 m/s a day; sqrt(2·0.13333² + 2·0.46493²) = 0.6840 m/s."""
    (pair,) = study_comparison(_session(tmp_path, later=1.01, with_reference=False)).pairs
    assert pair.comparison is not None
    assert pair.reference is None
    assert pair.comparison.difference == pytest.approx(9.97, abs=1e-3)
    # the string after scatters 1 % more
    expected = math.sqrt((S**2 + (1.01 * S) ** 2) / 10 + 2 * 0.46493**2)
    assert pair.comparison.speed.standard_uncertainty == pytest.approx(expected, abs=1e-4)


def test_what_was_taken_out_is_said_and_given(tmp_path: Path) -> None:
    """In words, and as plain values; the figures of a row stand at one day."""
    study = study_comparison(_session(tmp_path, later=1.01))
    answer = comparison_answer(study, scale="metric")
    (note,) = [note for note in answer.notes if note.key == "reference_gun"]
    assert "read +1.0 % on the later day" in note.full
    (row,) = answer.tables[0].rows
    assert [cell.text for cell in row[1:4]] == ["88.0 m/s", "97.0 m/s", "+9.0 m/s"]
    (fields,) = session_comparison_fields(study)["comparisons"]
    assert fields["reference_gun"]["ratio"] == pytest.approx(1.01, rel=1e-5)
    assert (fields["mean_before_m_per_s"], fields["mean_after_m_per_s"]) == pytest.approx((88.0, 97.0), abs=1e-3)
    bare = comparison_answer(study_comparison(_session(tmp_path, later=1.0, with_reference=False)), scale="metric")
    assert any("allows 0.5 % a day" in note.full for note in bare.notes if note.key == "between_days")


def test_a_reference_of_one_day_takes_nothing_out(tmp_path: Path) -> None:
    """It is said, and the change stands as it was read."""
    _session(tmp_path, later=1.01)
    (tmp_path / "after.csv").write_text(f"0.20 g\nafter\n{_lines(97.0, 1.01)}\n", encoding="utf-8")
    (pair,) = study_comparison(load_session([tmp_path / "before.csv", tmp_path / "after.csv"])).pairs
    assert pair.reference is None
    assert any("nothing is taken out" in caution for caution in pair.cautions)


def test_a_file_may_be_of_the_reference_gun_by_its_name(tmp_path: Path) -> None:
    """Its strings are none of the gun that the question is about."""
    _session(tmp_path, later=1.02, with_reference=False)
    for when, factor in (("before", 1.0), ("after", 1.02)):
        (tmp_path / f"reference-{when}.csv").write_text(_lines(95.0, factor), encoding="utf-8")
    session = load_session(sorted(tmp_path.glob("*.csv")))
    assert (len(session.strings), len(session.reference)) == (2, 2)
    (pair,) = study_comparison(session).pairs
    assert pair.comparison is not None
    assert pair.comparison.difference == pytest.approx(9.0, abs=1e-3)


def test_two_chronographs_compare_only_through_a_reference_gun(tmp_path: Path) -> None:
    """Otherwise what they differ by would be in the change."""
    changes = []
    for with_reference in (False, True):
        _session(tmp_path, later=1.03, with_reference=with_reference)
        for name in ("before", "after"):
            path = tmp_path / f"{name}.csv"
            path.write_text(f"chronograph: {name} one\n{path.read_text(encoding='utf-8')}", encoding="utf-8")
        (pair,) = study_comparison(load_session([tmp_path / "before.csv", tmp_path / "after.csv"])).pairs
        changes.append(None if pair.comparison is None else pair.comparison.difference)
    assert changes == [None, pytest.approx(9.0, abs=1e-3)]


BOTH = "gun;chronograph;m/s\n" + "\n".join(
    f"rack {gun};{name};{speed:.4f}\nrack {gun};{name};{speed:.4f}"
    for gun, mean, ratio in ((1, 90.0, 1.01), (2, 95.0, 1.012), (3, 100.0, 1.008))
    for name, speed in (("bench", mean), ("site", mean * ratio))
)


def _read_on_both(tmp_path: Path) -> Path:
    path = tmp_path / "both.csv"
    path.write_text(BOTH, encoding="utf-8")
    return path


def test_the_offset_is_learned_from_guns_read_on_both(tmp_path: Path) -> None:
    """By hand, three guns whose strings do not scatter: ln 1.01, 1.012, 1.008 = 0.0099503, 0.0119286, 0.0079682, mean 0.0099490.

    Squares about it: 7.8424e-6. Pooled with 4·0.005² = 1e-4: sqrt(1.078424e-4/6) = 0.0042395; over sqrt(3) = 0.0024477. Student's
    t for 6 degrees at 97.5 % is 2.446912: ± 0.0059893. One gun more: sqrt(0.0024477² + 0.0042395²)·2.446912/1.959964 = 0.0061116.
    """
    found = study_site_chronograph(load_session([_read_on_both(tmp_path)]))
    assert (found.own_name, found.site_name, len(found.guns)) == ("bench", "site", 3)
    assert math.log(found.offset.ratio) == pytest.approx(0.0099490, abs=1e-6)
    assert found.offset.between_guns == pytest.approx(0.0042395, abs=1e-6)
    assert found.offset.standard_uncertainty == pytest.approx(0.0024477, abs=1e-6)
    low, high = map(math.log, found.offset.interval())
    assert (low, high) == pytest.approx((0.0099490 - 0.0059893, 0.0099490 + 0.0059893), abs=2e-6)
    assert found.offset.of_next_gun() == pytest.approx(0.0061116, abs=1e-6)
    text = " ".join(figure.text for figure in chronographs_answer(found, scale="metric").figures)
    assert "+1.0 %" in text


def test_a_limit_is_held_as_the_site_would_read(tmp_path: Path) -> None:
    """99.2 m/s on the bench are 100.2 on the site's, half the shots over 1 J with 0.20 g (100 m/s); what was done is said."""
    (tmp_path / "after.csv").write_text(f"0.20 g\nafter\ndistance: 0 m\n{_lines(99.2)}\n", encoding="utf-8")
    limit = EnergyLimit(name="1 J at the muzzle", energy=1.0, measuring_distance=0.0)
    gun = load_gun(SOUND_FILE)
    files = [tmp_path / "after.csv"]
    plain = study_verdict(gun, load_session(files), limit=limit, ball_masses=[0.2e-3])
    moved = study_verdict(gun, load_session(files, read_on_both=[_read_on_both(tmp_path)]), limit=limit, ball_masses=[0.2e-3])
    speeds = [study.verdict.balls[0].measured.mean_speed for study in (plain, moved) if study.verdict.balls[0].measured]
    assert speeds[1] / speeds[0] == pytest.approx(math.exp(0.0099490), rel=1e-6)
    measured = moved.verdict.balls[0].measured
    assert measured is not None
    assert measured.common_uncertainty == pytest.approx(0.0061116 * measured.mean_speed, rel=1e-4)
    assert measured.shots_over == 10 - 5
    assert verdict_answer(moved, scale="metric").lead[0].key == "site_chronograph"
    assert session_verdict_fields(moved)["site_chronograph"]["ratio"] == pytest.approx(1.0099986, rel=1e-5)
    assert session_verdict_fields(plain)["site_chronograph"] is None


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("98.2\n98.1", "name 0 chronographs"),
        ("gun;chronograph;m/s\na;bench;98\na;bench;97\nb;site;98\nb;site;97", "No gun was fired alike"),
    ],
)
def test_what_teaches_no_offset_is_refused(tmp_path: Path, text: str, words: str) -> None:
    """With what would be right."""
    (tmp_path / "both.csv").write_text(text, encoding="utf-8")
    with pytest.raises(InputError, match=words) as refused:
        study_site_chronograph(load_session([tmp_path / "both.csv"]))
    assert "chronograph: site" in (refused.value.hint or "")


def test_impossible_questions_to_the_formulas_are_refused() -> None:
    """No string, one shot, no share."""
    one, two = analyse_string([90.0], ball_mass=None), analyse_string([90.0, 91.0], ball_mass=None)
    for pairs in ([], [(one, two)]):
        with pytest.raises(OutOfRange):
            day_factor(pairs, own_day=0.002)
        with pytest.raises(OutOfRange):
            chronograph_offset(pairs)
    with pytest.raises(OutOfRange):
        chronograph_offset([(two, two)], between_readings=0.0)
