"""The witness mark on the rack, and the pad that it asks for, both to one scale."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

import altair as alt

from stripdown.charts import themes
from stripdown.charts.themes import Theme
from stripdown.charts.to_scale import Outline, Point, Words, to_scale
from stripdown.words.bench import pad_figures, pad_share

if TYPE_CHECKING:
    from stripdown.core.part_condition.engagement import EngagementPad

_TEETH = 3
_ADDENDUM, _DEDENDUM = 1.0, 1.25  # of a module: basic rack
_SUSPECT: Final = 0.9


def witness_mark_and_pad(pad: EngagementPad, *, theme: Theme) -> alt.LayerChart:
    """Draw the rack with the mark that the first sector tooth left, and below it the pad beside one pitch."""
    module, pitch = pad.module * 1e3, pad.pitch * 1e3
    height, thickness = pad.witness_height * 1e3, pad.thickness * 1e3
    length = _TEETH * pitch
    ruler = -3.3 * module
    across = max(length, thickness)
    outlines = [
        Outline(name="rack of the piston", points=_rack(module, pitch, pad.pressure_angle), fill=themes.AIR),
        Outline(name="pitch line", points=[(-0.2 * module, 0.0), (length + 0.2 * module, 0.0)], stroke=themes.QUIET, dashed=True),
        Outline(name="witness mark", points=_mark(module, pitch, pad.pressure_angle, height), fill=themes.LEAK, stroke=""),
        Outline(name="pad, as pressed", points=_bar(0.0, thickness, ruler, 0.55 * module), fill=themes.PISTON),
        Outline(name="one pitch", points=[(0.0, ruler - 0.25 * module), (pitch, ruler - 0.25 * module)]),
        Outline(name="nine tenths of a pitch", points=_tick(_SUSPECT * pitch, ruler, module), stroke=themes.LEAK, dashed=True),
    ]
    said = pad_figures(pad)
    words = [
        Words(text="pitch line", at=(length + 0.3 * module, 0.0)),
        Words(text=said["mark"], at=(length + 0.3 * module, max(height, 0.35 * module))),
        Words(text=said["pad"], at=(max(thickness, pitch) + 0.3 * module, ruler + 0.28 * module)),
        Words(text=said["pitch"], at=(pitch + 0.3 * module, ruler - 0.35 * module)),
    ]
    chart = to_scale(
        outlines,
        words,
        low=(-0.3 * module, ruler - 0.8 * module),
        high=(across + 3.2 * module, 1.5 * module),
        theme=theme,
        tallest=1.2,
    )
    return chart.properties(**theme.heading("Witness mark and pad", [pad_share(pad)]))


def _rack(module: float, pitch: float, angle: float) -> list[Point]:
    """Outline of the teeth: at the pitch line a tooth is half a pitch wide."""
    top, bottom = _ADDENDUM * module, -_DEDENDUM * module
    outline: list[Point] = [(0.0, bottom - module)]
    for tooth in range(_TEETH):
        middle = (tooth + 0.5) * pitch
        foot = 0.25 * pitch - bottom * math.tan(angle)
        head = 0.25 * pitch - top * math.tan(angle)
        outline += [(middle - foot, bottom), (middle - head, top), (middle + head, top), (middle + foot, bottom)]
    outline.insert(1, (0.0, bottom))
    return [*outline, (_TEETH * pitch, bottom), (_TEETH * pitch, bottom - module)]


def _mark(module: float, pitch: float, angle: float, height: float) -> list[Point]:
    """A short thick bar along the flank of the first tooth."""
    slope, half, depth = math.tan(angle), 0.12 * module, 0.09 * module
    low, high = height - half, min(height + half, _ADDENDUM * module)

    def flank(upward: float) -> float:
        return 0.25 * pitch + upward * slope

    return [(flank(low) - depth, low), (flank(high) - depth, high), (flank(high) + depth, high), (flank(low) + depth, low)]


def _bar(left: float, right: float, bottom: float, height: float) -> list[Point]:
    return [(left, bottom), (right, bottom), (right, bottom + height), (left, bottom + height)]


def _tick(at: float, ruler: float, module: float) -> list[Point]:
    return [(at, ruler - 0.45 * module), (at, ruler + 0.7 * module)]
