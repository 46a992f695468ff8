"""Readings are read as people write them, and every line is accounted for."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.shot_statistics.conditions import FireMode, HopState, Occasion, StringConditions
from stripdown.errors import InputError
from stripdown.files.readings import Readings, load_readings, read_readings

THREE = (98.2, 97.9, 98.5)


def _read(text: str) -> Readings:
    return read_readings(text, file="string.csv")


def _only(text: str) -> tuple[float, ...]:
    (string,) = _read(text).strings
    return string.speeds


@pytest.mark.parametrize(
    "text",
    [
        "98.2\n97.9\n98.5\n",
        "98,2\n97,9\n98,5\n",
        "98.2 m/s\n97.9m/s\n98.5 M/S",
        "speed (m/s)\n98.2\n97.9\n98.5",
        "m/s\r\n98.2\r\n97.9\r\n98.5\r\n",
        "1,98.2\n2,97.9\n3,98.5",
        "shot,speed\n1,98.2\n2,97.9\n3,98.5",
        '"shot","speed m/s"\n"1","98.2"\n"2","97.9"\n"3","98.5"',
        "shot;speed\n1;98,2\n2;97,9\n3;98,5",
        "sep=;\nSchuss;Geschwindigkeit\n1;98,2\n2;97,9\n3;98,5",
        "#;m/s\n1;98,2\n2;97,9\n3;98,5",
        "no\tvelocity\tenergy\n1\t98.2\t0.96\n2\t97.9\t0.96\n3\t98.5\t0.97",
        "1  98.2 m/s\n2  97.9 m/s\n3  98.5 m/s",
        "shot speed\n1 98.2\n2 97.9\n3 98.5",
        "98.2 97.9 98.5",
        "98.2, 97.9, 98.5",
        "\ufeff98.2\n\n\n97.9\n# battery swapped\n98.5   # the last one\n",
        "| shot | speed |\n| 1 | 98.2 |\n| 2 | 97.9 |\n| 3 | 98.5 |",
        "no;m/s\n3;98.5\n2;97.9\n1;98.2",
    ],
)
def test_the_same_three_readings_in_many_spellings(text: str) -> None:
    """Separators, heads, decimal commas, marks, comments and shot numbers do not change what was measured."""
    assert _only(text) == pytest.approx(THREE)


@pytest.mark.parametrize(
    "text",
    [
        "322 fps\n321 FPS",
        "speed [ft/s]\n322\n321",
        "shot,fps\n1,322\n2,321",
        "unit: ft/s\n322\n321",
        "shot;v;unit\n1;322;fps\n2;321;ft/s",
    ],
)
def test_feet_are_understood_wherever_they_are_named(text: str) -> None:
    """In the cell, in the head, in a line above, in a column of its own."""
    assert _only(text) == pytest.approx((322 * 0.3048, 321 * 0.3048))


def test_cells_may_name_different_units() -> None:
    """A unit behind each number is enough."""
    assert _only("98.2 m/s\n322 fps\n219.5 mph") == pytest.approx((98.2, 98.1456, 98.12528))


def test_columns_part_the_strings() -> None:
    """Ball, occasion, hop-up and selector as columns give one string for each combination."""
    text = (
        "shot,speed (m/s),ball,occasion,hop,mode,distance,temp (°C)\n"
        "1,88.2,0.20 g,before,off,semi,30 cm,18\n"
        "2,88.4,0.20 g,before,off,semi,30 cm,18\n"
        "1,90.2,0.25,as left,set,auto,1 m,20\n"
    )
    before, after = _read(text).strings
    assert before.conditions == StringConditions(
        occasion=Occasion.BEFORE,
        ball_mass=pytest.approx(0.2e-3),  # type: ignore[arg-type]
        hop=HopState.OFF,
        fire_mode=FireMode.SEMI,
        distance=pytest.approx(0.3),  # type: ignore[arg-type]
        temperature=pytest.approx(291.15),  # type: ignore[arg-type]
    )
    assert (before.speeds, before.lines) == ((88.2, 88.4), (2, 3))
    assert after.conditions.occasion is Occasion.AFTER
    assert after.conditions.fire_mode is FireMode.AUTOMATIC
    assert after.words == "after, 0.25 g, hop-up set, automatic"


def test_columns_of_speeds_are_strings() -> None:
    """A head that says before, after or a ball makes its column a string; short columns are short."""
    before, after = _read("shot;before 0.20 g (ft/s);after 0,20 g (ft/s)\n1;290;322\n2;291;323\n3;;324").strings
    assert before.speeds == pytest.approx((290 * 0.3048, 291 * 0.3048))
    assert after.speeds == pytest.approx((322 * 0.3048, 323 * 0.3048, 324 * 0.3048))
    assert (before.conditions.occasion, after.conditions.occasion) == (Occasion.BEFORE, Occasion.AFTER)
    assert after.conditions.ball_mass == pytest.approx(0.2e-3)


def test_lines_between_the_readings_part_the_strings() -> None:
    """What a line says holds until another says otherwise."""
    text = "ball mass: 0,20 g\nhop = off\ntemperature: 20\n--- before ---\n88.1\n88.2\n[after]\n98.1\nball mass: 0.25 g\n90.1\n"
    one, two, three = _read(text).strings
    assert [string.speeds for string in (one, two, three)] == [(88.1, 88.2), (98.1,), (90.1,)]
    assert [string.conditions.occasion for string in (one, two, three)] == [Occasion.BEFORE, Occasion.AFTER, Occasion.AFTER]
    assert three.conditions.ball_mass == pytest.approx(0.25e-3)
    assert {string.conditions.hop for string in (one, two, three)} == {HopState.OFF}
    assert one.conditions.temperature == pytest.approx(293.15)


def test_settings_may_be_cells_of_a_spreadsheet() -> None:
    """Key and value in two columns are a setting; one that is of no use here is passed over."""
    readings = _read("Ball mass;0,20 g\nDistance;30 cm\nOperator;somebody\nspeed\n98,2\n98,3")
    (string,) = readings.strings
    assert string.conditions.ball_mass == pytest.approx(0.2e-3)
    assert string.conditions.distance == pytest.approx(0.3)
    assert readings.left_out == ()


def test_named_strings_keep_their_names() -> None:
    """A column of names, or unlike heads, name the strings."""
    assert [string.words for string in _read("string;v m/s\nfirst;98\nfirst;97\nsecond;99").strings] == ["first", "second"]
    assert [string.words for string in _read("rack 7;rack 8\n98.2;97.1\n98.0;97.3").strings] == ["rack 7", "rack 8"]


def test_the_resolution_is_that_of_the_writing() -> None:
    """The last digit written is the step of the chronograph, as far as the file can show it."""
    assert _read("98.2\n98\n97.9").strings[0].resolution == pytest.approx(0.1)
    assert _read("322 fps\n321 fps").strings[0].resolution == pytest.approx(0.3048)


def test_what_the_caller_says_fills_the_gaps_only() -> None:
    """The file's own word stands."""
    said = StringConditions(ball_mass=0.2e-3, hop=HopState.SET)
    (string,) = read_readings("hop: off\n98.2", file="x", said=said).strings
    assert (string.conditions.ball_mass, string.conditions.hop) == (0.2e-3, HopState.OFF)
    assert read_readings("322\n321", file="x", unit="fps").strings[0].speeds == pytest.approx((98.1456, 97.8408))


