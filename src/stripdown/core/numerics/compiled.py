"""The one way to compile a kernel, and where the machine code is kept.

Numba's own cache misses a callee that changed in another module and would then run old machine code. So the cache
folder is named by a hash of every source file that a kernel can reach: a changed law finds an empty folder. Compiler and
processor are in the hash too, so that code that is there is code that will be used.
This and `machine_code` are the only modules of the core that read files and the environment.
"""

from __future__ import annotations

import hashlib
import os
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar, cast

import numba
from numba.core import config
from numba.core.registry import cpu_target

from stripdown import __version__
from stripdown.core.numerics.machine_code import keep_machine_code

_F = TypeVar("_F", bound=Callable[..., Any])
_NUMBA: Any = config  # its settings are made when it is loaded, so no type checker sees them
_CORE = Path(__file__).resolve().parent.parent


def source_digest() -> str:
    """Digest of all that shapes machine code: every source file of the core, the compiler, the processor.

    Returns
    -------
    str
        Sixteen hexadecimal digits.
    """
    digest = hashlib.sha256()
    digest.update(repr((numba.__version__, cpu_target.target_context.codegen().magic_tuple())).encode())
    files = [*_CORE.rglob("*.py"), _CORE.parent / "quantities.py"]
    for file in sorted(files):
        digest.update(file.relative_to(_CORE.parent).as_posix().encode())
        digest.update(file.read_bytes())
    return digest.hexdigest()[:16]


def cache_folder() -> Path:
    """Folder of this version's machine code; ``NUMBA_CACHE_DIR`` moves its parent.

    Returns
    -------
    pathlib.Path
        A folder that may not exist yet.
    """
    asked = os.environ.get("NUMBA_CACHE_DIR")
    parent = Path(asked) if asked else _user_cache() / "stripdown"
    return parent / f"{__version__}-{source_digest()}"


def compiler_is_off() -> bool:
    """Whether kernels run as plain Python (``NUMBA_DISABLE_JIT=1``), as a debugger wants them.

    Returns
    -------
    bool
    """
    return bool(_NUMBA.DISABLE_JIT)


def cache_is_warm(kernel: str) -> bool:
    """Whether a kernel was compiled before by these very sources.

    Parameters
    ----------
    kernel
        Name of the compiled function.

    Returns
    -------
    bool
        False also when the code was made for another type of processor and must be made again; True with the compiler off.
    """
    return compiler_is_off() or any(Path(_NUMBA.CACHE_DIR).glob(f"**/*.{kernel}-*.nbi"))


def compiled(function: _F) -> _F:
    """Compile a function of the core: cached, free of the interpreter lock, without reordering of sums.

    It becomes a part of every compiled function that calls it: a call hands on seven words for each array, and does not let
    the processor look across it. A shot takes a sixth less time for it.

    Parameters
    ----------
    function
        Function of numbers, arrays and rows.

    Returns
    -------
    callable
        The compiled function, with the same signature.
    """
    return _compile(function, inline=True)


def compiled_apart(function: _F) -> _F:
    """Compile as `compiled` does, but once: for what is long and seldom called, so that the compiler has less to do.

    Parameters
    ----------
    function
        Function of numbers, arrays and rows.

    Returns
    -------
    callable
        The compiled function, with the same signature.
    """
    return _compile(function, inline=False)


def _compile(function: _F, *, inline: bool) -> _F:
    dispatcher = numba.njit(nogil=True, error_model="numpy", forceinline=inline)(function)
    if not compiler_is_off():
        keep_machine_code(dispatcher)
    return cast("_F", dispatcher)


def _user_cache() -> Path:
    if sys.platform == "win32":
        root = Path(os.environ.get("LOCALAPPDATA", tempfile.gettempdir()))
    elif sys.platform == "darwin":
        root = Path.home() / "Library" / "Caches"
    else:
        root = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")
    try:
        root.mkdir(parents=True, exist_ok=True)
    except OSError:
        return Path(tempfile.gettempdir())
    return root if os.access(root, os.W_OK) else Path(tempfile.gettempdir())


_NUMBA.CACHE_DIR = str(cache_folder())
