"""What the owner's sheet of a case says, word for word, as it was last accepted; the terminal prints the same answer.

Golden: this program made it, from a case of which no figure comes from the model of the shot; that the figures are those of
the case is checked in tests/unit/words. To accept new words: ``python -m tests.golden.test_sheet`` with ``src`` on the
path, and a line in the changelog.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from stripdown.files.gun import load_gun
from stripdown.reports.press import plain_words
from stripdown.units import Scale
from stripdown.words.case import case_answer
from tests.golden.test_service_sheet import filled
from tests.synthetic_verdicts import make_case

_FOLDER = Path(__file__).parent / "sheet"
_GUN = Path(__file__).parents[2] / "examples" / "brackenmoor-07-healthy.toml"
_SCALES: tuple[Scale, ...] = ("metric", "imperial")


def _said(scale: Scale) -> str:
    words = filled(plain_words(case_answer(make_case(load_gun(_GUN)), scale=scale), set()))
    return f"{json.dumps(words, indent=1, ensure_ascii=False)}\n"


@pytest.mark.parametrize("scale", _SCALES)
def test_the_sheet_says_what_was_accepted(scale: Scale) -> None:
    """Every word and figure, in both scales."""
    assert _said(scale) == (_FOLDER / f"{scale}.json").read_text(encoding="utf-8")


if __name__ == "__main__":
    _FOLDER.mkdir(exist_ok=True)
    for _scale in _SCALES:
        (_FOLDER / f"{_scale}.json").write_text(_said(_scale), encoding="utf-8")
