"""From records of words to a PDF: a template lays out, reads only JSON, and reaches nothing outside."""

from __future__ import annotations

import dataclasses
import enum
import functools
import json
from importlib import resources
from typing import Any

import typst

from stripdown.errors import RenderError
from stripdown.reports.letters import missing_words, shown

_LOOK = "look.typ"


def press(template: str, words: Any) -> bytes:
    """Lay out what a sheet says."""
    folder = resources.files("stripdown.reports") / "templates"
    layout = b"\n".join((folder / name).read_bytes() for name in (_LOOK, template))
    missing: set[str] = set()
    text = json.dumps(_plain(words, missing), ensure_ascii=False)
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


def _plain(value: Any, missing: set[str]) -> Any:
    """The records as dictionaries and lists; characters that cannot be shown are replaced and gathered."""
    if dataclasses.is_dataclass(value):
        return {field.name: _plain(getattr(value, field.name), missing) for field in dataclasses.fields(value)}
    if isinstance(value, tuple):
        return [_plain(item, missing) for item in value]
    if isinstance(value, enum.Enum):
        return value.value
    if isinstance(value, str):
        text, lacking = shown(value)
        missing.update(lacking)
        return text
    return value
