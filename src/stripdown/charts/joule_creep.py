"""Joule creep: energy and speed at the muzzle against the mass of the ball."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import altair as alt

from stripdown.charts import themes
from stripdown.charts.themes import Theme
from stripdown.core.interior_ballistics.result import Outcome
from stripdown.units import from_si, unit_named
from stripdown.words.numbers import speed_decimals
from stripdown.words.shot import BY_BALL, STAYS, limit_line, most_energy

if TYPE_CHECKING:
    from stripdown.studies.joule_creep import JouleCreep

_LEAST_SPAN = 0.2  # of the highest value, so that curves of different guns look alike
_MOST_NUMBERED = 13  # more points than this would write their numbers into each other


@dataclass(frozen=True, slots=True, kw_only=True)
class _Panel:
    field: str
    heading: str
    decimals: int
    colour: str
    foot: str | None
    limit: float | None = None


def joule_creep(sweep: JouleCreep, *, speed_unit: str, theme: Theme) -> alt.VConcatChart:
    """Draw muzzle energy, and below it muzzle speed, against ball mass."""
    points = _points(sweep, speed_unit)
    limit = sweep.limit_energy
    energy = _Panel(field="energy", heading="Muzzle energy, J", decimals=2, colour=themes.FIRST, foot=None, limit=limit)
    speed = _Panel(
        field="speed",
        heading=f"Muzzle speed, {unit_named(speed_unit).shown}",
        decimals=speed_decimals(speed_unit),
        colour=themes.SECOND,
        foot="mass of the ball, g",
    )
    return alt.VConcatChart(
        vconcat=[_draw(points, energy, theme), _draw(points, speed, theme)],
        spacing=theme.font_size * 1.5,
        **theme.heading(
            BY_BALL, [f"{sweep.gun.shown_name}, predicted; {most_energy(sweep)}", *_crossed(sweep), *_limited(sweep)]
        ),
    )


def _points(sweep: JouleCreep, speed_unit: str) -> list[dict[str, Any]]:
    points = [
        {
            "mass": round(float(mass) * 1e3, 4),
            "energy": round(float(energy), 4),
            "speed": round(from_si(float(speed), speed_unit), 2),
            "left": Outcome(outcome) is Outcome.LEFT_MUZZLE,
        }
        for mass, energy, speed, outcome in zip(
            sweep.ball_mass, sweep.muzzle_energy, sweep.muzzle_speed, sweep.outcome, strict=True
        )
    ]
    left = [point for point in points if point["left"]]
    turning = {id(choose(left, key=lambda point: point["energy"])) for choose in (min, max) if left}
    for index, point in enumerate(points):
        point["numbered"] = len(points) <= _MOST_NUMBERED or index in (0, len(points) - 1) or id(point) in turning
    return points


def _crossed(sweep: JouleCreep) -> list[str]:
    left = [outcome is Outcome.LEFT_MUZZLE for outcome in sweep.outcome]
    return [STAYS] if any(left) and not all(left) else []


def _limited(sweep: JouleCreep) -> list[str]:
    return [] if sweep.limit_energy is None else [limit_line(sweep.limit_energy)]


def _draw(points: list[dict[str, Any]], panel: _Panel, theme: Theme) -> alt.LayerChart:
    masses = sorted({point["mass"] for point in points})
    margin = (masses[-1] - masses[0]) * 0.04 or 0.01
    height = theme.panel_height * 0.75
    x = alt.X(
        "mass:Q",
        title=panel.foot,
        scale=alt.Scale(domain=[masses[0] - margin, masses[-1] + margin], nice=False, zero=False),
        axis=alt.Axis(grid=False, format=".2f", values=masses if len(masses) <= _MOST_NUMBERED else alt.Undefined),
    )
    extent = theme.axis_extent
    limits = [] if panel.limit is None else [round(panel.limit, 4)]
    values = [*(point[panel.field] for point in points if point["left"]), *limits]
    y = alt.Y(
        f"{panel.field}:Q",
        title=None,
        scale=alt.Scale(domain=_domain(values), nice=False, zero=False),
        axis=alt.Axis(minExtent=extent, maxExtent=extent, tickCount=5),
    )
    number_format = f".{panel.decimals}f"
    tooltip = [
        alt.Tooltip("mass:Q", title="ball, g", format=".2f"),
        alt.Tooltip(f"{panel.field}:Q", title=panel.heading, format=number_format),
    ]
    left = alt.Chart(alt.InlineData(values=[point for point in points if point["left"]])).encode(x=x, y=y, tooltip=tooltip)
    layers = [
        left.mark_line(color=panel.colour),
        left.mark_point(filled=True, opacity=1, size=theme.point_size, color=panel.colour, stroke="white", strokeWidth=1),
        left.transform_filter("datum.numbered")
        .mark_text(dy=-theme.font_size, fontSize=theme.small, fontWeight=600)
        .encode(text=alt.Text(f"{panel.field}:Q", format=number_format)),
    ]
    if theme.touch_size:
        layers.append(left.mark_point(filled=True, opacity=0, size=theme.touch_size))
    stuck = [point for point in points if not point["left"]]
    if stuck:
        crosses = alt.Chart(alt.InlineData(values=stuck)).encode(x=x, y=alt.value(height - theme.font_size))
        cross_size = theme.point_size * 1.5
        layers.append(crosses.mark_point(shape="cross", angle=45, filled=True, opacity=1, size=cross_size, color=themes.LEAK))
    for limit in limits:  # behind the curve
        line = alt.Chart(alt.InlineData(values=[{"limit": limit}])).encode(y=alt.Y("limit:Q"))
        layers.insert(0, line.mark_rule(color=themes.LEAK, strokeWidth=theme.line_width * 1.6))
    return alt.LayerChart(
        layer=layers,
        width=theme.width - extent - theme.font_size,
        height=height,
        title=theme.panel_title(panel.heading),
    )


def _domain(values: list[float]) -> list[float]:
    """Room for a curve and its numbers; never so narrow that a change of a hundredth looks like a slope."""
    if not values:
        return [0.0, 1.0]
    highest, lowest = max(values), min(values)
    half = max(highest - lowest, _LEAST_SPAN * highest) * 0.65
    middle = (highest + lowest) / 2
    return [middle - half, middle + half * 1.15]
