"""Every table and field of a case's file, with the words of the workshop."""

from __future__ import annotations

import enum
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from stripdown.bench.strings import BALL_MASS_UNCERTAINTY, FIRED_BALL_MASS, SETUP_UNCERTAINTY
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics.chronograph import Chronograph
from stripdown.core.shot_statistics.conditions import FireMode, HopState, StringConditions
from stripdown.core.shot_statistics.limits import LimitScope
from stripdown.quantities import Q, leaves


class Kind(enum.Enum):
    """How a field is written."""

    WORDS = "words"
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
class CaseField:
    """One field of a case's file."""

    name: str
    kind: Kind
    explain: str
    quantity: Q | None = None
    choices: type[enum.Enum] | None = None


def _declared(record: type, words: Mapping[str, str]) -> list[CaseField]:
    """Fields of numbers that a record declares, explained by it or by these words."""
    quantities = {leaf.path: leaf.quantity for leaf in leaves(record) if leaf.quantity is not None}
    return [
        CaseField(name=name, kind=Kind.NUMBER, explain=text or quantities[name].explain, quantity=quantities[name])
        for name, text in words.items()
    ]


_FIELDS: Final[Mapping[str, list[CaseField]]] = {
    "case": [
        CaseField(name="title", kind=Kind.WORDS, explain="What the case is called; the gun's name if left out."),
        CaseField(
            name="invented",
            kind=Kind.SWITCH,
            explain="true if gun or figures are made up, so that no reader takes them for real.",
        ),
        CaseField(name="gun", kind=Kind.FILE, explain="The gun's file, as it is after the work."),
        CaseField(name="readings", kind=Kind.FILES, explain="Files of chronograph readings."),
        CaseField(name="found", kind=Kind.PARAGRAPHS, explain="What was found, one paragraph each."),
        CaseField(name="done", kind=Kind.PARAGRAPHS, explain="What was done, one paragraph each."),
        CaseField(
            name="can_fire_automatic",
            kind=Kind.SWITCH,
            explain="Whether the gun can fire more than one shot for one pull; some limits depend on it.",
        ),
    ],
    "limit": [
        CaseField(
            name="key", kind=Kind.WORDS, explain="A limit of the catalogue, as `stripdown limits` lists them; then nothing else."
        ),
        CaseField(name="energy", kind=Kind.TYPED, explain="The site's own rule as an energy."),
        CaseField(name="speed", kind=Kind.TYPED, explain="The site's own rule as a speed, with its `ball_mass`."),
        CaseField(name="ball_mass", kind=Kind.TYPED, explain="The ball that a rule by speed names."),
        CaseField(
            name="measured_at",
            kind=Kind.TYPED,
            explain="Where the site measures, from the muzzle; left out, it is held at the muzzle, where the ball is fastest.",
        ),
        CaseField(name="scope", kind=Kind.CHOICE, explain="Which guns or shots it is for.", choices=LimitScope),
        CaseField(name="place", kind=Kind.WORDS, explain="Whose rule it is."),
        CaseField(name="date", kind=Kind.WORDS, explain="Of the rule, or when it was written down."),
    ],
    "balls": [
        CaseField(
            name="may_bring",
            kind=Kind.NUMBERS,
            explain="Masses that a player may bring; left out, what players usually bring.",
            quantity=FIRED_BALL_MASS,
        ),
        CaseField(
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
        CaseField(name="setup_uncertainty", kind=Kind.NUMBER, explain=SETUP_UNCERTAINTY.explain, quantity=SETUP_UNCERTAINTY),
    ],
    "strings": [
        CaseField(name="ball_mass", kind=Kind.NUMBER, explain=FIRED_BALL_MASS.explain, quantity=FIRED_BALL_MASS),
        *_declared(StringConditions, {"distance": "From the muzzle to the middle between the screens."}),
        CaseField(name="hop", kind=Kind.CHOICE, explain="Whether the hop-up pressed on the ball.", choices=HopState),
        CaseField(name="fire_mode", kind=Kind.CHOICE, explain="Selector position.", choices=FireMode),
        CaseField(name="unit", kind=Kind.SPEED_UNIT, explain="Unit of readings for which the file names none."),
    ],
    "day": _declared(Conditions, {"temperature": "", "pressure": "", "relative_humidity": ""}),
    "set_aside": [
        CaseField(name="file", kind=Kind.FILE, explain="Which file of readings; may be left out if there is only one."),
        CaseField(name="line", kind=Kind.LINE, explain="Line of the reading in that file, the first being 1."),
        CaseField(name="reason", kind=Kind.WORDS, explain="Why it is not counted."),
    ],
}

TABLES: Final[Mapping[str, Mapping[str, CaseField]]] = MappingProxyType(
    {table: MappingProxyType({field.name: field for field in fields}) for table, fields in _FIELDS.items()}
)
"""Field by table and name; ``set_aside`` is a list of tables."""
