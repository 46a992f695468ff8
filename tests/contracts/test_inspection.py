"""Looks, damage and complaints hold for every gun: no reject, pattern or finding of any variation leads nowhere."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import pytest

from stripdown.procedures.complaints import load_complaints
from stripdown.procedures.damage import load_damage
from stripdown.procedures.entries import Entry, filled, read_condition
from stripdown.procedures.inspection import load_inspection
from stripdown.procedures.loading import load_procedures
from stripdown.procedures.looks import Grade
from stripdown.procedures.plan import plan
from stripdown.procedures.variations import Variation
from stripdown.references import load_references
from stripdown.references.provenance import Footing
from stripdown.tables.table import Table

_PROCEDURES = load_procedures()
_EVERY = tuple(_PROCEDURES.variations())
_ASKED = ("work", "prove", "wanted")


def _few() -> Iterator[Variation]:
    """The gun that is assumed, and each that differs from it in one choice: for what takes longer."""
    usual = _PROCEDURES.variation("")
    yield usual
    for feature in _PROCEDURES.features:
        for choice in feature.choices:
            if choice.key != usual.choices[feature.key]:
                yield _PROCEDURES.variation({**usual.choices, feature.key: choice.key})


_FEW = tuple(_few())


def _here(entries: Mapping[str, Entry], variation: Variation) -> set[str]:
    return {key for key, entry in entries.items() if variation.satisfies(entry.condition)}


def _asks_for_something(table: Table, known: set[str]) -> bool:
    return any(key in known for field in _ASKED for key in table.texts(field))


def test_every_reject_of_every_variation_leads_to_work() -> None:
    """Whatever a technician rejects on whatever gun, something can be asked for, by which it is mended or proved."""
    for variation in _EVERY:
        parts = _here(_PROCEDURES.parts, variation)
        known = _here(_PROCEDURES.actions, variation) | _here(_PROCEDURES.checks, variation)
        for key, entry in load_inspection().looks.items():
            table = entry.fixed(variation, {})
            for part in table.texts("parts") if table is not None else ():
                assert table is not None
                own = Table(table.file, table.name, filled(table.fields, {"part": part}))
                assert part not in parts or _asks_for_something(own, known), (key, part, variation.name)


def test_every_pattern_of_damage_of_every_variation_leads_to_work() -> None:
    """On whatever gun one sees it."""
    for variation in _EVERY:
        known = _here(_PROCEDURES.actions, variation) | _here(_PROCEDURES.checks, variation)
        parts = _here(_PROCEDURES.parts, variation)
        for key, entry in load_damage().entries.items():
            table = entry.fixed(variation, {})
            if table is not None and parts & set(table.texts("parts")):
                assert _asks_for_something(table, known), (key, variation.name)


def test_every_finding_of_every_variation_leads_on() -> None:
    """To a request that is not empty, or to a later question that this gun has; and each question has two answers."""
    for variation in _EVERY:
        known = _here(_PROCEDURES.actions, variation) | _here(_PROCEDURES.checks, variation)
        for key, entry in load_complaints().entries.items():
            table = entry.fixed(variation, {})
            assert table is not None
            questions = table.tables("question")
            order = [one.text("key") for one in questions]
            here = [variation.satisfies(read_condition(one, "when", _PROCEDURES.features)) for one in questions]
            for question, is_here in zip(questions, here, strict=True):
                findings = [
                    one
                    for one in question.tables("finding")
                    if variation.satisfies(read_condition(one, "when", _PROCEDURES.features))
                ]
                assert not is_here or len(findings) > 1, (key, question.text("key"), variation.name)
                for finding in findings:
                    then = finding.text("next", default="")
                    leads_on = any(here[order.index(then) :]) if then else _asks_for_something(finding, known)
                    assert leads_on, (key, finding.text("key"), variation.name)


@pytest.mark.parametrize("variation", _FEW, ids=lambda variation: variation.name)
def test_the_cheapest_look_comes_first(variation: Variation) -> None:
    """Along no path of any tree does a question take fewer minutes than the one before it, and every question is reached."""
    for complaint in load_complaints().trees(variation).values():
        reached = {complaint.questions[0].key}
        for question in complaint.questions:
            for finding in question.findings:
                if finding.then:
                    reached.add(finding.then)
                    assert complaint.question(finding.then).minutes >= question.minutes, (complaint.key, finding.key)
        assert reached == {one.key for one in complaint.questions}, complaint.key


@pytest.mark.parametrize("variation", _FEW, ids=lambda variation: variation.name)
def test_the_planner_takes_every_request(variation: Variation) -> None:
    """What a finding, a pattern or a reject asks for can be planned, and asks for some step."""
    requests = {
        (complaint.key, finding.key): finding.request
        for complaint in load_complaints().trees(variation).values()
        for question in complaint.questions
        for finding in question.findings
        if finding.request is not None
    }
    requests |= {("damage", one.key): one.request for one in load_damage().patterns(variation)}
    for name, request in requests.items():
        found = plan(_PROCEDURES, work=request.work, wanted=request.wanted, as_found=request.as_found, variation=variation)
        assert found.steps, name


def test_every_part_of_the_trade_has_something_to_look_at() -> None:
    """Shell to barrel, in the words in which one asks for them; every part with looks belongs to a group."""
    inspection = load_inspection()
    for words in (
        "shell", "bearings", "gears", "piston", "seals", "cylinder", "cylinder head", "nozzle", "tappet plate", "spring", "guide",
        "latch", "trigger group", "wiring", "motor", "hop-up", "barrel",
    ):  # fmt: skip
        assert inspection.sheet("").parts_named(words)
    grouped = {part for group in inspection.groups.values() for part in group.parts}
    for variation in _FEW:
        assert set(inspection.sheet(variation).looks) <= grouped


def test_every_complaint_of_the_trade_has_its_tree() -> None:
    """As the trade lists them."""
    assert set(load_complaints().entries) >= {
        "will_not_fire", "fires_no_ball", "two_balls", "jams_in_mid_cycle", "bursts_on_semi", "runs_on", "slow_trigger",
        "hot_motor_or_wires", "whine_grind_rattle", "low_velocity", "wide_velocity", "drifting_velocity", "hooks", "no_lift",
        "too_much_lift", "over_the_limit",
    }  # fmt: skip


def test_no_two_complaints_are_called_the_same() -> None:
    """Each name and saying leads to its own tree."""
    trees = load_complaints().trees("")
    for complaint in trees.values():
        for words in (complaint.key, complaint.name, *complaint.words):
            assert load_complaints().find(words, "").key == complaint.key, words


def test_every_limit_says_on_whose_word_it_stands() -> None:
    """A source that exists, or an estimate, or common practice that says so; and which set of limits it belongs to."""
    for variation in _FEW:
        for looks in load_inspection().sheet(variation).looks.values():
            for look in looks:
                assert look.set_by
                assert look.words(Grade.SOUND)
                assert look.words(Grade.REJECT)
                if look.provenance.source is None:
                    assert look.provenance.footing in {Footing.COMMON_PRACTICE, Footing.ESTIMATE}
                else:
                    assert look.provenance.source in load_references()
