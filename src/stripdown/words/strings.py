"""What chronograph strings say: each with its intervals, what changed between them, what must be said of them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from stripdown.core.shot_statistics import Interval
from stripdown.units import Scale, show, unit_named
from stripdown.words.answer import Answer, Caption, Cell, Column, FigureFooting, Sentence, Table
from stripdown.words.numbers import (
    change_of_energy,
    change_of_speed,
    energy_or_dash,
    fired_with,
    grams,
    share_changed,
    speed,
    speed_range,
    speed_unit,
)

if TYPE_CHECKING:
    from stripdown.bench.strings import ChronographSession, LeftOut
    from stripdown.core.shot_statistics import LimitVerdict, StringComparison, StringConditions, StringStatistics
    from stripdown.studies.service_case import ComparisonOfCase, StringOfCase
    from stripdown.studies.session_answers import SessionComparison, SessionStrings

OUTLIER, SET_ASIDE, COUNTED = "does not belong with the others", "set aside", "counted"
NO_COMPARISON = "does not compare"
_NONE = Cell(text="–")
_MEASURED, _COMPUTED = FigureFooting.MEASURED, FigureFooting.COMPUTED
_STRINGS = (
    Column(head="fired with"),
    Column(head="shots", is_figure=True),
    Column(head="mean", footing=_MEASURED, is_figure=True),
    Column(head="deviation", footing=_COMPUTED, is_figure=True),
    Column(head="spread", footing=_MEASURED, is_figure=True),
    Column(head="mean energy", footing=_COMPUTED, is_figure=True),
)
_CHANGES = (
    Column(head="fired with"),
    Column(head="before: mean", footing=_MEASURED, is_figure=True),
    Column(head="after: mean", footing=_MEASURED, is_figure=True),
    Column(head="change", footing=_COMPUTED, is_figure=True),
    Column(head="mean energy", footing=_COMPUTED, is_figure=True),
)


def strings_answer(study: SessionStrings, *, scale: Scale) -> Answer:
    """Say what each string of a session holds."""
    return Answer(
        key="strings",
        title="Strings",
        tables=(strings_table(study.strings, scale=scale),),
        notes=(*string_notes(study.strings, scale=scale), *session_notes(study.session)),
        pictures=tuple(picture_keys(study.strings)),
    )


def comparison_answer(study: SessionComparison, *, scale: Scale) -> Answer:
    """Say what changed between the strings of a session before and after."""
    part = change_part(study.pairs, study.strings, scale=scale)
    return Answer(
        key="comparison",
        title=part.title,
        tables=part.tables,
        notes=(*part.notes, *session_notes(study.session)),
        pictures=part.pictures,
    )


def change_part(pairs: Sequence[ComparisonOfCase], strings: Sequence[StringOfCase], *, scale: Scale) -> Answer:
    """Pairs of strings, and those that have no partner; where nothing has one, the strings by themselves."""
    if not pairs:
        return Answer(
            key="strings",
            title=" and ".join(dict.fromkeys(_occasion(string).capitalize() for string in strings)) + " the work",
            tables=(strings_table(strings, scale=scale),),
            notes=tuple(string_notes(strings, scale=scale)),
            pictures=tuple(picture_keys(strings)),
        )
    rows = [_pair_row(pair, scale) for pair in pairs]
    paired = [string for pair in pairs for string in (pair.before, pair.after)]
    rows += [_lone_row(string, scale) for string in strings if all(string is not other for other in paired)]
    return Answer(
        key="change",
        title="Before and after",
        tables=(Table(key="changes", columns=_CHANGES, rows=tuple(rows)),),
        notes=(*_sure(strings), *_pair_notes(pairs), *_statistics_notes(strings)),
        pictures=("before-and-after", *picture_keys(strings)),
    )


def changes_in_short(pairs: Sequence[ComparisonOfCase], *, scale: Scale) -> Iterator[str]:
    """The change of each pair in one line."""
    unit = speed_unit(scale)
    for pair in pairs:
        if pair.comparison is not None:
            change, interval = change_of_speed(pair.comparison.difference, pair.comparison.interval, unit)
            before, after = (speed(string.statistics.mean, unit) for string in (pair.before, pair.after))
            ball = fired_with(pair.after.reading.conditions) or "the same ball"
            sure = f"{pair.comparison.confidence * 100:.0f} % interval {interval}"
            yield f"{ball}: {before} before, {after} after, {change} ({sure})."


def strings_table(strings: Sequence[StringOfCase], *, scale: Scale) -> Table:
    """Each string with its mean, scatter and energy."""
    return Table(key="strings", columns=_STRINGS, rows=tuple(_string_row(string, speed_unit(scale)) for string in strings))


def string_notes(strings: Sequence[StringOfCase], *, scale: Scale) -> Iterator[Sentence]:
    """What must be said of strings by themselves: their intervals, what the next shot does, and whether they belong together."""
    sure = f"{strings[0].statistics.confidence * 100:.0f} %"
    yield Sentence(
        full=f"Below each mean its {sure} interval, the instrument's uncertainty included as far as it was given.",
        key="intervals",
    )
    unit = speed_unit(scale)
    for string in strings:
        found = string.statistics
        if found.next_shot_interval is not None and found.tolerance_interval is not None:
            yield _of(
                string,
                f"The next shot lies in {speed_range(found.next_shot_interval, unit)} with {sure}; {sure} of all "
                f"shots lie in {speed_range(found.tolerance_interval, unit)}, {sure} sure.",
                "outlook",
                alone=len(strings) == 1,
            )
    yield from _statistics_notes(strings)


def strings_told(strings: Sequence[StringOfCase]) -> tuple[Sentence, ...]:
    """What the statistics of strings say beside their figures, each sentence with the string that it is about."""
    return tuple(_statistics_notes(strings))


def session_notes(session: ChronographSession) -> tuple[Sentence, ...]:
    """Which lines gave no reading, and how the files were understood."""
    return (*left_out_notes(session.left_out), *(Sentence(full=note, key="understood") for note in session.notes))


def left_out_notes(left_out: Iterable[LeftOut]) -> Iterator[Sentence]:
    """Say which lines gave no reading, and why."""
    for one in left_out:
        where = f"{one.file}, line {one.line}" if one.file else f"line {one.line}"
        full = f"{where}: “{one.text}” was not counted: {one.reason}"
        yield Sentence(full=full, key="left_out", about=(f"{one.file}:{one.line}",))


def picture_keys(strings: Sequence[StringOfCase]) -> list[str]:
    """A key for the picture of each string that a file's name may hold, unlike every other."""
    names: list[str] = []
    for number, string in enumerate(strings, start=1):
        words = "".join(sign if sign.isascii() and sign.isalnum() else " " for sign in string.reading.words.lower()).split()
        name = "-".join(words)[:60] or "string"
        names.append(f"{name}-{number}" if name in names else name)
    return [f"string-{name}" for name in names]


