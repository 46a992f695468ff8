"""What `stripdown shot` prints for people: the figures, where the energy went, what was assumed."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rich.table import Table

from stripdown.charts.ledger_bands import Band, bands, escaped
from stripdown.charts.pair import PAIR, short_names
from stripdown.cli.printed_notes import PREDICTION, assumptions, ended, remarked
from stripdown.cli.terminal import print_paragraph
from stripdown.core.interior_ballistics.result import Outcome, ShotSummary
from stripdown.units import from_si, show
from stripdown.words.numbers import grams, joules, joules_gained, minus, per_cent, slow, speed

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.cli.shooting import Shooting

_HEAD = 14  # characters of a gun's name above its column
_BAR = 26  # characters for all that was put in
_EIGHTHS = " ▏▎▍▌▋▊▉"
_FULL = "█"
_SIDE_BY_SIDE = 3  # as many columns as eighty characters hold


@dataclass(frozen=True, slots=True, kw_only=True)
class _Figure:
    """One line of the figures: what is read from the summary, and how it is written."""

    label: str
    read: Callable[[ShotSummary], float | None]
    write: Callable[[float], str]
    with_share: bool = False

    def text(self, summary: ShotSummary) -> str:
        value = self.read(summary)
        return "–" if value is None else self.write(value)

    def difference(self, first: ShotSummary, second: ShotSummary) -> str:
        before, after = self.read(first), self.read(second)
        if before is None or after is None:
            return ""
        signed = f"{'−' if after < before else '+'}{self.write(abs(after - before))}"
        if not (self.with_share and before):
            return signed
        return f"{signed} ({minus(f'{(after / before - 1) * 100:+.0f}')} %)"


def print_shots(console: Console, shootings: Sequence[Shooting], *, speed_unit: str) -> None:
    """Print one shot, or several side by side, with the difference of two."""
    for shooting in shootings:
        console.print(f"{shooting.name}: {_day(shooting)}", style="bold")
    for first in range(0, len(shootings), _SIDE_BY_SIDE):
        some = shootings[first : first + _SIDE_BY_SIDE]
        console.print()
        console.print(_figures(some, speed_unit))
        console.print()
        console.print(_ledger(some))
    for paragraph in (*ended(shootings), *remarked(shootings), *assumptions(shootings), PREDICTION):
        console.print()
        print_paragraph(console, paragraph)


def _day(shooting: Shooting) -> str:
    parameters = shooting.shot.parameters
    air = parameters.ambient
    return f"{grams(parameters.ball.mass)} ball, {show(air.temperature, 'degC')}, {show(air.pressure, 'hPa', digits=4)}"


def _figures(shootings: Sequence[Shooting], speed_unit: str) -> Table:
    table = _table(shootings)
    summaries = [shooting.shot.figures for shooting in shootings]
    for figure in _lines(speed_unit):
        row = [figure.text(summary) for summary in summaries]
        if len(summaries) == PAIR:
            row.append(figure.difference(*summaries))
        table.add_row(figure.label, *row)
    return table


def _lines(speed_unit: str) -> Iterator[_Figure]:
    def milliseconds(time: float) -> str:
        return f"{from_si(time, 'ms'):.1f} ms"

    yield _Figure(label="muzzle speed", read=_if_it_left("muzzle_speed"), write=lambda v: speed(v, speed_unit), with_share=True)
    yield _Figure(label="muzzle energy", read=_if_it_left("muzzle_energy"), write=joules, with_share=True)
    yield _Figure(label="backspin", read=_if_it_left("backspin"), write=lambda v: f"{round(from_si(v, 'rpm'), -2):.0f} rpm")
    yield _Figure(label="spin ratio", read=_if_it_left("spin_ratio"), write=lambda v: f"{v:.3f}")
    yield _Figure(label="ball leaves the muzzle after", read=lambda s: s.time_to_muzzle, write=milliseconds)
    yield _Figure(label="piston lands after", read=lambda s: s.time_to_slam, write=milliseconds)
    yield _Figure(label="piston speed at the slam", read=lambda s: s.slam_speed, write=lambda v: slow(v, speed_unit))
    yield _Figure(label="piston at rest after", read=lambda s: s.time_to_rest, write=milliseconds)
    yield _Figure(label="peak pressure, absolute", read=lambda s: s.peak_pressure, write=lambda v: f"{from_si(v, 'bar'):.2f} bar")


def _if_it_left(name: str) -> Callable[[ShotSummary], float | None]:
    """Read what only a ball that leaves the muzzle has."""
    return lambda summary: float(getattr(summary, name)) if summary.outcome is Outcome.LEFT_MUZZLE else None


def _ledger(shootings: Sequence[Shooting]) -> Table:
    columns = [(*bands(shooting.shot.ledger), *escaped(shooting.shot.ledger)) for shooting in shootings]
    put_in = " and ".join(dict.fromkeys(joules(shooting.shot.ledger.put_in) for shooting in shootings))
    table = _table(shootings, title=f"Where the {put_in} from the spring went")
    inside = len(columns[0]) - len(escaped(shootings[0].shot.ledger))
    for number, row in enumerate(zip(*columns, strict=True)):
        if not any(band.energy for band in row):
            continue
        label = f"  {row[0].label}" if number >= inside else row[0].label
        cells = [f"{joules(band.energy)} {per_cent(band.share):>5}" for band in row]
        if len(row) == 1:
            table.add_row(label, _bar(row[0]), *cells)
        elif len(row) == PAIR:
            table.add_row(label, *cells, joules_gained(row[1].energy - row[0].energy))
        else:
            table.add_row(label, *cells)
    return table


def _table(shootings: Sequence[Shooting], *, title: str = "") -> Table:
    alone = len(shootings) == 1
    table = Table(
        box=None,
        padding=(0, 2 if len(shootings) < _SIDE_BY_SIDE else 1, 0, 0),
        show_header=bool(title) or not alone,
        header_style="bold",
        pad_edge=False,
    )
    table.add_column(title, no_wrap=True)
    if alone and title:
        table.add_column("")
    for name in short_names([shooting.name for shooting in shootings]):
        head = "" if alone else "\n".join(textwrap.wrap(name, _HEAD))
        table.add_column(head, justify="right", vertical="bottom", no_wrap=True)
    if len(shootings) == PAIR:
        table.add_column("difference", justify="right", no_wrap=True)
    return table


def _bar(band: Band) -> str:
    """Length of a share in eighths of a character; a leak or a loss too small for one eighth shows nothing."""
    eighths = round(max(band.share or 0.0, 0.0) * _BAR * 8)
    return _FULL * (eighths // 8) + _EIGHTHS[eighths % 8].strip()
