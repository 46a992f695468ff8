"""The words of a gun's check, as they were last accepted.

Goldens: this program printed them, and they prove nothing but that the words did not change unseen. To accept new words:
``stripdown gun check FILE.toml > tests/golden/gun_check/NAME.txt`` from the folder of the TOML file, and a line in the changelog.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from stripdown.files.gun import check_gun
from stripdown.files.gun_check_text import check_text

_HERE = Path(__file__).parent / "gun_check"
_EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.mark.parametrize(
    ("folder", "name"), [(_EXAMPLES, "brackenmoor-07-as-found"), (_HERE, "mistakes")], ids=["as-found", "mistakes"]
)
def test_a_check_says_what_was_accepted(folder: Path, name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Complaints, doubts, decimal commas, computed and assumed values, line by line."""
    monkeypatch.chdir(folder)
    assert check_text(check_gun(f"{name}.toml")) == (_HERE / f"{name}.txt").read_text(encoding="utf-8")