def string_caption(string: StringStatistics, *, verdict: LimitVerdict | None, name: str, scale: Scale) -> Caption:
    """What stands above the picture of a string."""
    unit = speed_unit(scale)
    shown = unit_named(unit).shown
    ball = "" if string.ball_mass is None else f" with the {grams(string.ball_mass)} ball"
    fired = f"{_shots(string.count)}{ball}, {shown}"
    if verdict is None:
        lines = [f"{fired} as read; mean {speed(string.mean, unit)}"]
    else:
        lines = [f"{fired} {measuring_point(verdict.measuring_distance)}: {verdict.state.value}"]
    if string.outliers:
        lines.append(f"ringed: {OUTLIER}, counted all the same")
    if string.set_aside:
        lines.append(f"cross: {SET_ASIDE}, not counted")
    return Caption(title=f"Shots in order: {name}", lines=tuple(lines))


def mean_level(mean: float, interval: Interval | None, *, scale: Scale) -> str:
    """Words at the level of a mean."""
    unit = speed_unit(scale)
    return f"mean {speed(mean, unit)}{'' if interval is None else f' ({speed_range(interval, unit)})'}"


def limit_levels(verdict: LimitVerdict, *, scale: Scale) -> tuple[str, str]:
    """Words at the levels of the bound, empty if there is none, and of the limit."""
    unit = speed_unit(scale)
    bound = "" if verdict.tolerance_speed is None else f"bound {speed(verdict.tolerance_speed, unit)}"
    share = f"{verdict.rule.content * 100:.0f} % of all shots are under"
    return bound and f"{bound}: {share}", f"limit {speed(verdict.limit_speed, unit)}"


