from __future__ import annotations

import itertools
import os
import shlex
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from stripdown import __version__
from stripdown.cli import shot as shot_module
from stripdown.cli.main import main
from stripdown.errors import InputError, NumericalFailure, OutsideValidity, ProcedureError, RenderError, StripdownError

_CALL = [sys.executable, "-c", "from stripdown.cli.main import main; main()"]
_FAILURES = [
    (InputError("the bore is negative.", file="gun.toml", line=7, hint="Write a positive one."), 2),
    (OutsideValidity("too fast.", model="lumped", quantity="speed", value=1.0, limits=(0, 0.6)), 3),
    (NumericalFailure("came to a stop.", time=1e-3, state=(1.0, 2.0), steps=7, rejected=3, evaluations=99), 4),
    (ProcedureError("a check is stale."), 5),
    (RenderError("no glyphs."), 6),
]


# With the settings of the command itself: click keeps the first help option that it makes.
_ROOT = click.Context(main, info_name="stripdown", **main.context_settings)


def _commands(context: click.Context) -> Iterator[click.Context]:
    yield context
    if isinstance(context.command, click.Group):
        for name in context.command.list_commands(context):
            command = context.command.get_command(context, name)
            assert command is not None
            yield from _commands(click.Context(command, parent=context, info_name=name))


@pytest.mark.parametrize("context", [pytest.param(each, id=each.command_path) for each in _commands(_ROOT)])
def test_every_command_says_what_it_does_and_shows_how(context: click.Context) -> None:
    """Help, a short line for the list, a help text for each option, and an example that calls this very command."""
    assert context.command.help
    assert context.command.get_short_help_str().endswith(".")
    assert "..." not in context.command.get_short_help_str()
    text = context.get_help()
    examples = text.split("Examples:\n")[1].strip().splitlines()
    assert examples
    assert all(example.strip().startswith(context.command_path) for example in examples)
    assert all(option.help for option in context.command.params if isinstance(option, click.Option))


def test_examples_of_values_with_blanks_are_quoted() -> None:
    """What the help shows can be typed as it stands: parsed by click, every option of every example is known."""
    for context in _commands(_ROOT):
        for example in getattr(context.command, "examples", ()):
            words = iter(itertools.takewhile(lambda word: word != ">", shlex.split(example)))
            command: click.Command = main
            assert next(words) == "stripdown"
            while isinstance(command, click.Group):
                found = command.get_command(click.Context(command), next(words))
                assert found is not None
                command = found
            command.make_context("example", list(words))


def test_the_version_is_the_packages() -> None:
    """`stripdown --version` names program and version."""
    assert CliRunner().invoke(main, ["--version"]).output == f"stripdown {__version__}\n"


@pytest.mark.parametrize(("failure", "code"), _FAILURES, ids=[type(failure).__name__ for failure, _ in _FAILURES])
def test_each_sort_of_failure_has_its_exit_code_and_no_traceback(
    gun_file: Path, monkeypatch: pytest.MonkeyPatch, failure: StripdownError, code: int
) -> None:
    """The message goes to standard error, nothing to standard output."""

    def fail(*_: object, **__: object) -> None:
        raise failure

    monkeypatch.setattr(shot_module, "shoot", fail)
    result = CliRunner().invoke(main, ["shot", str(gun_file)])
    assert result.exit_code == code
    assert result.stdout == ""
    assert result.stderr.startswith(f"stripdown: {failure}")
    assert "Traceback" not in result.stderr


def test_a_mistyped_option_is_refused_with_the_nearest() -> None:
    """Click's own complaints have the exit code of a person's mistake too."""
    result = CliRunner().invoke(main, ["shot", "gun.toml", "--bal", "0.2 g"])
    assert result.exit_code == 2
    assert "--ball" in result.stderr


def test_called_from_a_program_it_returns_and_raises() -> None:
    """Tests and other programs want the exception, not an exit."""
    with pytest.raises(InputError, match="no such file"):
        main(["shot", "missing.toml"], standalone_mode=False)


def test_an_interrupt_stops_with_one_word(gun_file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Ctrl-C ends with 128 + 2, as shells expect, and without a traceback."""

    def interrupted(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(shot_module, "shoot", interrupted)
    result = CliRunner().invoke(main, ["shot", str(gun_file)])
    assert (result.exit_code, result.stdout, result.stderr.strip()) == (130, "", "Stopped.")


def test_a_reader_that_goes_away_is_no_error_to_read_about(gun_file: Path) -> None:
    """A pipe closed early (`| head`) ends the program without a word on standard error."""
    read, write = os.pipe()
    os.close(read)
    with os.fdopen(write, "wb") as closed:
        done = subprocess.run([*_CALL, "gun", "check", str(gun_file)], stdout=closed, stderr=subprocess.PIPE, check=False)
    assert done.stderr == b""
    assert done.returncode == 1


@pytest.mark.skipif(sys.platform != "linux", reason="only there one can see from outside that a pipe is being read")
def test_an_interrupt_from_the_keyboard_stops_a_real_process() -> None:
    """A process that waits for its input (a pipe into which nobody writes on) stops at once on SIGINT."""
    reading, writing = os.pipe()
    # A run in the background ignores the signal, and its children would inherit that.
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    try:
        with subprocess.Popen(
            [*_CALL, "gun", "check", "/dev/stdin"], stdin=reading, stderr=subprocess.PIPE, text=True
        ) as waiting:
            try:
                _write_and_wait_until_read(writing)
                complaint = _complaint_when_interrupted(waiting)
            finally:
                waiting.kill()
    finally:
        os.close(reading)
        os.close(writing)
        signal.signal(signal.SIGINT, before)
    assert waiting.returncode == 130
    assert complaint.split() == ["Stopped."]


@pytest.mark.usefixtures("asked")
def test_a_terminal_that_knows_few_letters_gets_question_marks(gun_file: Path) -> None:
    """A degree sign is no reason for a traceback."""
    result = CliRunner(charset="ascii").invoke(main, ["shot", str(gun_file)])
    assert result.exit_code == 0
    assert "20 ?C" in result.stdout


def _complaint_when_interrupted(waiting: subprocess.Popen[str]) -> str:
    """What a process says when it is interrupted; a signal that falls between its last look and its wait is sent again."""
    for _ in range(40):
        waiting.send_signal(signal.SIGINT)
        try:
            return waiting.communicate(timeout=0.5)[1]
        except subprocess.TimeoutExpired:
            continue
    raise AssertionError("the process did not stop")


def _write_and_wait_until_read(pipe: int) -> None:
    """Write one sign into a pipe and wait until somebody has taken it, and so waits for more."""
    import fcntl  # noqa: PLC0415  neither is there on every system
    import termios  # noqa: PLC0415

    os.write(pipe, b"#")
    deadline = time.monotonic() + 20
    while int.from_bytes(fcntl.ioctl(pipe, termios.FIONREAD, bytes(4)), sys.byteorder):
        assert time.monotonic() < deadline
        time.sleep(0.02)