@pytest.mark.parametrize(
    ("line", "reason"),
    [
        ("0", "missed reading"),
        ("-98.2", "below zero"),
        ("jam", "no number"),
        ("98..2", "no single number"),
        ("98.2 / 98.4", "no single number"),
        ("982", "above what such a gun can do"),
        ("9.82", "below what such a gun can do"),
        ("322", "In ft/s it would be 98.1 m/s"),
        ("98.2 furlongs", "no unit of speed"),
    ],
)
def test_a_line_that_gives_nothing_is_left_out_with_its_reason(line: str, reason: str) -> None:
    """The others are read, and the line is named by number and text."""
    readings = _read(f"98.1\n98.3\n{line}\n98.2\n")
    assert readings.strings[0].speeds == (98.1, 98.3, 98.2)
    (left_out,) = readings.left_out
    assert (left_out.line, left_out.text) == (3, line)
    assert reason in left_out.reason


def test_a_reading_in_the_other_unit_is_found_among_the_others() -> None:
    """203 among 62s is possible by itself, and 3.28 times off."""
    readings = _read("62\n61\n203\n62")
    assert readings.strings[0].speeds == (62.0, 61.0, 62.0)
    assert "write the unit" in readings.left_out[0].reason


def test_a_ball_off_by_ten_is_not_believed() -> None:
    """The readings are kept, the ball is not, and the likely one is offered."""
    readings = _read("ball: 2.0 g\n98.2\n98.1")
    assert readings.strings[0].conditions.ball_mass is None
    assert "0.20 g" in readings.left_out[0].reason


def test_a_cell_that_is_not_understood_takes_its_row_out() -> None:
    """Nobody knows to which string it belongs."""
    readings = _read("m/s,occasion\n98.2,before\n98.3,befroe\n98.4,after")
    assert [string.speeds for string in readings.strings] == [(98.2,), (98.4,)]
    assert "befroe" in readings.left_out[0].reason
    assert "before" in readings.left_out[0].reason


@pytest.mark.parametrize(
    ("text", "note"),
    [
        ("98.2\n98.1", "No unit was named"),
        ("no,m/s\n1,98.2\n4,98.1", "No reading for shot 2, 3."),
        ("no,m/s\n2,98.2\n1,98.1", "put in the order"),
        ("no,m/s\n1,98.2\n1,98.1", "share one"),
        ("m/s,temp\n98.2,18 °C\n98.1,24 °C", "changed by 6.0 °C"),
        ("v m/s;wind\n98.2;3\n98.1;4", "not used: wind"),
        ("\n".join(["98.2 m/s"] * 300), "300 readings in one string"),
    ],
)
def test_what_could_be_understood_otherwise_is_noted(text: str, note: str) -> None:
    """Units taken, numbers missing, orders changed, columns passed over."""
    assert any(note in said for said in _read(text).notes)


