"""Balls of one gun side by side: how far each carries, what is left, and what leaves the muzzle."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import altair as alt

from stripdown.charts import themes
from stripdown.charts.themes import Theme
from stripdown.words.ball_choice import CARRY, LEFT, TO_LIMIT, choice_caption

if TYPE_CHECKING:
    from stripdown.studies.ball_choice import BallChoice


def balls_side_by_side(study: BallChoice, *, theme: Theme) -> alt.VConcatChart:
    """Draw carry, energy left and energy at the muzzle against ball mass, each ball by itself."""
    rows = [
        {
            "mass": round(ball.ball_mass * 1e3, 4),
            "carry": None if ball.hop is None else ball.hop.reach,
            "left": None if ball.energy_there is None else round(ball.energy_there, 4),
            "muzzle": round(ball.energy, 4) if ball.speed > 0.0 else None,
            "limit": None if ball.limit_at_muzzle is None else round(ball.limit_at_muzzle, 4),
            "fired": ball.is_measured,
        }
        for ball in study.balls
    ]
    of = {"carry": CARRY, "left": LEFT, "muzzle": TO_LIMIT}
    panels = [_panel(rows, field, heading, theme) for field, heading in of.items()]
    return alt.VConcatChart(vconcat=panels, spacing=theme.font_size * 1.2, **theme.captioned(choice_caption(study)))


def _panel(
    rows: list[dict[str, Any]],
    field: str,
    heading: str,
    theme: Theme,
) -> alt.LayerChart:
    masses = [row["mass"] for row in rows]
    margin = (max(masses) - min(masses)) * 0.05 or 0.02
    x = alt.X(
        "mass:Q",
        title="mass of the ball, g" if field == "muzzle" else None,
        scale=alt.Scale(domain=[round(min(masses) - margin, 4), round(max(masses) + margin, 4)], nice=False, zero=False),
        axis=alt.Axis(grid=False, format=".2f", values=masses, labelOverlap="greedy"),
    )
    limits = [row["limit"] for row in rows if row["limit"] is not None and field == "muzzle"]
    values = [row[field] for row in rows if row[field] is not None]
    high = max([*values, *limits, 1e-6]) * 1.2
    extent, height = theme.axis_extent, theme.panel_height * 0.5
    width = theme.width - extent - theme.font_size * 2
    y = alt.Y(
        f"{field}:Q",
        title=None,
        scale=alt.Scale(domain=[0, round(high, 4)], nice=False),
        axis=alt.Axis(minExtent=extent, maxExtent=extent, tickCount=4),
    )
    base = alt.Chart(alt.InlineData(values=[row for row in rows if row[field] is not None])).encode(x=x, y=y)
    fill = alt.condition("datum.fired", alt.value(themes.FIRST), alt.value("white"))
    layers = [
        base.mark_point(filled=True, opacity=1, size=theme.point_size, stroke=themes.FIRST, strokeWidth=1.2).encode(fill=fill),
        base.mark_text(dy=theme.font_size * (-0.9 if field != "muzzle" else 1.1), fontSize=theme.small, fontWeight=600).encode(
            text=alt.Text(f"{field}:Q", format=".0f" if field == "carry" else ".2f")
        ),
    ]
    if limits:
        layers.append(
            base.mark_tick(
                orient="horizontal", opacity=1, color=themes.LEAK, thickness=theme.line_width, width=theme.font_size * 2
            ).encode(y=alt.Y("limit:Q"))
        )
    return alt.LayerChart(layer=layers, width=width, height=height, title=theme.panel_title(heading))
