"""What the service sheet of a made-up job says, word for word, as it was last accepted.

Golden: this program made it; that the words are those of the plan is checked in tests/unit/reports. To accept new words:
``python -m tests.golden.test_service_sheet`` with ``src`` on the path, and a line in the changelog.
"""

from __future__ import annotations

import json
from pathlib import Path

from stripdown.reports.service_sheet import service_sheet_of
from tests.golden.test_sheet import words_of
from tests.synthetic_service import made_job, made_plan, made_standings

_FILE = Path(__file__).parent / "service_sheet" / "made_up.json"


def _said() -> str:
    words = words_of(service_sheet_of(made_job(), made_plan(), made_standings()))
    return f"{json.dumps(words, indent=1, ensure_ascii=False)}\n"


def test_the_service_sheet_says_what_was_accepted() -> None:
    """Every word, blank and step number."""
    assert _said() == _FILE.read_text(encoding="utf-8")


if __name__ == "__main__":
    _FILE.parent.mkdir(exist_ok=True)
    _FILE.write_text(_said(), encoding="utf-8")
