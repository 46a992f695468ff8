"""Every table and field that the file of a visit has for gun, limit, strings and findings, with the words of the workshop."""

from __future__ import annotations

import enum
import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Final

from stripdown.bench.as_found import AS_FOUND_READINGS
from stripdown.bench.strings import BALL_MASS_UNCERTAINTY, BETWEEN_DAYS, FIRED_BALL_MASS, OWN_DAY, SETUP_UNCERTAINTY
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics.chronograph import Chronograph
from stripdown.core.shot_statistics.conditions import FireMode, HopState, StringConditions
from stripdown.core.shot_statistics.limits import LimitScope
from stripdown.errors import InputError
from stripdown.files.readings_values import speed_unit
from stripdown.quantities import Q, leaves
from stripdown.tables.values import read_value, read_values, read_words

_NUMBERS: Final = re.compile(r"(?<=[A-Za-z])\s*[,;]\s*")


class Kind(enum.Enum):
    """How a field is written."""

    WORDS = "words"
    LIST = "text, or a list of texts, one each"
    PARAGRAPHS = "text, or a list of texts"
    FILE = "name of a file"
    FILES = "name of a file, or a list of names"
    SWITCH = "`true` or `false`"
    NUMBER = "number with unit"
    NUMBERS = "list of numbers with units"
    TYPED = "number with unit, as the site says it"
    CHOICE = "choice"
    SPEED_UNIT = '`"m/s"`, `"ft/s"`, `"km/h"` or `"mph"`'
    LINE = "line number"


@dataclass(frozen=True, slots=True, kw_only=True)
class VisitField:
    """One field of a visit's file."""

    name: str
    kind: Kind
    explain: str
    quantity: Q | None = None
    choices: type[enum.Enum] | None = None


def _declared(record: type, words: Mapping[str, str]) -> list[VisitField]:
    """Fields of numbers that a record declares, explained by it or by these words."""
    quantities = {leaf.path: leaf.quantity for leaf in leaves(record) if leaf.quantity is not None}
    return [
        VisitField(name=name, kind=Kind.NUMBER, explain=text or quantities[name].explain, quantity=quantities[name])
        for name, text in words.items()
    ]


_FIELDS: Final[Mapping[str, list[VisitField]]] = {
    "visit": [
        VisitField(name="title", kind=Kind.WORDS, explain="What the visit is called; the gun's name if left out."),
        VisitField(
            name="invented",
            kind=Kind.SWITCH,
            explain="true if gun or figures are made up, so that no reader takes them for real.",
        ),
        VisitField(name="gun", kind=Kind.FILE, explain="The gun's file, as it is after the work."),
        VisitField(name="readings", kind=Kind.FILES, explain="Files of chronograph readings."),
        VisitField(
            name="read_on_both",
            kind=Kind.FILES,
            explain="Files of guns read on the bench's chronograph and the site's: the limit is held as the site's reads.",
        ),
        VisitField(name="found", kind=Kind.PARAGRAPHS, explain="What was found, one paragraph each."),
        VisitField(name="done", kind=Kind.PARAGRAPHS, explain="What was done, one paragraph each."),
        VisitField(
            name="can_fire_automatic",
            kind=Kind.SWITCH,
            explain="Whether the gun can fire more than one shot for one pull; some limits depend on it.",
        ),
        VisitField(
            name="tools", kind=Kind.LIST, explain="What is at hand: of several methods for a check the first that these allow."
        ),
        VisitField(name="own_steps", kind=Kind.FILE, explain="A file with parts, checks, work and orders of your own."),
        VisitField(
            name="body",
            kind=Kind.WORDS,
            explain="What stands around the box, of the bodies with ready steps: `stripdown plan --names` lists them.",
        ),
        VisitField(name="own_limits", kind=Kind.FILE, explain="A file with looks and limits of your own."),
        VisitField(name="shims", kind=Kind.FILE, explain="A shim sheet: which shims do is worked out."),
    ],
    "limit": [
        VisitField(
            name="key", kind=Kind.WORDS, explain="A limit of the catalogue, as `stripdown limits` lists them; then nothing else."
        ),
        VisitField(name="energy", kind=Kind.TYPED, explain="The site's own rule as an energy."),
        VisitField(name="speed", kind=Kind.TYPED, explain="The site's own rule as a speed, with its `ball_mass`."),
        VisitField(name="ball_mass", kind=Kind.TYPED, explain="The ball that a rule by speed names."),
        VisitField(
            name="measured_at",
            kind=Kind.TYPED,
            explain="Where the site measures, from the muzzle; left out, it is held at the muzzle, where the ball is fastest.",
        ),
        VisitField(name="scope", kind=Kind.CHOICE, explain="Which guns or shots it is for.", choices=LimitScope),
        VisitField(name="place", kind=Kind.WORDS, explain="Whose rule it is."),
        VisitField(name="date", kind=Kind.WORDS, explain="Of the rule, or when it was written down."),
    ],
    "balls": [
        VisitField(
            name="may_bring",
            kind=Kind.NUMBERS,
            explain="Masses that a player may bring; left out, what players usually bring.",
            quantity=FIRED_BALL_MASS,
        ),
        VisitField(
            name="mass_uncertainty",
            kind=Kind.NUMBER,
            explain=BALL_MASS_UNCERTAINTY.explain,
            quantity=BALL_MASS_UNCERTAINTY,
        ),
    ],
    "chronograph": [
        *_declared(
            Chronograph,
            {
                "bias": "How much the chronograph reads too high, if that is known.",
                "standard_uncertainty": "",
                "relative_uncertainty": "The same as a share of the reading.",
                "resolution": "Left out, the last digit of the readings.",
                "screen_spacing": "From the first screen to the second.",
                "distance_uncertainty": "How well its distance from the muzzle is known.",
            },
        ),
        VisitField(name="setup_uncertainty", kind=Kind.NUMBER, explain=SETUP_UNCERTAINTY.explain, quantity=SETUP_UNCERTAINTY),
        VisitField(name="own_day", kind=Kind.NUMBER, explain=OWN_DAY.explain, quantity=OWN_DAY),
        VisitField(name="between_days", kind=Kind.NUMBER, explain=BETWEEN_DAYS.explain, quantity=BETWEEN_DAYS),
    ],
    "strings": [
        VisitField(name="ball_mass", kind=Kind.NUMBER, explain=FIRED_BALL_MASS.explain, quantity=FIRED_BALL_MASS),
        *_declared(StringConditions, {"distance": "From the muzzle to the middle between the screens."}),
        VisitField(name="hop", kind=Kind.CHOICE, explain="Whether the hop-up pressed on the ball.", choices=HopState),
        VisitField(name="fire_mode", kind=Kind.CHOICE, explain="Selector position.", choices=FireMode),
        VisitField(name="unit", kind=Kind.SPEED_UNIT, explain="Unit of readings for which the file names none."),
    ],
    "as_found": [
        VisitField(name=name, kind=Kind.NUMBER, explain=one.quantity.explain, quantity=one.quantity)
        for name, one in AS_FOUND_READINGS.items()
    ],
    "day": _declared(Conditions, {"temperature": "", "pressure": "", "relative_humidity": ""}),
    "set_aside": [
        VisitField(name="file", kind=Kind.FILE, explain="Which file of readings; may be left out if there is only one."),
        VisitField(name="line", kind=Kind.LINE, explain="Line of the reading in that file, the first being 1."),
        VisitField(name="reason", kind=Kind.WORDS, explain="Why it is not counted."),
    ],
}

