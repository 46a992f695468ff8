"""Where machine code is kept, and that old machine code never answers for new sources."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

import stripdown
from stripdown.core.numerics import compiled as subject

_PACKAGE = Path(stripdown.__file__).resolve().parent


def _copy(folder: Path) -> Path:
    """A copy of the package with a kernel of the tests' own in it."""
    package = folder / "stripdown"
    shutil.copytree(_PACKAGE, package, ignore=shutil.ignore_patterns("__pycache__", "fonts"))
    (package / "core" / "numerics" / "callee.py").write_text(
        "from stripdown.core.numerics.compiled import compiled\n\n@compiled\ndef law(x):\n    return 2.0 * x\n"
    )
    (package / "core" / "numerics" / "caller.py").write_text(
        "from stripdown.core.numerics.callee import law\n"
        "from stripdown.core.numerics.compiled import compiled\n\n"
        "@compiled\ndef read(p):\n    return law(p.mass) + 100.0 * p.diameter\n"
    )
    return package


_RUN = """
from stripdown.core.numerics.caller import read
from stripdown.core.numerics.compiled import cache_folder, cache_is_warm
from stripdown.core.numerics.rows import pack
from stripdown.core.parts.ball import Ball
was_warm = cache_is_warm("read")
value = read(pack(Ball(mass=3.0, diameter=5.0))[0])
print(was_warm, sum(read.stats.cache_hits.values()), value, cache_folder())
"""


def _ask(folder: Path, cache: Path, code: str = _RUN) -> list[str]:
    """Run code on the copy in a process of its own; return the words that it prints."""
    done = subprocess.run(
        [sys.executable, "-B", "-c", code],
        env={name: value for name, value in os.environ.items() if not name.startswith("NUMBA")}
        | {"PYTHONPATH": str(folder), "NUMBA_CACHE_DIR": str(cache)},
        cwd=folder,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout.split()


@pytest.fixture(scope="module")
def story(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[str]]:
    """What five runs on a copy of the package print, between which its sources change."""
    folder = tmp_path_factory.mktemp("copy")
    cache = tmp_path_factory.mktemp("machine code")
    package = _copy(folder)
    found = {"first": _ask(folder, cache), "second": _ask(folder, cache)}
    callee = package / "core" / "numerics" / "callee.py"
    law = callee.read_text()
    callee.write_text(law.replace("2.0 * x", "3.0 * x"))
    found["changed law"] = _ask(folder, cache)
    ball = package / "core" / "parts" / "ball.py"
    text = ball.read_text()
    mass, diameter = text.index("    mass:"), text.index("    diameter:")
    ball.write_text(text[:mass] + text[diameter:].rstrip() + "\n" + text[mass:diameter])
    found["swapped fields"] = _ask(folder, cache)
    ball.write_text(text)
    callee.write_text(law)
    found["as before"] = _ask(folder, cache)
    return found


def test_a_second_run_takes_the_machine_code_of_the_first(story: dict[str, list[str]]) -> None:
    """Nothing changed: the cache is warm, and its code is used."""
    assert story["first"][:3] == ["False", "0", "506.0"]
    assert story["second"][:3] == ["True", "1", "506.0"]


def test_a_law_changed_in_another_module_is_seen(story: dict[str, list[str]]) -> None:
    """The caller did not change, but what it calls did: the number is new, and the folder too."""
    assert story["changed law"][:3] == ["False", "0", "509.0"]
    assert story["changed law"][3:] != story["first"][3:]


def test_two_swapped_fields_are_read_by_name(story: dict[str, list[str]]) -> None:
    """After two fields of one type have changed places, each is still read for itself."""
    assert story["swapped fields"][2] == "509.0"


def test_sources_put_back_find_their_old_machine_code(story: dict[str, list[str]]) -> None:
    """The folder is named by what the sources say, not by when they were written."""
    assert story["as before"] == story["second"]


def test_the_cache_can_be_moved(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """The environment moves the parent; name and version stay, so that two versions never share a folder."""
    monkeypatch.setenv("NUMBA_CACHE_DIR", str(tmp_path))
    folder = subject.cache_folder()
    assert folder.parent == tmp_path
    assert folder.name == f"{stripdown.__version__}-{subject.source_digest()}"


def test_without_a_wish_the_cache_lies_in_the_users_own(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """With no place given it is a folder of the program's name under the user's cache."""
    monkeypatch.delenv("NUMBA_CACHE_DIR", raising=False)
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    assert subject.cache_folder().parent == tmp_path / "cache" / "stripdown"


def test_a_cache_that_cannot_be_made_gives_way_to_a_temporary_folder(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Where the user's cache cannot be made, machine code goes where everybody may write, and nothing fails."""
    in_the_way = tmp_path / "file"
    in_the_way.write_text("not a folder")
    monkeypatch.delenv("NUMBA_CACHE_DIR", raising=False)
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setenv("XDG_CACHE_HOME", str(in_the_way / "cache"))
    assert not subject.cache_folder().is_relative_to(tmp_path)


def test_a_kernel_never_called_is_cold() -> None:
    """No machine code is claimed for a name that no kernel has."""
    assert not subject.cache_is_warm("no_such_kernel")
