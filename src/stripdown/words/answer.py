"""What an answer says, once: a frozen record that terminal, sheet and page each lay out without adding a word."""

from __future__ import annotations

import enum
from dataclasses import dataclass


class FigureFooting(enum.Enum):
    """How a printed figure is known."""

    MEASURED = "measured"
    COMPUTED = "computed"
    ESTIMATE = "estimate"

    @property
    def meaning(self) -> str:
        """Where a figure so marked comes from."""
        return _MEANINGS[self.value]


_MEANINGS = {
    "measured": "read off the chronograph",
    "computed": "from measured figures, by statistics",
    "estimate": "from the model, on assumed values too",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure: its key, what it is called, its SI value and the reach of that, and how it is written."""

    key: str
    label: str
    text: str
    value: float | None = None
    low: float | None = None
    high: float | None = None
    footing: FigureFooting | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Sentence:
    """One sentence or paragraph: in full, in short, the keys of what it is about, and the key of the act that it leads to."""

    full: str
    key: str = ""
    short: str = ""
    about: tuple[str, ...] = ()
    act: str = ""

    @property
    def brief(self) -> str:
        """The short form; where there is none, the full one."""
        return self.short or self.full


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A name and what is said of it."""

    name: str
    text: str
    key: str = ""
    footing: FigureFooting | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """Head of one column; figures stand to the right, words to the left."""

    head: str
    footing: FigureFooting | None = None
    is_figure: bool = False
    by_hand: str = ""
    """How its cells are filled in by hand, on paper and on a page: "tick" or "line"; empty for what is said already."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """A place to write a reading into: what is read, its unit, its limits; or between which words one chooses."""

    label: str = ""
    unit: str = ""
    limits: str = ""
    choices: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One cell: what it says, in small type below it, whether the row is there for it, its key, a share to draw a bar of."""

    text: str = ""
    small: str = ""
    is_strong: bool = False
    key: str = ""
    share: float | None = None
    blank: Blank | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Columns and rows, as many cells in each row as there are columns."""

    key: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of a plan, by the key of the step; texts are empty where there is nothing to say."""

    number: int
    key: str
    kind: str
    name: str
    place: str = ""
    purpose: str = ""
    how: str = ""
    method: str = ""
    not_before: str = ""
    trial: str = ""
    cautions: tuple[Sentence, ...] = ()
    alike: str = ""
    expect: str = ""
    seen: str = ""
    short: str = ""
    grades: str = ""
    mark: str = ""
    blank: Blank | None = None
    time: str = ""
    wait: str = ""
    calculator: str = ""
    calculator_name: str = ""
    is_calculated: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """All that is said to one question; `parts` are answers again, `pictures` keys of charts, `rests_on` what it stands on."""

    key: str
    title: str
    lead: tuple[Sentence, ...] = ()
    named: tuple[Named, ...] = ()
    figures: tuple[Figure, ...] = ()
    tables: tuple[Table, ...] = ()
    steps: tuple[Step, ...] = ()
    parts: tuple[Answer, ...] = ()
    notes: tuple[Sentence, ...] = ()
    cautions: tuple[Sentence, ...] = ()
    rests_on: tuple[Named, ...] = ()
    pictures: tuple[str, ...] = ()

    def part(self, key: str) -> Answer | None:
        """The part with a key, if there is one."""
        return next((part for part in self.parts if part.key == key), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Caption:
    """What stands above a picture: title, a key to its marks; and all of it in words for who cannot see it."""

    title: str
    lines: tuple[str, ...] = ()
    description: str = ""
