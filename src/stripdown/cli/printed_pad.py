"""What `stripdown pad` prints for people."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stripdown.cli.printed_basis import print_basis
from stripdown.cli.printed_sheet import print_sentences, print_title
from stripdown.cli.terminal import print_paragraph
from stripdown.units import show
from stripdown.words.numbers import grams, joules, minus, slow, speed

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.core.part_condition.engagement import EngagementPad
    from stripdown.studies.pad_cost import PadCost


def print_pad(console: Console, pad: EngagementPad) -> None:
    """Print how thick a pad is wanted."""
    doubt = ", SUSPECT: the wrong tooth?" if pad.is_suspect else ""
    print_title(console, f"Pad {show(pad.thickness, 'mm', digits=3)} as pressed, on top of what is there{doubt}")
    angle = show(pad.pressure_angle, "deg", digits=3)
    print_paragraph(
        console,
        f"Mark {show(pad.witness_height, 'mm', digits=2)} above the pitch line, pressure angle {angle}, module "
        f"{show(pad.module, 'mm', digits=2)}: {pad.share_of_pitch * 100:.0f} % of a pitch.",
    )
    print_sentences(console, pad.notes)
    print_basis(console, pad.basis)


def print_pad_cost(console: Console, name: str, cost: PadCost, *, speed_unit: str) -> None:
    """Print what a pad costs a gun."""
    console.print()
    print_title(console, f"{name}, {grams(cost.ball_mass)} ball: what the pad costs")
    rows = (
        ("stroke", show(cost.stroke_before, "mm", digits=4), show(cost.stroke_after, "mm", digits=4), cost.stroke_lost),
        ("spring gives", joules(cost.stored_before), joules(cost.stored_after), cost.stored_lost),
        (
            "muzzle speed",
            speed(cost.without.muzzle_speed, speed_unit),
            speed(cost.with_pad.muzzle_speed, speed_unit),
            cost.speed_lost,
        ),
        (
            "slam",
            slow(cost.without.slam_speed, speed_unit),
            slow(cost.with_pad.slam_speed, speed_unit),
            1.0 - cost.with_pad.slam_speed / cost.without.slam_speed,
        ),
    )
    for what, before, after, lost in rows:
        console.print(f"{what:<14}{before:>10}  →  {after:<10}  {minus(f'{-lost * 100:+.1f}')} %", highlight=False)
    print_sentences(console, cost.notes)
    print_basis(console, cost.basis)
