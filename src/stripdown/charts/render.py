"""From a chart to what can be stored or shown: specification, SVG, PNG, or one HTML file that needs no network."""

from __future__ import annotations

import base64
import functools
import html
import json
from collections.abc import Callable
from importlib import resources
from typing import Any, TypeVar

import altair as alt
import vl_convert

from stripdown.charts.themes import FONT
from stripdown.errors import RenderError

AnyChart = alt.Chart | alt.LayerChart | alt.HConcatChart | alt.VConcatChart
_T = TypeVar("_T")

_FACES = {400: "Inter-Regular.otf", 600: "Inter-SemiBold.otf"}
_VEGA_LITE = ".".join(alt.SCHEMA_VERSION.removeprefix("v").split(".")[:2])

_PAGE = """<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{title}</title>
<style>
{faces}
body {{ margin: 1rem; font-family: {font}, sans-serif; background: white; }}
#chart svg {{ max-width: 100%; height: auto; }}
</style>
<script>{bundle}</script>
</head>
<body>
<div id="chart"></div>
<script type="application/json" id="specification">{specification}</script>
<script>
const specification = JSON.parse(document.getElementById("specification").textContent);
Promise.all({weights}.map((weight) => document.fonts.load(weight + " 12px {font}")))
  .then(() => vegaEmbed("#chart", specification, {{ actions: false, renderer: "svg" }}));
</script>
</body>
</html>
"""


def to_spec(chart: AnyChart) -> dict[str, Any]:
    """Turn a chart into its Vega-Lite specification."""
    return _in_engine(chart.to_dict)


def to_svg(chart: AnyChart) -> str:
    """Draw a chart as SVG text.

    Parameters
    ----------
    chart
        From `pictures_of`.

    Returns
    -------
    str
        One SVG document.

    Raises
    ------
    RenderError
        If the chart cannot be drawn.
    """
    specification = to_spec(chart)
    _register_fonts()
    return _in_engine(lambda: vl_convert.vegalite_to_svg(specification, vl_version=_VEGA_LITE, allowed_base_urls=[]))


def to_png(chart: AnyChart, *, scale: float = 2.0) -> bytes:
    """Draw a chart as a PNG picture.

    Parameters
    ----------
    chart
        From `pictures_of`.
    scale
        Pixels for each point of the chart, dimensionless.

    Returns
    -------
    bytes
        One PNG file.

    Raises
    ------
    RenderError
        If the chart cannot be drawn.
    """
    specification = to_spec(chart)
    _register_fonts()
    return _in_engine(lambda: vl_convert.vegalite_to_png(specification, vl_version=_VEGA_LITE, scale=scale, allowed_base_urls=[]))


def to_html(chart: AnyChart, *, title: str) -> str:
    """Write a chart as one HTML page with its font, its script and its data inside.

    Parameters
    ----------
    chart
        From `pictures_of`.
    title
        Of the page.

    Returns
    -------
    str
        One page that reaches nothing outside.

    Raises
    ------
    RenderError
        If the chart cannot be drawn.
    """
    # A name typed by a person may hold "</script>": inside the data, every "<" is written as an escape.
    specification = json.dumps(to_spec(chart), ensure_ascii=False).replace("<", "\\u003c")
    return _PAGE.format(
        title=html.escape(title),
        faces="\n".join(_face(weight, name) for weight, name in _FACES.items()),
        font=FONT,
        bundle=_in_engine(_bundle),
        specification=specification,
        weights=json.dumps(list(_FACES)),
    )


@functools.cache
def _bundle() -> str:
    return vl_convert.javascript_bundle("window.vegaEmbed=vegaEmbed;", vl_version=_VEGA_LITE).replace("</script", "<\\/script")


@functools.cache
def _register_fonts() -> None:
    vl_convert.register_font_directory(str(resources.files("stripdown.charts") / "fonts"))


def _face(weight: int, name: str) -> str:
    font = (resources.files("stripdown.charts") / "fonts" / name).read_bytes()
    source = f"url(data:font/otf;base64,{base64.b64encode(font).decode('ascii')})"
    return f'@font-face {{ font-family: "{FONT}"; font-weight: {weight}; src: {source} format("opentype"); }}'


def _in_engine(work: Callable[[], _T]) -> _T:
    try:
        return work()
    except (ValueError, alt.utils.schemapi.SchemaValidationError) as failure:
        message = f"The chart could not be drawn: {failure}"
        raise RenderError(message) from failure
