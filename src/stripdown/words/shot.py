"""What is said of shots: one or several side by side, one gun with many balls, one whose dimensions are changed in turn."""

from __future__ import annotations

import dataclasses
import itertools
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stripdown.core.interior_ballistics.result import Outcome, ShotSummary
from stripdown.units import Scale, from_si, show, unit_named
from stripdown.words.answer import Answer, Cell, Column, Figure, FigureFooting, Named, Sentence, Table
from stripdown.words.gun import PREDICTION, assumed_sentence, outcome_words
from stripdown.words.ledger import PAIR, ledger_table
from stripdown.words.numbers import dimension_name, grams, joules, minus, slow, speed, speed_unit, toleranced

if TYPE_CHECKING:
    from stripdown.core.interior_ballistics.result import Shot
    from stripdown.studies.joule_creep import JouleCreep
    from stripdown.studies.sensitivity import Sensitivity, SensitivityRow
    from stripdown.studies.shooting import FiredAlike, Shooting

PRESSURE_ALONG = "Pressure along the travel"
SPEED_ALONG = "Speed along the travel"
STANDS_STILL = "it does not move"
BY_BALL = "Energy and speed by ball mass"
STAYS = "cross: this ball does not leave the muzzle"
TOLERANCES = "What each part's tolerance does to the speed"
UPPER, LOWER = "upper end", "lower end"
ASSUMED = "assumed, as the gun's file leaves it out"
_NOTHING = "–"
_NEXT = Sentence(
    key="next",
    full="Next: which dimension is worth measuring better, or what your chronograph says of this prediction.",
    act="after_shot",
)
_LONGEST = 22  # characters beside a bar
_LONGEST_HEAD = 42  # characters above a column, where they stand in lines
_SIDE_BY_SIDE = 3  # as many shots as a sheet or a terminal holds


@dataclass(frozen=True, slots=True, kw_only=True)
class _Line:
    """One line of the figures: what is read from the summary, and how it is written."""

    key: str
    label: str
    write: Callable[[float, str], str]
    with_share: bool = False

    def value(self, summary: ShotSummary) -> float | None:
        """The figure; what only a ball that leaves the muzzle has, only of such a one."""
        if self.key in _AT_MUZZLE and summary.outcome is not Outcome.LEFT_MUZZLE:
            return None
        value: float | None = getattr(summary, self.key)
        return value

    def text(self, value: float | None, unit: str) -> str:
        return _NOTHING if value is None else self.write(float(value), unit)

    def difference(self, before: float | None, after: float | None, unit: str) -> str:
        if before is None or after is None:
            return ""
        signed = f"{'−' if after < before else '+'}{self.write(abs(after - before), unit)}"
        if not (self.with_share and before):
            return signed
        return f"{signed} ({minus(f'{(after / before - 1) * 100:+.0f}')} %)"


def _milliseconds(time: float, _: str) -> str:
    return f"{from_si(time, 'ms'):.1f} ms"


_AT_MUZZLE = ("muzzle_speed", "muzzle_energy", "backspin", "spin_ratio")
_LINES = (
    _Line(key="muzzle_speed", label="muzzle speed", write=speed, with_share=True),
    _Line(key="muzzle_energy", label="muzzle energy", write=lambda energy, _: joules(energy), with_share=True),
    _Line(key="backspin", label="backspin", write=lambda spin, _: f"{round(from_si(spin, 'rpm'), -2):.0f} rpm"),
    _Line(key="spin_ratio", label="spin ratio", write=lambda ratio, _: f"{ratio:.3f}"),
    _Line(key="time_to_muzzle", label="ball leaves the muzzle after", write=_milliseconds),
    _Line(key="time_to_slam", label="piston lands after", write=_milliseconds),
    _Line(key="slam_speed", label="piston speed at the slam", write=slow),
    _Line(key="time_to_rest", label="piston at rest after", write=_milliseconds),
    _Line(key="peak_pressure", label="peak pressure, absolute", write=lambda pressure, _: f"{from_si(pressure, 'bar'):.2f} bar"),
)
_LINE = {line.key: line for line in _LINES}
_OF_A_BALL = ("muzzle_speed", "muzzle_energy", "time_to_muzzle", "time_to_slam", "slam_speed")


