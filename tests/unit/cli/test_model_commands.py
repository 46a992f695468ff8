"""Commands that hold readings against a gun's model: match, explain, verdict, case; on the demo case, with the real model."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from stripdown.cli.main import main

DEMO = Path(__file__).parents[3] / "examples" / "brackenmoor-07"
GUN, BEFORE, AFTER = (str(DEMO / name) for name in ("gun.toml", "before.csv", "after.csv"))


def _data(*words: str) -> dict[str, Any]:
    result = CliRunner().invoke(main, [*words, "--json"], catch_exceptions=False)
    assert result.exit_code == 0
    found = json.loads(result.stdout)
    assert isinstance(found, dict)
    return found


def _print(*words: str) -> str:
    result = CliRunner().invoke(main, list(words), catch_exceptions=False, env={"COLUMNS": "80"})
    assert result.exit_code == 0
    assert max(map(len, result.stdout.splitlines())) <= 80
    return " ".join(result.stdout.split())


def test_a_match_tells_what_was_fitted_and_what_it_expects() -> None:
    """Two numbers from two ball masses; predictions say that they are some; what was assumed is listed."""
    found = _data("match", GUN, AFTER)
    assert [number["field"] for number in found["fitted"]] == ["spring.rate", "leaks.piston_seal"]
    assert [string["ball_mass_kg"] for string in found["strings"]] == [pytest.approx(0.2e-3), pytest.approx(0.4e-3)]
    assert all(each["predicted"] is True for each in found["predictions"])
    assert found["predicted_with_hop_up"] == "off"
    assert "piston.vent_area" in {entry["field"] for entry in found["assumed"]}
    words = _print("match", GUN, AFTER)
    for each in ("work of the spring", "expected, hop-up off", "Assumed, because the gun's file leaves them out", "not measured"):
        assert each in words


def test_an_explanation_names_causes_amounts_and_what_a_repair_returns() -> None:
    """Those that stand first; energy in joules and the amount in SI, the unit in the key."""
    found = _data("explain", GUN, BEFORE, AFTER, "--set-aside", "before.csv:10 two balls")
    causes = {cause["key"]: cause for cause in found["causes"]}
    assert found["was_gained"] is True
    assert causes["dry_box"]["plausibility"] == "ordinary"
    assert causes["cylinder_leak"]["amount_m2"] > causes["cylinder_leak"]["ordinary_m2"]
    assert causes["seal_drag"]["amount_N"] > 0
    assert causes["worn_bore"]["stands"] is False
    assert 0.2 < causes["dry_box"]["repair_returns_J"] < 0.5
    assert set(causes["dry_box"]["ledger_J"]) >= {"ball_flight", "slam"}
    assert [loss["ball_mass_kg"] for loss in found["loss"]] == [pytest.approx(0.2e-3), pytest.approx(0.4e-3)]


def test_an_explanation_is_printed_with_what_to_look_at() -> None:
    """The table, the checks, what does not fit, and that several small ones do the same."""
    words = _print("explain", GUN, BEFORE, AFTER, "--speed-unit", "ft/s")
    for each in ("ft/s", "Dry and tired box", "box open", "Cannot do it alone", "One cause at a time", "repair"):
        assert each in words


@pytest.fixture(scope="module")
def judged() -> dict[str, Any]:
    """The demo gun against a limit that its heavy balls exceed."""
    return _data("verdict", GUN, AFTER, "--limit", "1.0 J at 0.3 m", "--balls", "0.20 g, 0.25 g, 0.40 g")


def test_a_gun_over_its_limit_is_a_result(judged: dict[str, Any]) -> None:
    """Exit code 0; strings over the limit, each with its three numbers."""
    assert judged["state"] == "over"
    measured = [ball for ball in judged["balls"] if not ball["predicted"]]
    assert {ball["state"] for ball in measured} == {"over"}
    for ball in measured:
        assert ball["mean_energy_J"] < ball["tolerance_energy_J"]
        assert ball["chance_next_exceeds"] > 0.5


def test_a_prediction_never_passes(judged: dict[str, Any]) -> None:
    """No predicted ball has a state of a measured one, in data or in print, whatever the limit."""
    assert {ball["state"] for ball in judged["balls"] if ball["predicted"]} <= {"worth_firing", "doubtful", "expected_over"}
    words = _print("verdict", GUN, AFTER, "--limit", "90 J at muzzle", "--balls", "0.28 g")
    assert "worth a string: only that" in words  # the cell is wrapped
    assert "never a pass" in words
    assert " pass " not in words.replace("never a pass.", "")


def test_a_verdict_names_the_limit_whose_it_is_and_where() -> None:
    """A key of the catalogue; strings before are not judged when there are strings after."""
    words = _print("verdict", GUN, BEFORE, AFTER, "--limit", "uk_automatic", "--can-fire-automatic", "--balls", "0.20 g")
    for each in ("1.30 J", "at the muzzle", "Firearms Act", "under the limit", "local law, decide"):
        assert each in words
    assert "81." not in words


@pytest.mark.parametrize(
    ("words", "complaint"),
    [
        (["verdict", GUN, AFTER], "No limit was named"),
        (["verdict", GUN, AFTER, "--limit", "1.14"], "has no unit"),
        (["verdict", GUN, "nowhere.csv", "--limit", "1 J"], "there is no such file"),
        (["verdict", "nowhere.toml", AFTER, "--limit", "1 J"], "there is no such file"),
        (["verdict", GUN, AFTER, "--limit", "club_125_semi", "--selector", "automatic", "--ball", "2 g"], "impossible"),
        (["explain", GUN, AFTER], "No string says that it was fired before the work"),
        (["explain", GUN, AFTER, AFTER], "No string says that it was fired before the work"),
        (["match", GUN], "Missing argument"),
        (["case", "nowhere"], "there is no such folder"),
        (["case", GUN], "this is a file, not the folder of a case"),
    ],
)
def test_a_mistake_ends_with_two_and_one_message(words: list[str], complaint: str) -> None:
    """Nothing on standard output, no traceback, before anything is computed."""
    result = CliRunner().invoke(main, words)
    assert result.exit_code == 2
    assert complaint in result.stderr
    assert "Traceback" not in result.stderr
    assert result.stdout == ""


def test_a_string_without_its_ball_cannot_be_judged(tmp_path: Path) -> None:
    """The message says what to write, and an option helps."""
    file = tmp_path / "after.csv"
    file.write_text("98\n99\n98.5\n", encoding="utf-8")
    result = CliRunner().invoke(main, ["verdict", GUN, str(file), "--limit", "1.14 J"])
    assert result.exit_code == 2
    assert "No string says which ball it was fired with" in result.stderr
    found = _data("verdict", GUN, str(file), "--limit", "1.14 J", "--ball", "0.20 g", "--balls", "0.20 g")
    assert found["state"] == "under"


@pytest.fixture(scope="module")
def case_print(tmp_path_factory: pytest.TempPathFactory) -> tuple[str, Path]:
    """The demo case, printed once, with its sheet and its pictures."""
    out = tmp_path_factory.mktemp("out")
    words = ["case", str(DEMO), "--pdf", str(out / "sheet.pdf"), "--pictures", str(out / "pictures")]
    return _print(*words), out


def test_the_demo_case_is_printed_part_by_part(case_print: tuple[str, Path]) -> None:
    """The answers in short, found, done, before and after, limit, causes, cautions, what it rests on."""
    words, _ = case_print
    parts = (
        "Brackenmoor 07: dull shots",
        "Invented figures",
        "Found",
        "Done",
        "Before and after",
        "Against the limit",
        "What explains it",
        "Cautions",
        "What this rests on",
        "Program and input",
    )
    places = [words.index(part) for part in parts]
    assert places == sorted(places)
    assert "What cannot be said" not in words


def test_the_sheet_and_the_pictures_of_the_demo_case_are_left(case_print: tuple[str, Path]) -> None:
    """One PDF; strings, pairs, limit, causes and ledger as pictures."""
    _, out = case_print
    assert (out / "sheet.pdf").read_bytes().startswith(b"%PDF-")
    names = {path.stem for path in (out / "pictures").iterdir()}
    assert {"before-and-after", "limit", "causes", "where-it-went"} <= names
    assert sum(name.startswith("string-") for name in names) == 6


def test_a_case_that_cannot_say_everything_says_so_first(tmp_path: Path) -> None:
    """A gun and one string: printed and as data, exit code 0."""
    (tmp_path / "gun.toml").write_text((DEMO / "gun.toml").read_text(encoding="utf-8"), encoding="utf-8")
    (tmp_path / "after.csv").write_text("98\n99\n98.5\n", encoding="utf-8")
    words = _print("case", str(tmp_path))
    assert words.index("What cannot be said") < words.index("After the work")
    assert "No string was fired before the work" in words
    found = _data("case", str(tmp_path))
    assert found["explanation"] is None
    assert found["verdict"] is None
    assert len(found["unsaid"]) >= 3


def test_a_hostile_case_steers_nothing(tmp_path: Path) -> None:
    """What is typed into names is shown and not done; a control character in a finding is refused with its line."""
    (tmp_path / "gun.toml").write_text('[gun]\nname = "[bold]x\\u202ey"\n', encoding="utf-8")
    (tmp_path / "case.toml").write_text("[case]\ntitle = '[red]T[/red] #import'\nfound = ['*a* `b`']\n", encoding="utf-8")
    words = _print("case", str(tmp_path))
    assert "[red]T[/red] #import" in words
    assert "*a* `b`" in words
    assert "\u202e" not in words
