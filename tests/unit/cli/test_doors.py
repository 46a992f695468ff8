"""Whatever becomes of the output, of the terminal or of a mistyped name: one sentence, an exit code, and no traceback."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

_JOB = Path(__file__).parents[3] / "examples" / "brackenmoor-12" / "job.toml"
_MEDDLER = """
import os, sys
class Meddler:
    def find_spec(self, name, *_):
        if name == "click":
            os.kill(os.getpid(), {signal})
sys.meta_path.insert(0, Meddler())
"""
_START = "from stripdown.cli.start import main; main()"


def _run(*words: str | bytes, before: str = "", **settings: object) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-c", f"{before}\n{_START}", *words]
    settings = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, **settings}
    done: subprocess.CompletedProcess[str] = subprocess.run(command, text=True, check=False, **settings)  # type: ignore[call-overload]
    assert "Traceback" not in (done.stderr or "")
    return done


@pytest.mark.parametrize("more", [(), ("--json",)])
def test_an_answer_that_cannot_be_written_is_told(more: tuple[str, ...]) -> None:
    """A full disk behind standard output: exit code 1, and why."""
    with Path("/dev/full").open("w", encoding="utf-8") as full:
        done = _run("limits", *more, stdout=full)
    assert done.returncode == 1
    assert done.stderr == "stripdown: The answer could not be written: No space left on device.\n"


@pytest.mark.parametrize("closed", ["1", "2", "1 2"])
def test_a_closed_stream_ends_no_command(closed: str) -> None:
    """What would be said there is said nowhere."""
    shut = "; ".join(f"os.close({number})" for number in closed.split())
    call = f"subprocess.call([sys.executable, '-c', {_START!r}, 'limits'])"
    done = subprocess.run(
        [sys.executable, "-c", f"import os, subprocess, sys; {shut}; sys.exit({call})"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize("columns", ["0", "1", "-3", "wide"])
def test_a_terminal_without_columns_is_written_to(columns: str) -> None:
    """As one of twenty columns, or as any other if the number is none."""
    done = _run("standing", str(_JOB), env={**os.environ, "COLUMNS": columns})
    assert done.returncode == 0
    assert done.stdout


def test_an_interrupt_while_the_commands_are_imported_ends_the_program_as_any_other() -> None:
    """Exit code 130, one word."""
    before = _MEDDLER.format(signal=int(signal.SIGINT))
    done = _run("limits", before=before)
    assert (done.returncode, done.stdout, done.stderr) == (130, "", "Stopped.\n")


@pytest.mark.parametrize("word", ["w" * 20_000, "a" * 300, "\x1b[31mred\u202eder"])
@pytest.mark.parametrize(
    "command", [("shot",), ("case",), ("string",), ("plan",), ("complaint",), ("rating",), ("inspect",), ("shims",), ("why",), ()]
)
def test_a_hostile_word_is_refused_in_few_letters(command: tuple[str, ...], word: str) -> None:
    """No name fills the screen, none steers the terminal."""
    done = _run(*command, word)
    assert done.returncode == 2
    assert len(done.stderr) < 1500
    assert not set(done.stderr) & {"\x1b", "\u202e"}


def test_a_name_that_is_no_text_is_a_name() -> None:
    """Bytes of a file's name that are not UTF-8."""
    assert _run("shot", b"\xff\xfe.toml").returncode == 2
