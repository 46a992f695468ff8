"""Reading a TOML file from disk: one clear word whatever lies there."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stripdown.errors import InputError
from stripdown.tables.toml_file import read_toml


def test_a_file_is_known_by_its_bytes(tmp_path: Path) -> None:
    """The digest is that of the bytes on disk, line ends and mark included; the content does not notice them."""
    content = b'\xef\xbb\xbf[a]\r\nb = "c"\r\n'
    path = tmp_path / "x.toml"
    path.write_bytes(content)
    found = read_toml(path)
    assert found.document == {"a": {"b": "c"}}
    assert found.digest == hashlib.sha256(content).hexdigest()
    assert found.lines.line(("a", "b")) == 2


@pytest.mark.parametrize(
    ("content", "line", "said"),
    [
        (b"", None, "the file is empty"),
        (b"  \n\n", None, "the file is empty"),
        (b'[gun]\nname = "\xe9"\n', 2, "not UTF-8"),
        (b'[spring]\nrate = "1 N/m"\nrate = "2 N/m"\n', 3, "written twice"),
        (b"[spring]\n[piston]\n[spring]\n", 3, "opened twice"),
        (b"[spring]\nrate = 500 N/m\n", 2, "in quotes"),
        (b'[spring]\nrate = "500 N/m\nmass = 3\n', 2, "quote"),
        (b"[spring]\nrate\n", 2, "without a value"),
        (b"[spring]\nrate =", 2, "cannot be read"),
        (b"[spring\n", 1, "not TOML"),
        (b"\xff\xfe[\x00", 1, "not UTF-8"),
        (b'a = "\x00"', 1, "control character"),
        (b"a = " + b"[" * 3000, None, "nested too deep"),
        (b"a = 2020-99-99", 1, "not TOML"),
        (b"a = " + b"1" * 5000, None, "not TOML"),
    ],
)
def test_what_is_not_toml_is_refused_with_its_line(tmp_path: Path, content: bytes, line: int | None, said: str) -> None:
    """The message names file and line, and says what would be right."""
    path = tmp_path / "gun.toml"
    path.write_bytes(content)
    with pytest.raises(InputError) as caught:
        read_toml(path)
    assert said in str(caught.value)
    assert caught.value.file == str(path)
    if line is not None:
        assert caught.value.line == line
        assert f"gun.toml, line {line}: " in str(caught.value)


def test_a_missing_file_names_its_neighbours(tmp_path: Path) -> None:
    """A mistyped name is the usual reason."""
    (tmp_path / "rack07.toml").write_text("[gun]\n", encoding="utf-8")
    with pytest.raises(InputError, match=r"no such file\. TOML files in that folder: rack07\.toml"):
        read_toml(tmp_path / "rack7.toml")


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    """It says so, and what lies in it."""
    (tmp_path / "rack07.toml").write_text("[gun]\n", encoding="utf-8")
    with pytest.raises(InputError, match=r"folder, not a file\. .*rack07\.toml"):
        read_toml(tmp_path)


@pytest.mark.parametrize("name", ["", "no\0name.toml", "x/" * 3000])
def test_a_name_that_cannot_be_a_file_is_refused(name: str) -> None:
    """Nothing named, a null character, a name too long."""
    with pytest.raises(InputError):
        read_toml(name)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(content=st.binary(max_size=60) | st.text("[]=\"'.\n#ab1{}, ", max_size=40).map(str.encode))
def test_any_bytes_are_read_or_refused(tmp_path: Path, content: bytes) -> None:
    """Whatever lies on disk, nothing else happens."""
    path = tmp_path / "any.toml"
    path.write_bytes(content)
    try:
        outcome: object = read_toml(path).path
    except InputError as mistake:
        outcome = mistake.file
    assert outcome == str(path)
