"""Chronograph strings: one with its intervals and the limit, and pairs of them before and after."""

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
from stripdown.units import from_si, show, unit_named
from stripdown.words.numbers import grams, speed, speed_decimals, speed_range

_COUNTED, _OUTLIER, _SET_ASIDE = "counted", "does not belong with the others", "set aside"
_LABEL_ROOM = 22  # in font sizes, right of the panel
_LEAST_SPAN = 0.04  # of the highest speed, so that a quiet string does not look wild
_MOST_SHOTS = 400
_EDGE = 0.05  # as a part of the axis


def string_in_order(
    string: StringStatistics, *, verdict: LimitVerdict | None = None, name: str, speed_unit: str, theme: Theme
) -> alt.LayerChart:
    """Draw the shots of a string in their order, with mean, interval, tolerance bound and, if there is one, the limit."""
    # Over so short a way a ball loses nearly the same share at any speed of one string: one ratio moves all shots.
    moved = 1.0 if verdict is None else verdict.mean_speed / string.mean
    unit = unit_named(speed_unit).shown
    shots = list(_shots(string, moved, speed_unit))
    levels = list(_levels(string, verdict, moved, speed_unit))
    bands = list(_bands(string, verdict, moved, speed_unit))
    ends = [end for band in bands for end in (band["low"], band["high"])]
    counted = [shot["speed"] for shot in shots if shot["kind"] != _SET_ASIDE]
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
        alt.Tooltip("speed:Q", title=unit, format=f".{speed_decimals(speed_unit)}f"),
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
        shot["place"] = inside if shot["kind"] == _SET_ASIDE else shot["speed"]
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
        **theme.heading(f"Shots in order: {name}", list(_lines(string, verdict, speed_unit))),
    )


def _shots(string: StringStatistics, moved: float, speed_unit: str) -> Iterator[dict[str, Any]]:
    aside = {shot.index: shot.value for shot in string.set_aside}
    places = [place for place in range(string.count + len(aside)) if place not in aside]
    odd = {outlier.index for outlier in string.outliers}
    kept = {int(index) for index in thin(np.array(string.readings), points=_MOST_SHOTS)}
    for index, (place, value) in enumerate(zip(places, string.readings, strict=True)):
        if index in kept or place in odd:
            yield _shot(place, value * moved, _OUTLIER if place in odd else _COUNTED, speed_unit)
    for place, value in aside.items():
        yield _shot(place, value * moved, _SET_ASIDE, speed_unit)


def _shot(place: int, value: float, kind: str, speed_unit: str) -> dict[str, Any]:
    return {"shot": place + 1, "speed": round(from_si(value, speed_unit), 3), "kind": kind, "text": speed(value, speed_unit)}


def _points(points: alt.Chart, shots: Sequence[dict[str, Any]], theme: Theme) -> list[alt.Chart]:
    """Counted shots as dots, outliers ringed, shots set aside as crosses; the odd ones numbered."""
    layers = [
        points.transform_filter(f"datum.kind !== '{_SET_ASIDE}'").mark_point(
            filled=True, opacity=1, size=theme.point_size, color=themes.INK
        )
    ]
    kinds = {shot["kind"] for shot in shots}
    if _OUTLIER in kinds:
        ring = points.transform_filter(f"datum.kind === '{_OUTLIER}'")
        layers.append(
            ring.mark_point(filled=False, opacity=1, size=theme.point_size * 4, color=themes.LEAK, strokeWidth=theme.line_width)
        )
    if _SET_ASIDE in kinds:
        cross = points.transform_filter(f"datum.kind === '{_SET_ASIDE}'")
        number = cross.mark_text(fontSize=theme.small, color=themes.QUIET, align="left", dx=theme.font_size * 0.7)
        layers += [
            cross.mark_point(shape="cross", angle=45, filled=True, opacity=1, size=theme.point_size * 1.5, color=themes.GAP),
            number.encode(text="text:N"),
        ]
    return layers


def _levels(string: StringStatistics, verdict: LimitVerdict | None, moved: float, speed_unit: str) -> Iterator[Level]:
    mean = string.mean * moved
    interval = string.mean_interval
    sure = "" if interval is None else f" ({speed_range(Interval(interval.low * moved, interval.high * moved), speed_unit)})"
    yield Level(value=from_si(mean, speed_unit), words=f"mean {speed(mean, speed_unit)}{sure}", dash=(1, 0), colour=themes.FIRST)
    if verdict is not None:
        if verdict.tolerance_speed is not None:
            share = f"{verdict.rule.content * 100:.0f} % of all shots are under"
            yield Level(
                value=from_si(verdict.tolerance_speed, speed_unit),
                words=f"bound {speed(verdict.tolerance_speed, speed_unit)}: {share}",
                dash=(4, 3),
                colour=themes.FIRST,
            )
        yield Level(
            value=from_si(verdict.limit_speed, speed_unit),
            words=f"limit {speed(verdict.limit_speed, speed_unit)}",
            dash=(1, 0),
            colour=themes.LEAK,
            weight=1.6,
        )
    elif string.tolerance_interval is not None:
        low, high = string.tolerance_interval
        share = f"{string.confidence * 100:.0f} % of all shots"
        for value, end in ((high, "up to"), (low, "from")):
            words = f"{share}: {end} {speed(value, speed_unit)}"
            yield Level(value=from_si(value, speed_unit), words=words, dash=(4, 3), colour=themes.FIRST)


def _bands(string: StringStatistics, verdict: LimitVerdict | None, moved: float, speed_unit: str) -> Iterator[dict[str, float]]:
    found = [(string.mean_interval, 0.22)]
    if verdict is None:
        found.append((string.tolerance_interval, 0.08))
    for interval, opacity in found:
        if interval is not None:
            low, high = (from_si(end * moved, speed_unit) for end in interval)
            yield {"low": low, "high": high, "opacity": opacity}


def _lines(string: StringStatistics, verdict: LimitVerdict | None, speed_unit: str) -> Iterator[str]:
    unit = unit_named(speed_unit).shown
    shots = "1 shot" if string.count == 1 else f"{string.count} shots"
    ball = "" if string.ball_mass is None else f" with the {grams(string.ball_mass)} ball"
    if verdict is None:
        yield f"{shots}{ball}, {unit} as read; mean {speed(string.mean, speed_unit)}"
    else:
        point = (
            "at the muzzle" if verdict.measuring_distance == 0.0 else f"{show(verdict.measuring_distance, 'm')} from the muzzle"
        )
        yield f"{shots}{ball}, {unit} {point}: {verdict.state.value}"
    if string.outliers:
        yield "ringed: does not belong with the others, counted all the same"
    if string.set_aside:
        yield "cross: set aside, not counted"


def _domain(values: Sequence[float]) -> tuple[float, float]:
    highest, lowest = max(values), min(values)
    span = max(highest - lowest, _LEAST_SPAN * abs(highest)) or 1.0
    middle = (highest + lowest) / 2
    return round(middle - span * 0.6, 4), round(middle + span * 0.6, 4)