def shot_answer(fired: FiredAlike, *, scale: Scale) -> Answer:
    """Say how fast the ball leaves and where every joule went; of two guns the differences as well."""
    shootings, unit = fired.shootings, speed_unit(scale)
    notes = (*_ended(shootings), *_remarked(shootings), *_assumed(shootings), PREDICTION, _NEXT)
    pictures = ("ledger", "pressure", "speed")
    if len(shootings) == 1:
        [alone] = shootings
        return Answer(
            key="shot",
            title=f"{alone.name}: {_day(alone)}",
            figures=tuple(_figures(alone.shot.figures, unit)),
            tables=(ledger_table([alone.shot.ledger], [""]),),
            notes=notes,
            pictures=pictures,
        )
    tables: list[Table] = []
    for first in range(0, len(shootings), _SIDE_BY_SIDE):
        some = shootings[first : first + _SIDE_BY_SIDE]
        names = short_names([shooting.name for shooting in some], longest=_LONGEST_HEAD)
        tables += [_side_by_side(some, names, unit), ledger_table([shooting.shot.ledger for shooting in some], names)]
    return Answer(
        key="shots",
        title="Shots side by side",
        named=tuple(Named(name=shooting.name, text=_day(shooting)) for shooting in shootings),
        tables=tuple(tables),
        notes=notes,
        pictures=pictures,
    )


def sweep_answer(creep: JouleCreep, *, scale: Scale) -> Answer:
    """Say how speed and energy go with the mass of the ball, and which ball stays in the barrel."""
    unit = speed_unit(scale)
    lines = [_LINE[key] for key in _OF_A_BALL]
    rows, stays = [], []
    for index, mass in enumerate(creep.ball_mass):
        ball, outcome = grams(float(mass)), creep.outcome[index]
        left = outcome is Outcome.LEFT_MUZZLE
        if not left:
            stays.append(Sentence(key="stays", full=f"{ball}: {outcome_words(outcome)}."))
        found = [getattr(creep, line.key)[index] if left or line.key not in _AT_MUZZLE else None for line in lines]
        cells = [Cell(text=line.text(value, unit), key=line.key) for line, value in zip(lines, found, strict=True)]
        rows.append((Cell(text=ball), *cells))
    columns = [Column(head=line.label, footing=FigureFooting.COMPUTED, is_figure=True) for line in lines]
    most = f"{_capital(most_energy(creep))}. Hold a limit against every ball that a player may bring."
    if Outcome.LEFT_MUZZLE not in creep.outcome:
        most = f"{_capital(most_energy(creep))}."
    assumed = assumed_sentence(creep.complete.assumed)
    return Answer(
        key="sweep",
        title=creep.gun.shown_name,
        tables=(Table(key="balls", columns=(Column(head="ball"), *columns), rows=tuple(rows)),),
        notes=(
            *stays,
            Sentence(key="most_energy", full=most),
            *_beside_limit(creep),
            *(Sentence(full=note) for note in creep.complete.notes),
            *([assumed] if assumed else []),
            PREDICTION,
        ),
        pictures=("ball-masses",),
    )


def limit_line(energy: float) -> str:
    """Say what the line across the energies is."""
    return f"straight line: limit {joules(energy)}"


def _beside_limit(creep: JouleCreep) -> Iterator[Sentence]:
    """Say which balls are predicted over a limit, held at the muzzle; none is ever said to keep to it."""
    allowed = creep.limit_energy
    if creep.limit is None or allowed is None:
        return
    over = [grams(float(mass)) for mass, energy in zip(creep.ball_mass, creep.muzzle_energy, strict=True) if energy > allowed]
    told = f"predicted over it: {', '.join(over)}" if over else "none of these is predicted over it, which permits nothing"
    where = "" if not creep.limit.measuring_distance else " (held at the muzzle here, where the ball is fastest)"
    yield Sentence(key="limit", full=f"Limit {joules(allowed)}{where}: {told}.")


