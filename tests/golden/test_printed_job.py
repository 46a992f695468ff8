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

from stripdown.cli.printed_plan import print_plan
from stripdown.cli.printed_standing import print_standing
from stripdown.files.job import load_job
from stripdown.studies.service_job import JobStudy, study_job

_FOLDER = Path(__file__).parent / "printed_job"
_JOB = Path(__file__).parents[2] / "examples" / "brackenmoor-12" / "job.toml"

_PRINTS: Mapping[str, Callable[[Console, JobStudy], None]] = {
    "plan": lambda console, study: print_plan(console, study, with_how=False),
    "plan-how": lambda console, study: print_plan(console, study, with_how=True),
    "standing": lambda console, study: print_standing(console, study, with_all=False),
    "standing-all": lambda console, study: print_standing(console, study, with_all=True),
}


def _printed(name: str) -> str:
    console = Console(file=io.StringIO(), width=100, highlight=False, markup=False, emoji=False)
    _PRINTS[name](console, study_job(load_job(_JOB)))
    assert isinstance(console.file, io.StringIO)
    return console.file.getvalue()


@pytest.mark.parametrize("name", _PRINTS)
def test_a_print_is_as_accepted(name: str) -> None:
    """Words and layout are those last looked at."""
    assert _printed(name) == (_FOLDER / f"{name}.txt").read_text(encoding="utf-8")


if __name__ == "__main__":
    _FOLDER.mkdir(exist_ok=True)
    for _name in _PRINTS:
        (_FOLDER / f"{_name}.txt").write_text(_printed(_name), encoding="utf-8")
