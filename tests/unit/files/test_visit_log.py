"""What is appended to a visit's file, and when nothing is."""

from __future__ import annotations

import dataclasses
import datetime
import errno
import os
import tomllib
from pathlib import Path

import pytest

from stripdown.errors import InputError
from stripdown.files.toml_text import list_entry
from stripdown.files.visit import load_visit
from stripdown.files.visit_log import _fields, append_to_log
from stripdown.procedures.events import Event, FluidOn, read_event
from stripdown.procedures.grading import GradeRecord
from stripdown.procedures.looks import Grade
from tests.documents.typed_characters import count


@pytest.mark.parametrize("text", ['a "quoted" word', "back\\slash", "line\nbreak", "\x7f and \u2028", "ünï “curly”"])
def test_any_text_comes_back_as_it_went_in(text: str) -> None:
    """Whatever a person types is written so that TOML reads the same (TOML 1.0.0, basic strings)."""
    read = tomllib.loads("\n".join(list_entry("event", {"note": text, "passed": True})))
    assert read == {"event": [{"note": text, "passed": True}]}


def test_an_event_comes_back_whole(tmp_path: Path) -> None:
    """Every field that says something, and no other."""
    (tmp_path / "visit.toml").write_text("[visit]\n", encoding="utf-8")
    event = Event(
        number=1,
        when=datetime.date(2026, 5, 3),
        who="R.",
        part="magazine",
        kind="clean",
        fluids=(FluidOn(fluid="water", parts=("magazine",)), FluidOn(fluid="isopropyl alcohol")),
        note='says "no"',
        act=1,
    )
    floats = Event(number=3, check="trial_float", readings=(("sector", "0.08 mm"), ("spur", 0.11), ("bevel", "0.1 mm")), act=1)
    assert read_event(tomllib.loads("\n".join(list_entry("event", _fields(floats))))["event"][0], position=1) == floats
    grade = GradeRecord(number=2, part="piston", look="pick_up_tooth", grade=Grade.WATCH, act=1)
    append_to_log(tmp_path, [event], [grade])
    visit = load_visit(tmp_path)
    assert (visit.events, visit.graded) == ((event,), (grade,))


def test_a_folder_without_a_visits_file_gets_one(tmp_path: Path) -> None:
    """An older folder keeps to its job file; any other gets a visit's file with a head."""
    append_to_log(tmp_path, [Event(number=1, note="x")])
    assert (tmp_path / "visit.toml").read_text(encoding="utf-8") == '[visit]\n\n[[event]]\nnumber = 1\nnote = "x"\n'
    older = tmp_path / "older"
    older.mkdir()
    (older / "case.toml").write_text("[case]\n", encoding="utf-8")
    assert append_to_log(older, [Event(number=1, note="x")]).name == "job.toml"
    assert load_visit(older / "job.toml").events[0].note == "x"


def test_what_somebody_else_entered_meanwhile_is_not_written_over(tmp_path: Path) -> None:
    """Two at one gun: the second is told to look again, and the file is as the first left it."""
    append_to_log(tmp_path, [Event(number=1, note="first")])
    before = (tmp_path / "visit.toml").read_bytes()
    with pytest.raises(InputError, match=r"somebody has entered number 1 meanwhile; nothing was entered"):
        append_to_log(tmp_path, [Event(number=1, note="second")])
    assert (tmp_path / "visit.toml").read_bytes() == before


def test_a_folder_that_cannot_be_written_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """One message, and the file as it was."""
    append_to_log(tmp_path, [Event(number=1, note="x")])
    before = (tmp_path / "visit.toml").read_bytes()

    opened = os.open

    def refused(path: str, flags: int, *more: int, **how: int) -> int:  # as for anybody but root
        if flags & (os.O_WRONLY | os.O_RDWR):
            raise PermissionError(errno.EACCES, "Permission denied")
        return opened(path, flags, *more, **how)

    with monkeypatch.context() as meanwhile:
        meanwhile.setattr(os, "open", refused)
        with pytest.raises(InputError, match=r"cannot be written: Permission denied"):
            append_to_log(tmp_path, [Event(number=2, note="y")])
    assert (tmp_path / "visit.toml").read_bytes() == before


def test_nothing_is_left_beside_the_file(tmp_path: Path) -> None:
    """It is put in place whole: no part of it lies about."""
    for number in (1, 2, 3):
        append_to_log(tmp_path, [dataclasses.replace(Event(number=1, note="x"), number=number)])
    assert [path.name for path in tmp_path.iterdir()] == ["visit.toml"]
    assert len(load_visit(tmp_path).events) == 3


def test_a_full_service_is_typed_in_a_tenth_of_the_characters() -> None:
    """Entered a place at a time by the printed numbers until nothing is left, against the same log by hand."""
    typed = count(by_place=True)
    assert typed.steps > 100
    assert typed.characters * 8 < len(typed.by_hand)
