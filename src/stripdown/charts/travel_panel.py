"""One plot of a trace along a travel, with the shot's milestones marked on it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import altair as alt
import numpy as np

from stripdown.charts import themes
from stripdown.charts.themes import Theme
from stripdown.charts.thin import thin
from stripdown.core.interior_ballistics.result import EventKind, Shot, Trace
from stripdown.quantities import leaves
from stripdown.units import from_si, unit_named
from stripdown.words.milestones import Milestone, milestones
from stripdown.words.shot import STANDS_STILL

_QUANTITIES = {leaf.path: leaf.quantity for leaf in leaves(Shot) if leaf.quantity is not None}
_COLOURS = (themes.FIRST, themes.SECOND)
_DASHES = ([1, 0], [5, 3])
_LANE = 0.11  # height of a lane of numbers, as a part of the curve's height
_DIGITS = 6
_POINTS = 1000  # so that a piston that swings for long on trapped air is still drawn round


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """Which trace along which travel."""

    along: str
    of: str
    unit: str = ""
    remark: str = ""

    def of_unit(self) -> str:
        """Unit in which the trace is drawn."""
        return self.unit or _QUANTITIES[self.of].workshop_unit

    def along_unit(self) -> str:
        """Unit in which the travel is drawn."""
        return _QUANTITIES[self.along].workshop_unit

    def heading(self) -> str:
        """Words above the plot."""
        return f"{_QUANTITIES[self.of].label.capitalize()}, {unit_named(self.of_unit()).shown}{self.remark}"

    def foot(self) -> str:
        """Words below the plot."""
        return f"{_QUANTITIES[self.along].label}, {unit_named(self.along_unit()).shown}"


def travel_panel(panel: Panel, shots: Sequence[Shot], names: Sequence[str], *, width: float, theme: Theme) -> alt.LayerChart:
    """Draw one plot: a line per shot, and the milestones; numbered when the shot is alone."""
    points = [point for shot, name in zip(shots, names, strict=True) for point in _curve(panel, shot, name)]
    marks = [mark for shot, name in zip(shots, names, strict=True) for mark in _marked(panel, shot, name)]
    longest = max(point["along"] for point in points) or 1.0
    lowest = min(0.0, *(point["of"] for point in points))
    highest = max(point["of"] for point in points) or lowest + 1.0
    alone = len(shots) == 1
    levels = lanes([mark["along"] for mark in marks], gap=theme.font_size * 1.7 * longest / width) if alone else [-1]
    top = highest + (highest - lowest) * _LANE * (max(levels, default=-1) + 1.5)
    for mark, level in zip(marks, levels, strict=False):
        mark["top"] = highest + (highest - lowest) * _LANE * (level + 1)
    x = alt.X(
        "along:Q",
        title=panel.foot(),
        scale=alt.Scale(domain=[-0.04 * longest, 1.02 * longest], nice=False),
        axis=alt.Axis(grid=False, labelFlush=False),
    )
    extent = theme.axis_extent
    y_axis = alt.Axis(minExtent=extent, maxExtent=extent, tickCount=6)
    y = alt.Y("of:Q", title=None, scale=alt.Scale(domain=[lowest, top], nice=False), axis=y_axis)
    line = alt.Chart(alt.InlineData(values=points)).mark_line().encode(x=x, y=y, order="order:Q", **_by_shot(names))
    marked = alt.Chart(alt.InlineData(values=marks)).encode(x=x, y=y, tooltip=_tooltip(panel))
    layers = [line, *(_numbers(marked, theme) if alone else _points(marked, names, theme))]
    if not any(point["along"] for point in points):
        layers.append(_said(STANDS_STILL, width, theme))
    return alt.LayerChart(
        layer=layers,
        width=width,
        height=theme.panel_height,
        title=theme.panel_title(panel.heading()),
    )


def _curve(panel: Panel, shot: Shot, name: str) -> list[dict[str, Any]]:
    """Thinned points of one line, in the panel's units; the ball's lines end where it leaves the muzzle."""
    leaves_muzzle = shot.event_time(EventKind.BALL_LEAVES_MUZZLE)
    count = len(shot.time)
    if panel.along == "ball_position" and leaves_muzzle is not None:
        count = int(np.searchsorted(shot.time, leaves_muzzle, side="right"))
    along, of = getattr(shot, panel.along)[:count], getattr(shot, panel.of)[:count]
    return [
        {
            "shot": name,
            "order": int(index),
            "along": _rounded(along[index], panel.along_unit()),
            "of": _rounded(of[index], panel.of_unit()),
        }
        for index in thin(along, of, points=_POINTS)
    ]


def _marked(panel: Panel, shot: Shot, name: str) -> list[dict[str, Any]]:
    """Where the milestones lie in this panel; the ball's panel knows nothing after it has left."""
    last = shot.event_time(EventKind.BALL_LEAVES_MUZZLE) if panel.along == "ball_position" else None
    starts = shot.event_time(EventKind.BALL_STARTS) if panel.along == "ball_position" else None
    return [
        {
            "shot": name,
            "number": mark.number,
            "words": mark.words,
            "time": round(mark.time * 1e3, 3),
            "along": _rounded(value_at_time(shot, getattr(shot, panel.along), mark.time), panel.along_unit()),
            "of": _rounded(value_at_time(shot, getattr(shot, panel.of), mark.time), panel.of_unit()),
        }
        for mark in milestones(shot)
        if _lies_between(mark, starts, last)
    ]


