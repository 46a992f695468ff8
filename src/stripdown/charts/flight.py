"""A flight from the side with the band that the laws leave, and drop and speed by distance."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import altair as alt
import numpy as np

from stripdown.charts import themes
from stripdown.charts.themes import Theme
from stripdown.units import from_si, unit_named
from stripdown.words.flight import FROM_MUZZLE, HEIGHT_OVER_MUZZLE, by_distance_caption, side_view_caption
from stripdown.words.numbers import speed_unit

if TYPE_CHECKING:
    from stripdown.studies.flight import FlightStudy
    from stripdown.units import Scale

_POINTS = 121


def side_view(study: FlightStudy, *, scale: Scale, theme: Theme) -> alt.LayerChart:
    """Draw the path from the side; heights are stretched, or nothing could be read."""
    rows, band = _path(study, scale), _band(study, scale)
    width = theme.width - theme.axis_extent - theme.font_size
    layers = _panel(rows, band, "height", _x(study), theme)
    return alt.LayerChart(
        layer=[*layers, *_marks(study, _x(study), theme)],
        width=width,
        height=theme.panel_height,
        **_titled(theme.captioned(side_view_caption(study, scale)), theme, HEIGHT_OVER_MUZZLE),
    )


def drop_and_speed(study: FlightStudy, *, scale: Scale, theme: Theme) -> alt.VConcatChart:
    """Draw the height, and below it the speed, against the distance."""
    rows, band = _path(study, scale), _band(study, scale)
    width = theme.width - theme.axis_extent - theme.font_size
    shown = unit_named(speed_unit(scale)).shown
    panels = [
        alt.LayerChart(
            layer=_panel(rows, band, field, _x(study, foot), theme),
            width=width,
            height=theme.panel_height * 0.75,
            title=theme.panel_title(heading),
        )
        for field, heading, foot in (("height", HEIGHT_OVER_MUZZLE, None), ("speed", f"Speed, {shown}", FROM_MUZZLE))
    ]
    return alt.VConcatChart(vconcat=panels, spacing=theme.font_size * 1.5, **theme.captioned(by_distance_caption(study, scale)))


def _titled(heading: dict[str, Any], theme: Theme, panel: str) -> dict[str, Any]:
    """A single panel says above itself what its heights are."""
    title = heading["title"]
    return heading | {"title": title | {"subtitle": [*title["subtitle"], panel], "subtitlePadding": theme.font_size * 0.4}}


def _furthest(study: FlightStudy) -> float:
    return float(study.path.position[-1, 0])


def _x(study: FlightStudy, title: str | None = FROM_MUZZLE) -> alt.X:
    return alt.X(
        "distance:Q",
        title=title,
        scale=alt.Scale(domain=[0, round(_furthest(study) * 1.02, 2)], nice=False),
        axis=alt.Axis(grid=False, tickCount=10),
    )


def _path(study: FlightStudy, scale: Scale) -> list[dict[str, Any]]:
    unit = speed_unit(scale)
    passed = study.path.along(np.linspace(0.0, _furthest(study), _POINTS))
    return [
        {
            "distance": round(float(place), 3),
            "height": round((float(at[2]) - study.stance.muzzle_height) * 100, 2),
            "speed": round(from_si(float(fast), unit), 2),
        }
        for place, at, fast in zip(passed.distance, passed.position, passed.speed, strict=True)
        if np.isfinite(fast)
    ]


def _band(study: FlightStudy, scale: Scale) -> list[dict[str, Any]]:
    band, unit = study.band, speed_unit(scale)
    return [
        {
            "distance": round(float(place), 3),
            "height_low": round(low * 100, 2),
            "height_high": round(high * 100, 2),
            "speed_low": round(from_si(slow, unit), 2),
            "speed_high": round(from_si(fast, unit), 2),
        }
        for place in band.distance
        for low, high, slow, fast in [band.at(float(place))]
        if place <= _furthest(study) and np.isfinite([low, high, slow, fast]).all()
    ]


def _panel(rows: list[dict[str, Any]], band: list[dict[str, Any]], field: str, x: alt.X, theme: Theme) -> list[alt.Chart]:
    extent = theme.axis_extent
    axis = alt.Axis(minExtent=extent, maxExtent=extent, tickCount=6)
    area = alt.Chart(alt.InlineData(values=band)).mark_area(color=themes.AIR, opacity=0.7)
    line = alt.Chart(alt.InlineData(values=rows)).mark_line(color=themes.FIRST)
    y = alt.Y(f"{field}_low:Q", title=None, axis=axis, scale=alt.Scale(zero=field == "speed"))
    tooltip = [alt.Tooltip("distance:Q", title="m", format=".1f"), alt.Tooltip(f"{field}:Q", format=".1f")]
    return [
        area.encode(x=x, y=y, y2=f"{field}_high:Q"),
        line.encode(x=x, y=alt.Y(f"{field}:Q", title=None), order="distance:Q", tooltip=tooltip),
    ]


def _marks(study: FlightStudy, x: alt.X, theme: Theme) -> list[alt.Chart]:
    """The level of the muzzle, the line of the sights, and what was seen."""
    layers = [
        alt.Chart(alt.InlineData(values=[{"height": 0}])).mark_rule(color=themes.QUIET, strokeWidth=0.8).encode(y="height:Q")
    ]
    if study.sight_line is not None:
        start, slope = study.sight_line
        far = _furthest(study)
        ends = [{"distance": at, "height": round((start + slope * at) * 100, 2)} for at in (0.0, round(far, 2))]
        line = alt.Chart(alt.InlineData(values=ends)).mark_line(color=themes.SECOND, strokeDash=[5, 3])
        layers.append(line.encode(x=x, y="height:Q"))
    seen = [
        {"distance": one.distance, "height": round(one.height * 100, 2)}
        for one in study.lift.sightings
        if one.distance is not None
    ]
    if seen:
        points = alt.Chart(alt.InlineData(values=seen)).mark_point(
            filled=True, opacity=1, size=theme.point_size, color=themes.LEAK, stroke="white", strokeWidth=1
        )
        layers.append(points.encode(x=x, y="height:Q"))
    return layers
