"""What the service sheet of a made-up job says, and what is calculated for the demo's, word for word, as it was last accepted.

Golden: this program made it; that the words are those of the plan is checked in tests/unit/words. To accept new words:
``python -m tests.golden.test_service_sheet`` with ``src`` on the path, and a line in the changelog.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

from stripdown.files.job_calculators import asked_of_calculators
from stripdown.files.visit_tables import VisitTables
from stripdown.reports.press import plain_words
from stripdown.studies.calculators import calculate_all
from stripdown.tables.toml_file import read_toml
from stripdown.words.calculators import answers_of_job
from stripdown.words.plan import bench_sheet
from tests.synthetic_service import made_study

_FOLDER = Path(__file__).parent / "service_sheet"
_DEMO = Path(__file__).parents[2] / "examples" / "brackenmoor-12" / "job.toml"

_SAYS: Mapping[str, Callable[[], object]] = {
    "made_up": lambda: bench_sheet(made_study()),
    "calculated": lambda: answers_of_job(calculate_all(asked_of_calculators(VisitTables(read_toml(_DEMO))))),
}


def _said(name: str) -> str:
    return f"{json.dumps(filled(plain_words(_SAYS[name](), set())), indent=1, ensure_ascii=False)}\n"


def filled(value: Any) -> Any:
    """What is said, without the fields that say nothing."""
    if isinstance(value, dict):
        return {key: filled(one) for key, one in value.items() if one not in ("", [], None, False)}
    return [filled(one) for one in value] if isinstance(value, list) else value


@pytest.mark.parametrize("name", _SAYS)
def test_the_service_sheet_says_what_was_accepted(name: str) -> None:
    """Every word, blank and step number."""
    assert _said(name) == (_FOLDER / f"{name}.json").read_text(encoding="utf-8")


if __name__ == "__main__":
    _FOLDER.mkdir(exist_ok=True)
    for _name in _SAYS:
        (_FOLDER / f"{_name}.json").write_text(_said(_name), encoding="utf-8")
