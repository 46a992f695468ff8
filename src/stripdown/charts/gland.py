"""Section through an O-ring in its gland, to scale: the groove, the ring as pressed, and the free ring."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import altair as alt

from stripdown.charts import themes
from stripdown.charts.themes import Theme
from stripdown.charts.to_scale import Outline, Point, Words, to_scale
from stripdown.words.seals import gland_figures

if TYPE_CHECKING:
    from stripdown.core.part_condition.o_ring_gland import OringGland

_CORNERS = 24  # points of a quarter circle


def gland_section(gland: OringGland, *, theme: Theme) -> alt.LayerChart:
    """Draw a ring in its gland."""
    section, depth, width = (1e3 * length for length in (gland.cross_section, gland.gland_depth, gland.gland_width))
    metal = 0.45 * section
    left, right = -0.5 * width - metal, 0.5 * width + metal
    pressed = pressed_ring(section, depth, width)
    free = _rounded(section, section, 0.5 * section, middle=(0.0, 0.5 * section))
    gap = 0.06 * section  # between the two parts, for the eye only
    outlines = [
        Outline(name="part with the groove", points=_groove(left, right, width, depth - gap, metal), fill=themes.AIR),
        Outline(name="wall", points=_box(left, right, depth, depth + metal), fill=themes.AIR),
        Outline(name="ring as pressed", points=pressed, fill=themes.BALL),
        Outline(name="free ring", points=[*free, free[0]], stroke=themes.SECOND, dashed=True),
    ]
    beside = right + 0.2 * section
    # Spaced by the ring, since a shallow gland leaves no room for lines.
    words = [Words(text=line, at=(beside, (0.75 - 0.25 * number) * section)) for number, line in enumerate(gland_figures(gland))]
    low, high = (left, -metal), (beside + 4.0 * section, max(depth, section) + metal)
    chart = to_scale(outlines, words, low=low, high=high, theme=theme)
    return chart.properties(**theme.heading("O-ring in its gland", ["section across the ring, to scale"]))


def pressed_ring(section: float, depth: float, width: float) -> list[Point]:
    """Outline of a ring pressed to the depth of its gland: flat where it touches, round where it is free, of the same area."""
    if depth >= section:
        return _rounded(section, section, 0.5 * section, middle=(0.0, 0.5 * section))
    area = 0.25 * math.pi * section**2
    long = area / depth + (1.0 - 0.25 * math.pi) * depth  # flat above and below, half circles at both sides
    radius = 0.5 * depth
    if long > width:
        long = width
        radius = math.sqrt(max(width * depth - area, 0.0) / (4.0 - math.pi))
    return _rounded(long, depth, radius, middle=(0.0, 0.5 * depth))


def _rounded(long: float, high: float, radius: float, *, middle: Point) -> list[Point]:
    """Rectangle with round corners."""
    across, upward = 0.5 * long - radius, 0.5 * high - radius
    outline = []
    for quarter, (side, top) in enumerate(((1, 1), (-1, 1), (-1, -1), (1, -1))):
        for step in range(_CORNERS + 1):
            angle = 0.5 * math.pi * (quarter + step / _CORNERS)
            outline.append(
                (
                    middle[0] + side * across + radius * math.cos(angle),
                    middle[1] + top * upward + radius * math.sin(angle),
                )
            )
    return outline


def _groove(left: float, right: float, width: float, shoulder: float, metal: float) -> list[Point]:
    half = 0.5 * width
    inside = [(-half, shoulder), (-half, 0.0), (half, 0.0), (half, shoulder)]
    return [(left, -metal), (left, shoulder), *inside, (right, shoulder), (right, -metal)]


def _box(left: float, right: float, bottom: float, top: float) -> list[Point]:
    return [(left, bottom), (right, bottom), (right, top), (left, top)]
