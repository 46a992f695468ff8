"""From records of words to a PDF: a template lays out, reads only JSON, and reaches nothing outside."""

from __future__ import annotations

import dataclasses
import enum
import functools
import json
from collections.abc import Mapping
from dataclasses import dataclass
from importlib import resources
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Final

import typst

from stripdown.errors import RenderError
from stripdown.reports.letters import missing_words, shown
from stripdown.words.answer import FigureFooting

if TYPE_CHECKING:
    from stripdown.reports.pictures import Picture

NO_PICTURES: Final[Mapping[str, Picture]] = MappingProxyType({})
_SHARED = ("look.typ", "answer.typ")
_RUNNING_LETTERS = 70


@dataclass(frozen=True, slots=True, kw_only=True)
class PageHead:
    """What stands at the head and foot of every page: a short title, that figures are invented (or nothing), program, input."""

    title: str
    invented: str
    program: str
    digest: str


def running_title(title: str, gun: str) -> str:
    """Title and gun in one line, the gun only if the title does not name it."""
    whole = title if gun in title else f"{gun}: {title}"
    return whole if len(whole) <= _RUNNING_LETTERS else f"{whole[: _RUNNING_LETTERS - 1].rstrip()}…"


def press(template: str, words: Any, *, head: PageHead, pictures: Mapping[str, Picture] = NO_PICTURES) -> bytes:
    """Lay out what a sheet says: an answer, or records of answers, with the pictures that it names by key."""
    folder = resources.files("stripdown.reports") / "templates"
    layout = b"\n".join((folder / name).read_bytes() for name in (*_SHARED, template))
    missing: set[str] = set()
    footings = [{"name": one.value, "text": one.meaning} for one in FigureFooting]
    given = {"head": head, "words": words, "pictures": dict(pictures), "footings": footings}
    text = json.dumps(plain_words(given, missing), ensure_ascii=False)
    try:
        # From memory, without a folder: the template is given its data and reads nothing of this machine.
        return typst.compile(
            layout,
            font_paths=fonts(),
            ignore_system_fonts=True,
            format="pdf",
            sys_inputs={"sheet": text, "missing": missing_words(missing)},
        )
    except (RuntimeError, ValueError) as failure:
        message = f"The sheet could not be printed: {failure}"
        raise RenderError(message) from failure


@functools.cache
def fonts() -> typst.Fonts:
    """The one font of charts and sheets, and no other: neither the engine's own nor this machine's."""
    folder = str(resources.files("stripdown.charts") / "fonts")
    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[folder])


def plain_words(value: Any, missing: set[str]) -> Any:
    """The records as dictionaries and lists; characters that cannot be shown are replaced and gathered."""
    if dataclasses.is_dataclass(value):
        return {field.name: plain_words(getattr(value, field.name), missing) for field in dataclasses.fields(value)}
    if isinstance(value, dict):
        return {key: plain_words(item, missing) for key, item in value.items()}
    if isinstance(value, tuple | list):
        return [plain_words(item, missing) for item in value]
    if isinstance(value, enum.Enum):
        return value.value
    if isinstance(value, str):
        text, lacking = shown(value)
        missing.update(lacking)
        return text
    return value
