"""Sources exist and are used: every citation names an entry of the register, and no entry lies idle."""

from __future__ import annotations

import ast
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from numpydoc.docscrape import NumpyDocString

from stripdown.references import load_references

ROOT = Path(__file__).parents[2]
REGISTER = ROOT / "src" / "stripdown" / "references" / "references.toml"
_KEY = re.compile(r"[a-z][a-z0-9]*(?:_[a-z0-9]+)*")
_SOURCES = sorted(path for path in (ROOT / "src").rglob("*.py") if path.parent != REGISTER.parent)
_TEXTS = [*_SOURCES, *(ROOT / "src").rglob("*.toml"), *(ROOT / "tests").rglob("*.py"), *(ROOT / "docs").rglob("*.md")]


def _cited_in_docstrings(path: Path) -> Iterator[str]:
    """First word of every References section, and whatever else in it is spelt as a key."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.FunctionDef | ast.ClassDef | ast.Module) and (text := ast.get_docstring(node)):
            words = re.findall(r"\w+", " ".join(NumpyDocString(text)["References"]))
            yield from words[:1]
            yield from (word for word in words[1:] if "_" in word)


def _cited_in_catalogue(path: Path) -> Iterator[str]:
    def walk(table: object) -> Iterator[str]:
        if isinstance(table, dict):
            if isinstance(table.get("source"), str):
                yield table["source"]
            for inner in table.values():
                yield from walk(inner)

    yield from walk(tomllib.loads(path.read_text(encoding="utf-8")))


_CITED = {(path.relative_to(ROOT).as_posix(), key) for path in _SOURCES for key in _cited_in_docstrings(path)} | {
    (path.relative_to(ROOT).as_posix(), key)
    for path in (ROOT / "src").rglob("*.toml")
    if path != REGISTER
    for key in _cited_in_catalogue(path)
}


@pytest.mark.parametrize(("where", "key"), sorted(_CITED))
def test_a_cited_source_is_in_the_register(where: str, key: str) -> None:
    """A docstring's References and a catalogue entry's source name a key that exists."""
    references = load_references()
    assert key in references, f"{where} cites {key!r}{references.nearest(key)}"


def test_the_citations_are_found() -> None:
    """The reading of docstrings itself works: laws do cite sources."""
    assert len(_CITED) > 5


@pytest.mark.parametrize("key", load_references())
def test_a_registered_source_is_used(key: str) -> None:
    """Some law, catalogue entry, test or page of the documents cites it."""
    word = re.compile(rf"\b{key}\b")
    assert any(
        word.search(path.read_text(encoding="utf-8")) for path in _TEXTS if path.name not in {REGISTER.name, "validation.md"}
    )


@pytest.mark.parametrize("key", load_references())
def test_a_registered_source_can_be_found_by_a_reader(key: str) -> None:
    """Its key is plain, and its line names author, title and place of publication."""
    assert _KEY.fullmatch(key)
    reference = load_references()[key]
    assert reference.author
    assert reference.title
    assert reference.published_in
    assert reference.used_for
    assert reference.title in reference.cite("page 1")
