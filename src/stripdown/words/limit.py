"""A gun against a limit: what strings prove, and, well apart, what the model only suggests; and which limits there are."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from stripdown.core.shot_statistics import FireNext, MeasuredState, PredictedState
from stripdown.units import Scale, show_number
from stripdown.words.answer import Answer, Caption, Cell, Column, FigureFooting, Named, Sentence, Table
from stripdown.words.chronographs import site_sentence
from stripdown.words.gun import assumed_sentence
from stripdown.words.match import second_ball
from stripdown.words.numbers import balls, chance, grams, joules, joules_with_reach, speed, speed_unit
from stripdown.words.strings import measuring_point, not_counted, session_notes, state_words, strings_told

if TYPE_CHECKING:
    from stripdown.catalogue.limits import CatalogueLimit
    from stripdown.core.shot_statistics import EnergyLimit, FireMode, LimitForecast, LimitVerdict
    from stripdown.studies.session_answers import SessionVerdict
    from stripdown.studies.verdict import BallVerdict, GunVerdict

_NOT_SAID = "–"
_FIRE_NEXT = {
    FireNext.TEN_SHOTS: "fire a string of ten",
    FireNext.MORE_SHOTS: "fire twice as many in one string: more shots can still put it under",
    FireNext.UNTIL_STEADY: "fire strings of ten until two in a row agree, and judge the last",
    FireNext.AFTER_THE_CAUSE: "find the cause first (nozzle return, feed, hop-up rubber), then fire ten",
    FireNext.THIRTY_SHOTS: "fire thirty in one string, and look for what makes single shots fast (two balls, odd balls, rubber)",
}
_ESTIMATE, _COMPUTED = FigureFooting.ESTIMATE, FigureFooting.COMPUTED
_FIRED = (
    Column(head="fired"),
    Column(head="what the string says"),
    Column(head="mean", footing=FigureFooting.MEASURED, is_figure=True),
    Column(head="bound", footing=_COMPUTED, is_figure=True),
    Column(head="next shot exceeds", footing=_COMPUTED, is_figure=True),
    Column(head="highest mean under, and guard band", footing=_COMPUTED, is_figure=True),
)
_PREDICTED = (
    Column(head="not fired"),
    Column(head="what the model suggests"),
    Column(head="energy of a shot", footing=_ESTIMATE, is_figure=True),
    Column(head="shot exceeds, if that holds", footing=_ESTIMATE, is_figure=True),
)
_BEFORE_THE_WORK = Sentence(
    full="These strings were fired before the work: they say how the gun came, and nothing of how it leaves.",
    key="before_the_work",
)
_NO_VERDICT = Sentence(full="No verdict: the reason stands above, under what cannot be said.", key="no_verdict")
NO_ADVICE = Sentence(
    full="No legal advice: laws change, and the site's own rule, chronograph and marshal decide.",
    key="no_advice",
    act="own_limit",
)


def verdict_answer(study: SessionVerdict, *, scale: Scale) -> Answer:
    """Say what the strings of a session prove against a limit, and which balls that were not fired are worth firing."""
    assumed = assumed_sentence(study.assumed) if study.verdict.match is not None else None
    rest = (*strings_told(study.strings), *session_notes(study.session), *(() if assumed is None else (assumed,)))
    part = limit_part(study.verdict, study.verdict.limit, scale=scale, ball_by_ball=True)
    parts = (part, Answer(key="rests_on", title="What this rests on", notes=rest)) if rest else (part,)
    site = () if study.site is None else (site_sentence(study.site),)
    lead = (
        *site,
        *((_BEFORE_THE_WORK,) if study.is_before_the_work else ()),
        *not_counted(study.strings, study.session.left_out),
    )
    return Answer(key="verdict", title=study.gun.shown_name, lead=lead, parts=parts)


def limits_answer(limits: Mapping[str, CatalogueLimit]) -> Answer:
    """List the limits of the catalogue."""
    parts = [Answer(key=key, title=key, named=tuple(_limit(one.limit))) for key, one in limits.items()]
    return Answer(key="limits", title="Energy limits", parts=(*parts, Answer(key="advice", title="", lead=(NO_ADVICE,))))


def limit_part(verdict: GunVerdict | None, limit: EnergyLimit, *, scale: Scale, ball_by_ball: bool = False) -> Answer:
    """Say what strings prove, and what the model suggests of other balls, each by itself or those alike together."""
    found = () if verdict is None else verdict.balls
    measured = [ball for ball in found if ball.measured is not None]
    predicted = [ball for ball in found if ball.predicted is not None]
    tables = (
        _measured_table(measured, speed_unit(scale)) if measured else None,
        _predicted_table([[ball] for ball in predicted] if ball_by_ball else _alike(predicted)) if predicted else None,
    )
    return Answer(
        key="limit",
        title="Against the limit",
        named=tuple(_limit(limit)),
        tables=tuple(table for table in tables if table is not None),
        notes=(_NO_VERDICT,) if verdict is None else tuple(_notes(verdict, measured)),
        pictures=("limit",),
    )


def proved_in_short(verdict: GunVerdict) -> str:
    """What strings prove, in one line, the worst first."""
    order = (MeasuredState.OVER, MeasuredState.CLOSE, MeasuredState.UNSAID, MeasuredState.UNDER)
    by_words: dict[str, list[str]] = {}
    for state in order:
        for ball in verdict.balls:
            if ball.measured is not None and ball.measured.state is state:
                by_words.setdefault(state_words(ball.measured), []).append(ball_words(ball))
    return _sentence([f"{words} with {', '.join(found)}" for words, found in by_words.items()])


def fire_next_words(found: LimitVerdict) -> str:
    """What to fire next, so that more can be said; empty where nothing would help or nothing is missing."""
    return "" if found.fire_next is None else _FIRE_NEXT[found.fire_next]


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


def ball_words(ball: BallVerdict) -> str:
    """A ball and the selector position that it was fired on."""
    return f"{grams(ball.ball_mass)}{_on(ball.fire_mode)}"


def mode_words(mode: FireMode | None) -> str:
    """A selector position as the heading of a panel."""
    return f"on {'no stated position' if mode is None else mode.value}"


def limit_caption(verdict: GunVerdict) -> Caption:
    """Which limit, and a key to the marks; every ball in words for who cannot see it."""
    title = "Energy by ball mass against the limit"
    distance = verdict.limit.measuring_distance
    point = "where it is measured is not said, held at the muzzle" if distance is None else measuring_point(distance)
    lines = [f"{verdict.limit.name}, {point}"]
    if any(ball.measured is not None for ball in verdict.balls):
        lines.append("filled: measured, stroke up to the energy that 95 % of all shots stay under; pale red: guard band")
    if any(ball.predicted is not None for ball in verdict.balls):
        lines.append("open, grey: predicted for balls that were not fired, which proves nothing")
    return Caption(title=title, lines=tuple(lines), description=". ".join([title, *lines, *_spoken(verdict.balls)]))


def _spoken(found: Iterable[BallVerdict]) -> Iterator[str]:
    for ball in found:
        if ball.measured is not None:
            yield f"{ball_words(ball)} measured {joules(ball.measured.mean_energy)}, {state_words(ball.measured)}"
        elif ball.predicted is not None:
            yield f"{ball_words(ball)} predicted {joules(ball.predicted.energy)}, {ball.predicted.state.value}"


def _sentence(parts: Sequence[str]) -> str:
    text = "; ".join(parts)
    return f"{text[:1].upper()}{text[1:]}." if text else ""


def _on(mode: FireMode | None) -> str:
    return "" if mode is None else f" on {mode.value}"


def _limit(limit: EnergyLimit) -> Iterator[Named]:
    # By area of the ball's largest cross-section: law texts write J/cm2, which is 10 000 J/m2.
    by_area = f"{show_number((limit.energy_per_area or 0.0) * 1e-4)} J/cm² of the ball's largest cross-section"
    amount = by_area if limit.energy is None else joules(limit.energy)
    yield Named(name="limit", text=f"{amount} for {limit.scope.value}, {measuring_point(limit.measuring_distance)}", key="limit")
    known = "" if limit.was_read else "quoted: the rule itself was not read"
    whose = ("law" if limit.is_law else "", limit.name, limit.place, limit.source.rstrip("."), limit.date, known)
    yield Named(name="whose", text="; ".join(dict.fromkeys(word for word in whose if word)), key="whose")
    if limit.remark:
        yield Named(name="remark", text=limit.remark, key="remark")


def _measured_table(found: Sequence[BallVerdict], unit: str) -> Table:
    measured = [ball.measured for ball in found if ball.measured is not None]
    rows = tuple(_measured_row(ball, verdict, unit) for ball, verdict in zip(found, measured, strict=True))
    return Table(key="measured", columns=_FIRED, rows=rows)


def _measured_row(ball: BallVerdict, found: LimitVerdict, unit: str) -> tuple[Cell, ...]:
    shots = "1 shot" if found.count == 1 else f"{found.count} shots"
    bound, highest = found.tolerance_energy, found.acceptance_energy
    return (
        Cell(text=ball_words(ball), small=f"{shots}; limit {speed(found.limit_speed, unit)}", key=ball.string or ball.key),
        Cell(text=state_words(found), small=f"{found.shots_over} of them over" if found.shots_over else "", is_strong=True),
        Cell(text=joules(found.mean_energy), small=speed(found.mean_speed, unit)),
        Cell(
            text=_NOT_SAID if bound is None else joules(bound),
            small="" if found.tolerance_speed is None else speed(found.tolerance_speed, unit),
        ),
        Cell(text=_NOT_SAID if found.chance_next_exceeds is None else chance(found.chance_next_exceeds)),
        Cell(
            text=_NOT_SAID if highest is None else joules(highest),
            small="" if found.guard_band is None else joules(found.guard_band),
        ),
    )


def _predicted_table(groups: Iterable[Sequence[BallVerdict]]) -> Table:
    return Table(key="predicted", columns=_PREDICTED, rows=tuple(_predicted_row(group) for group in groups))


def _predicted_row(found: Sequence[BallVerdict]) -> tuple[Cell, ...]:
    """One ball, or several that the model says the same of."""
    forecasts: list[LimitForecast] = [ball.predicted for ball in found if ball.predicted is not None]
    keys = " ".join(ball.key for ball in found)
    chances = sorted(forecast.chance_exceeds for forecast in forecasts)
    least, most = chance(chances[0]), chance(chances[-1])
    if len(forecasts) == 1:
        energy = Cell(text=joules_with_reach(forecasts[0].energy, forecasts[0].energy_standard_uncertainty))
    else:
        energies = sorted(forecast.energy for forecast in forecasts)
        low, high = f"{energies[0]:.2f}", f"{energies[-1]:.2f}"
        reach = 2.0 * max(forecast.energy_standard_uncertainty for forecast in forecasts)
        text = f"{low} J" if low == high else f"{low} to {high} J"
        energy = Cell(text=text, small=f"each ± {max(reach, 0.005):.2f} J")
    return (
        Cell(text="; ".join(_balls_by_mode(found)), key=keys),
        Cell(text=forecasts[0].state.value),
        energy,
        Cell(text=most if least == most else f"{least} to {most}"),
    )


def _alike(predicted: Sequence[BallVerdict]) -> Iterator[list[BallVerdict]]:
    """Balls that the model says the same of, together."""
    for state in PredictedState:
        group = [ball for ball in predicted if ball.predicted is not None and ball.predicted.state is state]
        if group:
            yield group


def _balls_by_mode(found: Sequence[BallVerdict]) -> list[str]:
    by_mode: dict[str, list[float]] = {}
    for ball in found:
        by_mode.setdefault(_on(ball.fire_mode), []).append(ball.ball_mass)
    return [f"{balls(masses)}{on}" for on, masses in by_mode.items()]


def _notes(verdict: GunVerdict, measured: Sequence[BallVerdict]) -> Iterator[Sentence]:
    rules = [ball.measured.rule for ball in measured if ball.measured is not None]
    if rules:
        share, sure = f"{rules[0].content * 100:.0f} %", f"{rules[0].confidence * 100:.0f} %"
        full = (
            f"Under the limit: no shot over it, a chance of at most {chance(rules[0].accepted_chance)} that the next is, bound "
            f"({share} of all shots keep to it, {sure} sure) under it, no drift, heaps or fast tail."
        )
        yield Sentence(full=full, key="rule")
    for ball in measured:
        if ball.measured is not None and ball.measured.fire_next is not None:
            words = f"{ball_words(ball)}: {fire_next_words(ball.measured)}."
            yield Sentence(full=words, key=f"fire_next_{ball.measured.fire_next.name.lower()}", about=(ball.string or ball.key,))
    told: dict[str, list[BallVerdict]] = {}
    for ball in measured:
        for note in () if ball.measured is None else ball.measured.notes:
            told.setdefault(note, []).append(ball)
    for note, fired in told.items():
        full = note if len(fired) == len(measured) else f"{', '.join(map(ball_words, fired))}: {note}"
        yield Sentence(full=full, key="measured", about=tuple(ball.string or ball.key for ball in fired))
    yield from second_ball(verdict.second)
    for note in verdict.notes:
        yield Sentence(full=note, key="verdict")
