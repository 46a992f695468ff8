"""Which body stands around the box? Ready own steps for the usual ones, to name in a visit or to start from."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from importlib.resources import files

from stripdown.errors import InputError
from stripdown.tables.nearest import nearest_entry, plain_words
from stripdown.tables.table import read_tables


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """What stands around the box, as a file of own steps.

    Parameters
    ----------
    key
        Stable name (``"two_receivers"``).
    name
        How it reads.
    purpose
        Which guns are built so.
    text
        The file.
    """

    key: str
    name: str
    purpose: str
    text: str

    @property
    def file(self) -> str:
        """Name of the file, for messages."""
        return f"{self.key}.toml"


@functools.cache
def load_bodies() -> Mapping[str, Body]:
    """Read the bodies that have ready own steps.

    Returns
    -------
    mapping of str to Body
        By key.

    Raises
    ------
    CatalogueError
        With file, table and field.
    """
    folder = files("stripdown.procedures") / "bodies"
    found = {}
    for file in sorted(folder.iterdir(), key=lambda one: one.name):
        if file.name.endswith(".toml"):
            key, text = file.name.removesuffix(".toml"), file.read_text(encoding="utf-8")
            said = read_tables(text, file=file.name, known=None).table("body")
            said.only("name", "for")
            found[key] = Body(key=key, name=said.text("name"), purpose=said.text("for"), text=text)
    return found


def body_named(words: str) -> Body:
    """The body that is meant by some words.

    Parameters
    ----------
    words
        Its key or name.

    Returns
    -------
    Body

    Raises
    ------
    InputError
        If no body is called so, with the nearest ones.
    """
    bodies = load_bodies()
    for body in bodies.values():
        if plain_words(words) in {plain_words(body.key), plain_words(body.name)}:
            return body
    hint = nearest_entry(words, {key: body.name for key, body in bodies.items()})
    raise InputError(f'no body with ready steps is called "{words}".', field="body", value=words, hint=hint)
