from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from stripdown.cli.main import main

DEMO = str(Path(__file__).parents[3] / "examples" / "brackenmoor-12" / "shims.toml")
TRAY = "4 x 0.10 mm, 4 × 0.15 mm; 2x0.30 mm, 0.31mm"


def _print(runner: CliRunner, *words: str) -> str:
    result = runner.invoke(main, ["shims", *words], catch_exceptions=False, env={"COLUMNS": "80"})
    assert result.exit_code == 0, result.stderr
    assert max(map(len, result.stdout.splitlines())) <= 80
    return " ".join(result.stdout.split())


def test_packs_are_printed_best_first_with_what_they_rest_on(runner: CliRunner) -> None:
    """Play, band, packs with the float that they leave; standing, source, range and caution below."""
    words = _print(runner, "--play", "0,47 mm", "--uncertainty", "0.01 mm", "--tray", TRAY)
    assert "1. 0.30 + 0.10 mm: float 0.07 mm" in words
    assert words.index("Play 0.47 mm ± 0.01 mm") < words.index("1. ") < words.index("2. ")
    for each in ("common practice, no source", "Holds for", "Caution", "micrometer"):
        assert each in words


def test_json_is_si_with_units_in_the_keys(runner: CliRunner) -> None:
    """The same packs; nothing else on standard output."""
    result = runner.invoke(main, ["shims", "--play", "0.47 mm", "--tray", TRAY, "--bearing", "mc3", "--json"])
    found = json.loads(result.stdout)
    assert found["gap_m"] == 0.47e-3
    assert found["packs"][0] == {"thicknesses_m": [0.0003, 0.0001], "float_left_m": 7e-05}
    assert all(0.05e-3 <= pack["float_left_m"] <= 0.15e-3 for pack in found["packs"])
    assert 0 < found["bearing_end_play_m"]["low"] < found["bearing_end_play_m"]["high"]
    assert found["footing"] == "common practice, no source"


def test_two_feelers_bracket_the_play(runner: CliRunner) -> None:
    """One goes and the next does not: half-way, and half of what parts them."""
    assert "Play 0.475 mm ± 0.025 mm" in _print(runner, "--go", "0.45 mm", "--no-go", "0.50 mm", "--tray", TRAY)


@pytest.mark.parametrize(("play", "most", "enough"), [("2.50 mm", "4", 6), ("1.10 mm", "1", 2)])
def test_where_only_the_count_forbids_it_that_is_said(runner: CliRunner, play: str, most: str, enough: int) -> None:
    """Play 2.50: 2.35 to 2.45 to be filled, by four of 0.50, 0.30 and 0.10. It was said that no shims would do."""
    words = _print(runner, "--play", play, "--tray", "0.10 mm", "--most", most)
    assert "No shims" not in words
    assert f"Only the count forbids it: with {enough} shims on the gear a pack would fit." in words


def test_where_no_count_helps_none_is_promised(runner: CliRunner) -> None:
    """A float of one hundredth, between shims of five."""
    words = _print(runner, "--play", "0.47 mm", "--float", "0.10 mm", "0.11 mm", "--tray", "0.10 mm")
    assert "No shims of the thicknesses that shops sell would do" in words


def test_a_miss_says_by_how_much_and_what_to_buy(runner: CliRunner) -> None:
    """Play 0.47, one shim of 0.30: 0.17 left, 0.02 too loose; one of 0.10 is wanted beside it."""
    words = _print(runner, "--play", "0.47 mm", "--tray", "0.30 mm")
    assert "no pack fits" in words
    assert "Nearest miss: 0.30 mm: float 0.17 mm; it may be 0.02 mm too loose." in words
    assert "Buy 0.10 mm; then 0.30 + 0.10 mm: float 0.07 mm." in words


def test_a_rejected_measurement_is_an_answer(runner: CliRunner) -> None:
    """Exit code 0: the bench is told what to look at."""
    assert "measurement rejected" in _print(runner, "--play", "7 mm", "--tray", TRAY)


def test_bearings_are_told_as_part_of_the_float(runner: CliRunner) -> None:
    """With the way to measure."""
    words = _print(runner, "--play", "0.47 mm", "--tray", TRAY, "--bearing", "CN")
    assert "0.022 to 0.056 mm end play" in words
    assert "push the same way each time" in words


