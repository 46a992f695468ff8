from __future__ import annotations

import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from stripdown.errors import InputError
from stripdown.tables.whole_file import write_whole


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

    def no_links(*_: object, **__: object) -> None:
        raise OSError(95, "Operation not supported")

    monkeypatch.setattr(os, "link", no_links)
    monkeypatch.delattr(os, "O_TMPFILE")  # nor files without a name
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

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(InputError, match="No space left on device"):
        write_whole(tmp_path / "ledger.svg", b"picture", replace=True)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("content", [b"%PDF-1.7 sheet", b"<svg></svg>", b"\x89PNG picture", b"<!DOCTYPE html>page"])
def test_what_is_of_another_sort_is_not_replaced(tmp_path: Path, content: bytes) -> None:
    """A sheet never takes the place of a log, nor of anything else that the technician wrote; a file of its sort it replaces."""
    log = tmp_path / "job.toml"
    log.write_text("[job]\n")
    with pytest.raises(InputError, match=r"this is no .*; nothing was written"):
        write_whole(log, content, replace=True)
    assert log.read_text() == "[job]\n"
    sheet = tmp_path / "sheet"
    for old in (b"", content + b" of yesterday"):
        sheet.write_bytes(old)
        write_whole(sheet, content, replace=True)
        assert sheet.read_bytes() == content


def test_what_is_no_ordinary_file_is_refused(tmp_path: Path) -> None:
    """A device, a pipe or a folder keeps what it is."""
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    for target in (pipe, tmp_path, Path("/dev/null")):
        with pytest.raises(InputError, match="no ordinary file"):
            write_whole(target, b"%PDF-", replace=True)
    assert pipe.is_fifo()
    assert not Path("/dev/null").is_file()


def test_a_link_is_followed(tmp_path: Path) -> None:
    """It stays a link, and what it points to is replaced, or refused, as if it were named itself."""
    sheet, link, circle = tmp_path / "sheet.pdf", tmp_path / "link.pdf", tmp_path / "circle.pdf"
    sheet.write_bytes(b"%PDF-old")
    link.symlink_to(sheet)
    write_whole(link, b"%PDF-new", replace=True)
    assert link.is_symlink()
    assert sheet.read_bytes() == b"%PDF-new"
    sheet.write_bytes(b"mine")
    with pytest.raises(InputError, match="this is no PDF"):
        write_whole(link, b"%PDF-new", replace=True)
    circle.symlink_to(circle)
    with pytest.raises(InputError):
        write_whole(circle, b"%PDF-new", replace=True)


_WRITE = """
import sys
from pathlib import Path
from stripdown.tables.whole_file import write_whole
path = Path(sys.argv[1])
print("ready", flush=True)
for number in range(1_000_000):
    write_whole(path, b"%PDF-" + str(number).encode() * 20_000, replace=True)
"""


def _is_whole(content: bytes) -> bool:
    number = content[5 : 5 + (len(content) - 5) // 20_000]
    return content == b"%PDF-old" or content == b"%PDF-" + number * 20_000


@pytest.mark.parametrize("times", [3, pytest.param(200, marks=pytest.mark.slow)])
def test_a_kill_leaves_the_old_file_or_the_new_one(tmp_path: Path, times: int) -> None:
    """Killed without warning at some moment of a write: a whole file, and nothing beside it."""
    target = tmp_path / "sheet.pdf"
    for turn in range(times):
        target.write_bytes(b"%PDF-old")
        with subprocess.Popen([sys.executable, "-c", _WRITE, str(target)], stdout=subprocess.PIPE) as writer:
            assert writer.stdout is not None
            writer.stdout.readline()
            time.sleep(0.0007 * (turn % 50))
            writer.kill()
        assert _is_whole(target.read_bytes())
        assert [path.name for path in tmp_path.iterdir()] == ["sheet.pdf"]
