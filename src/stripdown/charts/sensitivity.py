"""What a part's own tolerance does to the muzzle speed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Literal

import altair as alt

from stripdown.charts import themes
from stripdown.charts.themes import Theme
from stripdown.units import from_si, unit_named
from stripdown.words.numbers import dimension_name, toleranced
from stripdown.words.shot import ASSUMED, LOWER, TOLERANCES, UPPER, as_given, change_of_speed_in

if TYPE_CHECKING:
    from stripdown.studies.sensitivity import Sensitivity, SensitivityRow

_LEFT: Literal["left"] = "left"
_RIGHT: Literal["right"] = "right"
# Room in font sizes, left of the bars: the part's name, then its value and tolerance.
_NAME_ROOM = 21
_VALUE_ROOM = 10
_NUMBER_ROOM = 0.3  # beside the longest bar, as a part of its length


def speed_sensitivity(sensitivity: Sensitivity, *, speed_unit: str, theme: Theme) -> alt.LayerChart:
    """Draw, for the parts that matter most, how far their own tolerance moves the muzzle speed up and down."""
    words = [_words(row) for row in sensitivity.rows]
    bars = [bar for row in sensitivity.rows for bar in _bars(row, speed_unit)]
    row_axis = alt.Y("row:N", sort=None, axis=None, scale=alt.Scale(padding=0))
    zero = alt.Chart(alt.InlineData(values=[{"zero": 0}])).mark_rule(color=themes.INK, strokeWidth=1)
    names = alt.Chart(alt.InlineData(values=words)).encode(y=row_axis)
    left = theme.font_size * 0.5
    layers = [
        *_bar_layers(bars, row_axis, speed_unit, theme),
        zero.encode(x="zero:Q"),
        names.mark_text(align="right").encode(text="part:N", x=alt.value(-left - theme.font_size * _VALUE_ROOM)),
        names.mark_text(align="right", color=themes.QUIET).encode(text="value:N", x=alt.value(-left)),
    ]
    return alt.LayerChart(
        layer=layers,
        width=theme.width - theme.font_size * (_NAME_ROOM + _VALUE_ROOM + 1),
        height=alt.Step(theme.row_height, **{"for": "position"}),
        **theme.heading(TOLERANCES, [f"{sensitivity.gun.shown_name}: {as_given(sensitivity, speed_unit)}", f"pale: {ASSUMED}"]),
    )


def _bar_layers(bars: list[dict[str, Any]], row_axis: alt.Y, speed_unit: str, theme: Theme) -> list[alt.Chart]:
    shown = unit_named(speed_unit).shown
    reach = max((abs(bar["change"]) for bar in bars), default=0.0) * (1 + _NUMBER_ROOM) or 1.0
    base = alt.Chart(alt.InlineData(values=bars)).encode(
        y=row_axis,
        yOffset=alt.YOffset("end:N", sort=[UPPER, LOWER], scale=alt.Scale(paddingInner=0, paddingOuter=0.25)),
        x=alt.X(
            "change:Q",
            title=change_of_speed_in(speed_unit),
            scale=alt.Scale(domain=[-reach, reach], nice=False),
            axis=alt.Axis(tickCount=7),
        ),
        tooltip=[alt.Tooltip("part:N"), alt.Tooltip("end:N"), alt.Tooltip("change:Q", title=shown, format="+.2f")],
    )
    colour = alt.Color(
        "end:N",
        scale=alt.Scale(domain=[UPPER, LOWER], range=[themes.FIRST, themes.SECOND]),
        legend=alt.Legend(symbolType="square", symbolSize=theme.font_size * 8),
    )
    pale = alt.condition("datum.assumed", alt.value(0.25), alt.value(1.0))
    gap = theme.font_size * 0.4
    numbers = [
        side.mark_text(fontSize=theme.small, align=align, dx=shift).encode(text=alt.Text("change:Q", format="+.2f"))
        for side, align, shift in (
            (base.transform_filter("datum.change < 0"), _RIGHT, -gap),
            (base.transform_filter("datum.change >= 0"), _LEFT, gap),
        )
    ]
    return [base.mark_bar(strokeWidth=1).encode(color=colour, stroke=colour, fillOpacity=pale), *numbers]


def _words(row: SensitivityRow) -> dict[str, str]:
    return {"row": row.path, "part": dimension_name(row.path, row.label), "value": toleranced(row.value, row.step, row.quantity)}


def _bars(row: SensitivityRow, speed_unit: str) -> list[dict[str, Any]]:
    ends = ((UPPER, row.speed_change_up), (LOWER, row.speed_change_down))
    return [
        {
            "row": row.path,
            "part": dimension_name(row.path, row.label),
            "end": end,
            "change": round(from_si(change, speed_unit), 4),
            "assumed": row.is_assumed,
        }
        for end, change in ends
    ]
