"""Strings before and after, pair by pair: the shots, their means, and how much changed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, Literal

import altair as alt
import numpy as np

from stripdown.charts import themes
from stripdown.charts.themes import Theme
from stripdown.charts.thin import thin
from stripdown.charts.wrapped import beside_rows, wrapped
from stripdown.units import Scale, from_si, unit_named
from stripdown.words.numbers import speed, speed_decimals, speed_unit
from stripdown.words.strings import change_words, pair_names, pairs_caption, speeds_shown

if TYPE_CHECKING:
    from stripdown.core.shot_statistics import StringStatistics
    from stripdown.studies.service_case import ComparisonOfCase

_BEFORE, _AFTER = "before", "after"
_COLOURS = {_BEFORE: themes.SECOND, _AFTER: themes.FIRST}
_NAME_ROOM = 13  # in font sizes, left of the shots
_NAME_LETTERS = 22
_CHANGE_SHARE = 0.34  # of what is left, for the differences
_ROW = 1.15  # height of one string, in row heights
_MOST_SHOTS = 200
_RIGHT: Literal["right"] = "right"


def before_and_after(pairs: Sequence[ComparisonOfCase], *, scale: Scale, theme: Theme) -> alt.HConcatChart:
    """Draw strings before and after where each pair compares, and beside them the change of each pair with its interval."""
    if not pairs:
        message = "at least one pair of strings is needed"
        raise ValueError(message)
    names = pair_names(pairs)
    unit = speed_unit(scale)
    gap = theme.font_size * 2
    free = theme.width - theme.font_size * _NAME_ROOM - gap
    return alt.HConcatChart(
        hconcat=[
            _strings(pairs, names, unit, free * (1 - _CHANGE_SHARE), theme),
            _changes(pairs, names, scale, free * _CHANGE_SHARE, theme),
        ],
        spacing=gap,
        **theme.captioned(pairs_caption(pairs, scale=scale)),
    )


def _strings(pairs: Sequence[ComparisonOfCase], names: Sequence[str], unit: str, width: float, theme: Theme) -> alt.LayerChart:
    shots, means = [], []
    for pair, name in zip(pairs, names, strict=True):
        for occasion, found in zip((_BEFORE, _AFTER), pair.statistics, strict=True):
            shots += _shots(found, name, occasion, unit)
            means.append(_mean(found, name, occasion, unit))
    everything = [shot["speed"] for shot in shots] + [mean[end] for mean in means for end in ("low", "high")]
    reach = max(everything) - min(everything) or 1.0
    shown, decimals = unit_named(unit).shown, speed_decimals(unit)
    x = alt.X(
        "speed:Q",
        title=f"{speeds_shown(pairs)}, {shown}",
        scale=alt.Scale(
            domain=[round(min(everything) - 0.05 * reach, 4), round(max(everything) + 0.05 * reach, 4)], nice=False, zero=False
        ),
        axis=alt.Axis(tickCount=6),
    )
    y = alt.Y("pair:N", sort=None, scale=alt.Scale(padding=0), axis=None)
    lines = {name: wrapped(name, _NAME_LETTERS) for name in names}
    tooltip = [
        alt.Tooltip("pair:N", title="fired with"),
        alt.Tooltip("occasion:N"),
        alt.Tooltip("speed:Q", format=f".{decimals}f"),
    ]
    row = alt.YOffset("occasion:N", sort=[_BEFORE, _AFTER], scale=alt.Scale(paddingInner=0.2, paddingOuter=0.35))
    dots = alt.Chart(alt.InlineData(values=shots)).encode(x=x, y=y, yOffset=row, color=_colour(), tooltip=tooltip)
    middle = alt.Chart(alt.InlineData(values=means)).encode(y=y, yOffset=row, tooltip=tooltip)
    coloured = middle.encode(color=_colour())
    bar = theme.row_height * 0.62
    left = middle.mark_text(align=_RIGHT, color=themes.INK, fontSize=theme.small, dx=-theme.font_size * 0.6)
    return alt.LayerChart(
        layer=[
            coloured.transform_filter("datum.low < datum.high")
            .mark_bar(height=bar, opacity=0.25)
            .encode(x=alt.X("low:Q"), x2="high:Q"),
            dots.mark_tick(height=bar * 0.62, thickness=theme.line_width * 0.8, opacity=0.75),
            coloured.mark_tick(height=bar, thickness=theme.line_width * 2).encode(x="speed:Q"),
            left.encode(x=alt.value(0), text="occasion:N"),
            *beside_rows(lines, y, at=-theme.font_size * 5, align="right", theme=theme, faint=frozenset()),
            middle.mark_text(fontWeight=600, fontSize=theme.small, dy=-bar * 0.5 - theme.font_size * 0.55).encode(
                x="speed:Q", text="text:N"
            ),
        ],
        width=width,
        height=alt.Step(theme.row_height * _ROW * 2, **{"for": "position"}),
    )


def _changes(pairs: Sequence[ComparisonOfCase], names: Sequence[str], scale: Scale, width: float, theme: Theme) -> alt.LayerChart:
    rows = [_change(pair, name, scale) for pair, name in zip(pairs, names, strict=True)]
    ends = [row[end] for row in rows for end in ("low", "high")]
    low, high = min(0.0, *ends), max(0.0, *ends)
    reach = high - low or 1.0
    shown = unit_named(speed_unit(scale)).shown
    x = alt.X(
        "change:Q",
        title=f"change, {shown}",
        scale=alt.Scale(domain=[round(low - 0.08 * reach, 4), round(high + 0.08 * reach, 4)], nice=False),
        axis=alt.Axis(tickCount=4),
    )
    y = alt.Y("pair:N", sort=None, scale=alt.Scale(padding=0), axis=None)
    base = alt.Chart(alt.InlineData(values=rows)).encode(y=y)
    whole = base.transform_filter("datum.compares")
    zero = alt.Chart(alt.InlineData(values=[{"zero": 0}])).mark_rule(color=themes.INK, strokeWidth=1).encode(x="zero:Q")
    zero_at = round(width * (0.08 * reach - low) / (1.16 * reach), 2)
    words = base.mark_text(fontWeight=600, fontSize=theme.small, align="left", dy=-theme.row_height * 0.55)
    return alt.LayerChart(
        layer=[
            whole.mark_bar(height=theme.row_height * 0.4, color=themes.COLUMN).encode(x=x, x2=alt.datum(0)),
            zero,
            whole.mark_rule(color=themes.INK, strokeWidth=theme.line_width * 2.5).encode(x="low:Q", x2="high:Q"),
            words.encode(x=alt.value(zero_at + theme.font_size * 0.5), text="text:N"),
        ],
        width=width,
        height=alt.Step(theme.row_height * _ROW * 2, **{"for": "position"}),
    )


def _shots(found: StringStatistics, name: str, occasion: str, unit: str) -> list[dict[str, Any]]:
    readings = found.readings
    return [
        {"pair": name, "occasion": occasion, "speed": round(from_si(readings[index], unit), 3)}
        for index in thin(np.array(readings), points=_MOST_SHOTS)
    ]


def _mean(said: StringStatistics, name: str, occasion: str, unit: str) -> dict[str, Any]:
    low, high = (said.mean, said.mean) if said.mean_interval is None else said.mean_interval
    low, middle, high = (round(from_si(value, unit), 3) for value in (low, said.mean, high))
    text = speed(said.mean, unit)
    return {"pair": name, "occasion": occasion, "speed": middle, "low": low, "high": high, "text": text}


def _change(pair: ComparisonOfCase, name: str, scale: Scale) -> dict[str, Any]:
    found, unit = pair.comparison, speed_unit(scale)
    values = (0.0, 0.0, 0.0) if found is None else (found.difference, *found.interval)
    change, low, high = (round(from_si(value, unit), 3) for value in values)
    text = change_words(found, scale=scale)
    return {"pair": name, "compares": found is not None, "change": change, "low": low, "high": high, "text": text}


def _colour() -> alt.Color:
    return alt.Color("occasion:N", scale=alt.Scale(domain=list(_COLOURS), range=list(_COLOURS.values())), legend=None)
