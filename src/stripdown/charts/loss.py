"""What may have cost the velocity: how much of each single cause would do it, against what is ordinary."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import altair as alt

from stripdown.charts import themes
from stripdown.charts.themes import Theme
from stripdown.charts.wrapped import beside_rows, wrapped
from stripdown.studies.loss_causes import Cause, LossExplanation, Plausibility
from stripdown.units import Scale
from stripdown.words.causes import causes_caption, needed_words

# Told apart by shape and filling first, so that a grey print says as much.
_MARKS = {
    Plausibility.ORDINARY: ("circle", themes.FIRST, True),
    Plausibility.LARGE: ("square", themes.SECOND, True),
    Plausibility.NOT_ALONE: ("triangle-right", themes.GAP, False),
    Plausibility.CONTRADICTED: ("cross", themes.GAP, False),
}
_NAME_ROOM = 19  # in font sizes, left of the points
_AMOUNT_ROOM = 19  # right of them
_NAME_LETTERS = 36
_MARGIN = 0.03  # left of zero, as a part of the axis, for half a mark


def causes_of_loss(
    explanation: LossExplanation, *, scale: Scale = "metric", theme: Theme, most: int | None = None
) -> alt.LayerChart:
    """Draw, for each cause, the amount that would explain the loss as a multiple of what is ordinary."""
    causes = explanation.causes[:most]
    rows = [_row(cause, scale) for cause in causes]
    width = theme.width - theme.font_size * (_NAME_ROOM + _AMOUNT_ROOM)
    reach = round(max([1.0, *(row[end] for row in rows for end in ("multiple", "high"))]) * 1.06, 4)
    x = alt.X(
        "multiple:Q",
        title="amount needed, as a multiple of the ordinary",
        scale=alt.Scale(domain=[-_MARGIN * reach, reach], nice=False),
        axis=alt.Axis(tickCount=5, orient="bottom"),
    )
    y = alt.Y("key:N", sort=None, axis=None, scale=alt.Scale(padding=0))
    found = [kind for kind in Plausibility if any(cause.plausibility is kind for cause in causes)]
    base = alt.Chart(alt.InlineData(values=rows)).encode(y=y, tooltip=_TOOLTIP)
    gap = theme.font_size * 0.7
    names = {cause.fault.key: wrapped(cause.fault.name, _NAME_LETTERS) for cause in causes}
    amounts = {cause.fault.key: needed_words(cause, scale=scale, apart="\n").split("\n") for cause in causes}
    faint = frozenset(cause.fault.key for cause in causes if not cause.stands)
    zone = alt.Chart(alt.InlineData(values=[{"words": "ordinary"}])).encode(x=alt.datum(0), x2=alt.datum(1))
    layers = [
        zone.mark_rect(color=themes.HAIRLINE, opacity=0.55).encode(y=alt.value(0), y2=alt.value("height")),
        base.transform_filter("datum.has_interval")
        .mark_rule(strokeWidth=theme.line_width * 1.5, color=themes.INK)
        .encode(x="low:Q", x2="high:Q"),
        base.mark_point(opacity=1, size=theme.point_size * 1.8, strokeWidth=theme.line_width, filled=True).encode(
            x=x, shape=_shape(found), fill=_fill(found), stroke=_stroke(found)
        ),
        *beside_rows(names, y, at=-gap, align="right", theme=theme, faint=faint),
        *beside_rows(amounts, y, at=width + gap, align="left", theme=theme, faint=faint),
    ]
    return alt.LayerChart(
        layer=layers,
        width=width,
        height=alt.Step(max(theme.row_height, theme.font_size * 2.7), **{"for": "position"}),
        **theme.captioned(causes_caption(explanation, causes, scale=scale)),
    )


def _row(cause: Cause, scale: Scale) -> dict[str, Any]:
    ordinary = cause.fault.ordinary
    low, high = (cause.amount, cause.amount)
    if cause.stands and cause.low is not None and cause.high is not None:
        low, high = cause.low, cause.high
    return {
        "key": cause.fault.key,
        "name": cause.fault.name,
        "multiple": round(cause.amount / ordinary, 4),
        "low": round(low / ordinary, 4),
        "high": round(high / ordinary, 4),
        "has_interval": low < high,
        "plausibility": cause.plausibility.value,
        "amount": needed_words(cause, scale=scale),
    }


def _shape(found: Sequence[Plausibility]) -> alt.Shape:
    return alt.Shape("plausibility:N", scale=_scale(found, [_MARKS[kind][0] for kind in found]), legend=_legend())


def _fill(found: Sequence[Plausibility]) -> alt.Fill:
    colours = [_MARKS[kind][1] if _MARKS[kind][2] else "white" for kind in found]
    return alt.Fill("plausibility:N", scale=_scale(found, colours), legend=_legend())


def _stroke(found: Sequence[Plausibility]) -> alt.Stroke:
    return alt.Stroke("plausibility:N", scale=_scale(found, [_MARKS[kind][1] for kind in found]), legend=_legend())


def _scale(found: Sequence[Plausibility], values: list[str]) -> alt.Scale:
    return alt.Scale(domain=[kind.value for kind in found], range=values)


def _legend() -> alt.Legend:
    return alt.Legend(symbolType="circle", symbolSize=60)


_TOOLTIP = [
    alt.Tooltip("name:N", title="cause"),
    alt.Tooltip("amount:N"),
    alt.Tooltip("multiple:Q", title="× ordinary", format=".2f"),
    alt.Tooltip("plausibility:N", title="believable?"),
]
