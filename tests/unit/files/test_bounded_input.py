"""Work is bounded by what is read: limits are said, and what is no ordinary file is refused before it is read."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from stripdown.errors import InputError
from stripdown.files.gun import load_gun
from stripdown.files.readings import load_readings, read_readings
from stripdown.tables.toml_file import parse_toml, read_toml
from stripdown.tables.toml_lines import find_lines


@pytest.mark.parametrize("load", [load_gun, load_readings])
@pytest.mark.parametrize("place", ["pipe", "/dev/zero", "."])
def test_what_is_no_ordinary_file_is_not_read(tmp_path: Path, load: type, place: str) -> None:
    """A pipe that nobody writes to, a device without end, a folder: refused at once."""
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(InputError, match=r"no ordinary file|a folder"):
        load(tmp_path / place)


def test_readings_are_taken_from_standard_input() -> None:
    """By the name that it has on this system."""
    code = "from stripdown.files.readings import load_readings; print(load_readings('/dev/stdin').strings[0].speeds)"
    done = subprocess.run([sys.executable, "-c", code], input="91\n92\n", capture_output=True, text=True, check=True)
    assert done.stdout == "(91.0, 92.0)\n"


def test_endless_input_is_cut() -> None:
    """More than a list of readings can be is not waited for."""
    code = "from stripdown.files.readings import load_readings; load_readings('/dev/stdin')"
    with Path("/dev/zero").open("rb") as zeros:
        done = subprocess.run([sys.executable, "-c", code], stdin=zeros, capture_output=True, text=True, check=False)
    assert "too large for a list of readings" in done.stderr


def test_a_toml_file_of_many_megabytes_is_refused(tmp_path: Path) -> None:
    """Before it is parsed, with the limit."""
    path = tmp_path / "gun.toml"
    path.write_text("# x\n" * 1_100_000)
    with pytest.raises(InputError, match="At most 4 MB are read"):
        read_toml(path)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("x = " + "9" * 400, "a.x has 400 digits"),
        ("x = " + "9" * 5000, "a number has thousands of digits"),
        ("x = inf", "a.x = inf is not a number"),
        ("x = [1, { y = nan }]", "a.x.y = nan is not a number"),
    ],
)
def test_a_number_that_nobody_means_is_refused_wherever_it_stands(line: str, said: str) -> None:
    """With its line."""
    with pytest.raises(InputError, match=said):
        parse_toml(f"[a]\n{line}\n", "x.toml")


def test_the_lines_of_many_keys_are_found_by_looking_them_up() -> None:
    """A key, a table by what is first inside it, a stranger by the table around it."""
    lines = find_lines("\n".join(f"[[event]]\nnumber = {number}" for number in range(3000)))
    assert lines.line(("event", 2999, "number")) == 6000
    assert lines.line(("event",)) == 1
    assert lines.line(("event", 7, "stranger")) == 15
    assert lines.line(("nowhere",)) is None


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("98.2\n" * 20_001, "At most 20000 are read"),
        ("string;speed\n" + "".join(f"s{number};98.2\n" for number in range(501)), "too many strings"),
    ],
)
def test_what_is_no_list_of_readings_any_more_is_refused(text: str, said: str) -> None:
    """Lines and strings are counted before they are understood."""
    with pytest.raises(InputError, match=said):
        read_readings(text, file="x.csv")


@pytest.mark.parametrize(
    ("line", "said"),
    [("9" * 16_000, "more than 500 letters"), ("1;" * 100, "no single number"), ("x" * 501, "more than 500 letters")],
)
def test_a_line_that_is_too_long_costs_itself_alone(line: str, said: str) -> None:
    """It is left out with its reason, shown in a few letters; the readings around it count."""
    found = read_readings(f"98.2\n{line}\n98.4\n", file="x.csv")
    assert [string.speeds for string in found.strings] == [(98.2, 98.4)]
    (left_out,) = found.left_out
    assert left_out.line == 2
    assert said in left_out.reason
    assert len(left_out.text) < 250


def test_a_row_of_too_many_cells_costs_itself_alone() -> None:
    """In a table it is left out by the number of its cells."""
    found = read_readings("no;m/s\n1;98.2\n" + "1;" * 100 + "\n3;98.4\n", file="x.csv")
    assert [string.speeds for string in found.strings] == [(98.2, 98.4)]
    assert "at most 64 are read" in found.left_out[0].reason
