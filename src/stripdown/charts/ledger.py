"""Where the spring's energy went, at a glance."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Literal

import altair as alt

from stripdown.charts import themes
from stripdown.charts.themes import Theme
from stripdown.core.interior_ballistics.result import Shot
from stripdown.words.ledger import PAIR, WHERE_IT_WENT, Band, Group, bands, escaped
from stripdown.words.numbers import joules, joules_gained, per_cent
from stripdown.words.shot import put_in, short_names

_COLOURS = {
    Group.BALL: themes.BALL,
    Group.PISTON: themes.PISTON,
    Group.RUBBER: themes.RUBBER,
    Group.COLUMN: themes.COLUMN,
    Group.AIR: themes.AIR,
    Group.LEAK: themes.LEAK,
    Group.GAP: themes.GAP,
}
_DARK = (Group.BALL, Group.RUBBER)
_LEAST_SHARE_WITH_NUMBER = 0.055  # a narrower segment does not hold its number
_LABEL_ROOM = 14  # in font sizes, left of the bars
_NUMBER_ROOM = 7  # right of them
_PAIR_ROOM = 9  # right of them, with the column of differences


def ledger_at_a_glance(shots: Sequence[Shot], *, names: Sequence[str], speed_unit: str, theme: Theme) -> alt.VConcatChart:
    """Draw the energy ledger of one shot, or of two side by side."""
    names_apart(shots, names)
    longest = max(shot.ledger.put_in for shot in shots) or 1.0
    short = short_names(names) if len(shots) > 1 else ["put in"]
    width = theme.width - theme.font_size * (_LABEL_ROOM + (_PAIR_ROOM if len(shots) == PAIR else _NUMBER_ROOM))
    return alt.VConcatChart(
        vconcat=[_whole(shots, short, longest, width, theme), _rows(shots, short, longest, width, theme)],
        spacing=theme.font_size,
        **theme.heading(WHERE_IT_WENT, [put_in(name, shot, speed_unit) for shot, name in zip(shots, names, strict=True)]),
    )


def names_apart(shots: Sequence[Shot], names: Sequence[str]) -> None:
    """Refuse what a picture of one or two shots cannot tell apart."""
    if not 1 <= len(shots) <= PAIR or len(names) != len(shots) or len(set(names)) != len(names):
        message = f"one or two shots with a name of its own each are needed, got {len(shots)} called {list(names)}"
        raise ValueError(message)


def _whole(shots: Sequence[Shot], names: Sequence[str], longest: float, width: float, theme: Theme) -> alt.LayerChart:
    """One bar per shot, cut into its bands, with what escaped as a strip at the foot of the air's band."""
    segments: list[dict[str, Any]] = []
    for shot, name in zip(shots, names, strict=True):
        start = 0.0
        for band in bands(shot.ledger):
            segments.append(_segment(name, band, start))
            start += band.energy
        start = segments[-1]["start"]
        for band in escaped(shot.ledger):
            segments.append(_segment(name, band, start))
            start += band.energy
    height = theme.row_height
    base = alt.Chart(alt.InlineData(values=segments)).encode(
        x=alt.X("start:Q", scale=alt.Scale(domain=[0, longest], nice=False), axis=None),
        y=alt.Y("shot:N", sort=None, axis=_name_axis(theme, weight=600)),
        tooltip=_TOOLTIP,
    )
    bars = base.mark_bar(height=height, stroke="white", strokeWidth=1).encode(x2="end:Q", color=_colour())
    strip = base.mark_bar(height=height * 0.22, yOffset=height * 0.39).encode(x2="end:Q", color=_colour())
    numbers = base.mark_text(fontWeight=600, fontSize=theme.font_size).encode(
        x="middle:Q",
        text="number:N",
        color=alt.condition(_is_one_of(_DARK), alt.value("white"), alt.value(themes.INK)),
    )
    in_strip = _is_one_of((Group.LEAK, Group.GAP))
    layers = [
        bars.transform_filter(f"!({in_strip})"),
        strip.transform_filter(in_strip),
        numbers.transform_filter(f"!({in_strip}) && datum.share >= {_LEAST_SHARE_WITH_NUMBER}"),
    ]
    return alt.LayerChart(layer=layers, width=width, height=alt.Step(height * 1.3))


