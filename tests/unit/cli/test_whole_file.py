from __future__ import annotations

import os
from pathlib import Path

import pytest

from stripdown.cli.whole_file import write_whole
from stripdown.errors import InputError


def test_a_file_is_written_with_its_folders(tmp_path: Path) -> None:
    """Missing folders are made, the content is what was given, and nothing else is left."""
    target = tmp_path / "new" / "deep" / "gun.toml"
    write_whole(target, b"content", replace=False)
    assert target.read_bytes() == b"content"
    assert list(target.parent.iterdir()) == [target]


def test_the_file_has_the_rights_of_any_new_file(tmp_path: Path) -> None:
    """A file made by way of a temporary one is readable as one made directly."""
    write_whole(tmp_path / "a", b"", replace=True)
    (tmp_path / "b").write_bytes(b"")
    assert (tmp_path / "a").stat().st_mode == (tmp_path / "b").stat().st_mode


def test_a_file_that_is_there_is_left_alone(tmp_path: Path) -> None:
    """Nobody's measurements are overwritten, not even by way of a dangling link."""
    target = tmp_path / "gun.toml"
    target.write_bytes(b"mine")
    with pytest.raises(InputError, match="already"):
        write_whole(target, b"other", replace=False)
    assert target.read_bytes() == b"mine"
    link = tmp_path / "link.toml"
    link.symlink_to(tmp_path / "nowhere")
    with pytest.raises(InputError, match="already"):
        write_whole(link, b"other", replace=False)


def test_a_file_that_appears_meanwhile_is_left_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Between looking and writing somebody may have made it: the last step itself refuses."""
    target = tmp_path / "gun.toml"
    target.write_bytes(b"mine")
    monkeypatch.setattr(os.path, "lexists", lambda _: False)
    with pytest.raises(InputError, match="already"):
        write_whole(target, b"other", replace=False)
    assert target.read_bytes() == b"mine"
    assert list(tmp_path.iterdir()) == [target]


def test_a_picture_of_the_same_name_is_replaced(tmp_path: Path) -> None:
    """Pictures are made anew with every run."""
    target = tmp_path / "ledger.svg"
    target.write_bytes(b"old")
    write_whole(target, b"new", replace=True)
    assert target.read_bytes() == b"new"


def test_a_disk_without_links_still_takes_the_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Memory sticks know no hard links."""

    def no_links(*_: object) -> None:
        raise OSError(95, "Operation not supported")

    monkeypatch.setattr(os, "link", no_links)
    write_whole(tmp_path / "gun.toml", b"content", replace=False)
    assert [path.name for path in tmp_path.iterdir()] == ["gun.toml"]


def test_a_file_in_the_place_of_the_folder_is_said(tmp_path: Path) -> None:
    """`--pictures some_file` is told what is wrong."""
    (tmp_path / "out").write_bytes(b"")
    with pytest.raises(InputError, match="a file, not a folder"):
        write_whole(tmp_path / "out" / "ledger.svg", b"", replace=True)


def test_a_failure_on_the_way_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A full disk leaves no half file behind, and says why."""

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    with pytest.raises(InputError, match="No space left on device"):
        write_whole(tmp_path / "ledger.svg", b"picture", replace=True)
    assert list(tmp_path.iterdir()) == []
