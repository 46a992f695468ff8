"""From a chart to a picture of a sheet."""

from __future__ import annotations

import re
from dataclasses import dataclass

from stripdown.charts import themes
from stripdown.charts.render import AnyChart, to_spec, to_svg
from stripdown.charts.themes import Theme
from stripdown.errors import RenderError

_SIZE = re.compile(r'<svg[^>]*\bwidth="([0-9.]+)"[^>]*\bheight="([0-9.]+)"')


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """One chart."""

    svg: str
    width: float
    alternative: str


def drawn(chart: AnyChart, *, theme: Theme, first_line: int = 0, tallest: float | None = None) -> Picture:
    """Draw a chart without its title, which the sheet's own heading says; the lines below it stay as the key to the marks."""
    size = theme.font_size
    key = chart.title["subtitle"][first_line:]
    chart.title = {"text": key, "fontSize": size, "fontWeight": 400, "color": themes.QUIET, "offset": size}
    chart.config = {**theme.config(), "padding": {"top": 2, "left": 0, "right": 0, "bottom": 0}}
    svg = to_svg(chart)
    found = _SIZE.search(svg)
    if found is None:
        message = f"The drawing does not say how large it is: {svg[:80]}"
        raise RenderError(message)
    width, height = float(found[1]), float(found[2])
    share = 1.0 if tallest is None else min(1.0, tallest / height)
    return Picture(svg=svg, width=round(width * share, 2), alternative=str(to_spec(chart)["description"]))