TABLES: Final[Mapping[str, Mapping[str, VisitField]]] = MappingProxyType(
    {table: MappingProxyType({field.name: field for field in fields}) for table, fields in _FIELDS.items()}
)
"""Field by table and name; ``set_aside`` is a list of tables."""

OF_CASE: Final = ("title", "invented", "gun", "readings", "read_on_both", "found", "done", "can_fire_automatic")
"""Fields of [visit] that stood under [case] in older files; what stood under [job] there is read with the work."""


def read_field(field: VisitField, raw: object, path: str) -> Any:
    """One value, or one fault without a place."""
    match field.kind:
        case Kind.WORDS | Kind.FILE | Kind.TYPED:
            return read_words(raw, field=path)
        case Kind.PARAGRAPHS:
            return tuple(paragraph for text in read_values(raw, str, field=path) for paragraph in _paragraphs(text))
        case Kind.FILES | Kind.LIST:
            return read_values(raw, str, field=path)
        case Kind.NUMBERS:
            typed = [part for text in read_values(raw, str, field=path) for part in _NUMBERS.split(text.strip())]
            return read_values(typed, field.quantity or str, field=path)
        case Kind.NUMBER:
            return read_value(raw, field.quantity or str, field=path)
        case Kind.SWITCH:
            return read_value(raw, bool, field=path)
        case Kind.CHOICE:
            return read_value(raw, field.choices or bool, field=path)
        case Kind.SPEED_UNIT:
            return _speed_unit(read_words(raw, field=path), path)
        case Kind.LINE:
            return _line(raw, path)


def _paragraphs(text: str) -> list[str]:
    """Blank lines part paragraphs; a line break inside one is only a place where the line was full."""
    return [" ".join(part.split()) for part in re.split(r"\n\s*\n", text) if part.strip()]


def _speed_unit(text: str, path: str) -> str:
    unit = speed_unit(text)
    if unit is None:
        raise InputError(f'{path} = "{text}" is no unit of speed.', field=path, value=text, hint="Use m/s, ft/s, km/h or mph.")
    return unit


def _line(raw: object, path: str) -> int:
    if isinstance(raw, int) and not isinstance(raw, bool) and raw > 0:
        return raw
    raise InputError(f"{path} = {raw!r} is no line number.", field=path, value=raw, hint="Count lines from 1.")
