"""Energy over ball mass against a limit: measured strings, what the model predicts between them, and the guard band."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import altair as alt

from stripdown.charts import themes
from stripdown.charts.levels import Level, draw_levels
from stripdown.charts.themes import Theme
from stripdown.core.shot_statistics import LimitForecast, LimitVerdict, MeasuredState
from stripdown.words.limit import limit_caption, mode_words
from stripdown.words.numbers import joules
from stripdown.words.strings import UNSTEADY, state_words

if TYPE_CHECKING:
    from stripdown.studies.verdict import BallVerdict, GunVerdict

# Told apart by shape first: a state must survive a grey print. No shape and no colour of a prediction is that of a string.
_MARKS = {
    MeasuredState.UNDER.value: ("circle", themes.FIRST),
    MeasuredState.CLOSE.value: ("diamond", themes.SECOND),
    UNSTEADY: ("cross", themes.SECOND),
    MeasuredState.OVER.value: ("triangle-up", themes.LEAK),
    MeasuredState.UNSAID.value: ("square", themes.GAP),
}
_REACH = 2.0  # standard uncertainties in the band
_LIMIT_ROOM = 5  # in font sizes, right of a panel
_LEAST_SPAN = 0.2  # of the limit
_MOST_TICKS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class _Frame:
    """What all panels share."""

    domain: tuple[float, float]
    width: float
    states: tuple[str, ...]
    theme: Theme

    @property
    def energy(self) -> alt.Y:
        extent = self.theme.axis_extent
        return alt.Y(
            "energy:Q",
            title=None,
            scale=alt.Scale(domain=list(self.domain), nice=False, zero=False),
            axis=alt.Axis(minExtent=extent, maxExtent=extent, tickCount=6, format=".2f"),
        )


def creep_against_limit(verdict: GunVerdict, *, theme: Theme) -> alt.HConcatChart:
    """Draw the energy of each ball against the limit, one panel for each selector position."""
    modes = list(dict.fromkeys(ball.fire_mode for ball in verdict.balls))
    gap = theme.font_size * 2
    shown = {state_words(ball.measured) for ball in verdict.balls if ball.measured is not None}
    frame = _Frame(
        domain=_domain(verdict.balls),
        width=(theme.width - gap * (len(modes) - 1)) / len(modes) - theme.axis_extent - theme.font_size * _LIMIT_ROOM,
        states=tuple(state for state in _MARKS if state in shown),
        theme=theme,
    )
    panels = []
    for mode in modes:
        of = "" if len(modes) == 1 else f" {mode_words(mode)}"
        panels.append(_panel([ball for ball in verdict.balls if ball.fire_mode is mode], f"Energy{of}, J", frame))
    return alt.HConcatChart(hconcat=panels, spacing=gap, **theme.captioned(limit_caption(verdict)))


def _panel(balls: Sequence[BallVerdict], heading: str, frame: _Frame) -> alt.LayerChart:
    measured = [_measured(ball.measured) for ball in balls if ball.measured is not None]
    predicted = [_predicted(ball.predicted) for ball in balls if ball.predicted is not None]
    masses = sorted({row["mass"] for row in measured + predicted})
    margin = (masses[-1] - masses[0]) * 0.05 or 0.02
    every = masses if len(masses) <= _MOST_TICKS else alt.Undefined
    x = alt.X(
        "mass:Q",
        title="mass of the ball, g",
        scale=alt.Scale(domain=[masses[0] - margin, masses[-1] + margin], nice=False, zero=False),
        axis=alt.Axis(grid=False, format=".2f", values=every, labelOverlap="greedy"),
    )
    layers = [*_band(predicted, x, frame), *_line(_limit_energy(balls), frame), *_strings(measured, x, frame)]
    theme = frame.theme
    return alt.LayerChart(layer=layers, width=frame.width, height=theme.panel_height, title=theme.panel_title(heading))


def _band(predicted: list[dict[str, Any]], x: alt.X, frame: _Frame) -> list[alt.Chart]:
    """Each ball by itself: a line from one to the next would claim what the model was not asked."""
    if not predicted:
        return []
    theme = frame.theme
    base = alt.Chart(alt.InlineData(values=predicted)).encode(x=x, tooltip=_TOOLTIP)
    point = base.mark_point(filled=True, fill="white", stroke=themes.GAP, opacity=1, size=theme.point_size, strokeWidth=1)
    return [
        base.mark_bar(width=theme.font_size * 1.1, color=themes.AIR, opacity=0.7).encode(y=alt.Y("low:Q"), y2="high:Q"),
        point.encode(y=frame.energy),
    ]


def _line(limit_energy: float, frame: _Frame) -> list[alt.Chart]:
    level = Level(value=limit_energy, words=f"limit {joules(limit_energy)}", dash=(1, 0), colour=themes.LEAK, weight=1.6)
    return draw_levels([level], domain=frame.domain, width=frame.width, height=frame.theme.panel_height, theme=frame.theme)


def _strings(measured: list[dict[str, Any]], x: alt.X, frame: _Frame) -> list[alt.Chart]:
    if not measured:
        return []
    theme, states = frame.theme, list(frame.states)
    wide, stroke = theme.font_size * 0.9, theme.line_width * 1.6
    key = alt.Legend(symbolType="circle", symbolSize=theme.font_size * 8, symbolStrokeWidth=0, symbolOpacity=1)
    colour = alt.Color("state:N", scale=alt.Scale(domain=states, range=[_MARKS[state][1] for state in states]), legend=key)
    shape = alt.Shape("state:N", scale=alt.Scale(domain=states, range=[_MARKS[state][0] for state in states]), legend=key)
    base = alt.Chart(alt.InlineData(values=measured)).encode(x=x, tooltip=_TOOLTIP)
    bounded = base.transform_filter("isValid(datum.bound)")
    guarded = base.transform_filter("isValid(datum.acceptance)")
    number = alt.Text("energy:Q", format=".2f")
    below = theme.font_size * 1.3
    halo = base.mark_text(fontWeight=600, fontSize=theme.small, dy=below, stroke="white", strokeWidth=theme.font_size * 0.35)
    layers = [
        guarded.mark_bar(width=wide, color=themes.LEAK, opacity=0.22).encode(y=alt.Y("acceptance:Q"), y2="limit:Q"),
        bounded.mark_rule(strokeWidth=stroke).encode(y=frame.energy, y2="bound:Q", color=colour),
        bounded.mark_tick(width=wide, thickness=stroke).encode(y=alt.Y("bound:Q"), color=colour),
        base.mark_point(filled=True, opacity=1, size=theme.point_size * 2.2).encode(y=frame.energy, color=colour, shape=shape),
        halo.encode(y=frame.energy, text=number),
        base.mark_text(fontWeight=600, fontSize=theme.small, dy=below).encode(y=frame.energy, text=number),
    ]
    if theme.touch_size:
        layers.append(base.mark_point(filled=True, opacity=0, size=theme.touch_size).encode(y=frame.energy))
    return layers


def _measured(found: LimitVerdict) -> dict[str, Any]:
    return {
        "mass": round(found.ball_mass * 1e3, 4),
        "energy": round(found.mean_energy, 4),
        "bound": None if found.tolerance_energy is None else round(found.tolerance_energy, 4),
        "acceptance": None if found.acceptance_energy is None else round(found.acceptance_energy, 4),
        "limit": round(found.limit_energy, 4),
        "state": state_words(found),
    }


def _predicted(forecast: LimitForecast) -> dict[str, Any]:
    reach = _REACH * forecast.energy_standard_uncertainty
    return {
        "mass": round(forecast.ball_mass * 1e3, 4),
        "energy": round(forecast.energy, 4),
        "low": round(forecast.energy - reach, 4),
        "high": round(forecast.energy + reach, 4),
        "state": forecast.state.value,
    }


def _limit_energy(balls: Sequence[BallVerdict]) -> float:
    """The same for every ball, also where the rule is by area: all are judged with one diameter."""
    first = balls[0].measured or balls[0].predicted
    assert first is not None  # noqa: S101  narrows: one of the two is there
    return first.limit_energy


def _domain(balls: Sequence[BallVerdict]) -> tuple[float, float]:
    """Room for every mark, its number and the limit; never so narrow that a hundredth looks like a slope."""
    limit = _limit_energy(balls)
    values = [limit]
    for ball in balls:
        if ball.measured is not None:
            values += [ball.measured.mean_energy, ball.measured.tolerance_energy or limit]
        elif ball.predicted is not None:
            reach = _REACH * ball.predicted.energy_standard_uncertainty
            values += [ball.predicted.energy - reach, ball.predicted.energy + reach]
    low, high = min(values), max(values)
    span = max(high - low, _LEAST_SPAN * limit)
    return round(high - span * 1.15, 4), round(high + span * 0.15, 4)


_TOOLTIP = [
    alt.Tooltip("mass:Q", title="ball, g", format=".2f"),
    alt.Tooltip("energy:Q", title="J", format=".2f"),
    alt.Tooltip("state:N", title="it is"),
]
