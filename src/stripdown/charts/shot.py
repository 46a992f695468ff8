"""Pressure and speed along the travel of piston and ball."""

from __future__ import annotations

from collections.abc import Sequence

import altair as alt

from stripdown.charts.ledger import names_apart
from stripdown.charts.themes import Theme
from stripdown.charts.travel_panel import Panel, travel_panel
from stripdown.core.interior_ballistics.result import Shot
from stripdown.words.milestones import marked
from stripdown.words.shot import PRESSURE_ALONG, SPEED_ALONG, fired, short_names


def pressure_travel(shots: Sequence[Shot], *, names: Sequence[str], theme: Theme) -> alt.HConcatChart:
    """Draw the pressure in the cylinder along the piston's travel, and behind the ball along the ball's."""
    panels = (
        Panel(along="piston_position", of="cylinder_pressure", remark=" absolute"),
        Panel(along="ball_position", of="barrel_pressure", remark=" absolute"),
    )
    return _side_by_side(PRESSURE_ALONG, shots, names, panels, theme)


def speed_travel(shots: Sequence[Shot], *, names: Sequence[str], speed_unit: str, theme: Theme) -> alt.HConcatChart:
    """Draw the speed of the piston along its travel, and of the ball along its own."""
    panels = (
        Panel(along="piston_position", of="piston_speed", unit=speed_unit),
        Panel(along="ball_position", of="ball_speed", unit=speed_unit),
    )
    return _side_by_side(SPEED_ALONG, shots, names, panels, theme)


def _side_by_side(
    title: str, shots: Sequence[Shot], names: Sequence[str], panels: Sequence[Panel], theme: Theme
) -> alt.HConcatChart:
    names_apart(shots, names)
    gap = theme.font_size * 2
    width = (theme.width - gap) / len(panels) - theme.axis_extent
    balls = [fired(name, shot) for shot, name in zip(shots, names, strict=True)]
    return alt.HConcatChart(
        hconcat=[travel_panel(panel, shots, short_names(names), width=width, theme=theme) for panel in panels],
        spacing=gap,
        **theme.heading(title, [*balls, *marked(shots)]),
    )
