from __future__ import annotations

import io

import pytest
from rich.console import Console

from stripdown.cli.terminal import NO_BREAK, answers, model_at_work, print_paragraph
from stripdown.core.interior_ballistics import run
from stripdown.core.numerics import compiled


def test_a_number_stays_beside_its_unit() -> None:
    """A line is broken before the pair, and the pair is printed with an ordinary blank."""
    out = io.StringIO()
    print_paragraph(Console(file=out, width=20), f"the spring's rate is{NO_BREAK}520{NO_BREAK}N/m as given")
    assert out.getvalue() == "the spring's rate\nis 520 N/m as given\n"


def test_a_name_in_brackets_is_not_taken_for_a_colour(capsys: pytest.CaptureFixture[str]) -> None:
    """What a person typed is printed as it is."""
    answers().print("[red]Rack[/red] :gun: 7")
    assert capsys.readouterr().out == "[red]Rack[/red] :gun: 7\n"


@pytest.mark.parametrize(("warm", "words"), [(False, "once"), (True, "")])
def test_the_first_run_says_that_it_takes_longer(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], *, warm: bool, words: str
) -> None:
    """Only the first: a terminal that nobody watches gets one line on standard error, and none afterwards."""
    monkeypatch.setattr(compiled, "cache_is_warm", lambda _: warm)
    with model_at_work("Shooting", kernel="run_shot") as progress:
        progress(1, 2)
    captured = capsys.readouterr()
    assert captured.out == ""
    assert words in captured.err
    assert bool(captured.err) is not warm


@pytest.mark.parametrize("kernel", ["run_shot", "run_shots"])
def test_the_kernels_that_are_waited_for_exist(kernel: str) -> None:
    """The names by which the cache is asked are those of compiled functions."""
    assert hasattr(getattr(run, kernel), "py_func")