def _rows(shots: Sequence[Shot], names: Sequence[str], longest: float, width: float, theme: Theme) -> alt.LayerChart:
    """One row per band, in it one bar per shot, the later shot paler, and how much it gained or lost."""
    columns = [(*bands(shot.ledger), *escaped(shot.ledger)) for shot in shots]
    shown = [row for row in zip(*columns, strict=True) if any(band.energy for band in row)]
    bars = [
        {**_segment(name, band, 0.0), "order": order, "text": _written(band, name if row is shown[0] else "", len(shots))}
        for row in shown
        for order, (band, name) in enumerate(zip(row, names, strict=True))
    ]
    bar_height = theme.row_height * (0.6 if len(shots) == 1 else 0.42)
    row_height = theme.row_height * (0.9 if len(shots) == 1 else 1.25)
    base = alt.Chart(alt.InlineData(values=bars)).encode(
        y=alt.Y("band:N", sort=None, scale=alt.Scale(padding=0.15), axis=_name_axis(theme, weight=400)),
        yOffset=alt.YOffset("order:O", scale=alt.Scale(paddingInner=0, paddingOuter=0)),
        x=alt.X("end:Q", scale=alt.Scale(domain=[0, longest], nice=False), axis=None),
        tooltip=_TOOLTIP,
    )
    layers: list[alt.Chart] = [
        base.mark_bar(height=bar_height).encode(
            color=_colour(), opacity=alt.condition("datum.order === 0", alt.value(1.0), alt.value(0.5))
        ),
        base.mark_text(align="left", dx=theme.font_size * 0.4, fontSize=theme.small).encode(text="text:N"),
    ]
    if len(shots) == PAIR:
        layers += _differences(shown, names, width, theme)
    return alt.LayerChart(layer=layers, width=width, height=alt.Step(row_height, **{"for": "position"}))


def _differences(shown: Sequence[tuple[Band, ...]], names: Sequence[str], width: float, theme: Theme) -> list[alt.Chart]:
    right = alt.value(width + theme.font_size * _PAIR_ROOM - theme.font_size)
    rows = [{"band": first.label, "text": joules_gained(second.energy - first.energy)} for first, second in shown]
    column = alt.Chart(alt.InlineData(values=rows)).encode(x=right, y=alt.Y("band:N", sort=None), text="text:N")
    head = alt.Chart(alt.InlineData(values=[{"text": f"{names[1]} less {names[0]}"}])).encode(
        x=right, y=alt.value(-theme.font_size * 0.5), text="text:N"
    )
    return [
        column.mark_text(align="right", fontWeight=600, fontSize=theme.font_size),
        head.mark_text(align="right", fontSize=theme.small, color=themes.QUIET),
    ]


def _segment(name: str, band: Band, start: float) -> dict[str, Any]:
    return {
        "shot": name,
        "band": band.label,
        "group": band.group.value,
        "energy": band.energy,
        "share": band.share,
        "start": start,
        "middle": start + band.energy / 2,
        "end": start + band.energy,
        "number": per_cent(band.share),
    }


def _written(band: Band, name: str, count: int) -> str:
    words = [joules(band.energy), per_cent(band.share)]
    if words[0].startswith("<"):
        del words[1]  # its share says nothing more
    if name and count == PAIR:
        words.append(name)
    return " · ".join(word for word in words if word)


def _colour() -> alt.Color:
    return alt.Color(
        "group:N",
        scale=alt.Scale(domain=[group.value for group in _COLOURS], range=list(_COLOURS.values())),
        legend=None,
    )


def _is_one_of(groups: Sequence[Group]) -> str:
    return " || ".join(f"datum.group === '{group.value}'" for group in groups)


def _name_axis(theme: Theme, *, weight: Literal[400, 600]) -> alt.Axis:
    extent = theme.font_size * _LABEL_ROOM
    return alt.Axis(
        title=None,
        minExtent=extent,
        maxExtent=extent,
        labelLimit=extent,
        labelFontSize=theme.font_size,
        labelFontWeight=weight,
        labelColor=themes.INK,
        grid=False,
    )


_TOOLTIP = [
    alt.Tooltip("shot:N", title="shot"),
    alt.Tooltip("band:N", title="went to"),
    alt.Tooltip("energy:Q", title="J", format=".3f"),
    alt.Tooltip("share:Q", title="share", format=".1%"),
]
