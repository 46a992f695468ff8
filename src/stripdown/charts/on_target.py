"""Where the balls of a fan strike a target."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import altair as alt
import numpy as np

from stripdown.charts import themes
from stripdown.charts.themes import Theme
from stripdown.words.effective_range import ACROSS, UP, on_target_caption

if TYPE_CHECKING:
    from stripdown.studies.effective_range import RangeStudy
    from stripdown.units import Scale

_CORNERS = 73


def fan_on_target(study: RangeStudy, *, scale: Scale, theme: Theme) -> alt.LayerChart:
    """Draw the target and the impacts on it, both directions alike."""
    points = [{"across": round(-float(left) * 100, 2), "up": round(float(up) * 100, 2)} for left, up in study.impacts]
    half = [50 * study.target.width, 50 * study.target.height]
    reach = max([*half, *(abs(value) for point in points for value in point.values())]) * 1.05
    side = theme.panel_height * 1.3
    angles = np.linspace(0.0, 2.0 * math.pi, _CORNERS)
    ring = [
        {"order": index, "across": round(half[0] * math.cos(angle), 2), "up": round(half[1] * math.sin(angle), 2)}
        for index, angle in enumerate(angles)
    ]
    domain = alt.Scale(domain=[-round(reach, 2), round(reach, 2)], nice=False)
    x = alt.X("across:Q", title=ACROSS, scale=domain, axis=alt.Axis(grid=False))
    extent = theme.axis_extent
    y = alt.Y("up:Q", title=UP, scale=domain, axis=alt.Axis(minExtent=extent, maxExtent=extent))
    target = alt.Chart(alt.InlineData(values=ring)).mark_line(color=themes.LEAK).encode(x=x, y=y, order="order:Q")
    impacts = alt.Chart(alt.InlineData(values=points)).mark_point(
        filled=True, opacity=0.55, size=theme.point_size * 0.4, color=themes.FIRST
    )
    middle = alt.Chart(alt.InlineData(values=[{"across": 0, "up": 0}])).mark_point(
        shape="cross", filled=True, opacity=1, size=theme.point_size, color=themes.QUIET
    )
    return alt.LayerChart(
        layer=[target, middle.encode(x=x, y=y), impacts.encode(x=x, y=y)],
        width=side,
        height=side,
        **theme.captioned(on_target_caption(study, scale)),
    )
