"""The floors: imports go down only, and the contracts can tell when one goes up."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
_LINT_IMPORTS = "from importlinter.cli import lint_imports_command; lint_imports_command(['--no-cache', '--no-logo'])"


def _floors(folder: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", f"import sys; sys.path.insert(0, 'src'); {_LINT_IMPORTS}"],
        cwd=folder,
        capture_output=True,
        text=True,
        check=False,
    )


@pytest.fixture
def copied_house(tmp_path: Path) -> Path:
    """A copy of the sources and their contracts, to be broken."""
    shutil.copytree(ROOT / "src", tmp_path / "src", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    return tmp_path


def test_every_import_goes_down() -> None:
    """No floor imports one above it or beside it."""
    outcome = _floors(ROOT)
    assert outcome.returncode == 0, outcome.stdout


@pytest.mark.parametrize(
    ("module", "line", "contract"),
    [
        ("core/constants.py", "import stripdown.units", "Floors"),
        ("quantities.py", "import stripdown.references", "Floors"),
        ("core/parts/spring.py", "import stripdown.core.numerics", "Inside the core"),
        (
            "core/interior_ballistics/parameters.py",
            "import stripdown.core.interior_ballistics.result",
            "Rooms of a simulating discipline",
        ),
        ("core/constants.py", "import click", "The core knows no framework"),
        ("units/__init__.py", "import pint", "The package imports no oracle of its tests"),
        ("units/__init__.py", "import altair", "Only charts speaks Vega-Lite"),
        ("core/parts/spring.py", "import numba", "Part declarations load without arrays or compilers"),
        ("studies/variants.py", "import stripdown.files.gun", "Floors"),
        ("files/gun.py", "import stripdown.studies", "Floors"),
        ("bench/gun.py", "import stripdown.files", "Floors"),
        ("tables/reader.py", "import stripdown.catalogue", "Floors"),
        ("bench/strings.py", "import scipy", "Part declarations load without arrays or compilers"),
        ("words/gun.py", "import stripdown.charts", "Floors"),
        ("words/gun.py", "import stripdown.plain", "Floors"),
        ("plain/si.py", "import stripdown.words", "Floors"),
    ],
)
def test_a_broken_wall_is_seen(copied_house: Path, module: str, line: str, contract: str) -> None:
    """One import in the wrong direction breaks the contract that forbids it."""
    with (copied_house / "src" / "stripdown" / module).open("a", encoding="utf-8") as file:
        file.write(f"\n{line}\n")
    outcome = _floors(copied_house)
    assert outcome.returncode == 1
    assert f"{contract} BROKEN" in outcome.stdout


def test_a_new_room_must_be_given_a_floor(copied_house: Path) -> None:
    """A module that no floor names is refused."""
    (copied_house / "src" / "stripdown" / "lumber.py").write_text('"""A drawer."""\n', encoding="utf-8")
    outcome = _floors(copied_house)
    assert outcome.returncode == 1
    assert "lumber" in outcome.stdout