def tolerance_levels(string: StringStatistics, *, scale: Scale) -> tuple[str, str]:
    """Words at the lower and the upper end of where nearly all shots lie."""
    low, high = (speed(end, speed_unit(scale)) for end in string.tolerance_interval or (0.0, 0.0))
    share = f"{string.confidence * 100:.0f} % of all shots"
    return f"{share}: from {low}", f"{share}: up to {high}"


def measuring_point(distance: float | None) -> str:
    """Say where a limit is measured."""
    if distance is None:
        return "the rule does not say where it is measured: held at the muzzle, where the ball is fastest"
    return "at the muzzle" if distance == 0.0 else f"{show(distance, 'm')} from the muzzle"


def pair_names(pairs: Sequence[ComparisonOfCase]) -> list[str]:
    """What to call each pair, unlike every other."""
    names = [fired_with(pair.after.reading.conditions) or pair.after.reading.words for pair in pairs]
    return names if len(set(names)) == len(names) else [f"{number}: {name}" for number, name in enumerate(names, 1)]


def change_words(found: StringComparison | None, *, scale: Scale) -> str:
    """The change of a pair and its interval."""
    if found is None:
        return NO_COMPARISON
    change, interval = change_of_speed(found.difference, found.interval, speed_unit(scale))
    return f"{change} ({interval})"


def pairs_caption(pairs: Sequence[ComparisonOfCase], *, scale: Scale) -> Caption:
    """A key to the marks of the picture of pairs; the numbers, which stand in it, for who hears it read out."""
    sure = {f"{string.statistics.confidence * 100:.0f} %" for pair in pairs for string in (pair.before, pair.after)}
    key = f"thin ticks: shots; pale bar and black line: where mean and change lie with {' or '.join(sorted(sure))} confidence"
    spoken = [
        f"{name}: {change_words(pair.comparison, scale=scale)}"
        + ("" if pair.comparison is None else f", {pair.comparison.confidence * 100:.0f} % interval")
        for pair, name in zip(pairs, pair_names(pairs), strict=True)
    ]
    return Caption(title="Before and after", lines=(key,), description=". ".join(["Before and after", *spoken]))


def _string_row(string: StringOfCase, unit: str) -> tuple[Cell, ...]:
    found = string.statistics
    deviation, share = found.standard_deviation, found.relative_standard_deviation
    reading = string.reading
    name = reading.label or fired_with(reading.conditions) or reading.words
    return (
        Cell(text=name, small=_read(reading.conditions, occasion=True), key=string.key),
        Cell(text=str(found.count)),
        Cell(text=speed(found.mean, unit), small=_reach(found, unit)),
        _NONE if deviation is None else Cell(text=speed(deviation, unit), small="" if share is None else f"{share * 100:.2f} %"),
        Cell(text=speed(found.extreme_spread, unit)),
        Cell(text=energy_or_dash(found.mean_energy)),
    )


