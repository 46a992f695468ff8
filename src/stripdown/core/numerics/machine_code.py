"""Where compiled functions keep their machine code: checked when it is read, and never worth a failure.

Numba trusts what lies in its cache: after a power cut an empty or torn file stops every later run. Here each file begins with
the digest of what follows. What does not answer to it counts as not there and is compiled anew; what cannot be written is
compiled anew each time. Either way one sentence says so.
"""

from __future__ import annotations

import hashlib
import pickle
from collections.abc import Callable, Mapping
from typing import Any, ClassVar

from numba.core import caching

_NUMBA: Any = caching  # half of it has types, and not those that hold
_DIGEST = hashlib.sha256().digest_size
_TROUBLE: dict[str, None] = {}


def cache_trouble() -> str:
    """What went wrong with the machine code that is kept, since the program began.

    Returns
    -------
    str
        One sentence, or several; empty if all is well.
    """
    return " ".join(_TROUBLE)


def _damaged() -> None:
    _TROUBLE["Machine code that was kept was damaged, so it was thrown away and made anew."] = None


def _cannot_keep(reason: OSError | RuntimeError) -> None:
    why = (reason.strerror if isinstance(reason, OSError) else None) or "there is no place to write it to"
    _TROUBLE[f"Machine code cannot be kept ({why}), so it is made anew each time: about half a minute."] = None


class CheckedFiles(_NUMBA.IndexDataCacheFile):  # type: ignore[misc]
    """Index and machine code of one function, each file behind the digest of its content."""

    def load(self, key: object) -> Any:
        """Machine code for a signature; None if there is none that can be trusted.

        Parameters
        ----------
        key
            Signature, processor and byte code.

        Returns
        -------
        object
            What Numba makes a function of.
        """
        try:
            name = self._load_index().get(key)
            return None if name is None else self._load_data(name)
        except OSError:
            return None

    def _load_index(self) -> dict[object, str]:
        try:
            found = self._read(self._index_path)
        except OSError:  # none yet, or one that nobody may read
            return {}
        if found is None or found[:2] != (self._version, self._source_stamp):
            return {}
        overloads: dict[object, str] = found[2]
        return overloads

    def _save_index(self, overloads: Mapping[object, str]) -> None:
        self._write(self._index_path, pickle.dumps((self._version, self._source_stamp, dict(overloads))))

    def _load_data(self, name: str) -> Any:
        return self._read(self._data_path(name))

    def _save_data(self, name: str, data: object) -> None:
        self._write(self._data_path(name), self._dump(data))

    def _read(self, path: str) -> Any:
        """What a file holds; None if it is not whole."""
        with open(path, "rb") as file:  # noqa: PTH123  as Numba names its files
            digest, content = file.read(_DIGEST), file.read()
        if hashlib.sha256(content).digest() != digest:
            _damaged()
            return None
        return pickle.loads(content)  # noqa: S301  written by this program, whole

    def _write(self, path: str, content: bytes) -> None:
        with self._open_for_write(path) as file:
            file.write(hashlib.sha256(content).digest())
            file.write(content)


class _Kept(_NUMBA.CompileResultCacheImpl):  # type: ignore[misc]
    """Keeps machine code in the folder that this program names, and nowhere else: Numba's other places know no changed callee."""

    _locator_classes: ClassVar[list[type]] = [_NUMBA.UserProvidedCacheLocator]


class CheckedCache(_NUMBA.FunctionCache):  # type: ignore[misc]
    """Numba's cache of one function over files that are checked; what cannot be written ends no run."""

    _impl_class = _Kept

    def __init__(self, function: Callable[..., Any]) -> None:
        super().__init__(function)
        plain: Any = self._cache_file
        self._cache_file: Any = CheckedFiles(self._cache_path, plain._index_name.removesuffix(".nbi"), plain._source_stamp)  # noqa: SLF001

    def save_overload(self, sig: object, data: object) -> None:
        """Keep machine code, if it can be written.

        Parameters
        ----------
        sig
            Signature.
        data
            What was compiled.
        """
        try:
            super().save_overload(sig, data)
        except OSError as reason:
            _cannot_keep(reason)


def keep_machine_code(dispatcher: Any) -> None:
    """Let a compiled function keep its machine code; where there is no place for it, it goes without.

    Parameters
    ----------
    dispatcher
        Made by Numba.
    """
    try:
        dispatcher._cache = CheckedCache(dispatcher.py_func)  # noqa: SLF001  Numba offers no other way in
    except (OSError, RuntimeError) as reason:
        _cannot_keep(reason)