@pytest.mark.parametrize(
    ("text", "mistake"),
    [
        ("", "no readings"),
        ("\n# nothing here\n", "no readings"),
        ("speed m/s\n", "no readings"),
        ("hello\nworld", '"hello" gives no reading'),
        ("322\n321\n320", "In ft/s it would be 98.1 m/s"),
        ("15,98\n16,97\n17,99", "read in two ways"),
        ("shot,speed\n1,98,2\n2,97,9", "part the columns by semicolons"),
        ("98.2 97.9\n98.1 98.2", "2 columns could be readings"),
        ("speed;speed\n98.2;97.9\n98.1;98.2", 'two columns are named "speed"'),
        ("1;jam;x\n2;jam;y", "there is no number in it"),
    ],
)
def test_a_file_that_cannot_be_understood_says_where(text: str, mistake: str) -> None:
    """One message with the file, the line and what would be right."""
    with pytest.raises(InputError) as caught:
        _read(text)
    assert caught.value.file == "string.csv"
    assert mistake in str(caught.value)


def test_an_unknown_unit_is_refused() -> None:
    """The caller's word is checked as well."""
    with pytest.raises(InputError, match="furlongs"):
        read_readings("98.2", file="x", unit="furlongs")


@given(st.text(alphabet=st.sampled_from('0123456789.,;:\t| \n#/-="abefgmnoprstu°²\u0663()[]'), max_size=200))
def test_no_text_breaks_the_reading(text: str) -> None:
    """Whatever is typed, there are readings or one clear mistake, and no line counts twice."""
    try:
        readings = _read(text)
    except InputError:
        return
    assert all(15.0 <= speed <= 220.0 for string in readings.strings for speed in string.speeds)
    assert all(len(string.speeds) == len(string.lines) for string in readings.strings)


@given(st.lists(st.integers(500, 1500), min_size=1, max_size=30), st.sampled_from([".", ","]), st.sampled_from(["\n", "\r\n"]))
def test_what_is_written_is_read(tenths: list[int], mark: str, ending: str) -> None:
    """Tenths of a metre per second, one a line, come back as they went."""
    text = ending.join(f"{number // 10}{mark}{number % 10} m/s" for number in tenths)
    assert _only(text) == pytest.approx([number / 10 for number in tenths])


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_encodings_of_spreadsheets_are_read(tmp_path: Path, encoding: str) -> None:
    """With and without a mark in front, and in the older Western encoding."""
    path = tmp_path / "string.csv"
    path.write_bytes("température: 20 °C\nspeed m/s\n98,2\n97,9\n".encode(encoding))
    readings = load_readings(path)
    assert readings.strings[0].speeds == pytest.approx((98.2, 97.9))
    assert len(readings.digest) == 64
    assert any("UTF-8" in note for note in readings.notes) is (encoding == "cp1252")


def test_files_that_are_none_are_refused(tmp_path: Path) -> None:
    """No such file, a folder, no text, far too large."""
    with pytest.raises(InputError, match="no such file"):
        load_readings(tmp_path / "nowhere.csv")
    with pytest.raises(InputError, match="a folder, not a file"):
        load_readings(tmp_path)
    (tmp_path / "picture.png").write_bytes(b"\x89PNG\x00\x00\x01")
    with pytest.raises(InputError, match="no text file"):
        load_readings(tmp_path / "picture.png")
    (tmp_path / "huge.csv").write_bytes(b"98.2\n" * 1_100_000)
    with pytest.raises(InputError, match="too large"):
        load_readings(tmp_path / "huge.csv")


@pytest.mark.parametrize("missed", ["after;0.20 g;Err", "after;0.20 g;", "after;;Err"])
def test_a_row_without_its_reading_is_a_row(missed: str) -> None:
    """It is left out with its line, and neither begins a table nor speaks for the rows after it.

    Once it was taken for a line of heads, and the rows after it for another table.
    """
    readings = _read(f"occasion;ball;speed m/s\nafter;0.20 g;98.2\n{missed}\nbefore;0.25 g;88.0\n")
    assert [one.line for one in readings.left_out] == [3]
    assert [string.speeds for string in readings.strings] == [(98.2,), (88.0,)]
    assert readings.strings[1].conditions.occasion is Occasion.BEFORE


def test_a_mistyped_reading_is_left_out_alone() -> None:
    """A letter among the digits costs that line, and does not turn it into the head of another column."""
    readings = read_readings("speed\n330 ft/s\n3l0 ft/s\n328 ft/s\n329 ft/s\n", file="typed.csv")
    assert [string.lines for string in readings.strings] == [(2, 4, 5)]
    assert [left.line for left in readings.left_out] == [3]