def test_a_box_is_printed_by_gear_and_face_with_its_map(runner: CliRunner) -> None:
    """The invented example says that it is invented; the old shims stand with gear and face."""
    words = _print(runner, DEMO)
    assert "Brackenmoor 12 (invented)" in words
    for gear in ("sector", "spur", "bevel"):
        assert f"{gear}: left " in words
    assert "sector left: S1 (0.203 mm), S2 (0.203 mm)" in words
    found = json.loads(runner.invoke(main, ["shims", DEMO, "--json"]).stdout)
    assert found["invented"] is True
    assert [gear["gear"] for gear in found["gears"]] == ["sector", "spur", "bevel"]
    assert found["old_shims"][0] == {"label": "S1", "gear": "sector", "face": "left", "thickness_m": 0.203e-3}


def test_a_shim_that_lost_its_place_is_named(runner: CliRunner, tmp_path: Path) -> None:
    """All back but one, which is on another gear: the pack no longer holds; all back: it does."""
    file = tmp_path / "box.toml"
    text = Path(DEMO).read_text(encoding="utf-8")
    back = "".join(
        f'[[fitted_shim]]\nlabel = "{label}"\ngear = "{gear}"\nface = "{face}"\n'
        for label, gear, face in (
            ("S1", "sector", "left"),
            ("S2", "sector", "left"),
            ("S3", "sector", "right"),
            ("B1", "bevel", "left"),
            ("B2", "bevel", "left"),
            ("B3", "bevel", "right"),
        )
    )
    file.write_text(text + back, encoding="utf-8")
    assert "the pack that was chosen still holds" in _print(runner, str(file))
    file.write_text(text + back.replace('"bevel"\nface = "right"', '"spur"\nface = "right"'), encoding="utf-8")
    words = _print(runner, str(file))
    assert "no longer holds" in words
    assert "B3 was on the bevel gear's right face and is on the spur gear's right face." in words
    found = json.loads(runner.invoke(main, ["shims", str(file), "--json"]).stdout)
    assert [place["label"] for place in found["lost_places"]] == ["B3"]


def test_a_box_that_cannot_be_closed_names_the_seats(runner: CliRunner, tmp_path: Path) -> None:
    """And forbids to split the difference at the teeth."""
    file = tmp_path / "box.toml"
    text = Path(DEMO).read_text(encoding="utf-8").replace('measured = "0.30 mm"', 'measured = "-0.30 mm"')
    file.write_text(text, encoding="utf-8")
    words = _print(runner, str(file))
    assert "The chain cannot be closed." in words
    assert "the bearing seats are wrong" in words
    assert "Do not split the difference at the teeth" in words


def test_a_picture_is_written(runner: CliRunner, tmp_path: Path) -> None:
    """Beside the answer, named for the file."""
    result = runner.invoke(main, ["shims", DEMO, "--pictures", str(tmp_path)])
    assert result.exit_code == 0
    assert (tmp_path / "shims.svg").read_text(encoding="utf-8").startswith("<svg")


@pytest.mark.parametrize(
    ("words", "complaint"),
    [
        (["--tray", TRAY], "The play is not given"),
        (["--play", "0.4 mm", "--go", "0.4 mm", "--tray", TRAY], "in two ways"),
        (["--go", "0.5 mm", "--no-go", "0.4 mm", "--tray", TRAY], "is thicker than --no-go"),
        (["--play", "0.4 mm"], "No shims are given"),
        (["--play", "0.4 mm", "--tray", "2 x 0.1"], "has no unit"),
        (["--play", "0.4 mm", "--tray", "2 x 0 mm"], "no thickness of a shim"),
        (["--play", "0.4 mm", "--tray", "0 x 0.1 mm"], "no shims at hand"),
        (["--play", "0.4", "--tray", TRAY], "has no unit"),
        (["--play", "0.4 mm", "--tray", TRAY, "--uncertainty", "-0.1 mm"], "impossible"),
        (["--play", "0.4 mm", "--tray", TRAY, "--float", "0.15 mm", "0.05 mm"], "upside down"),
        (["--play", "0.4 mm", "--tray", TRAY, "--most", "0"], "no number of shims"),
        (["--play", "0.4 mm", "--tray", TRAY, "--bearing", "C9"], "no clearance class"),
        ([DEMO, "--play", "0.4 mm"], "is for one gear"),
        (["nowhere.toml"], "there is no such file"),
    ],
)
def test_a_mistake_ends_with_two_and_one_message(runner: CliRunner, words: list[str], complaint: str) -> None:
    """Nothing on standard output, no traceback."""
    result = runner.invoke(main, ["shims", *words])
    assert result.exit_code == 2
    assert complaint in result.stderr
    assert "Traceback" not in result.stderr
    assert result.stdout == ""
