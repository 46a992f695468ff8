from __future__ import annotations

import itertools

import pytest

from stripdown.charts import themes
from stripdown.charts.themes import PAPER, SCREEN
from stripdown.words.ledger import Group


def _lightness(colour: str) -> float:
    """CIE L* of an sRGB colour.

    IEC 61966-2-1 (linear light from code values, luminance weights 0.2126, 0.7152, 0.0722) and CIE 15 (L* from luminance).
    """
    channels = [int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    luminance = sum(weight * c for weight, c in zip((0.2126, 0.7152, 0.0722), linear, strict=True))
    return float(116 * luminance ** (1 / 3) - 16)


def test_the_measure_of_lightness_is_right() -> None:
    """White is 100, black nearly 0, and mid grey of code 119 is 50 within a tenth."""
    assert _lightness("#ffffff") == pytest.approx(100.0, abs=0.01)
    assert _lightness("#777777") == pytest.approx(50.0, abs=0.1)


def test_neighbours_in_the_ledgers_bar_differ_in_grey() -> None:
    """A grey printer and a colour-blind eye still see where one group ends: 12 of 100 steps of lightness at least."""
    bar = [themes.BALL, themes.PISTON, themes.RUBBER, themes.COLUMN, themes.AIR]
    assert len(bar) == len(Group) - 2
    strip = [(themes.AIR, themes.LEAK), (themes.AIR, themes.GAP)]
    for first, second in (*itertools.pairwise(bar), *strip):
        assert abs(_lightness(first) - _lightness(second)) >= 12


@pytest.mark.parametrize("colour", [themes.INK, themes.QUIET, themes.LEAK])
def test_text_can_be_read_on_white(colour: str) -> None:
    """Contrast of at least 4.5 to 1, as WCAG 2.2 (success criterion 1.4.3) asks of small text."""
    luminance = ((_lightness(colour) + 16) / 116) ** 3
    assert 1.05 / (luminance + 0.05) >= 4.5


def test_paper_fits_between_the_margins_of_a_sheet() -> None:
    """At 72 pixels to the inch the picture is no wider than 170 mm, and its text no smaller than 7 points."""
    assert PAPER.width / 72 * 25.4 <= 170
    assert PAPER.small >= 7


@pytest.mark.parametrize("theme", [SCREEN, PAPER], ids=lambda theme: theme.name)
def test_there_is_one_font(theme: themes.Theme) -> None:
    """Every font that the configuration names is the same."""
    config = theme.config()
    blocks = [config, *(block for block in config.values() if isinstance(block, dict))]
    named = [value for block in blocks for key, value in block.items() if key.lower().endswith("font")]
    assert len(named) >= 6
    assert set(named) == {themes.FONT_STACK}
