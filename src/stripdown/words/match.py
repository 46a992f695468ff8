"""A gun's model fitted to its strings: the numbers that were fitted, how it meets the strings, what it expects of other balls."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

from stripdown.core.shot_statistics import HopState, StringConditions
from stripdown.studies.match_chronograph import MAKE_DIAMETER, MAKE_MASS, SLOPE_DISCREPANCY, doubts_named
from stripdown.units import Scale, display_unit, from_si, show, show_number, unit_named
from stripdown.words.answer import Answer, Cell, Column, FigureFooting, Sentence, Table
from stripdown.words.gun import PREDICTION, assumed_sentence
from stripdown.words.numbers import fired_with, grams, joules, minus, speed, speed_decimals, speed_unit
from stripdown.words.strings import not_counted, session_notes, strings_told

if TYPE_CHECKING:
    from stripdown.studies.match_chronograph import ChronographMatch, FittedNumber, SecondBall, SpeedPrediction
    from stripdown.studies.observation import Observation
    from stripdown.studies.session_answers import SessionMatch

_ESTIMATE = FigureFooting.ESTIMATE
_FITTED = (
    Column(head="fitted"),
    Column(head="in the file", is_figure=True),
    Column(head="fits the strings", footing=_ESTIMATE, is_figure=True),
    Column(head="95 %", footing=_ESTIMATE, is_figure=True),
    Column(head="learnt", footing=_ESTIMATE, is_figure=True),
)
_MET = (
    Column(head="string"),
    Column(head="shots", is_figure=True),
    Column(head="at the muzzle", footing=FigureFooting.COMPUTED, is_figure=True),
    Column(head="model", footing=_ESTIMATE, is_figure=True),
    Column(head="apart", footing=_ESTIMATE, is_figure=True),
)
_NEXT = Sentence(key="next", full="Next: what may have cost the velocity, or a limit to hold it against.", act="after_match")


DOUBTED = Sentence(
    full="What nobody can measure is taken to be open, and widens what is expected of other balls: "
    + ", ".join(f"{label} by a factor of {math.exp(spread):.1f}" for label, spread in doubts_named())
    + f" either way; other laws of air and heat, {SLOPE_DISCREPANCY * 100:.0f} % for each factor e of mass; "
    f"another make of ball, {MAKE_DIAMETER * 1e3:.2f} mm and {MAKE_MASS * 100:.1f} % of its mass. These are estimates.",
    key="doubts",
)
"""What the spread of a prediction holds."""


def second_ball(second: SecondBall | None) -> Iterator[Sentence]:
    """When another string would at least halve what is open, and with which ball."""
    if second is not None:
        now, then = (f"± {2.0 * share * 100:.1f} %" for share in (second.open_now, second.open_then))
        yield Sentence(
            full=f"Ten shots with {grams(second.ball_mass)} as well would narrow what is expected of the other balls "
            f"from {now} of speed to {then}.",
            key="second_ball",
        )


def match_answer(study: SessionMatch, *, scale: Scale) -> Answer:
    """Say what the strings of a session make of a gun's model."""
    unit = speed_unit(scale)
    assumed = assumed_sentence(study.assumed)
    return Answer(
        key="match",
        title=study.gun.shown_name,
        lead=not_counted(study.strings, study.session.left_out),
        tables=(
            Table(key="fitted", columns=_FITTED, rows=tuple(_fitted_row(number) for number in study.match.fitted)),
            _met_table(study.match, unit),
            _expected_table(study.expected, study.hop, unit),
        ),
        notes=(
            *(Sentence(full=note, key="match") for note in study.match.notes),
            *second_ball(study.expected.second),
            DOUBTED,
            *strings_told(study.strings),
            *session_notes(study.session),
            *(() if assumed is None else (assumed,)),
            PREDICTION,
            _NEXT,
        ),
    )


def _fitted_row(number: FittedNumber) -> tuple[Cell, ...]:
    unit = display_unit(number.quantity).name
    low, high = (show_number(from_si(end, unit), 3) for end in (number.low, number.high))
    return (
        Cell(text=number.name, key=number.path),
        Cell(text=show(number.start, number.quantity, digits=3)),
        Cell(text=show(number.value, number.quantity, digits=3)),
        Cell(text=f"{low} to {high}"),
        Cell(text=f"{max(number.learnt, 0.0) * 100:.0f} %"),
    )


def _met_table(match: ChronographMatch, unit: str) -> Table:
    rows = (_met_row(string, float(predicted), unit) for string, predicted in zip(match.strings, match.predicted, strict=True))
    return Table(key="met", columns=_MET, rows=tuple(rows))


def _met_row(string: Observation, predicted: float, unit: str) -> tuple[Cell, ...]:
    apart = from_si(predicted - string.muzzle_speed, unit)
    fired = StringConditions(ball_mass=string.ball_mass, hop=string.hop, fire_mode=string.fire_mode)
    return (
        Cell(text=fired_with(fired)),
        Cell(text=str(string.count)),
        Cell(text=speed(string.muzzle_speed, unit)),
        Cell(text=speed(predicted, unit)),
        Cell(text=minus(f"{apart:+.{speed_decimals(unit)}f}")),
    )


def _expected_table(expected: SpeedPrediction, hop: HopState | None, unit: str) -> Table:
    columns = (
        Column(head=f"expected, hop-up {'as in the file' if hop is None else hop.value}"),
        Column(head="muzzle speed", footing=_ESTIMATE, is_figure=True),
        Column(head="energy", footing=_ESTIMATE, is_figure=True),
    )
    decimals = speed_decimals(unit)
    rows = []
    for mass, muzzle_speed, uncertainty in zip(
        *map(list, (expected.ball_mass, expected.muzzle_speed, expected.standard_uncertainty)), strict=True
    ):
        reach = max(from_si(2.0 * float(uncertainty), unit), 10.0**-decimals)
        middle = f"{from_si(float(muzzle_speed), unit):.{decimals}f}"
        rows.append(
            (
                Cell(text=grams(float(mass))),
                Cell(text=f"{middle} ± {reach:.{decimals}f} {unit_named(unit).shown}"),
                Cell(text=joules(0.5 * float(mass) * float(muzzle_speed) ** 2)),
            )
        )
    return Table(key="expected", columns=columns, rows=tuple(rows))