def _pair_row(pair: ComparisonOfCase, scale: Scale) -> tuple[Cell, ...]:
    unit = speed_unit(scale)
    before, after = pair.before.statistics, pair.after.statistics
    energies = f"{energy_or_dash(before.mean_energy)} → {energy_or_dash(after.mean_energy)}"
    found = None if pair.comparison is None else pair.comparison.energy
    return (
        _fired_cell(pair.after, f"{before.count} and {_shots(after.count)}"),
        Cell(text=speed(before.mean, unit), small=_reach(before, unit), key=pair.before.key),
        Cell(text=speed(after.mean, unit), small=_reach(after, unit), key=pair.after.key),
        _change_cell(pair.comparison, unit),
        Cell(text=energies, small="" if found is None else "\n".join(change_of_energy(found.difference, found.interval))),
    )


def _lone_row(string: StringOfCase, scale: Scale) -> tuple[Cell, ...]:
    found, unit = string.statistics, speed_unit(scale)
    mean = Cell(text=speed(found.mean, unit), small=_reach(found, unit), key=string.key)
    sides = (mean, _NONE) if _occasion(string) == "before" else (_NONE, mean)
    return (_fired_cell(string, _shots(found.count)), *sides, _NONE, Cell(text=energy_or_dash(found.mean_energy)))


def _fired_cell(string: StringOfCase, shots: str) -> Cell:
    conditions = string.reading.conditions
    small = "; ".join(filter(None, (_read(conditions, occasion=False), shots)))
    return Cell(text=fired_with(conditions) or string.reading.words, small=small, key=string.key)


def _change_cell(found: StringComparison | None, unit: str) -> Cell:
    if found is None:
        return Cell(text="does not\ncompare")
    change, interval = change_of_speed(found.speed.difference, found.speed.interval, unit)
    share = "" if found.speed.share is None else f"\n{share_changed(found.speed.share)}"
    return Cell(text=change, small=f"{interval}{share}", is_strong=True)


def _reach(found: StringStatistics, unit: str) -> str:
    return "" if found.mean_interval is None else speed_range(Interval(*found.mean_interval), unit, with_unit=False)


def _read(conditions: StringConditions, *, occasion: bool) -> str:
    distance, temperature = conditions.distance, conditions.temperature
    parts = (
        conditions.occasion.value if occasion and conditions.occasion is not None else "",
        "" if distance is None else f"read at {show(distance, 'm')}",
        "" if temperature is None else show(temperature, "degC", digits=2),
    )
    return ", ".join(filter(None, parts))


def _occasion(string: StringOfCase) -> str:
    occasion = string.reading.conditions.occasion
    return "" if occasion is None else occasion.value


def _shots(count: int) -> str:
    return "1 shot" if count == 1 else f"{count} shots"


def _sure(strings: Sequence[StringOfCase]) -> Iterator[Sentence]:
    sure = {string.statistics.confidence for string in strings}
    if len(sure) == 1:
        yield Sentence(full=f"Ranges hold the true value with {sure.pop() * 100:.0f} % confidence.", key="intervals")


def _statistics_notes(strings: Sequence[StringOfCase]) -> Iterator[Sentence]:
    for string in strings:
        for note in string.statistics.notes:
            yield _of(string, note, "statistics", alone=len(strings) == 1)
        for shot in string.statistics.set_aside:
            yield _of(string, f"Shot {shot.index + 1} set aside: {shot.reason}.", "set_aside", alone=len(strings) == 1)


def _pair_notes(pairs: Sequence[ComparisonOfCase]) -> Iterator[Sentence]:
    for pair in pairs:
        owner = fired_with(pair.after.reading.conditions) or pair.after.reading.words
        notes = () if pair.comparison is None else pair.comparison.notes
        for key, some in (("obstacle", pair.obstacles), ("weakness", pair.cautions), ("comparison", notes)):
            for words in some:
                full = f"{owner}: {words}" if len(pairs) > 1 else words
                yield Sentence(full=full, key=key, about=(pair.before.key, pair.after.key))


def _of(string: StringOfCase, words: str, key: str, *, alone: bool) -> Sentence:
    """A sentence on one string, which it names where there are several."""
    full = words if alone else f"{string.reading.words}: {words[:1].lower() if key != 'statistics' else words[:1]}{words[1:]}"
    return Sentence(full=full, key=key, about=(string.key,))
