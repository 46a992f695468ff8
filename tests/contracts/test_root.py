"""The package root imports nothing; the import contracts cannot see that file themselves."""

from __future__ import annotations

import ast
from pathlib import Path

import stripdown

_SOURCE = Path(stripdown.__file__)


def test_the_root_holds_a_docstring_and_the_version_only() -> None:
    """Otherwise each `stripdown --help` would pay for whatever the root imports."""
    docstring, *rest = ast.parse(_SOURCE.read_text(encoding="utf-8")).body
    assert isinstance(docstring, ast.Expr)
    assert isinstance(docstring.value, ast.Constant)
    targets = [ast.unparse(target) for statement in rest for target in getattr(statement, "targets", [statement])]
    assert targets == ["__version__"]
