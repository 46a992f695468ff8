"""Where the energy went before and after, and beside it what repairing each cause would return: not what it carries off."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any

import altair as alt

from stripdown.charts import themes
from stripdown.charts.themes import Theme
from stripdown.charts.wrapped import beside_rows, wrapped
from stripdown.words.ledger import (
    CARRIED,
    ESTIMATED_RETURN,
    RETURNED,
    RETURNED_ALONE,
    SICK,
    SOUND,
    WENT_AND_RETURNS,
    WHERE_IT_WENT,
    Group,
    bands,
    escaped,
)
from stripdown.words.numbers import joules, joules_gained

if TYPE_CHECKING:
    from stripdown.core.interior_ballistics.result import EnergyLedger, Shot
    from stripdown.studies.loss_causes import Cause, LossExplanation

_WENT_COLOURS = {SICK: themes.SECOND, SOUND: themes.FIRST}
_REPAIR_COLOURS = {CARRIED: themes.LEAK, RETURNED: themes.COLUMN}
_NAME_ROOM = 14  # in font sizes, left of the bars
_NUMBER_ROOM = 4.3  # right of them
_NAME_LETTERS = 32
_LEAST_SHARE = 0.01  # of what was put in; a smaller band is no row
_BAR = 0.36  # height of one bar, in row heights


def ledger_beside_repair(
    before: Shot, after: Shot, explanation: LossExplanation, *, theme: Theme, most: int = 7
) -> alt.HConcatChart:
    """Draw where the energy went, sick and sound, and beside it carried off against returned for each cause."""
    ill, sound = (before, after) if explanation.was_gained else (after, before)
    standing = explanation.standing[:most]
    shown = _LEAST_SHARE * max(ill.ledger.put_in, sound.ledger.put_in)
    ledgers = [_went(ill.ledger, SICK), _went(sound.ledger, SOUND)]
    went = [row for pair in zip(*ledgers, strict=True) if any(row["energy"] > shown for row in pair) for row in pair]
    gap = theme.font_size * 2
    width = (theme.width - gap) / 2
    panels = [_panel(went, _WENT_COLOURS, heading=WHERE_IT_WENT, width=width, theme=theme)]
    if standing:
        repairs = [row for cause in standing for row in _repair(cause)]
        panels.append(_panel(repairs, _REPAIR_COLOURS, heading=RETURNED_ALONE, width=width, theme=theme))
    apart = alt.Resolve(scale=alt.ScaleResolveMap(color="independent"))
    return alt.HConcatChart(hconcat=panels, spacing=gap, resolve=apart, **_heading(went, standing, theme))


def _heading(went: Sequence[dict[str, Any]], standing: Sequence[Cause], theme: Theme) -> dict[str, Any]:
    heading = theme.heading(WENT_AND_RETURNS, [ESTIMATED_RETURN])
    heading["description"] = ". ".join([heading["description"], *_spoken(went, standing)])
    return heading


def _spoken(went: Sequence[dict[str, Any]], standing: Sequence[Cause]) -> Iterator[str]:
    for row in went:
        yield f"{row['name']}, {row['which']}: {row['text']}"
    for cause in standing:
        carried, returned = joules_gained(cause.carried_off), joules_gained(cause.returned)
        yield f"{cause.fault.name}: {carried} carried off, {returned} returned"


def _went(ledger: EnergyLedger, which: str) -> list[dict[str, Any]]:
    """Bands of one kind together; what escaped below the air that it is part of."""
    together: dict[Group, float] = {}
    labels: dict[Group, str] = {}
    for band in bands(ledger):
        together[band.group] = together.get(band.group, 0.0) + band.energy
        labels[band.group] = band.label if band.group is Group.AIR else band.group.value
    rows = [(labels[group], energy) for group, energy in together.items()]
    rows += [(band.label, band.energy) for band in escaped(ledger)]
    return [_row(name, which, energy, joules(energy)) for name, energy in rows]


def _repair(cause: Cause) -> list[dict[str, Any]]:
    return [
        _row(cause.fault.name, CARRIED, cause.carried_off, joules_gained(cause.carried_off)),
        _row(cause.fault.name, RETURNED, cause.returned, joules_gained(cause.returned)),
    ]


def _row(name: str, which: str, energy: float, text: str) -> dict[str, Any]:
    return {"name": name, "which": which, "energy": round(energy, 5), "text": text}


def _panel(
    rows: Sequence[dict[str, Any]], colours: Mapping[str, str], *, heading: str, width: float, theme: Theme
) -> alt.LayerChart:
    inner = width - theme.font_size * (_NAME_ROOM + _NUMBER_ROOM)
    low = min(0.0, *(row["energy"] for row in rows))
    high = max(0.0, *(row["energy"] for row in rows)) or 1.0
    names = list(dict.fromkeys(row["name"] for row in rows))
    height = theme.row_height * _BAR
    row = alt.Y("name:N", sort=None, axis=None, scale=alt.Scale(padding=0))
    base = alt.Chart(alt.InlineData(values=list(rows))).encode(
        y=row,
        yOffset=alt.YOffset("which:N", sort=list(colours), scale=alt.Scale(paddingInner=0.1, paddingOuter=0.5)),
        x=alt.X("energy:Q", scale=alt.Scale(domain=[low, high], nice=False), axis=None),
        tooltip=[alt.Tooltip("name:N", title="what"), alt.Tooltip("which:N"), alt.Tooltip("energy:Q", title="J", format=".3f")],
    )
    words = {name: wrapped(name, _NAME_LETTERS) for name in names}
    colour = alt.Color(
        "which:N",
        scale=alt.Scale(domain=list(colours), range=list(colours.values())),
        legend=alt.Legend(
            symbolType="square", symbolSize=theme.font_size * 8, labelFontSize=theme.small, direction="vertical", rowPadding=1
        ),
    )
    numbers = base.mark_text(align="left", dx=theme.font_size * 0.4, fontSize=theme.small)
    return alt.LayerChart(
        layer=[
            base.mark_bar(height=height).encode(color=colour),
            numbers.encode(text="text:N"),
            *beside_rows(words, row, at=-theme.font_size * 0.6, align="right", theme=theme, faint=frozenset()),
        ],
        width=inner,
        height=alt.Step(max(theme.row_height * 1.25, theme.font_size * 2.6), **{"for": "position"}),
        title=theme.panel_title(heading),
    )
