"""What the commands of a service print for the demo's job, as it was last accepted.

Goldens: this program printed them from an invented log, and they prove nothing but that words and layout did not change unseen.
To accept new ones: ``python -m tests.golden.test_printed_job`` with ``src`` on the path, and a line in the changelog.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from rich.console import Console

from stripdown.cli.rendered import print_answer
from stripdown.files.visit import load_job
from stripdown.studies.service_job import JobStudy, study_job
from stripdown.words.answer import Answer
from stripdown.words.plan import plan_answer
from stripdown.words.standing import standing_answer

_FOLDER = Path(__file__).parent / "printed_job"
_JOB = Path(__file__).parents[2] / "examples" / "brackenmoor-12" / "job.toml"

_ANSWERS: Mapping[str, Callable[[JobStudy], Answer]] = {
    "plan": plan_answer,
    "plan-how": plan_answer,
    "standing": standing_answer,
    "standing-all": lambda study: standing_answer(study, with_all=True),
}


def _printed(name: str) -> str:
    console = Console(file=io.StringIO(), width=100, highlight=False, markup=False, emoji=False)
    answer = _ANSWERS[name](study_job(load_job(_JOB)))
    print_answer(console, answer, in_full=frozenset({"how"} if name.endswith("how") else ()))
    assert isinstance(console.file, io.StringIO)
    return "".join(f"{line.rstrip()}\n" for line in console.file.getvalue().splitlines())


@pytest.mark.parametrize("name", _ANSWERS)
def test_a_print_is_as_accepted(name: str) -> None:
    """Words and layout are those last looked at."""
    assert _printed(name) == (_FOLDER / f"{name}.txt").read_text(encoding="utf-8")


if __name__ == "__main__":
    _FOLDER.mkdir(exist_ok=True)
    for _name in _ANSWERS:
        (_FOLDER / f"{_name}.txt").write_text(_printed(_name), encoding="utf-8")
