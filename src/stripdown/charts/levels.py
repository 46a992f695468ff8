"""Horizontal levels of a panel with their words at its right edge, moved apart where they would be written into each other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import altair as alt

from stripdown.charts import themes
from stripdown.charts.themes import Theme


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """One level."""

    value: float
    words: str
    dash: tuple[int, ...]
    colour: str
    weight: float = 1.0


def apart(places: Sequence[float], gap: float) -> list[float]:
    """Places moved apart so that neighbours stand at least a gap from each other, each as near to its own as that allows."""
    order = sorted(range(len(places)), key=lambda index: places[index])
    # Heaps of labels that touch: each stands about the middle of what its members wish for.
    heaps: list[list[int]] = []
    for index in order:
        heaps.append([index])
        while len(heaps) > 1 and _start(heaps[-1], places, gap) - _end(heaps[-2], places, gap) < gap:
            heaps[-2:] = [heaps[-2] + heaps[-1]]
    moved = list(places)
    for heap in heaps:
        for step, index in enumerate(heap):
            moved[index] = _start(heap, places, gap) + step * gap
    return moved


def draw_levels(
    levels: Sequence[Level], *, domain: tuple[float, float], width: float, height: float, theme: Theme
) -> list[alt.Chart]:
    """Lines across a panel and their words right of it."""
    layers = []
    pixels = [round(height * (domain[1] - level.value) / (domain[1] - domain[0]), 2) for level in levels]
    beside = [round(place, 2) for place in apart(pixels, theme.font_size * 1.25)]
    for level, pixel, place in zip(levels, pixels, beside, strict=True):
        one = alt.Chart(alt.InlineData(values=[{"words": level.words}]))
        if level.dash:
            line = one.mark_rule(color=level.colour, strokeDash=list(level.dash), strokeWidth=theme.line_width * level.weight)
            layers.append(line.encode(x=alt.value(0), x2=alt.value(width), y=alt.value(pixel)))
        words = one.mark_text(align="left", color=themes.INK, fontSize=theme.small)
        layers.append(words.encode(x=alt.value(width + theme.font_size * 0.6), y=alt.value(place), text="words:N"))
    return layers


def _start(heap: Sequence[int], places: Sequence[float], gap: float) -> float:
    middle = sum(places[index] for index in heap) / len(heap)
    return middle - gap * (len(heap) - 1) / 2


def _end(heap: Sequence[int], places: Sequence[float], gap: float) -> float:
    return _start(heap, places, gap) + gap * (len(heap) - 1)
