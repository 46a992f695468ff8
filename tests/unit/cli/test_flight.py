"""Commands for flights: what is typed reaches the study, what is not understood is told, each prints and writes JSON."""

from __future__ import annotations

import contextlib
import json
import random
from pathlib import Path

import pytest
from click.testing import CliRunner

from stripdown.cli.flight import typed_group, typed_sighting, typed_target
from stripdown.cli.main import main
from stripdown.errors import InputError
from stripdown.studies.lift import FLAT_DROP, SightingKind
from tests.hostile_inputs import hostile_text

EXAMPLES = Path(__file__).parents[3] / "examples"
GUN = str(EXAMPLES / "brackenmoor-07-healthy.toml")


@pytest.mark.parametrize(
    ("typed", "kind", "height", "distance"),
    [
        ("flat to 35 m", SightingKind.HEIGHT, -FLAT_DROP, 35.0),
        ("Flat to about 35m", SightingKind.HEIGHT, -FLAT_DROP, 35.0),
        ("20 cm below at 40 m", SightingKind.HEIGHT, -0.20, 40.0),
        ("6 in above at 30 yd", SightingKind.HEIGHT, 0.1524, 27.432),
        ("highest 30 cm", SightingKind.APEX, 0.30, None),
        ("apex 0.3 m above", SightingKind.APEX, 0.30, None),
    ],
)
def test_a_sighting_is_understood(typed: str, kind: SightingKind, height: float, distance: float | None) -> None:
    """With its units."""
    found = typed_sighting(typed)
    assert found.kind is kind
    assert found.height == pytest.approx(height)
    assert found.distance == (None if distance is None else pytest.approx(distance))


def test_hostile_words_are_understood_or_refused() -> None:
    """Nothing but an answer or one sort of mistake comes out, whatever somebody typed."""
    chance = random.Random("sightings")  # noqa: S311  not for secrets
    readers = (
        (typed_sighting, "20 cm below at 40 m"),
        (typed_group, "120 by 150 mm, 10 shots at 20 m"),
        (typed_target, "40 by 40 cm"),
    )
    understood = 0
    for read, text in readers * 300:
        with contextlib.suppress(InputError):
            read(hostile_text(chance, text))
            understood += 1
    assert understood < 900


def test_a_group_and_a_target_are_understood() -> None:
    """A width without a unit has that of the height."""
    group = typed_group("120 by 150 mm, 10 shots at 20 m")
    assert (group.width, group.height, group.shots, group.distance) == pytest.approx((0.12, 0.15, 10, 20.0))
    assert typed_target("20 cm by 300 mm").height == pytest.approx(0.3)
    for wrong in (lambda: typed_group("120 mm at 20 m"), lambda: typed_target("big"), lambda: typed_sighting("it hooks")):
        with pytest.raises(InputError, match="is not understood"):
            wrong()


def test_a_flight_is_told(runner: CliRunner) -> None:
    """The fit, the table, the lens that is not enough, and the caution."""
    done = runner.invoke(main, ["flight", GUN, "--elevation", "0 deg", "--seen", "flat to 35 m", "--distances", "0 m, 35 m"])
    assert done.exit_code == 0, done.output
    words = " ".join(done.stdout.split())
    assert "Lift fitted to what was seen (10 cm below the muzzle at 35 m)" in words
    assert "35 m −10 −10 to −10" in words
    assert "not enough" in words
    assert "no legal advice" in words


def test_a_flight_as_json(runner: CliRunner) -> None:
    """A row for each distance, null beyond the ground, and no distance beside a lens."""
    done = runner.invoke(main, ["flight", GUN, "--distances", "0 m, 20 m, 200 m", "--energies", "0.5 J", "--json"])
    found = json.loads(done.stdout)
    assert [row["distance_m"] for row in found["distances"]] == [0.0, 20.0, 200.0]
    assert found["distances"][2]["speed_m_per_s"] is None
    assert found["lift"]["is_fitted"] is False
    assert 5.0 < found["energies"][0]["distance_m"] < 15.0
    assert not [key for lens in found["impact"]["lenses"] for key in lens if "distance" in key]


def test_pictures_are_written(runner: CliRunner, tmp_path: Path) -> None:
    """Side view, and drop and speed."""
    runner.invoke(main, ["flight", GUN, "--pictures", str(tmp_path)])
    assert sorted(file.name for file in tmp_path.iterdir()) == [
        "brackenmoor-07-healthy-by-distance.svg",
        "brackenmoor-07-healthy-side-view.svg",
    ]


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (["flight", GUN, "--seen", "flat to 35 m"], 2, "cannot tell lift from elevation"),
        (["flight", GUN, "--seen", "it hooks"], 2, "flat to 35 m"),
        (["flight", GUN, "--distances", "-5 m"], 2, "behind the shooter"),
        (["flight", GUN, "--speed", "330 m/s"], 3, "mach"),
        (["flight", GUN, "--humidity", "130 %"], 2, "impossible"),
        (["range", GUN], 2, "Measure a group"),
        (["range", GUN, "--group", "120 mm"], 2, "10 shots at 20 m"),
        (["balls", GUN, str(EXAMPLES / "brackenmoor-07" / "after.csv")], 2, "--limit"),
    ],
)
def test_what_cannot_be_is_told_and_no_traceback(runner: CliRunner, arguments: list[str], code: int, said: str) -> None:
    """What, where, and what would be right."""
    done = runner.invoke(main, arguments)
    assert done.exit_code == code, done.output
    assert said in " ".join(done.stderr.split())


def test_a_range_is_told_and_written(runner: CliRunner, tmp_path: Path) -> None:
    """In words, as JSON, as a picture."""
    arguments = ["range", GUN, "--group", "120 by 150 mm, 10 shots at 20 m", "--scatter", "0.6 m/s", "--zero", "25 m"]
    done = runner.invoke(main, [*arguments, "--pictures", str(tmp_path)])
    assert "with the sights on its middle" in " ".join(done.stdout.split())
    assert [file.name for file in tmp_path.iterdir()] == ["brackenmoor-07-healthy-on-target.svg"]
    found = json.loads(runner.invoke(main, [*arguments, "--json"]).stdout)
    assert found["hits"][0]["distance_m"] == 5.0
    assert 0.0 < found["range_on_sight_m"] <= found["range_held_over_m"]


def test_balls_are_told_and_written(runner: CliRunner, tmp_path: Path) -> None:
    """One table and one picture."""
    readings = str(EXAMPLES / "brackenmoor-07" / "after.csv")
    arguments = ["balls", GUN, readings, "--limit", "1.14 J at 0.3 m", "--balls", "0.20 g, 0.30 g"]
    done = runner.invoke(main, [*arguments, "--pictures", str(tmp_path)])
    assert done.exit_code == 0, done.output
    assert "worth a" in done.stdout
    assert "Held against: site's own rule: 1.14 J" in done.stdout
    assert [file.name for file in tmp_path.iterdir()] == ["brackenmoor-07-healthy-choice.svg"]
    found = json.loads(runner.invoke(main, [*arguments, "--json"]).stdout)
    assert [ball["is_measured"] for ball in found["balls"]] == [True, False]