def _lies_between(mark: Milestone, first: float | None, last: float | None) -> bool:
    return (first is None or mark.time >= first) and (last is None or mark.time <= last)


def _numbers(marked: alt.Chart, theme: Theme) -> list[alt.Chart]:
    """A stem from each milestone up to its number."""
    top = alt.Y("top:Q")
    return [
        marked.mark_rule(color=themes.QUIET, strokeWidth=0.8).encode(y2=alt.Y2("top:Q")),
        marked.mark_point(filled=True, opacity=1, size=theme.point_size * 0.6, color=themes.INK),
        marked.mark_point(
            filled=True, opacity=1, size=theme.font_size**2 * 1.5, color="white", stroke=themes.QUIET, strokeWidth=0.8
        ).encode(y=top),
        marked.mark_text(fontSize=theme.small, fontWeight=600).encode(y=top, text="number:N"),
    ]


def _points(marked: alt.Chart, names: Sequence[str], theme: Theme) -> list[alt.Chart]:
    """A dot in the line's colour at each milestone, and around it a place for a finger."""
    colour = _by_shot(names)["color"]
    layers = [
        marked.mark_point(filled=True, opacity=1, size=theme.point_size, stroke="white", strokeWidth=1).encode(color=colour)
    ]
    if theme.touch_size:
        layers.append(marked.mark_point(filled=True, opacity=0, size=theme.touch_size))
    return layers


def _said(words: str, width: float, theme: Theme) -> alt.Chart:
    """Words in the middle of a panel in which there is nothing to draw."""
    said = alt.Chart(alt.InlineData(values=[{"words": words}])).mark_text(fontSize=theme.font_size, color=themes.QUIET)
    placed: alt.Chart = said.encode(text="words:N", x=alt.value(width / 2), y=alt.value(theme.panel_height / 2))
    return placed


def _by_shot(names: Sequence[str]) -> dict[str, Any]:
    legend = alt.Legend() if len(names) > 1 else None
    colours = alt.Scale(domain=list(names), range=list(_COLOURS[: len(names)]))
    dashes = alt.Scale(domain=list(names), range=list(_DASHES[: len(names)]))
    return {
        "color": alt.Color("shot:N", scale=colours, legend=legend),
        "strokeDash": alt.StrokeDash("shot:N", scale=dashes, legend=legend),
    }


def _tooltip(panel: Panel) -> list[alt.Tooltip]:
    return [
        alt.Tooltip("words:N", title="moment"),
        alt.Tooltip("shot:N", title="shot"),
        alt.Tooltip("time:Q", title="ms after release"),
        alt.Tooltip("along:Q", title=panel.foot(), format=".1f"),
        alt.Tooltip("of:Q", title=panel.heading(), format=".2f"),
    ]


def _rounded(value: float, unit: str) -> float:
    """Six digits are more than any picture shows, and keep the specification small."""
    return float(f"{from_si(float(value), unit):.{_DIGITS}g}")


def value_at_time(shot: Shot, trace: Trace, time: float) -> float:
    """Read a trace of a shot at a moment between its samples."""
    after = int(np.searchsorted(shot.time, time, side="left"))
    if after == 0 or after == len(trace):
        return float(trace[min(after, len(trace) - 1)])
    start, end = shot.time[after - 1], shot.time[after]
    share = (time - start) / (end - start)
    return float(trace[after - 1] + share * (trace[after] - trace[after - 1]))


def lanes(positions: Sequence[float], gap: float) -> list[int]:
    """Put labels that would collide into lanes above each other."""
    taken: list[float] = []
    chosen = [0] * len(positions)
    for index in sorted(range(len(positions)), key=lambda index: positions[index]):
        place = positions[index]
        lane = next((lane for lane, last in enumerate(taken) if place - last >= gap), len(taken))
        taken[lane : lane + 1] = [place]
        chosen[index] = lane
    return chosen
