"""Generated pages cannot drift from what they are generated from."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

from tests.documents.command_reference import page as command_page
from tests.documents.validation_table import listed_tests

ROOT = Path(__file__).parents[2]
DOCS = ROOT / "docs"


@pytest.mark.parametrize("page", [path.relative_to(ROOT).as_posix() for path in [*ROOT.glob("*.md"), *DOCS.rglob("*.md")]])
def test_a_link_leads_somewhere(page: str) -> None:
    """Whatever a page links to in the house is there."""
    source = ROOT / page
    targets = re.findall(r"\]\(([^)#\s]+)", source.read_text(encoding="utf-8"))
    missing = [target for target in targets if "://" not in target and not (source.parent / target).exists()]
    assert missing == []


def test_every_validation_test_is_listed() -> None:
    """docs/validation.md lists each test under tests/validation and no other; `make docs` remakes it.

    The slow suites are apart: they write tables of their own, docs/validation-*.md.
    """
    outcome = subprocess.run(
        [sys.executable, "-m", "pytest", "--collect-only", "-q", "tests/validation"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    collected = {line for line in outcome.stdout.splitlines() if line.startswith("tests/validation/")}
    assert collected
    assert listed_tests((DOCS / "validation.md").read_text(encoding="utf-8")) == collected


def test_the_command_reference_is_what_the_commands_say() -> None:
    """docs/cli.md equals the help of the commands; `make docs` remakes it."""
    assert (DOCS / "cli.md").read_text(encoding="utf-8") == command_page()
