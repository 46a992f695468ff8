"""Rows that are no shots: the mean, spread or sum of those above, by their words or, where they have none, by their numbers."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType
from typing import Final

# What spreadsheets and chronographs write before a figure, without accents and points; several languages.
_WORDS: Final[Mapping[str, str]] = MappingProxyType(
    {
        word: name
        for name, words in {
            "mean": "mean|average|avg|ave|arithmetic mean|mean value|x|xbar|ø|μ|mittel|mittelwert|mw|durchschnitt|"
            "schnitt|gesamtmittel|moyenne|moy|media|promedio|prom|média|middelværdi|gjennomsnitt|gemiddelde|"
            "gem|medel|medelvärde|średnia|keskiarvo|ka|průměr|priemer|átlag|medie|среднее|ср|среднее значение|"
            "μέσος όρος|ortalama|平均|平均値|平均值|평균",
            "median": "median|mediana|médiane|zentralwert|медиана|mediaan|mediaani|中央値|中位数",
            "standard deviation": "standard deviation|std deviation|std dev|stdev|stddev|st dev|std|sd|s|σ|deviation|"
            "standardabweichung|stabw|std-abw|streuung|écart-type|écart type|ecart-type|desviación típica|"
            "desviación estándar|desv est|desv|deviazione standard|dev standard|dev std|scarto|desvio padrão|"
            "odchylenie standardowe|odchylenie|keskihajonta|hajonta|směrodatná odchylka|szórás|"
            "standardafwijking|standardavvikelse|standardavvik|standardafvigelse|ско|стандартное отклонение|"
            "标准差|標準偏差|표준편차",
            "spread": "spread|extreme spread|es|range|span|delta|δ|r|spannweite|spanne|étendue|écart|rango|recorrido|"
            "campo|escursione|amplitude|rozstęp|vaihteluväli|bereik|variationsbredd|размах|範囲|极差",
            "greatest": "max|maximum|high|highest|hi|fastest|größter|höchster|maximal|maxi|máximo|máx|massimo|maks|"
            "maksimum|suurin|макс|максимум|最大|最大値|最大值|최대",
            "least": "min|minimum|low|lowest|lo|slowest|kleinster|niedrigster|minimal|mini|mínimo|mín|minimo|pienin|"
            "мин|минимум|最小|最小値|最小值|최소",
            "sum": "sum|total|summe|gesamt|somme|suma|somma|soma|summa|razem|yhteensä|totaal|сумма|итого|合計|总和",
            "number of shots": "count|n|shots fired|number of shots|anzahl|nombre|número|numero|liczba|lukumäärä|aantal|antal|"
            "кол-во|количество|発射数",
        }.items()
        for word in words.split("|")
    }
)
_NUMBERS: Final = re.compile(
    r"[+\-\u2212±]?\d[\d.,]*\s*(?:m/s|mps|fps|ft/s|km/h|mph|joules?|j|g|%)?(?![\w/])|\b(?:m/s|mps|fps|ft/s|km/h|mph)\b",
    re.IGNORECASE,
)
_BETWEEN: Final = re.compile(r"\s*[;,|\t:=]\s*|\s{2,}")
_FIGURE: Final = " ; "
_FEWEST: Final = 3  # shots above, for a figure to be told from a shot by its number
_LONGEST: Final = 6  # rows of figures below a string
_RARE: Final = 0.01  # chance below which real shots are not taken to equal figures


def statistic_named(text: str) -> str:
    """What a line is by its words, all of which name statistics of shots; empty if it may be a shot, or has no number."""
    bare = text.strip(" \t;,|\"'")
    rest = _NUMBERS.sub(_FIGURE, bare)
    if rest == bare or rest.startswith(_FIGURE):  # a row of a table begins with a figure, whatever stands beside it
        return ""
    words = [plain for part in _BETWEEN.split(rest) if (plain := _plain(part))]
    names = [_WORDS.get(word, "") for word in words]
    return " and ".join(dict.fromkeys(names)) if names and all(names) else ""


def is_statistic(word: str) -> bool:
    """Whether a cell names a statistic of shots."""
    return _plain(word) in _WORDS


def _plain(text: str) -> str:
    """Without points, brackets, quotes and the stroke over an x."""
    return " ".join(text.casefold().replace(".", " ").replace("\u0304", "").replace("x̅", "x").strip(" \"'()[]{}*_-#").split())


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One number of a column: a shot as far as anybody knows, or what no such gun can do."""

    number: Decimal
    may_be_shot: bool = True
    is_numbered: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """Rows at the end of a column that are figures of those above: which they are, and whether they can be nothing else."""

    names: tuple[str, ...]
    is_sure: bool


def figures_below(rows: Sequence[Row]) -> Figures | None:
    """Find the rows at the end that equal mean, deviation, extremes or sum of all above.

    They are sure if two sorts of figures stand together, or a mean has a digit more than any shot, unless shots would equal
    them so one time in a hundred. A mean alone, or the two extremes, may be shots: at whole ft/s a real last shot equals the
    mean three times in ten.
    """
    doubtful = None
    for first in range(max(_FEWEST, len(rows) - _LONGEST), len(rows)):
        above, below = rows[:first], rows[first:]
        if not all(row.may_be_shot for row in above) or any(row.is_numbered for row in below):
            continue
        found = _matched(above, below)
        if found is None:
            continue
        if _is_sure(found, above, below):
            return Figures(names=found, is_sure=True)
        if ("mean" in found or {"greatest", "least"} <= set(found)) and all(row.may_be_shot for row in below):  # the shortest
            doubtful = Figures(names=found, is_sure=False)
    return doubtful


def _matched(above: Sequence[Row], below: Sequence[Row]) -> tuple[str, ...] | None:
    """Which figure of the rows above each row below is, each another one; None if one is none."""
    figures = dict(_figures([float(row.number) for row in above]))
    names: list[str] = []
    for row in below:
        half_a_step = 0.5 * 10.0 ** int(row.number.as_tuple().exponent) * (1.0 + 1e-9) + 1e-9
        name = next(
            (key for key, one in figures.items() if abs(float(row.number) - one) <= half_a_step and key not in names), None
        )
        if name is None:
            return None
        names.append(name)
    return tuple(names)


def _figures(numbers: Sequence[float]) -> Iterator[tuple[str, float]]:
    count = len(numbers)
    mean = math.fsum(numbers) / count
    squares = math.fsum((number - mean) ** 2 for number in numbers)
    yield "mean", mean
    yield "greatest", max(numbers)
    yield "least", min(numbers)
    yield "standard deviation", math.sqrt(squares / (count - 1))
    yield "standard deviation of all", math.sqrt(squares / count)
    yield "spread", max(numbers) - min(numbers)
    yield "sum", math.fsum(numbers)
    yield "number of shots", float(count)


_SORT: Final = MappingProxyType(
    {**dict.fromkeys(("greatest", "least", "spread"), "extremes"), "standard deviation of all": "standard deviation"}
)


def _is_sure(names: Sequence[str], above: Sequence[Row], below: Sequence[Row]) -> bool:
    finest = min(int(row.number.as_tuple().exponent) for row in above)
    for name, row in zip(names, below, strict=True):
        if name == "mean" and int(row.number.as_tuple().exponent) < finest:
            return True
    if len({_SORT.get(name, name) for name in names}) < 2:
        return False
    chance = 1.0
    for row in below:
        alike = sum(other.number == row.number for other in above)
        chance *= (alike + 0.5) / (len(above) + 1.0) if row.may_be_shot else 0.0
    return chance <= _RARE
