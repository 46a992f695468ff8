"""From a table of a procedures file to a part, a check or an action."""

from __future__ import annotations

from stripdown.procedures.actions import Action
from stripdown.procedures.cautions import read_cautions
from stripdown.procedures.checks import Check, Exemption, FollowUp, Method, PartialReading, Reading
from stripdown.procedures.documents import optional_provenance
from stripdown.procedures.parts import Part
from stripdown.procedures.touches import PartTouch, Touch
from stripdown.tables.table import PROVENANCE, Table

RUNS = ("", "shots", "cycles")
"""How something runs the gun under power: balls leave it, or it only cycles."""
PART_FIELDS = (
    "name", "place", "in_front", "in_front_of", "carries", "off", "back", "short_off", "short_back", "care", "care_back", "tools",
    "minutes", "needs", "needs_back", "plural", "labelled", "last", "apparatus", "may_go_first", "left_out",
)  # fmt: skip
CHECK_FIELDS = (
    "name", "fact", "proved", "place", "about", "exempt", "rests_on", "off", "on", "dry", "touches", "needs", "release",
    "remedies", "cautions", "expect", "seen", "reading", "readings", "method", *PROVENANCE, "calculator",
    "compares", "alike", "settings", "without", "follow_up",
    "fires", "proved_first", "spared_back", "until_run", "leaving",
)  # fmt: skip
ACTION_FIELDS = (
    "name", "place", "touches", "off", "on", "how", "short", "tools", "consumables", "minutes", "wait", "wait_for", "cautions",
    "needs", "excludes", "brings", *PROVENANCE, "calculator", "becomes", "fires",
)  # fmt: skip


def read_part(key: str, table: Table) -> Part:
    """Read a part."""
    name = table.text("name")
    return Part(
        key=key,
        name=name,
        place=table.text("place"),
        in_front=table.texts("in_front"),
        carries=table.texts("carries"),
        off=table.text("off"),
        back=table.text("back"),
        short_off=table.text("short_off", default=""),
        short_back=table.text("short_back", default=""),
        care=read_cautions(table, "care"),
        care_back=read_cautions(table, "care_back"),
        tools=table.texts("tools"),
        minutes=table.amount("minutes"),
        needs=table.texts("needs"),
        needs_back=table.texts("needs_back"),
        is_plural=table.flag("plural", default=name.endswith("s") and not name.endswith("ss")),
        is_labelled=table.flag("labelled", default="_shims_" in key),
        is_last=table.flag("last", default=False),
        is_apparatus=table.flag("apparatus", default=False),
        may_go_first=table.flag("may_go_first", default=False),
        is_left_out=table.flag("left_out", default=False),
    )


def read_check(key: str, table: Table) -> Check:
    """Read a check."""
    methods = tuple(_method(one) for one in table.tables("method"))
    reading = _reading(table)
    if not methods:
        raise table.wrong("method", None, "is missing: a check that nobody can make is none.")
    reading = _reading(table)
    return Check(
        key=key,
        name=table.text("name"),
        fact=table.text("fact"),
        proved=table.text("proved", default="proved"),
        place=table.text("place"),
        about=table.texts("about"),
        exempt=tuple(_exemption(one) for one in table.tables("exempt")),
        rests_on=table.texts("rests_on"),
        off=table.texts("off"),
        on=table.texts("on"),
        dry=table.texts("dry"),
        touches=_touches(table),
        needs=table.texts("needs"),
        is_for_release=table.flag("release", default=False),
        remedies=table.texts("remedies"),
        methods=methods,
        cautions=read_cautions(table, "cautions"),
        expect=table.text("expect"),
        seen=table.text("seen", default=""),
        reading=reading,
        readings=_readings(table, reading),
        provenance=optional_provenance(table),
        calculator=table.text("calculator", default=""),
        compares=table.flag("compares", default=reading is not None),
        alike=table.texts("alike"),
        settings=table.texts("settings"),
        without=table.texts("without"),
        follow_up=_follow_up(table),
        fires=read_fires(table),
        proved_first=table.texts("proved_first"),
        spared_back=table.texts("spared_back"),
        holds_until_run=table.flag("until_run", default=False),
        is_leaving=table.flag("leaving", default=False),
    )


