from __future__ import annotations

import json
from pathlib import Path

import pytest

from stripdown.core.shot_statistics import MeasuredState
from stripdown.files.visit import load_case
from stripdown.plain.case import case_fields
from stripdown.references import load_references
from stripdown.studies.loss_causes import Plausibility
from stripdown.studies.service_case import CaseStudy
from stripdown.studies.study_case import study_case
from stripdown.words.case import case_cautions, unsaid_sentences

DEMO = Path(__file__).parents[3] / "examples" / "brackenmoor-07"
GUN = (DEMO / "gun.toml").read_text(encoding="utf-8")
SLOW, FAST = "79.9\n80.3\n80.0\n80.4\n", "99.8\n100.2\n100.0\n100.3\n"
LIMIT = '[limit]\nenergy = "1.3 J"\nmeasured_at = "0 m"\n'
BALLS = '[balls]\nmay_bring = ["0.20 g"]\n[strings]\nball_mass = "0.20 g"\ndistance = "0 m"\nfire_mode = "semi"\n'


def _study(folder: Path, **files: str) -> CaseStudy:
    (folder / "gun.toml").write_text(GUN, encoding="utf-8")
    for name, text in files.items():
        (folder / name.replace("_", ".")).write_text(text, encoding="utf-8")
    return study_case(load_case(folder))


def _unsaid(study: CaseStudy) -> str:
    return " ".join(sentence.full for sentence in unsaid_sentences(study))


@pytest.fixture(scope="module")
def demo() -> CaseStudy:
    """The demo case, as `make run` has it."""
    return study_case(load_case(DEMO))


def test_the_demo_case_leaves_nothing_unsaid(demo: CaseStudy) -> None:
    """Strings of both occasions compare in pairs, the loss is explained, the gun is held against the limit."""
    assert demo.unsaid == ()
    assert len(demo.comparisons) == 3
    assert all(pair.comparison is not None and pair.comparison.p_value < 1e-6 for pair in demo.comparisons)
    assert demo.verdict is not None
    assert demo.verdict.state is MeasuredState.UNSAID
    assert {ball.measured.state for ball in demo.verdict.balls if ball.measured} == {MeasuredState.UNDER}
    assert [one.file for one in demo.left_out] == ["after.csv"]


def test_the_demo_case_finds_what_was_wrong_with_the_gun(demo: CaseStudy) -> None:
    """A dry and tired box of about the size that the as-found gun was given; only strings on semi explain it."""
    assert demo.explanation is not None
    assert demo.explanation.was_gained
    first = demo.explanation.leading[0]
    assert first.fault.key == "dry_box"
    assert first.plausibility is Plausibility.ORDINARY
    assert "dry_box" in [cause.fault.key for cause in demo.explanation.standing[:2]]
    # The piston was found to need 12 N: more than a box so dry needs, less than drag alone would.
    [drag] = demo.explanation.held
    needs = {need.fault.key: need for need in drag.needs}
    assert needs["dry_box"].needed < drag.found < needs["seal_drag"].needed
    assert 0.3 < drag.share < 0.7
    assert len(demo.explanation.loss) == 2
    assert demo.shot_before is not None
    assert demo.shot_after is not None
    assert demo.shot_before.figures.muzzle_speed < demo.shot_after.figures.muzzle_speed


def test_a_case_names_its_sources_in_the_register(demo: CaseStudy) -> None:
    """Each once, and each can be cited."""
    register = load_references()
    assert len(set(demo.sources)) == len(demo.sources) > 5
    assert set(demo.sources) <= set(register)


def test_a_case_is_data(demo: CaseStudy) -> None:
    """Everything in it can be written as JSON, numbers in SI with the unit in the key."""
    text = json.dumps(case_fields(demo, unsaid=(), cautions=()), allow_nan=False)
    assert json.loads(text)["explanation"]["causes"][0]["repair_returns_J"] == demo.explanation.causes[0].returned  # type: ignore[union-attr]


def test_what_must_be_heeded_stands_in_every_case(demo: CaseStudy) -> None:
    """Eyes, first power, springs, batteries, and that a clean and reseal may put a gun over the law."""
    words = " ".join(sentence.full for sentence in case_cautions(demo))
    for each in ("eye protection", "over the law", "turn one cycle by hand", "battery out", "Lithium packs", "local law"):
        assert each in words


