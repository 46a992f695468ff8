"""What `stripdown sweep` prints for people."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.table import Table

from stripdown.cli.printed_notes import PREDICTION, assumed_words, outcome_words
from stripdown.cli.terminal import print_paragraph
from stripdown.core.interior_ballistics.result import Outcome
from stripdown.units import from_si
from stripdown.words.numbers import grams, joules, minus, slow, speed

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.bench.completion import CompleteGun
    from stripdown.studies.joule_creep import JouleCreep

_NOTHING = "–"
_HEADS = ("muzzle speed", "energy", "ball out after", "piston lands", "slam")


def print_sweep(console: Console, name: str, completed: CompleteGun, creep: JouleCreep, *, speed_unit: str) -> None:
    """Print speed and energy by ball mass."""
    table = Table(box=None, padding=(0, 2, 0, 0), header_style="bold", pad_edge=False)
    table.add_column("ball", no_wrap=True)
    for head in _HEADS:
        table.add_column(head, justify="right", no_wrap=True)
    stays: list[str] = []
    for index, mass in enumerate(creep.ball_mass):
        left = creep.outcome[index] is Outcome.LEFT_MUZZLE
        if not left:
            stays.append(f"{grams(float(mass))}: {outcome_words(creep.outcome[index])}.")
        table.add_row(
            grams(float(mass)),
            speed(float(creep.muzzle_speed[index]), speed_unit) if left else _NOTHING,
            joules(float(creep.muzzle_energy[index])) if left else _NOTHING,
            _milliseconds(creep.time_to_muzzle[index]),
            _milliseconds(creep.time_to_slam[index]),
            slow(float(creep.slam_speed[index]), speed_unit),
        )
    console.print(name, style="bold")
    console.print()
    console.print(table)
    for paragraph in (*stays, _most(creep), *completed.notes, assumed_words(completed.assumed), PREDICTION):
        if paragraph:
            console.print()
            print_paragraph(console, paragraph)


def _most(creep: JouleCreep) -> str:
    """Say with which ball the energy is highest, against the lightest that leaves."""
    left = [index for index, outcome in enumerate(creep.outcome) if outcome is Outcome.LEFT_MUZZLE]
    if not left:
        return "No ball leaves the muzzle."
    most = max(left, key=lambda index: float(creep.muzzle_energy[index]))
    lightest = min(left, key=lambda index: float(creep.ball_mass[index]))
    words = f"Most energy: {joules(float(creep.muzzle_energy[most]))} with the {grams(float(creep.ball_mass[most]))} ball"
    if most != lightest:
        more = float(creep.muzzle_energy[most] / creep.muzzle_energy[lightest] - 1) * 100
        words += f", {minus(f'{more:.0f}')} % more than with {grams(float(creep.ball_mass[lightest]))}"
    return f"{words}. Hold a limit against every ball that a player may bring."


def _milliseconds(time: float | None) -> str:
    return _NOTHING if time is None else f"{from_si(time, 'ms'):.1f} ms"
