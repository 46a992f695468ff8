"""What chronograph strings say: each with its intervals, what changed between them, what must be said of them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from stripdown.core.shot_statistics import Interval, MeasuredState, Occasion
from stripdown.units import Scale, show, unit_named
from stripdown.words.answer import Answer, Caption, Cell, Column, FigureFooting, Sentence, Table
from stripdown.words.chronographs import between_days_notes
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
UNSTEADY = "too unsteady to tell"
_SIDES = (Occasion.BEFORE.value, Occasion.AFTER.value)
_MOST_LINES = 6  # named in the first lines of an answer; all stand below with their reasons
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


def strings_answer(study: SessionStrings, *, scale: Scale) -> Answer:
    """Say what each string of a session holds."""
    return Answer(
        key="strings",
        title="Strings",
        lead=not_counted(study.strings, study.session.left_out),
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
        lead=not_counted(study.strings, study.session.left_out),
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
            notes=(*string_notes(strings, scale=scale), *_days_unsaid(strings)),
            pictures=tuple(picture_keys(strings)),
        )
    days = _days(strings)
    rows = [_pair_row(pair, scale, days=days) for pair in pairs]
    paired = [string for pair in pairs for string in (pair.before, pair.after)]
    rows += [_lone_row(string, scale, days=days) for string in strings if all(string is not other for other in paired)]
    return Answer(
        key="change",
        title="Before and after",
        tables=(Table(key="changes", columns=_changes(days), rows=tuple(rows)),),
        notes=(
            *_sure(strings),
            *_pair_notes(pairs),
            *between_days_notes(tuple(pairs)),
            *_statistics_notes(strings),
            *_days_unsaid(strings),
        ),
        pictures=("before-and-after", *picture_keys(strings)),
    )


def changes_in_short(pairs: Sequence[ComparisonOfCase], *, scale: Scale) -> Iterator[str]:
    """The change of each pair in one line."""
    unit = speed_unit(scale)
    for pair in pairs:
        if pair.comparison is not None:
            change, interval = change_of_speed(pair.comparison.difference, pair.comparison.interval, unit)
            before, after = (speed(found.mean, unit) for found in pair.statistics)
            ball = fired_with(pair.after.reading.conditions) or "the same ball"
            sure = f"{pair.comparison.confidence * 100:.0f} % interval {interval}"
            yield f"{ball}: {before} before, {after} after, {change} ({sure})."


def strings_table(strings: Sequence[StringOfCase], *, scale: Scale) -> Table:
    """Each string with its mean, scatter and energy."""
    return Table(key="strings", columns=_STRINGS, rows=tuple(_string_row(string, speed_unit(scale)) for string in strings))


def string_notes(strings: Sequence[StringOfCase], *, scale: Scale) -> Iterator[Sentence]:
    """What must be said of strings by themselves: their intervals, what the next shot does, and whether they belong together."""
    sure = f"{strings[0].statistics.confidence * 100:.0f} %"
    # what is there besides the rounding of the display was given
    is_given = any(string.statistics.common_uncertainty > 0.3 * string.reading.resolution for string in strings)
    left_out = (
        "the instrument's uncertainty included."
        if is_given
        else "of scatter alone: what the chronograph reads wrong is not in it."
    )
    yield Sentence(full=f"Below each mean its {sure} interval, {left_out}", key="intervals")
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


def not_counted(strings: Sequence[StringOfCase], left_out: Sequence[LeftOut]) -> tuple[Sentence, ...]:
    """What does not count, what is asked, and what nothing is said by: for the first lines of an answer."""
    return (*_in_short(strings, left_out), *_questions(strings), *_doubts(strings))


def _in_short(strings: Sequence[StringOfCase], left_out: Sequence[LeftOut]) -> Iterator[Sentence]:
    parts: list[str] = []
    for words, some in (
        ("no reading", [one for one in left_out if not one.is_no_shot]),
        ("figures of shots", [one for one in left_out if one.is_no_shot]),
    ):
        by_file: dict[str, list[int]] = {}
        for one in some:
            by_file.setdefault(one.file, []).append(one.line)
        parts += [f"{_lines(lines)}{f' of {file}' if file else ''} ({words})" for file, lines in by_file.items()]
    for string in strings:
        shots = string.statistics.set_aside
        if shots:
            told = ", ".join(f"shot {shot.index + 1}: {shot.reason}" for shot in shots)
            parts.append(f"{string.reading.words} ({told})")
    if parts:
        yield Sentence(full=f"Not counted: {'; '.join(parts)}.", key="not_counted")


def _lines(numbers: Sequence[int]) -> str:
    """Numbers of lines, the first few of many."""
    shown = ", ".join(map(str, numbers[:_MOST_LINES])) + (
        f" and {len(numbers) - _MOST_LINES} more" * (len(numbers) > _MOST_LINES)
    )
    return f"{'line' if len(numbers) == 1 else 'lines'} {shown}"


def _questions(strings: Sequence[StringOfCase]) -> Iterator[Sentence]:
    for string in strings:
        aside = {shot.index for shot in string.statistics.set_aside}
        answered = {line for place, line in enumerate(string.reading.lines) if place in aside}
        for one in string.reading.asked:
            if one.line not in answered:
                where = f"{one.file}, line {one.line}" if one.file else f"line {one.line}"
                full = f"{where}: “{one.text}”: {one.reason} It counts; if it is none, set it aside."
                yield Sentence(full=full, key="asked", about=(string.key,))


def _doubts(strings: Sequence[StringOfCase]) -> Iterator[Sentence]:
    for string in strings:
        if string.reading.doubt:
            full = f"{string.reading.words}: {string.reading.doubt}, so nothing is said of a limit by this string."
            yield Sentence(full=full, key="doubt", about=(string.key,))


def session_notes(session: ChronographSession) -> tuple[Sentence, ...]:
    """Which lines gave no reading, and how the files were understood."""
    return (*left_out_notes(session.left_out), *(Sentence(full=note, key="understood") for note in session.notes))


def left_out_notes(left_out: Iterable[LeftOut]) -> Iterator[Sentence]:
    """Say which lines gave no reading, and why."""
    for one in left_out:
        where = f"{one.file}, line {one.line}" if one.file else f"line {one.line}"
        full = f"{where}: “{one.text}” {'is not counted' if one.is_no_shot else 'was not counted'}: {one.reason}"
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
        lines = [f"{fired} {measuring_point(verdict.measuring_distance)}: {state_words(verdict)}"]
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


def state_words(found: LimitVerdict) -> str:
    """What a string says of a limit; where it says nothing because its shots do not belong together, that."""
    return UNSTEADY if found.state is MeasuredState.CLOSE and found.unsteady else found.state.value


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


def speeds_shown(pairs: Sequence[ComparisonOfCase]) -> str:
    """Which speeds stand beside each other."""
    moved = [pair.moved is not None for pair in pairs]
    if not any(moved):
        return "speed as read"
    return "speed at the muzzle" if all(pair.is_at_muzzle for pair in pairs) else "speed where each pair compares"


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


def _pair_row(pair: ComparisonOfCase, scale: Scale, *, days: Mapping[str, str]) -> tuple[Cell, ...]:
    unit = speed_unit(scale)
    before, after = pair.statistics
    energies = f"{energy_or_dash(before.mean_energy)} → {energy_or_dash(after.mean_energy)}"
    found = None if pair.comparison is None else pair.comparison.energy
    return (
        _fired_cell(pair.after, f"{before.count} and {_shots(after.count)}", at_muzzle=pair.is_at_muzzle),
        Cell(text=speed(before.mean, unit), small=_reach_on_day(before, pair.before, unit, days), key=pair.before.key),
        Cell(text=speed(after.mean, unit), small=_reach_on_day(after, pair.after, unit, days), key=pair.after.key),
        _change_cell(pair.comparison, unit),
        Cell(text=energies, small="" if found is None else "\n".join(change_of_energy(found.difference, found.interval))),
    )


def _lone_row(string: StringOfCase, scale: Scale, *, days: Mapping[str, str]) -> tuple[Cell, ...]:
    found, unit = string.statistics, speed_unit(scale)
    mean = Cell(text=speed(found.mean, unit), small=_reach_on_day(found, string, unit, days), key=string.key)
    sides = (mean, _NONE) if _occasion(string) == "before" else (_NONE, mean)
    return (_fired_cell(string, _shots(found.count)), *sides, _NONE, Cell(text=energy_or_dash(found.mean_energy)))


def _fired_cell(string: StringOfCase, shots: str, *, at_muzzle: bool = False) -> Cell:
    conditions = string.reading.conditions
    small = "; ".join(filter(None, ("at the muzzle" if at_muzzle else _read(conditions, occasion=False), shots)))
    return Cell(text=fired_with(conditions) or string.reading.words, small=small, key=string.key)


def _change_cell(found: StringComparison | None, unit: str) -> Cell:
    if found is None:
        return Cell(text="does not\ncompare")
    change, interval = change_of_speed(found.speed.difference, found.speed.interval, unit)
    share = "" if found.speed.share is None else f"\n{share_changed(found.speed.share)}"
    return Cell(text=change, small=f"{interval}{share}", is_strong=True)


def _reach(found: StringStatistics, unit: str) -> str:
    return "" if found.mean_interval is None else speed_range(Interval(*found.mean_interval), unit, with_unit=False)


def _days(strings: Sequence[StringOfCase]) -> dict[str, str]:
    """The day of each occasion, where all its strings say the same one."""
    said = {occasion: {one.reading.conditions.day for one in strings if _occasion(one) == occasion} for occasion in _SIDES}
    return {occasion: days.pop() or "" for occasion, days in said.items() if len(days) == 1}


def _changes(days: Mapping[str, str]) -> tuple[Column, ...]:
    """Columns of changes; a day that all strings of a side share stands in its head."""
    sides = (f"{occasion}{f' ({day})' if (day := days.get(occasion, '')) else ''}: mean" for occasion in _SIDES)
    return (
        Column(head="fired with"),
        *(Column(head=side, footing=_MEASURED, is_figure=True) for side in sides),
        Column(head="change", footing=_COMPUTED, is_figure=True),
        Column(head="mean energy", footing=_COMPUTED, is_figure=True),
    )


def _reach_on_day(found: StringStatistics, string: StringOfCase, unit: str, days: Mapping[str, str]) -> str:
    """The interval of a mean, and below it the day of its string where the head of its column does not say it."""
    day = string.reading.conditions.day or ""
    return "\n".join(filter(None, (_reach(found, unit), "" if day == days.get(_occasion(string)) else day)))


def _read(conditions: StringConditions, *, occasion: bool) -> str:
    distance, temperature = conditions.distance, conditions.temperature
    parts = (
        conditions.occasion.value if occasion and conditions.occasion is not None else "",
        (conditions.day or "") if occasion else "",
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


def _days_unsaid(strings: Sequence[StringOfCase]) -> Iterator[Sentence]:
    silent = [string for string in strings if not string.reading.conditions.day]
    if silent:
        which = (
            "no string says" if len(silent) == len(strings) else f"not said for {', '.join(one.reading.words for one in silent)}"
        )
        full = f"The day on which it was fired: {which}. Write it beside the readings, such as 2026-11-28."
        yield Sentence(full=full, key="day_unsaid", about=tuple(string.key for string in silent))


def _statistics_notes(strings: Sequence[StringOfCase]) -> Iterator[Sentence]:
    for string in strings:
        for note in string.statistics.notes:
            yield _of(string, note, "statistics", alone=len(strings) == 1)


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