def read_action(key: str, table: Table) -> Action:
    """Read an action."""
    return Action(
        key=key,
        name=table.text("name"),
        place=table.text("place", default=""),
        touches=_touches(table),
        off=table.texts("off"),
        on=table.texts("on"),
        how=table.text("how"),
        short=table.text("short", default=""),
        tools=table.texts("tools"),
        consumables=table.texts("consumables"),
        minutes=table.amount("minutes"),
        wait=_hours(table),
        wait_for=table.text("wait_for", default=""),
        cautions=read_cautions(table, "cautions"),
        needs=table.texts("needs"),
        excludes=table.texts("excludes"),
        brings=table.texts("brings"),
        provenance=optional_provenance(table),
        calculator=table.text("calculator", default=""),
        becomes=table.table("becomes", holding='features, as in { latch = "latch_deleted" }').fields,
        fires=read_fires(table),
    )


def _exemption(table: Table) -> Exemption:
    table.only("part", "kinds", "reason")
    return Exemption(part=table.text("part"), kinds=_kinds(table), reason=table.text("reason"))


def _method(table: Table) -> Method:
    table.only("name", "when", "how", "short", "tools", "minutes", "off", "on", "unless", "spring_at_rest", "fires")
    return Method(
        name=table.text("name"),
        how=table.text("how"),
        short=table.text("short", default=""),
        tools=table.texts("tools"),
        minutes=table.amount("minutes"),
        off=table.texts("off"),
        on=table.texts("on"),
        unless=table.texts("unless"),
        is_for_spring_at_rest=table.flag("spring_at_rest", default=False),
        fires=read_fires(table),
    )


def _readings(table: Table, reading: Reading | None) -> tuple[PartialReading, ...]:
    """The several numbers of one making, if it has several."""
    found = []
    for one in table.tables("readings"):
        one.only("key", "label", "unit")
        unit = one.text("unit", default=reading.unit if reading is not None else "")
        found.append(PartialReading(key=one.text("key"), label=one.text("label"), unit=unit))
    if found and (reading is None or all(one.unit != reading.unit for one in found)):
        raise table.wrong("reading", None, "is missing: of several readings one is judged, and that needs unit and limits.")
    return tuple(found)


def read_fires(table: Table) -> str:
    """How a step or a method runs the gun under power; empty for not at all."""
    value = table.text("fires", default="")
    if value not in RUNS:
        raise table.wrong("fires", value, f"must be one of {', '.join(one for one in RUNS if one)}.")
    return value


def _reading(table: Table) -> Reading | None:
    if "reading" not in table.fields:
        return None
    one = table.table("reading", holding="label, unit and limits")
    one.only("label", "unit", "low", "high")
    reading = Reading(label=one.text("label"), unit=one.text("unit"), low=one.number("low"), high=one.number("high"))
    if reading.low is not None and reading.high is not None and reading.low > reading.high:
        raise one.wrong("low", reading.low, f"lies above high, {reading.high:g}.")
    return reading


def _follow_up(table: Table) -> FollowUp | None:
    if "follow_up" not in table.fields:
        return None
    one = table.table("follow_up", holding="after how much use")
    one.only("least", "most", "unit")
    least, most = one.amount("least"), one.amount("most")
    if not 0.0 < least <= most:
        raise one.wrong("least", least, "must be above zero, and not above most.")
    return FollowUp(least=int(least), most=int(most), unit=one.text("unit"))


def _touches(table: Table) -> tuple[PartTouch, ...]:
    """Pairs of part and kind of touch."""
    value = table.fields.get("touches", [])
    found = []
    for pair in value if isinstance(value, list) else [value]:
        if not (isinstance(pair, list) and len(pair) == 2 and all(isinstance(one, str) for one in pair)):
            raise table.wrong("touches", pair, 'must be a pair, as in ["piston", "clean"].')
        found.append((pair[0], _kind(table, "touches", pair[1])))
    return tuple(found)


def _kinds(table: Table) -> frozenset[Touch]:
    found = frozenset(_kind(table, "kinds", one) for one in table.texts("kinds"))
    if not found:
        raise table.wrong("kinds", None, "is missing: name at least one kind of touch.")
    return found


def _kind(table: Table, field: str, value: str) -> Touch:
    known = {kind.value: kind for kind in Touch}
    table.known(field, [value], known, "is no kind of touch.")
    return known[value]


def _hours(table: Table) -> float:
    text = table.text("wait", default="")
    if not text:
        return 0.0
    number, _, unit = text.partition(" ")
    hours = {"min": 1.0 / 60.0, "h": 1.0, "d": 24.0}.get(unit.strip())
    try:
        value = float(number)
    except ValueError:
        value = -1.0
    if hours is None or value <= 0.0:
        raise table.wrong("wait", text, 'must be a time such as "24 h", "30 min" or "2 d".')
    return value * hours
