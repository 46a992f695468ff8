"""Heads of columns, settings and section lines of a readings file: what each says of the readings under it."""

from __future__ import annotations

import dataclasses
import enum
import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from stripdown.core.shot_statistics.conditions import HopState, StringConditions
from stripdown.files.readings_values import (
    FIRE_MODES,
    HOPS,
    OCCASIONS,
    NotTaken,
    read_day,
    read_distance,
    read_mass,
    read_temperature,
    read_word,
    speed_unit,
)

NOTHING_SAID: Final = StringConditions()


class Meaning(enum.Enum):
    """What a column or a setting is about."""

    SHOT = "number of the shot"
    SPEED = "speed"
    UNIT = "unit of the speed"
    BALL_MASS = "mass of the ball"
    OCCASION = "before or after"
    HOP = "hop-up"
    FIRE_MODE = "semi or automatic"
    DISTANCE = "distance of the chronograph"
    TEMPERATURE = "temperature"
    LABEL = "name of the string"
    DAY = "day"
    GUN = "gun"
    CHRONOGRAPH = "chronograph"
    UNUSED = "not used"
    UNKNOWN = "not known"


_WORDS: Final[Mapping[Meaning, str]] = MappingProxyType(
    {
        Meaning.SHOT: "#|no|nr|n|shot|shots|shot no|shot nr|shot number|shot #|number|round|index",
        Meaning.SPEED: "speed|velocity|v|vel|v0|muzzle speed|muzzle velocity|reading|readings|ball speed",
        Meaning.UNIT: "unit|units",
        Meaning.BALL_MASS: "ball|balls|ball mass|ball weight|bb|bbs|bb mass|bb weight|mass|weight",
        Meaning.OCCASION: "occasion|before/after|before or after|when|state",
        Meaning.HOP: "hop|hop-up|hop up|hopup",
        Meaning.FIRE_MODE: "mode|fire mode|fire|firing|selector|semi/auto|semi/automatic|semi or automatic",
        Meaning.DISTANCE: "distance|dist|chronograph distance|distance of the chronograph|chronograph at",
        Meaning.TEMPERATURE: "temperature|temp|air temperature",
        Meaning.LABEL: "string|series|set|group|name|label",
        Meaning.DAY: "day|date|time|date/time|date and time|datetime|timestamp|fired on|datum|dato|data|fecha|jour",
        Meaning.GUN: "gun|aeg|replica",
        Meaning.CHRONOGRAPH: "chronograph|read on|read with",
        Meaning.UNUSED: "energy|joule|joules|rate|rate of fire|remark|remarks|comment|comments|note|notes|"
        "operator|technician|place|site|battery|session|club|event|file|model|serial|version",
    }
)
_MEANING: Final[Mapping[str, Meaning]] = MappingProxyType(
    {word: meaning for meaning, words in _WORDS.items() for word in words.split("|")}
)
_BRACKET: Final = re.compile(r"[(\[]([^()\[\]]*)[)\]]")
_SETTING: Final = re.compile(r"([^:=]{1,40}?)\s*[:=]\s*(\S.*)")
_FRAME: Final = " \t-=*_[](){}<>"
_MASS: Final = re.compile(r"(?:\d+(?:[.,]\d+)?|[.,]\d+)\s*m?g")
_DISTANCE: Final = re.compile(r"(?:at\s+)?((?:\d+(?:[.,]\d+)?|[.,]\d+)\s*(?:m|cm|mm|ft|in|yd))")
_DAY: Final = re.compile(r"\d{4}-\d\d-\d\d(?!\d)|\d{1,2}[./-]\d{1,2}[./-]\d{4}(?!\d)")
_TEMPERATURE: Final = re.compile(
    r"[+\-]?(?:\d+(?:[.,]\d+)?|[.,]\d+)\s*(?:[°º˚]\s*|deg(?:rees?)?\s*)[cf]\b|[+\-]?\d+(?:[.,]\d+)?\s*\u2103"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """Head of one column."""

    text: str
    meaning: Meaning
    unit: str | None = None
    said: StringConditions = NOTHING_SAID


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """One thing that a line says of the readings after it."""

    meaning: Meaning
    value: str


def read_head(text: str) -> Head:
    """Understand the head of a column."""
    bracket = _BRACKET.search(text)
    named = bracket[1].strip() if bracket else ""
    base = _plain(_BRACKET.sub(" ", text))
    unit = speed_unit(named)
    if base in _MEANING:
        meaning = _MEANING[base]
        return Head(text=text, meaning=meaning, unit=unit if meaning is Meaning.SPEED else named or None)
    words = re.sub(r",(?!\d)|(?<!\d),", " ", base).split()
    for count in (1, 2):  # "speed fps", "speed ft / s"
        tail = speed_unit(" ".join(words[-count:])) if len(words) >= count else None
        if tail:
            unit, words = tail, words[:-count]
            break
    rest = [word for word in words if _MEANING.get(word) is not Meaning.SPEED]
    said = read_conditions(" ".join(rest)) if rest else NOTHING_SAID
    tells_apart = said is not None and dataclasses.replace(said, temperature=None, distance=None) != NOTHING_SAID
    if said is not None and (unit or tells_apart or len(rest) < len(words)):
        return Head(text=text, meaning=Meaning.SPEED, unit=unit, said=said)
    return Head(text=text, meaning=Meaning.UNKNOWN, unit=unit)


def read_setting(text: str) -> Setting | None:
    """Understand a line ``key: value`` or ``key = value``."""
    found = _SETTING.fullmatch(text)
    return setting_of(found[1], found[2]) if found else None


def setting_of(key: str, value: str) -> Setting | None:
    """Understand a key and its value."""
    bracket = _BRACKET.search(key)
    meaning = _MEANING.get(_plain(_BRACKET.sub(" ", key)))
    if meaning is Meaning.SPEED:
        meaning = Meaning.UNIT if speed_unit(value) else None
    if meaning is None or meaning is Meaning.SHOT:
        return None
    bare = re.fullmatch(r"[+\-\u2212]?(?:\d+(?:[.,]\d+)?|[.,]\d+)", value.strip())
    return Setting(meaning=meaning, value=f"{value} {bracket[1]}" if bracket and bare else value)


def read_conditions(text: str) -> StringConditions | None:
    """Understand words that say how a string was fired."""
    left = _plain(text.lstrip(_FRAME).rstrip(f"{_FRAME}:"))
    found: dict[str, object] = {}
    while left:
        step = _first_condition(left)
        if step is None:
            return None
        field, value, length = step
        if field in found:
            return None
        found[field] = value
        left = left[length:].strip(" ,;/|\t")
    return dataclasses.replace(NOTHING_SAID, **found) if found else None  # type: ignore[arg-type]


_PHRASES: Final[Mapping[str, tuple[str, object]]] = MappingProxyType(
    {word: ("occasion", meaning) for word, meaning in OCCASIONS.items() if word != "found"}
    | {word: ("hop", meaning) for word, meaning in HOPS.items() if word.startswith("hop")}
    | {word: ("fire_mode", meaning) for word, meaning in FIRE_MODES.items() if word not in ("single", "full")}
    | {"reference gun": ("gun", "reference gun"), "this gun": ("gun", ""), "gun under test": ("gun", "")}
)
_LONGEST_FIRST: Final = sorted(_PHRASES, key=len, reverse=True)


def _first_condition(text: str) -> tuple[str, object, int] | None:
    for phrase in _LONGEST_FIRST:
        if text.startswith(phrase) and not text[len(phrase) : len(phrase) + 1].isalnum():
            return *_PHRASES[phrase], len(phrase)
    try:
        if day := _DAY.match(text):
            return "day", read_day(day[0]), day.end()
        if mass := _MASS.match(text):
            return "ball_mass", read_mass(mass[0]), mass.end()
        if temperature := _TEMPERATURE.match(text):
            return "temperature", read_temperature(temperature[0]), temperature.end()
        if distance := _DISTANCE.match(text):
            return "distance", read_distance(distance[1]), distance.end()
    except NotTaken:
        return None
    return None


def said_by(meaning: Meaning, value: str) -> StringConditions:
    """Conditions that one value says."""
    if not value.strip():
        return NOTHING_SAID
    if meaning is Meaning.BALL_MASS:
        return StringConditions(ball_mass=read_mass(value))
    if meaning is Meaning.OCCASION:
        return StringConditions(occasion=read_word(value, OCCASIONS))
    if meaning is Meaning.HOP:
        clicks = re.fullmatch(r"\d+(?:\s*clicks?)?", value.strip())
        return StringConditions(hop=HopState.SET if clicks and value.strip()[0] != "0" else read_word(value, HOPS))
    if meaning is Meaning.FIRE_MODE:
        return StringConditions(fire_mode=read_word(value, FIRE_MODES))
    if meaning is Meaning.DISTANCE:
        return StringConditions(distance=read_distance(value))
    if meaning is Meaning.TEMPERATURE:
        return StringConditions(temperature=read_temperature(value))
    if meaning is Meaning.DAY:
        return StringConditions(day=read_day(value))
    if meaning is Meaning.GUN:
        return StringConditions(gun=" ".join(value.split()))
    if meaning is Meaning.CHRONOGRAPH:
        return StringConditions(chronograph=" ".join(value.split()))
    return NOTHING_SAID


def _plain(text: str) -> str:
    return " ".join(text.lower().replace("_", " ").strip(" .:").split())
