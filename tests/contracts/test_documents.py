"""Generated pages cannot drift from what they are generated from."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from tests.documents.command_reference import page as command_page
from tests.documents.validation_table import listed_tests

ROOT = Path(__file__).parents[2]
DOCS = ROOT / "docs"


def test_every_validation_test_is_listed() -> None:
    """docs/validation.md lists each test under tests/validation and no other; `make docs` remakes it."""
    outcome = subprocess.run(
        [sys.executable, "-m", "pytest", "--collect-only", "-q", "-m", "", "tests/validation"],
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