def most_energy(creep: JouleCreep) -> str:
    """Say with which ball the energy is highest, against the lightest that leaves."""
    left = [index for index, outcome in enumerate(creep.outcome) if outcome is Outcome.LEFT_MUZZLE]
    if not left:
        return "no ball leaves the muzzle"
    most = max(left, key=lambda index: float(creep.muzzle_energy[index]))
    lightest = min(left, key=lambda index: float(creep.ball_mass[index]))
    words = f"most energy: {joules(float(creep.muzzle_energy[most]))} with the {grams(float(creep.ball_mass[most]))} ball"
    if most == lightest:
        return words
    more = float(creep.muzzle_energy[most] / creep.muzzle_energy[lightest] - 1) * 100
    return f"{words}, {minus(f'{more:.0f}')} % more than with {grams(float(creep.ball_mass[lightest]))}"


def sensitivity_answer(sensitivity: Sensitivity, *, scale: Scale, most: int = 16) -> Answer:
    """Say what each dimension's own tolerance does to the muzzle speed, the strongest first."""
    unit, shown = speed_unit(scale), sensitivity.rows[:most]
    figure = Column(head="", footing=FigureFooting.COMPUTED, is_figure=True)
    columns = (
        Column(head="dimension"),
        Column(head="value", is_figure=True),
        *(dataclasses.replace(figure, head=head) for head in (UPPER, LOWER)),
    )
    return Answer(
        key="sensitivity",
        title=sensitivity.gun.shown_name,
        lead=(Sentence(key="as_given", full=f"{as_given(sensitivity, unit)}."),),
        tables=(Table(key="dimensions", columns=columns, rows=tuple(_dimension(row, unit) for row in shown)),),
        notes=tuple(_about_tolerances(sensitivity, unit, len(shown))),
        pictures=("tolerances",),
    )


def as_given(sensitivity: Sensitivity, unit: str) -> str:
    """Say what the gun does before anything is changed."""
    predicted, ball = speed(sensitivity.muzzle_speed, unit), grams(sensitivity.ball_mass)
    return f"{predicted} predicted with the {ball} ball, every part as given"


def change_of_speed_in(unit: str) -> str:
    """Name what is written of each end of a tolerance."""
    return f"change of the muzzle speed, {unit_named(unit).shown}"


def fired(name: str, shot: Shot) -> str:
    """Say which ball a shot was predicted with."""
    return f"{name}: {grams(shot.parameters.ball.mass)} ball, predicted"


def put_in(name: str, shot: Shot, unit: str) -> str:
    """Say what the spring put in, and what came out."""
    ball = f"{joules(shot.ledger.put_in)} put in; {grams(shot.parameters.ball.mass)} ball"
    if shot.outcome is Outcome.LEFT_MUZZLE:
        return f"{name}: {ball}, {speed(shot.figures.muzzle_speed, unit)} predicted"
    return f"{name}: {ball}, predicted: {outcome_words(shot.outcome)}"


def short_names(names: Sequence[str], *, longest: int = _LONGEST) -> list[str]:
    """Leave out what all names begin and end with: "Rack 7, healthy" and "Rack 7, as found" are "healthy" and "as found"."""
    words = [name.split() for name in names]
    ahead = _shared(words) if len(names) > 1 else 0
    behind = _shared([each[ahead:][::-1] for each in words]) if len(names) > 1 else 0
    bare = [" ".join(each[ahead : len(each) - behind]).strip(",;:() ") for each in words]
    short = [_cut(name, longest) for name in (bare if all(bare) else names)]
    return short if len(set(short)) == len(short) else [f"no. {number}" for number in range(1, len(names) + 1)]


def _cut(name: str, longest: int) -> str:
    return name if len(name) <= longest else f"{name[: longest - 1].rstrip()}…"


def _shared(words: Sequence[Sequence[str]]) -> int:
    """How many first words all have in common."""
    return sum(1 for _ in itertools.takewhile(lambda same: len(set(same)) == 1, zip(*words, strict=False)))


def _day(shooting: Shooting) -> str:
    air = shooting.shot.parameters.ambient
    ball = grams(shooting.shot.parameters.ball.mass)
    hop = "set" if shooting.shot.parameters.hop_up.normal_force > 0.0 else "off"
    return f"{ball} ball, hop-up {hop}, {show(air.temperature, 'degC')}, {show(air.pressure, 'hPa', digits=4)}"


