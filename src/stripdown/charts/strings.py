"""One chronograph string in the order of its shots, with its intervals and the limit."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import altair as alt
import numpy as np

from stripdown.charts import themes
from stripdown.charts.levels import Level, draw_levels
from stripdown.charts.themes import Theme
from stripdown.charts.thin import thin
from stripdown.core.shot_statistics import Interval, LimitVerdict, StringStatistics
from stripdown.units import Scale, from_si, unit_named
from stripdown.words.numbers import speed, speed_decimals, speed_unit
from stripdown.words.strings import (
    COUNTED,
    OUTLIER,
    SET_ASIDE,
    limit_levels,
    mean_level,
    string_caption,
    tolerance_levels,
)

_LABEL_ROOM = 22  # in font sizes, right of the panel
_LEAST_SPAN = 0.04  # of the highest speed, so that a quiet string does not look wild
_MOST_SHOTS = 400
_EDGE = 0.05  # as a part of the axis


def string_in_order(
    string: StringStatistics, *, verdict: LimitVerdict | None = None, name: str, scale: Scale, theme: Theme
) -> alt.LayerChart:
    """Draw the shots of a string in their order, with mean, interval, tolerance bound and, if there is one, the limit."""
    # Over so short a way a ball loses nearly the same share at any speed of one string: one ratio moves all shots.
    moved = 1.0 if verdict is None else verdict.mean_speed / string.mean
    unit = speed_unit(scale)
    shots = list(_shots(string, moved, unit))
    levels = list(_levels(string, verdict, moved, scale))
    bands = list(_bands(string, verdict, moved, unit))
    ends = [end for band in bands for end in (band["low"], band["high"])]
    counted = [shot["speed"] for shot in shots if shot["kind"] != SET_ASIDE]
    domain = _domain([*counted, *(level.value for level in levels), *ends])
    width = theme.width - theme.axis_extent - theme.font_size * _LABEL_ROOM
    x = alt.X(
        "shot:Q",
        title="shot",
        scale=alt.Scale(domain=[0.3, max(shot["shot"] for shot in shots) + 0.7], nice=False),
        axis=alt.Axis(grid=False, tickMinStep=1, format="d", tickCount=10),
    )
    axis = alt.Axis(minExtent=theme.axis_extent, maxExtent=theme.axis_extent, tickCount=5)
    y = alt.Y("place:Q", title=None, scale=alt.Scale(domain=list(domain), nice=False, zero=False), axis=axis)
    tooltip = [
        alt.Tooltip("shot:Q"),
        alt.Tooltip("speed:Q", title=unit_named(unit).shown, format=f".{speed_decimals(unit)}f"),
        alt.Tooltip("kind:N", title="it"),
    ]
    across = alt.Chart(alt.InlineData(values=bands)).mark_rect(color=themes.FIRST)
    filled = across.encode(
        x=alt.value(0), x2=alt.value(width), y=alt.Y("low:Q"), y2="high:Q", opacity=alt.Opacity("opacity:Q", scale=None)
    )
    # A shot set aside may lie anywhere: it is drawn at the edge, with its number, and does not squeeze the others.
    edge = _EDGE * (domain[1] - domain[0])
    for shot in shots:
        inside = min(max(shot["speed"], domain[0] + edge), domain[1] - edge)
        shot["place"] = inside if shot["kind"] == SET_ASIDE else shot["speed"]
    points = alt.Chart(alt.InlineData(values=shots)).encode(x=x, y=y, tooltip=tooltip)
    layers = [
        filled,
        *draw_levels(levels, domain=domain, width=width, height=theme.panel_height, theme=theme),
        *_points(points, shots, theme),
    ]
    if theme.touch_size:
        layers.append(points.mark_point(filled=True, opacity=0, size=theme.touch_size))
    return alt.LayerChart(
        layer=layers,
        width=width,
        height=theme.panel_height,
        **theme.captioned(string_caption(string, verdict=verdict, name=name, scale=scale)),
    )


def _shots(string: StringStatistics, moved: float, unit: str) -> Iterator[dict[str, Any]]:
    aside = {shot.index: shot.value for shot in string.set_aside}
    places = [place for place in range(string.count + len(aside)) if place not in aside]
    odd = {outlier.index for outlier in string.outliers}
    kept = {int(index) for index in thin(np.array(string.readings), points=_MOST_SHOTS)}
    for index, (place, value) in enumerate(zip(places, string.readings, strict=True)):
        if index in kept or place in odd:
            yield _shot(place, value * moved, OUTLIER if place in odd else COUNTED, unit)
    for place, value in aside.items():
        yield _shot(place, value * moved, SET_ASIDE, unit)


def _shot(place: int, value: float, kind: str, unit: str) -> dict[str, Any]:
    return {"shot": place + 1, "speed": round(from_si(value, unit), 3), "kind": kind, "text": speed(value, unit)}


def _points(points: alt.Chart, shots: Sequence[dict[str, Any]], theme: Theme) -> list[alt.Chart]:
    """Counted shots as dots, outliers ringed, shots set aside as crosses; the odd ones numbered."""
    layers = [
        points.transform_filter(f"datum.kind !== '{SET_ASIDE}'").mark_point(
            filled=True, opacity=1, size=theme.point_size, color=themes.INK
        )
    ]
    kinds = {shot["kind"] for shot in shots}
    if OUTLIER in kinds:
        ring = points.transform_filter(f"datum.kind === '{OUTLIER}'")
        layers.append(
            ring.mark_point(filled=False, opacity=1, size=theme.point_size * 4, color=themes.LEAK, strokeWidth=theme.line_width)
        )
    if SET_ASIDE in kinds:
        cross = points.transform_filter(f"datum.kind === '{SET_ASIDE}'")
        number = cross.mark_text(fontSize=theme.small, color=themes.QUIET, align="left", dx=theme.font_size * 0.7)
        layers += [
            cross.mark_point(shape="cross", angle=45, filled=True, opacity=1, size=theme.point_size * 1.5, color=themes.GAP),
            number.encode(text="text:N"),
        ]
    return layers


def _levels(string: StringStatistics, verdict: LimitVerdict | None, moved: float, scale: Scale) -> Iterator[Level]:
    unit = speed_unit(scale)
    interval = string.mean_interval
    reach = None if interval is None else Interval(interval.low * moved, interval.high * moved)
    mean = string.mean * moved
    yield Level(value=from_si(mean, unit), words=mean_level(mean, reach, scale=scale), dash=(1, 0), colour=themes.FIRST)
    if verdict is not None:
        bound, limit = limit_levels(verdict, scale=scale)
        if verdict.tolerance_speed is not None:
            yield Level(value=from_si(verdict.tolerance_speed, unit), words=bound, dash=(4, 3), colour=themes.FIRST)
        at = from_si(verdict.limit_speed, unit)
        yield Level(value=at, words=limit, dash=(1, 0), colour=themes.LEAK, weight=1.6)
    elif string.tolerance_interval is not None:
        ends = zip(string.tolerance_interval, tolerance_levels(string, scale=scale), strict=True)
        for value, words in reversed(list(ends)):
            yield Level(value=from_si(value, unit), words=words, dash=(4, 3), colour=themes.FIRST)


def _bands(string: StringStatistics, verdict: LimitVerdict | None, moved: float, unit: str) -> Iterator[dict[str, float]]:
    found = [(string.mean_interval, 0.22)]
    if verdict is None:
        found.append((string.tolerance_interval, 0.08))
    for interval, opacity in found:
        if interval is not None:
            low, high = (from_si(end * moved, unit) for end in interval)
            yield {"low": low, "high": high, "opacity": opacity}


def _domain(values: Sequence[float]) -> tuple[float, float]:
    highest, lowest = max(values), min(values)
    span = max(highest - lowest, _LEAST_SPAN * abs(highest)) or 1.0
    middle = (highest + lowest) / 2
    return round(middle - span * 0.6, 4), round(middle + span * 0.6, 4)