def test_without_strings_everything_is_unsaid(tmp_path: Path) -> None:
    """No before, no after, no limit: three sentences, and no number."""
    study = _study(tmp_path)
    words = _unsaid(study)
    assert "No string was fired before the work" in words
    assert "No string was fired after the work, so whether the gun may be used cannot be said" in words
    assert "No limit was named" in words
    assert (study.explanation, study.verdict, study.comparisons) == (None, None, ())


def test_without_a_string_before_there_is_a_verdict_and_no_explanation(tmp_path: Path) -> None:
    """What can be said is said."""
    study = _study(tmp_path, after_csv=FAST, case_toml=LIMIT + BALLS)
    assert study.explanation is None
    assert study.verdict is not None
    assert study.verdict.state is MeasuredState.UNDER
    assert "No string was fired before the work" in _unsaid(study)


def test_without_a_string_after_nobody_may_use_the_gun(tmp_path: Path) -> None:
    """Strings before are shown; the limit stands there without a verdict."""
    study = _study(tmp_path, before_csv=SLOW, case_toml=LIMIT + BALLS)
    assert len(study.before) == 1
    assert study.limit is not None
    assert study.verdict is None
    assert "it stays on the rack" in _unsaid(study)


def test_strings_that_do_not_say_when_are_not_used(tmp_path: Path) -> None:
    """They are named with their file."""
    study = _study(tmp_path, readings_csv=FAST, case_toml=BALLS)
    assert (study.before, study.after) == ((), ())
    assert "does not say whether it was fired before or after" in _unsaid(study)
    assert "readings.csv" in _unsaid(study)


def test_different_balls_compare_with_nothing_and_still_get_a_verdict(tmp_path: Path) -> None:
    """Before with one ball and after with another: no gain can be said, the limit can."""
    study = _study(
        tmp_path,
        before_csv=f"ball: 0.25 g\n{SLOW}",
        after_csv=f"ball: 0.20 g\n{FAST}",
        case_toml=LIMIT + '[balls]\nmay_bring = ["0.20 g"]\n',
    )
    assert study.explanation is None
    assert study.verdict is not None
    assert "so how much was gained cannot be said" in _unsaid(study)
    assert any("different masses" in words for pair in study.comparisons for words in pair.obstacles)


def test_strings_without_a_ball_compare_and_get_no_verdict(tmp_path: Path) -> None:
    """Speeds can be compared; energy, cause and limit need the ball."""
    study = _study(tmp_path, before_csv=SLOW, after_csv=FAST, case_toml=LIMIT)
    assert study.comparisons[0].comparison is not None
    assert (study.explanation, study.verdict) == (None, None)
    words = _unsaid(study)
    assert "does not say its ball" in words
    assert "Whether the gun keeps to the limit cannot be said." in words


def test_a_gun_over_its_limit_is_a_result(tmp_path: Path) -> None:
    """Nothing is raised."""
    study = _study(tmp_path, after_csv=FAST, case_toml='[limit]\nenergy = "0.9 J"\nmeasured_at = "0 m"\n' + BALLS)
    assert study.verdict is not None
    assert study.verdict.state is MeasuredState.OVER


def test_a_limit_that_is_not_for_these_strings_says_so(tmp_path: Path) -> None:
    """A limit on automatic fire, and strings on semi only."""
    study = _study(tmp_path, after_csv=FAST, case_toml=LIMIT + 'scope = "automatic_fire"\n' + BALLS)
    assert study.verdict is None
    assert "No string was fired in a way that the limit" in _unsaid(study)


def test_the_day_is_that_of_the_strings_after(tmp_path: Path) -> None:
    """Their temperature is that of the shots that explain them, unless the case says otherwise."""
    strings = {"before_csv": f"temperature: 5 °C\n{SLOW}", "after_csv": f"temperature: 12 °C\n{FAST}"}
    study = _study(tmp_path, **strings, case_toml=BALLS)
    assert study.explanation is not None
    assert study.explanation.sound_gun.ambient.temperature == pytest.approx(285.15)
    said = _study(tmp_path, **strings, case_toml=BALLS + '[day]\ntemperature = "20 degC"\n')
    assert said.explanation is not None
    assert said.explanation.sound_gun.ambient.temperature == pytest.approx(293.15)