def _figures(summary: ShotSummary, unit: str) -> Iterator[Figure]:
    for line in _LINES:
        value = line.value(summary)
        text = line.text(value, unit)
        yield Figure(key=line.key, label=line.label, text=text, value=value, footing=FigureFooting.COMPUTED)


def _side_by_side(shootings: Sequence[Shooting], names: Sequence[str], unit: str) -> Table:
    columns = [Column(head=name, footing=FigureFooting.COMPUTED, is_figure=True) for name in names]
    is_pair = len(shootings) == PAIR
    rows = []
    for line in _LINES:
        values = [line.value(shooting.shot.figures) for shooting in shootings]
        cells = [line.text(value, unit) for value in values]
        if is_pair:
            cells.append(line.difference(values[0], values[1], unit))
        rows.append((Cell(text=line.label, key=line.key), *(Cell(text=text) for text in cells)))
    if is_pair:
        columns.append(Column(head="difference", is_figure=True))
    return Table(key="figures", columns=(Column(head=""), *columns), rows=tuple(rows))


def _ended(shootings: Sequence[Shooting]) -> Iterator[Sentence]:
    """Tell of shots that did not end as a shot should."""
    for shooting in shootings:
        if shooting.shot.outcome is not Outcome.LEFT_MUZZLE:
            yield Sentence(key="ended", full=f"{shooting.name}: {outcome_words(shooting.shot.outcome)}.")


def _remarked(shootings: Sequence[Shooting]) -> Iterator[Sentence]:
    """Tell what was computed or replaced on the way, and where the model reaches its limits; each remark once."""
    remarks: dict[Sentence, list[str]] = {}
    for shooting in shootings:
        for note in dict.fromkeys((*shooting.complete.notes, *shooting.shot.notes)):
            remarks.setdefault(Sentence(full=note), []).append(shooting.name)
    yield from (_owned(names, len(shootings), note) for note, names in remarks.items())


def _assumed(shootings: Sequence[Shooting]) -> Iterator[Sentence]:
    """Name what the files leave out and the catalogue filled in; guns that share all of it are told together."""
    lists: dict[Sentence, list[str]] = {}
    for shooting in shootings:
        sentence = assumed_sentence(shooting.complete.assumed)
        if sentence:
            lists.setdefault(sentence, []).append(shooting.name)
    yield from (_owned(names, len(shootings), sentence) for sentence, names in lists.items())


def _owned(names: Sequence[str], count: int, sentence: Sentence) -> Sentence:
    if len(names) == count:
        return sentence
    owners = f"{', '.join(names)}: "
    short = sentence.short and f"{owners}{sentence.short}"
    return dataclasses.replace(sentence, full=f"{owners}{sentence.full}", short=short)


def _dimension(row: SensitivityRow, unit: str) -> tuple[Cell, ...]:
    name = dimension_name(row.path, row.label)
    changes = (row.speed_change_up, row.speed_change_down)
    return (
        Cell(text=f"{name} *" if row.is_assumed else name, key=row.path),
        Cell(text=toleranced(row.value, row.step, row.quantity)),
        *(Cell(text=minus(f"{from_si(change, unit):+.2f}")) for change in changes),
    )


def _about_tolerances(sensitivity: Sensitivity, unit: str, shown: int) -> Iterator[Sentence]:
    how = f"{_capital(change_of_speed_in(unit))}: each dimension in turn at the two ends of its own tolerance."
    yield Sentence(key="how", full=how)
    if any(row.is_assumed for row in sensitivity.rows[:shown]):
        yield Sentence(key="assumed_rows", full=f"* {ASSUMED}.")
    if len(sensitivity.rows) > shown:
        yield Sentence(key="more_rows", full=f"{len(sensitivity.rows) - shown} more have less effect.", act="show_rows")
    if sensitivity.without_effect:
        without = ", ".join(sensitivity.without_effect)
        yield Sentence(key="without_effect", full=f"Without effect on this gun: {without}.", about=sensitivity.without_effect)
    yield PREDICTION


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
