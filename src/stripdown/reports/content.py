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
    """Head of one column.

    Parameters
    ----------
    head
        What stands in it.
    footing
        How its figures are known; None for a column of words.
    """

    head: str
    footing: FigureFooting | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One cell of a table.

    Parameters
    ----------
    text
        What it says.
    small
        What stands below in small type; empty for nothing.
    is_strong
        Whether it is the answer that the row is there for.
    """

    text: str
    small: str = ""
    is_strong: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Columns and rows.

    Parameters
    ----------
    columns
        Heads.
    rows
        As many cells each as there are columns.
    """

    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """One chart.

    Parameters
    ----------
    svg
        The drawing.
    width
        Its width in points, so that its letters are as large as they were drawn.
    alternative
        What it shows, in words, for who cannot see it.
    """

    svg: str
    width: float
    alternative: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A name and what is said of it.

    Parameters
    ----------
    name
        Short.
    text
        One sentence or more.
    footing
        How its figures are known; None for plain words.
    """

    name: str
    text: str
    footing: FigureFooting | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangePart:
    """Before and after.

    Parameters
    ----------
    heading
        Which of the two there are.
    table
        One row for each pair of strings, or for a string that has no partner; None without a string.
    picture
        The shots; None if there is nothing to draw.
    notes
        Sentences that must stand beside the numbers.
    """

    heading: str
    table: Table | None
    picture: Picture | None
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitPart:
    """Against the limit.

    Parameters
    ----------
    limit
        How much, where measured, whose, read or quoted.
    measured
        One row for each string fired after the work; None if none counts.
    predicted
        Balls that were not fired, by what the model suggests; None if every ball was fired.
    picture
        Energy over ball mass with the limit; None if there is nothing to draw.
    notes
        Sentences that must stand beside the numbers.
    """

    limit: tuple[Named, ...]
    measured: Table | None
    predicted: Table | None
    picture: Picture | None
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CausePart:
    """Why.

    Parameters
    ----------
    loss
        How much was lost, in a sentence.
    table
        Causes that the strings leave, likeliest first; None if none stands.
    others
        Causes that do not stand, or stand farther back, in sentences.
    notes
        Sentences that must stand beside the numbers.
    """

    loss: str
    table: Table | None
    others: tuple[str, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RestsOn:
    """What the sheet rests on.

    Parameters
    ----------
    assumed
        Values that the gun's file leaves out, by how well they are known.
    coefficients
        What is said of the model's own coefficients; empty for nothing.
    understood
        How the case's files were understood, and what was assumed of them.
    left_out
        Lines of the readings that were not counted, with the reason.
    sources
        Author, year and place of each.
    program
        Name and version.
    input_digest
        Of the case's files together, hexadecimal.
    """

    assumed: tuple[Named, ...]
    coefficients: str
    understood: tuple[str, ...]
    left_out: tuple[Named, ...]
    sources: tuple[str, ...]
    program: str
    input_digest: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """Everything that the sheet says.

    Parameters
    ----------
    title
        What the case is called.
    running_title
        The same with the gun's name, for every further page.
    gun
        Its name.
    gun_note
        Remarks of the gun's file.
    is_invented
        Whether gun or figures are made up.
    invented_words
        What is then printed on every page.
    short
        The answers in a few lines.
    unsaid
        What cannot be said, and why.
    found, done
        The technician's words, by paragraph.
    change
        Before and after.
    limit
        Against the limit; None if none was named.
    causes
        Why; None if nothing was explained.
    cautions
        What must be heeded.
    footings
        What the words for the footing of a figure mean.
    rests_on
        What the sheet rests on.
    """

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
