"""From a chart to a picture of a sheet."""

from __future__ import annotations

import re

from stripdown.charts import themes
from stripdown.charts.render import AnyChart, to_spec, to_svg
from stripdown.charts.themes import Theme
from stripdown.errors import RenderError
from stripdown.reports.content import Picture

_WIDTH = re.compile(r'<svg[^>]*\bwidth="([0-9.]+)"')


def drawn(chart: AnyChart, *, theme: Theme, first_line: int = 0) -> Picture:
    """Draw a chart without its title, which the sheet's own heading says; the lines below it stay as the key to the marks.

    Parameters
    ----------
    chart
        Any chart of this package.
    theme
        Look that it was made with.
    first_line
        First of the lines below the title that stays.

    Returns
    -------
    Picture

    Raises
    ------
    RenderError
        If it cannot be drawn; the engine's own words are kept.
    """
    size = theme.font_size
    key = chart.title["subtitle"][first_line:]
    chart.title = {"text": key, "fontSize": size, "fontWeight": 400, "color": themes.QUIET, "offset": size}
    chart.config = {**theme.config(), "padding": 0}
    svg = to_svg(chart)
    found = _WIDTH.search(svg)
    if found is None:
        message = f"The drawing does not say how wide it is: {svg[:80]}"
        raise RenderError(message)
    return Picture(svg=svg, width=float(found[1]), alternative=str(to_spec(chart)["description"]))
