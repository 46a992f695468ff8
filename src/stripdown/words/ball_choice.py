"""Which ball suits a gun: what is said of each."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from stripdown.core.shot_statistics import PredictedState
from stripdown.units import Scale
from stripdown.words.answer import Answer, Caption, Cell, Column, FigureFooting, Sentence, Table
from stripdown.words.flight import NO_LIFT_KNOWN, SAFE_SIDE
from stripdown.words.gun import PREDICTION, assumed_sentence
from stripdown.words.limit import NO_ADVICE, mode_words
from stripdown.words.numbers import grams, joules, speed, speed_unit
from stripdown.words.strings import measuring_point

if TYPE_CHECKING:
    from stripdown.studies.ball_choice import BallChoice, BallOfChoice

_ESTIMATE = FigureFooting.ESTIMATE
_NOTHING = "–"
_NOT_FIRED = {
    PredictedState.WORTH_FIRING: "not fired: worth a string",
    PredictedState.DOUBTFUL: "not fired: near it, fire a string",
    PredictedState.EXPECTED_OVER: "not fired: expected over",
}
CHOICE = "Balls for this gun"
CARRY, LEFT, TO_LIMIT = "Carries within the window, m", "Energy left, J", "Energy at the muzzle, J"


def balls_answer(study: BallChoice, *, scale: Scale) -> Answer:
    """Say how each ball leaves, how far it carries, and what is known of it against the limit."""
    assumed = assumed_sentence(study.assumed)
    return Answer(
        key="balls",
        title=f"{study.gun.shown_name}: which ball",
        lead=tuple(_lead(study)),
        tables=(_table(study, speed_unit(scale)),),
        notes=(
            Sentence(
                key="carry",
                full=f"Carry: how far the best hop setting for that ball keeps it within {study.window * 100:.0f} cm of the "
                "line of the sights. Lift needed: at the muzzle, over the ball's weight; the spin over that of the present "
                "setting "
                "is an estimate, and a hop-up may not give so much, nor give it without slowing the ball.",
            ),
            NO_LIFT_KNOWN,
            *([assumed] if assumed else []),
            PREDICTION,
        ),
        cautions=(NO_ADVICE, SAFE_SIDE) if study.limit is not None else (SAFE_SIDE,),
        pictures=("choice",),
    )


def choice_caption(study: BallChoice) -> Caption:
    """Say what the picture of the balls shows."""
    at = f"{study.looked_at:g} m"
    lines = [f"{study.gun.shown_name}; carry within {study.window * 100:.0f} cm of the line of the sights, energy left at {at}"]
    if study.verdict is not None:
        lines.append("filled: a string was fired with it; open: expected, which proves nothing")
    if study.limit is not None:
        lines.append(f"red: {study.limit.name}, as it is at the muzzle for each ball")
    return Caption(title=CHOICE, lines=tuple(lines))


def limit_words(ball: BallOfChoice, study: BallChoice) -> str:
    """Say what is known of a ball against the limit: a string, or that it was not fired."""
    if study.limit is None:
        return ""
    if not ball.verdicts:
        return "not fired: nothing is proved"
    said: dict[str, str] = {}
    for one in ball.verdicts:
        if one.measured is not None:
            said[mode_words(one.fire_mode)] = one.measured.state.value
        elif one.predicted is not None:
            said[mode_words(one.fire_mode)] = _NOT_FIRED[one.predicted.state]
    if len(set(said.values())) == 1:
        return next(iter(said.values()))
    return "; ".join(f"{mode}: {words}" for mode, words in said.items())


def _lead(study: BallChoice) -> Iterator[Sentence]:
    reach = [ball for ball in study.balls if ball.hop is not None]
    if reach:
        furthest = max(reach, key=lambda ball: ball.hop.reach if ball.hop is not None else 0.0)
        hottest = max(study.balls, key=lambda ball: ball.energy)
        assert furthest.hop is not None  # noqa: S101  narrows
        yield Sentence(
            key="furthest",
            full=f"Furthest: {grams(furthest.ball_mass)}, {furthest.hop.reach:.0f} m, if the hop-up can hold it up. Hottest: "
            f"{grams(hottest.ball_mass)}, {joules(hottest.energy)}.",
        )
    if study.limit is not None:
        said = f"Held against: {study.limit.name}, {measuring_point(study.limit.measuring_distance)}."
        yield Sentence(key="limit", full=said)
    if study.limit is not None and study.verdict is None:
        yield Sentence(
            key="not_fired", full="A limit is held against strings only; without readings nothing is proved of any ball."
        )
    if study.limit is None:
        yield Sentence(key="no_limit", full="No limit was named; a heavier ball can leave with more energy.", act="name_limit")


def _table(study: BallChoice, unit: str) -> Table:
    at = f"at {study.looked_at:g} m"
    heads = ("leaves with", "carries", "lift needed", f"left {at}", f"drifts {at}")
    columns = (
        Column(head="ball"),
        *(Column(head=head, is_figure=True, footing=_ESTIMATE) for head in heads),
        *([Column(head="the limit")] if study.limit is not None else []),
    )
    rows = tuple(
        (
            Cell(text=grams(ball.ball_mass), key=str(round(ball.ball_mass * 1e9))),
            Cell(text=joules(ball.energy), small=speed(ball.speed, unit)) if ball.speed > 0.0 else Cell(text="it stays"),
            *_carried(ball),
            *([Cell(text=limit_words(ball, study))] if study.limit is not None else []),
        )
        for ball in study.balls
    )
    return Table(key="balls", columns=columns, rows=rows)


def _carried(ball: BallOfChoice) -> tuple[Cell, ...]:
    hop, energy, time, drift = ball.hop, ball.energy_there, ball.time_there, ball.drift_there
    return (
        Cell(text=_NOTHING if hop is None else f"{hop.reach:.0f} m"),
        Cell(text=_NOTHING) if hop is None else Cell(text=f"{hop.over_weight:.1f}", small=f"spin × {hop.times_present:.1f}"),
        Cell(text=_NOTHING) if energy is None or time is None else Cell(text=joules(energy), small=f"{time:.2f} s"),
        Cell(text=_NOTHING if drift is None else f"{drift * 100:.0f} cm"),
    )
