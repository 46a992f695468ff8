"""What `stripdown corner` prints for people."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stripdown.cli.printed_basis import print_basis, print_figures
from stripdown.cli.terminal import print_paragraph
from stripdown.core.part_condition.corners import RADIUS
from stripdown.units import show, show_number

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.core.part_condition.corners import CornerGain, StressConcentration


def print_concentration(console: Console, found: StressConcentration) -> None:
    """Print what one corner does."""
    print_figures(console, [_peak(found)])
    print_paragraph(console, 'With --to "1.5 mm" it says what that radius would gain.')
    print_basis(console, found.basis)


def print_gain(console: Console, gain: CornerGain) -> None:
    """Print what a larger radius takes off."""
    before, after = gain.before, gain.after
    rows = [
        _peak(before),
        _peak(after),
        ("gain, peak before over peak after", _range(gain.ratio, gain.low, gain.high)),
    ]
    if gain.notch_ratio is not None:
        rows.append(("the same for a notch in one edge", show_number(gain.notch_ratio, 2)))
    print_figures(console, rows)
    if gain.low <= 1.0:
        print_paragraph(console, "The charts cannot tell this from no gain at all: a larger radius would show.")
    print_basis(console, gain.basis)


def _peak(found: StressConcentration) -> tuple[str, str]:
    radius = show(found.radius, RADIUS)
    return f"peak over mean, {found.loading.value}, radius {radius}", _range(found.factor, found.low, found.high)


def _range(value: float, low: float, high: float) -> str:
    """Two digits: the charts give no more."""
    return f"{show_number(value, 2)} ({show_number(low, 2)} to {show_number(high, 2)})"
