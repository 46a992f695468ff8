"""Sheets of the demo case, printed once."""

from __future__ import annotations

import pytest

from stripdown.reports.sheets import build_sheet
from tests.demo_cases import whole_case


@pytest.fixture(scope="session")
def printed() -> bytes:
    """The sheet of the whole demo case."""
    return build_sheet(whole_case())
