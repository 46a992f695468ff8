"""What the sheet of a case says, word for word, as it was last accepted.

Golden: this program made it, from a case of which no figure comes from the model of the shot; that the figures are those of
the case is checked in tests/unit/reports. To accept new words: ``python -m tests.golden.test_sheet`` with ``src`` on the
path, and a line in the changelog.
"""

from __future__ import annotations

import dataclasses
import enum
import json
from pathlib import Path
from typing import Any

import pytest

from stripdown.files.gun import load_gun
from stripdown.reports.content import Picture
from stripdown.reports.sheet import sheet_of
from stripdown.units import Scale
from tests.synthetic_verdicts import make_case

_FOLDER = Path(__file__).parent / "sheet"
_GUN = Path(__file__).parents[2] / "examples" / "brackenmoor-07-healthy.toml"
_SCALES: tuple[Scale, ...] = ("metric", "imperial")


def _said(scale: Scale) -> str:
    words = words_of(sheet_of(make_case(load_gun(_GUN)), scale=scale))
    return f"{json.dumps(words, indent=1, ensure_ascii=False)}\n"


def words_of(value: Any) -> Any:
    """Records as what they say; of a picture its words alone, since its shape is kept with the charts."""
    if isinstance(value, Picture):
        return value.alternative
    if dataclasses.is_dataclass(value):
        return {field.name: words_of(getattr(value, field.name)) for field in dataclasses.fields(value)}
    if isinstance(value, tuple):
        return [words_of(item) for item in value]
    return value.value if isinstance(value, enum.Enum) else value


@pytest.mark.parametrize("scale", _SCALES)
def test_the_sheet_says_what_was_accepted(scale: Scale) -> None:
    """Every word and figure, in both scales."""
    assert _said(scale) == (_FOLDER / f"{scale}.json").read_text(encoding="utf-8")


if __name__ == "__main__":
    _FOLDER.mkdir(exist_ok=True)
    for _scale in _SCALES:
        (_FOLDER / f"{_scale}.json").write_text(_said(_scale), encoding="utf-8")
