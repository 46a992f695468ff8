"""The part "against the limit": what strings prove, and, well apart, what the model only suggests."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from stripdown.core.shot_statistics import EnergyLimit, FireMode, LimitVerdict, MeasuredState, PredictedState
from stripdown.reports.content import Cell, Column, FigureFooting, LimitPart, Named, Picture, Table
from stripdown.studies.verdict import BallVerdict, GunVerdict
from stripdown.units import show, show_number
from stripdown.words.numbers import balls, chance, grams, joules, speed

_NOT_SAID = "–"
_NO_VERDICT = ("No verdict: the reason stands above, under what cannot be said.",)


def limit_part(verdict: GunVerdict | None, limit: EnergyLimit, *, unit: str, picture: Picture | None) -> LimitPart:
    """Say what strings prove against a limit, and what the model suggests of other balls."""
    balls = () if verdict is None else verdict.balls
    measured = [ball.measured for ball in balls if ball.measured is not None]
    predicted = [ball for ball in balls if ball.predicted is not None]
    return LimitPart(
        limit=tuple(_limit(limit)),
        measured=_measured_table(measured, unit) if measured else None,
        predicted=_predicted_table(predicted) if predicted else None,
        picture=picture,
        notes=_NO_VERDICT if verdict is None else tuple(dict.fromkeys(_notes(verdict, measured))),
    )


def limit_in_short(verdict: GunVerdict) -> str:
    """What strings prove, in one line, the worst first."""
    order = (MeasuredState.OVER, MeasuredState.CLOSE, MeasuredState.UNSAID, MeasuredState.UNDER)
    fired = [ball.measured for ball in verdict.balls if ball.measured is not None]
    parts = []
    for state in order:
        found = [_ball(string) for string in fired if string.state is state]
        if found:
            parts.append(f"{state.value} with {', '.join(found)}")
    return _sentence(parts)


def unfired_in_short(verdict: GunVerdict) -> str:
    """Which balls nobody fired, in one line, those first that are expected over."""
    over: list[BallVerdict] = []
    others: list[BallVerdict] = []
    for ball in verdict.balls:
        if ball.predicted is not None:
            (over if ball.predicted.state is PredictedState.EXPECTED_OVER else others).append(ball)
    parts = []
    if over:
        parts.append(f"{PredictedState.EXPECTED_OVER.value}: {', and '.join(_balls_by_mode(over))}")
    if others:
        parts.append(f"nothing is proved with {', nor with '.join(_balls_by_mode(others))}")
    return _sentence(parts)


def _sentence(parts: Sequence[str]) -> str:
    text = "; ".join(parts)
    return f"{text[:1].upper()}{text[1:]}." if text else ""


def _ball(ball: BallVerdict | LimitVerdict) -> str:
    return f"{grams(ball.ball_mass)}{_on(ball.fire_mode)}"


def _on(mode: FireMode | None) -> str:
    return "" if mode is None else f" on {mode.value}"


def _limit(limit: EnergyLimit) -> Iterator[Named]:
    # By area of the ball's largest cross-section: law texts write J/cm2, which is 10 000 J/m2.
    by_area = f"{show_number((limit.energy_per_area or 0.0) * 1e-4)} J/cm² of the ball's largest cross-section"
    amount = by_area if limit.energy is None else joules(limit.energy)
    if limit.measuring_distance is None:
        point = "the rule does not say where it is measured: held at the muzzle, where the ball is fastest"
    elif limit.measuring_distance == 0.0:
        point = "at the muzzle"
    else:
        point = f"{show(limit.measuring_distance, 'm')} from the muzzle"
    yield Named(name="limit", text=f"{amount} for {limit.scope.value}, {point}")
    known = "" if limit.was_read else "quoted: the rule itself was not read"
    whose = ("law" if limit.is_law else "", limit.name, limit.place, limit.source.rstrip("."), limit.date, known)
    yield Named(name="whose", text="; ".join(dict.fromkeys(word for word in whose if word)))
    if limit.remark:
        yield Named(name="remark", text=limit.remark)


def _measured_table(measured: Sequence[LimitVerdict], unit: str) -> Table:
    rule = measured[0].rule
    share, sure = f"{rule.content * 100:.0f} %", f"{rule.confidence * 100:.0f} %"
    columns = (
        Column(head="fired"),
        Column(head="what the string says"),
        Column(head="mean", footing=FigureFooting.MEASURED),
        Column(head=f"bound: {share} of shots under it, {sure} sure", footing=FigureFooting.COMPUTED),
        Column(head="chance that the next shot exceeds", footing=FigureFooting.COMPUTED),
        Column(head="highest mean still under", footing=FigureFooting.COMPUTED),
    )
    return Table(columns=columns, rows=tuple(_measured_row(found, unit) for found in measured))


def _measured_row(found: LimitVerdict, unit: str) -> tuple[Cell, ...]:
    shots = "1 shot" if found.count == 1 else f"{found.count} shots"
    over = f"{found.shots_over} of them over" if found.shots_over else ""
    bound, highest = found.tolerance_energy, found.acceptance_energy
    return (
        Cell(text=_ball(found), small=f"{shots}; limit {speed(found.limit_speed, unit)}"),
        Cell(text=found.state.value, small=over, is_strong=True),
        Cell(text=joules(found.mean_energy), small=speed(found.mean_speed, unit)),
        Cell(
            text=_NOT_SAID if bound is None else joules(bound),
            small="" if found.tolerance_speed is None else speed(found.tolerance_speed, unit),
        ),
        Cell(
            text=_NOT_SAID if found.chance_next_exceeds is None else chance(found.chance_next_exceeds),
            small=f"accepted: {chance(found.rule.accepted_chance)}",
        ),
        Cell(
            text=_NOT_SAID if highest is None else joules(highest),
            small="" if found.guard_band is None else f"guard band {joules(found.guard_band)}",
        ),
    )


def _predicted_table(predicted: Sequence[BallVerdict]) -> Table:
    columns = (
        Column(head="not fired: what the model suggests"),
        Column(head="with"),
        Column(head="energy of a shot", footing=FigureFooting.ESTIMATE),
        Column(head="chance of a shot over", footing=FigureFooting.ESTIMATE),
    )
    rows = []
    for state in PredictedState:
        found = [ball for ball in predicted if ball.predicted is not None and ball.predicted.state is state]
        if found:
            rows.append(_predicted_row(state, found))
    return Table(columns=columns, rows=tuple(rows))


def _predicted_row(state: PredictedState, found: Sequence[BallVerdict]) -> tuple[Cell, ...]:
    forecasts = [ball.predicted for ball in found if ball.predicted is not None]
    chances = [forecast.chance_exceeds for forecast in forecasts]
    energies = [forecast.energy for forecast in forecasts]
    least, most = chance(min(chances)), chance(max(chances))
    low, high = f"{min(energies):.2f}", f"{max(energies):.2f}"
    reach = 2 * max(forecast.energy_standard_uncertainty for forecast in forecasts)
    return (
        Cell(text=state.value),
        Cell(text="; ".join(_balls_by_mode(found))),
        Cell(text=f"{low} J" if low == high else f"{low} to {high} J", small=f"each ± {max(reach, 0.005):.2f} J"),
        Cell(text=most if least == most else f"{least} to {most}", small="if the prediction holds"),
    )


def _balls_by_mode(found: Sequence[BallVerdict]) -> list[str]:
    by_mode: dict[str, list[float]] = {}
    for ball in found:
        by_mode.setdefault(_on(ball.fire_mode), []).append(ball.ball_mass)
    return [f"{balls(masses)}{on}" for on, masses in by_mode.items()]


def _notes(verdict: GunVerdict, measured: Sequence[LimitVerdict]) -> Iterator[str]:
    told: dict[str, list[str]] = {}
    for found in measured:
        for note in found.notes:
            told.setdefault(note, []).append(_ball(found))
    for note, fired in told.items():
        yield note if len(fired) == len(measured) else f"{', '.join(fired)}: {note}"
    yield from verdict.notes
