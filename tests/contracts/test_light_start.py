"""What must start at once imports nothing heavy."""

from __future__ import annotations

import subprocess
import sys

import pytest

_HELP = """
import contextlib, sys
from stripdown.cli.main import main
sys.argv = ["stripdown", "--help"]
with contextlib.suppress(SystemExit):
    main()
"""
_HEAVY = ("numba", "altair", "django", "scipy", "vl_convert")
_REPORT = f"\nimport sys; print(*[name for name in {_HEAVY!r} if name in sys.modules])"


def _heavy_after(statement: str) -> set[str]:
    outcome = subprocess.run([sys.executable, "-c", statement + _REPORT], capture_output=True, text=True, check=True)
    return set(outcome.stdout.splitlines()[-1].split())


def test_help_imports_nothing_heavy() -> None:
    """`stripdown --help` answers without compiler, charts or web framework."""
    assert not _heavy_after(_HELP)


@pytest.mark.parametrize(
    "module",
    [
        "quantities",
        "references",
        "units",
        "core.parts",
        "catalogue",
        "procedures",
        "bench.gun_rules",
        "bench.completion",
        "bench.strings",
        "bench.shims",
        "bench.calculators",
        "bench.visit",
    ],
)
def test_declarations_load_without_arrays_or_compilers(module: str) -> None:
    """Forms and catalogue need the shape of a part, not the half second that a compiler costs."""
    assert not _heavy_after(f"import stripdown.{module}")


def test_a_heavy_import_is_seen() -> None:
    """The measurement itself can fail."""
    assert _heavy_after("import altair") == {"altair"}
