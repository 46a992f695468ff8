from __future__ import annotations

import json
import re
from html.parser import HTMLParser

import altair as alt
import pytest
import vl_convert

from stripdown.charts.ledger import ledger_at_a_glance
from stripdown.charts.render import to_html, to_png, to_spec, to_svg
from stripdown.charts.themes import SCREEN
from stripdown.core.interior_ballistics.result import Shot
from stripdown.errors import RenderError

_HOSTILE = 'Rack </script><script>alert("7")</script>'


@pytest.fixture
def chart(healthy: Shot) -> alt.VConcatChart:
    """A picture whose gun has a name that would break a careless page."""
    return ledger_at_a_glance([healthy], names=[_HOSTILE], speed_unit="m/s", theme=SCREEN)


class _Page(HTMLParser):
    """What a page would load, and the texts of its scripts."""

    def __init__(self) -> None:
        super().__init__()
        self.loads: list[str] = []
        self.scripts: list[str] = []
        self._in_script = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._in_script = tag == "script"
        self.loads += [value or "" for name, value in attrs if name in {"src", "href"}]

    def handle_data(self, data: str) -> None:
        if self._in_script:
            self.scripts.append(data)

    def handle_endtag(self, tag: str) -> None:
        self._in_script = self._in_script and tag != "script"


def test_a_page_loads_nothing(chart: alt.VConcatChart) -> None:
    """No script, style sheet or font comes from elsewhere: a bench without a network sees the same."""
    page = _Page()
    html = to_html(chart, title=_HOSTILE)
    page.feed(html)
    assert page.loads == []
    assert not re.search(r"cdn|jsdelivr|unpkg|googleapis", html)
    assert re.findall(r"url\((.{5})", html.split("</style>")[0]) == ["data:", "data:"]
    assert "@import" not in html.split("</style>")[0]


def test_a_hostile_name_does_not_leave_the_data(chart: alt.VConcatChart) -> None:
    """The page has its three scripts and no fourth, and the name arrives in the data as it was typed."""
    page = _Page()
    page.feed(to_html(chart, title=_HOSTILE))
    _, specification, _ = [script for script in page.scripts if script.strip()]
    assert json.loads(specification)["title"]["subtitle"][0].startswith(_HOSTILE)


def test_svg_is_the_same_every_time_and_has_its_own_font(chart: alt.VConcatChart) -> None:
    """Same chart, same text; the words are text in the packaged font, and markup in a name is escaped."""
    svg = to_svg(chart)
    assert svg == to_svg(chart)
    assert svg.startswith("<svg")
    assert "Inter" in svg
    assert "<script" not in svg


def test_png_is_a_picture_of_the_size_asked_for(chart: alt.VConcatChart) -> None:
    """Twice the scale is twice the width, read from the header that the PNG specification fixes (bytes 16 to 19)."""
    single, double = to_png(chart, scale=1.0), to_png(chart, scale=2.0)
    assert single[:8] == b"\x89PNG\r\n\x1a\n"
    widths = [int.from_bytes(png[16:20], "big") for png in (single, double)]
    assert widths[1] == pytest.approx(2 * widths[0], abs=2)


def test_the_packaged_font_is_the_one_that_is_drawn() -> None:
    """A wide and a narrow letter in the packaged font differ from the engine's own sans serif."""

    def text(font: str) -> bytes:
        mark = alt.Chart(alt.InlineData(values=[{"words": "Rag 150"}])).mark_text(font=font, fontSize=40).encode(text="words:N")
        return to_png(mark, scale=1.0)

    assert text("Inter") != text("sans-serif")


def test_data_from_elsewhere_are_not_fetched() -> None:
    """A specification that asks for an address gets an error, not a connection."""
    outside = alt.Chart("https://example.org/data.json").mark_point().encode(x="a:Q")
    with pytest.raises(RenderError, match="could not be drawn"):
        to_svg(outside)


def test_an_engine_that_fails_keeps_its_own_words(chart: alt.VConcatChart, monkeypatch: pytest.MonkeyPatch) -> None:
    """What the engine said is in the message, for whoever has to look into it."""

    def broken(*_: object, **__: object) -> str:
        message = "no glyphs today"
        raise ValueError(message)

    monkeypatch.setattr(vl_convert, "vegalite_to_svg", broken)
    with pytest.raises(RenderError, match="no glyphs today"):
        to_svg(chart)


def test_a_specification_carries_its_data(chart: alt.VConcatChart) -> None:
    """It can be embedded in a page as it is."""
    assert to_spec(chart)["datasets"]
