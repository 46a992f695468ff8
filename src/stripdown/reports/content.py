"""What the sheet says, as frozen records of words: every figure is written here already, so that the template only lays out."""

from __future__ import annotations

import enum
from dataclasses import dataclass


class FigureFooting(enum.Enum):
    """How a printed figure is known."""

    MEASURED = "measured"
    COMPUTED = "computed"
    ESTIMATE = "estimate"


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """Head of one column."""

    head: str
    footing: FigureFooting | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One cell of a table."""

    text: str
    small: str = ""
    is_strong: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Columns and rows."""

    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """One chart."""

    svg: str
    width: float
    alternative: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A name and what is said of it."""

    name: str
    text: str
    footing: FigureFooting | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangePart:
    """Before and after."""

    heading: str
    table: Table | None
    picture: Picture | None
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitPart:
    """Against the limit."""

    limit: tuple[Named, ...]
    measured: Table | None
    predicted: Table | None
    picture: Picture | None
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CausePart:
    """Why."""

    loss: str
    table: Table | None
    others: tuple[str, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RestsOn:
    """What the sheet rests on."""

    assumed: tuple[Named, ...]
    coefficients: str
    understood: tuple[str, ...]
    left_out: tuple[Named, ...]
    sources: tuple[str, ...]
    program: str
    input_digest: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """Everything that the sheet says."""

    title: str
    running_title: str
    gun: str
    gun_note: str
    is_invented: bool
    invented_words: str
    short: tuple[Named, ...]
    unsaid: tuple[str, ...]
    found: tuple[str, ...]
    done: tuple[str, ...]
    change: ChangePart
    limit: LimitPart | None
    causes: CausePart | None
    cautions: tuple[str, ...]
    footings: tuple[Named, ...]
    rests_on: RestsOn
