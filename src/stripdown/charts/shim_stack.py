"""Shims to scale: what lies on each face of a gear, the float that is left, and the band in which it must be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Final

import altair as alt

from stripdown.charts import themes
from stripdown.charts.themes import Theme
from stripdown.core.shim_selection import GearShims, ShimChoice, ShimPack, ShimSplit
from stripdown.words.numbers import bare_millimetres
from stripdown.words.shims import float_verdict, float_wanted

_LEFT, _RIGHT, _FLOAT = "shim, left face", "shim, right face", "float left"
_ANY = "shim"
_COLOURS: Final = {_LEFT: themes.BALL, _ANY: themes.BALL, _RIGHT: themes.PISTON, _FLOAT: "white"}
_NAME_ROOM: Final = 7  # in font sizes, left of the bars
_NUMBER_ROOM: Final = 11  # right of them
_MILLIMETRE: Final = 1e3
_LEAST_WITH_NUMBER: Final = 3.2  # font sizes; a thinner shim has no room for its number


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """One gear or one pack, from the left bearing to the right one; lengths in m."""

    name: str
    left: tuple[float, ...]
    right: tuple[float, ...]
    gap: float
    float_left: float
    float_band: tuple[float, float]
    faces: bool

    @property
    def verdict(self) -> str:
        """Float that is left, and where it lies."""
        return float_verdict(self.float_left, self.float_band)

    def layers(self) -> Iterator[tuple[str, float]]:
        """From the left bearing: the gear itself is left out, its place is the float."""
        yield from ((_LEFT if self.faces else _ANY, thickness) for thickness in self.left)
        if self.float_left > 0:
            yield _FLOAT, self.float_left
        yield from ((_RIGHT, thickness) for thickness in reversed(self.right))


def shim_stack(found: ShimChoice | ShimSplit, *, theme: Theme, most: int = 6) -> alt.LayerChart:
    """Draw shims to scale: the best packs for one gear, or all gears of a box with their faces."""
    rows = _rows_of_split(found) if isinstance(found, ShimSplit) else _rows_of_choice(found, most)
    values = [value for row in rows for value in _values(row)]
    names = [row.name for row in rows]
    width = theme.width - theme.font_size * (_NAME_ROOM + _NUMBER_ROOM)
    farthest = max((max(row.gap, sum(row.left) + sum(row.right)) for row in rows), default=0.0) * _MILLIMETRE or 1.0
    across = alt.Scale(domain=[0, farthest], nice=False)
    y = alt.Y("row:N", sort=names, axis=None, scale=alt.Scale(paddingInner=0.35, paddingOuter=0.2))
    kinds = [kind for kind in _COLOURS if any(value["kind"] == kind for value in values)]
    layers = alt.Chart(alt.InlineData(values=values)).encode(
        y=y,
        x=alt.X(
            "from:Q", scale=across, title="mm from the left bearing, the gear's own width left out", axis=alt.Axis(tickCount=8)
        ),
        x2="to:Q",
        tooltip=[alt.Tooltip("row:N"), alt.Tooltip("kind:N"), alt.Tooltip("thickness:Q", title="mm", format=".3f")],
    )
    colour = alt.Color(
        "kind:N",
        scale=alt.Scale(domain=kinds, range=[_COLOURS[kind] for kind in kinds]),
        legend=alt.Legend(
            symbolType="square", symbolSize=theme.font_size * 8, symbolStrokeColor=themes.QUIET, symbolStrokeWidth=1
        ),
    )
    wide = layers.transform_filter(f"(datum.to - datum.from) * {width / farthest:g} > {theme.font_size * _LEAST_WITH_NUMBER:g}")
    numbers = wide.transform_calculate(middle="(datum.from + datum.to) / 2").encode(
        x=alt.X("middle:Q", scale=across),
        x2=alt.value(0),
        text="text:N",
        color=alt.condition(f"datum.kind == '{_LEFT}' || datum.kind == '{_ANY}'", alt.value("white"), alt.value(themes.INK)),
    )
    words = alt.Chart(alt.InlineData(values=[{"row": row.name, "verdict": row.verdict} for row in rows])).encode(y=y)
    return alt.LayerChart(
        layer=[
            layers.mark_bar(stroke=themes.INK, strokeWidth=0.7).encode(color=colour),
            numbers.mark_text(fontSize=theme.small),
            words.mark_text(align="right", fontSize=theme.font_size).encode(text="row:N", x=alt.value(-theme.font_size * 0.6)),
            words.mark_text(align="left", fontSize=theme.small).encode(
                text="verdict:N", x=alt.value(width + theme.font_size * 0.6)
            ),
        ],
        width=width,
        height=alt.Step(theme.row_height * 1.4, **{"for": "position"}),
        **_heading(found, rows, theme),
    )


def _rows_of_choice(choice: ShimChoice, most: int) -> list[_Row]:
    packs: list[tuple[str, ShimPack]] = [(f"pack {number}", pack) for number, pack in enumerate(choice.packs[:most], start=1)]
    if not packs and choice.nearest_miss is not None:
        packs.append(("nearest miss", choice.nearest_miss.pack))
        if choice.pack_after_buying is not None:
            packs.append(("after buying", choice.pack_after_buying))
    return [
        _Row(
            name=name,
            left=pack.thicknesses,
            right=(),
            gap=choice.gap,
            float_left=pack.float_left,
            float_band=choice.float_band,
            faces=False,
        )
        for name, pack in packs
    ]


def _rows_of_split(split: ShimSplit) -> list[_Row]:
    gears: Sequence[GearShims] = split.gears or split.gears_after_buying
    return [
        _Row(
            name=shims.gear.value,
            left=shims.left,
            right=shims.right,
            gap=alone.gap,
            float_left=shims.float_left,
            float_band=alone.float_band,
            faces=True,
        )
        for shims, alone in zip(gears, split.alone, strict=False)
    ]


def _values(row: _Row) -> Iterator[dict[str, Any]]:
    place = 0.0
    for kind, thickness in row.layers():
        start, place = place, place + thickness * _MILLIMETRE
        yield {
            "row": row.name,
            "kind": kind,
            "from": round(start, 6),
            "to": round(place, 6),
            "thickness": round(thickness * _MILLIMETRE, 6),
            "text": bare_millimetres(thickness),
        }


def _heading(found: ShimChoice | ShimSplit, rows: Sequence[_Row], theme: Theme) -> dict[str, Any]:
    wanted = float_wanted(row.float_band for row in rows)
    lines = [f"to scale; float wanted: {wanted} ({found.footing})" if rows else found.rejected or "no shims would do"]
    if isinstance(found, ShimSplit) and not found.gears and rows:
        lines.append("with the shims that are to be bought")
    heading = theme.heading("Shims and the float that they leave", lines)
    told = (
        f"{row.name}: {', '.join(f'{kind} {size * _MILLIMETRE:.3g} mm' for kind, size in row.layers())}, {row.verdict}"
        for row in rows
    )
    heading["description"] = ". ".join([heading["description"], *told])
    return heading
