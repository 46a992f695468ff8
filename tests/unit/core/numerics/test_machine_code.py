"""Machine code that is kept: whatever becomes of its files, a kernel still answers, and says once what went wrong."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

_RUN = """
import sys
import numba
from stripdown.core.numerics import machine_code
from stripdown.core.numerics.compiled import compiled
exec(sys.argv[1])

def double(x):
    return 2.0 * x

double.__code__ = double.__code__.replace(co_filename=machine_code.__file__)  # a file that Numba can stamp
double = compiled(double)
print(double(21.0), sum(double.stats.cache_hits.values()), machine_code.cache_trouble(), sep="|")
"""


def _answer(cache: Path, before: str = "") -> tuple[str, ...]:
    """Value, hits of the cache, and what is said of it, of a kernel in a process of its own."""
    done = subprocess.run(
        [sys.executable, "-c", _RUN, before],
        env={name: value for name, value in os.environ.items() if not name.startswith("NUMBA")} | {"NUMBA_CACHE_DIR": str(cache)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return tuple(done.stdout.rstrip("\n").split("|"))


def _emptied(path: Path) -> None:
    path.write_bytes(b"")


def _truncated(path: Path) -> None:
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])


def _garbled(path: Path) -> None:
    content = bytearray(path.read_bytes())
    content[len(content) // 2] ^= 0xFF
    path.write_bytes(bytes(content))


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the machine code of one kernel."""
    folder = tmp_path_factory.mktemp("machine code")
    assert _answer(folder) == ("42.0", "0", "")
    assert _answer(folder) == ("42.0", "1", "")
    return folder


@pytest.mark.parametrize("suffix", [".nbi", ".nbc"])
@pytest.mark.parametrize("damage", [_emptied, _truncated, _garbled])
def test_damaged_machine_code_is_made_anew(kept: Path, damage: Callable[[Path], None], suffix: str) -> None:
    """Index or code, empty, torn or with a flipped bit: compiled anew, said in one sentence, and whole again afterwards."""
    (path,) = kept.rglob(f"*{suffix}")
    damage(path)
    value, hits, said = _answer(kept)
    assert (value, hits) == ("42.0", "0")
    assert said == "Machine code that was kept was damaged, so it was thrown away and made anew."
    assert _answer(kept) == ("42.0", "1", "")


def test_a_full_disk_ends_no_run(tmp_path: Path) -> None:
    """The kernel runs without being kept, and no torn file is left."""
    full = "def no(*_): raise OSError(28, 'No space left on device')\nimport os\nos.replace = no"
    value, hits, said = _answer(tmp_path, full)
    assert (value, hits) == ("42.0", "0")
    assert said.startswith("Machine code cannot be kept (No space left on device)")
    assert not [path for path in tmp_path.rglob("*") if path.is_file()]


def test_a_place_that_cannot_be_written_to_ends_no_run(tmp_path: Path) -> None:
    """A file where the folder should be: no other place is taken, where old code could answer for new sources."""
    in_the_way = tmp_path / "file"
    in_the_way.write_text("")
    value, hits, said = _answer(in_the_way)
    assert (value, hits) == ("42.0", "0")
    assert said.startswith("Machine code cannot be kept (there is no place to write it to)")
