"""Each rule of the data contract, broken once: what is wrong is named."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from stripdown.procedures.contract import flaws
from stripdown.procedures.curing import still_curing
from stripdown.procedures.events import read_events
from stripdown.procedures.guarding import unguarded, with_guards
from stripdown.procedures.happenings import happenings
from stripdown.procedures.steps import Step, StepKind
from tests.small_box import small_box

_CHECK = """
[check.extra]
name = "extra"
fact = "f"
place = "mat"
expect = "e"
footing = "common_practice"
{}
[[check.extra.method]]
name = "m"
how = "h"
"""


@pytest.mark.parametrize(
    ("more", "flaw"),
    [
        ('[[amend]]\nentry = "part.battery"\nin_front = ["shell"]', "part battery is in front of itself."),
        ('[[amend]]\nentry = "check.shim_pack"\nrests_on = ["closed_float"]', "check shim_pack rests on itself."),
        (_CHECK.format('about = ["piston"]\ntouches = [["piston", "clean"]]'), "making extra spoils extra."),
        (_CHECK.format('rests_on = ["string"]\ntouches = [["piston", "clean"]]'), "making extra spoils string."),
        (
            _CHECK.format('about = ["gear"]\ntouches = [["piston", "clean"]]')
            + '[[amend]]\nentry = "check.seal"\ntouches = [["gear", "clean"]]',
            "making extra and making seal spoil each other's check.",
        ),
        (_CHECK.format('off = ["piston"]\non = ["shell"]'), "making extra needs shell on, which must be off to reach piston."),
        (_CHECK.format('off = ["piston"]\ndry = ["shell"]'), "making extra puts on shell for a trial, but does not need it on."),
        (_CHECK.format('about = ["shell"]\noff = ["piston"]'), "putting back shell after making extra spoils it"),
        (
            _CHECK.format('about = ["gear"]\nremedies = ["replace_piston"]'),
            "replace_piston is called a remedy for extra and changes",
        ),
        (
            '[action.odd]\nname = "n"\ntouches = [["gear", "clean"]]\noff = ["gear"]\non = ["shell"]\nhow = "h"',
            "action odd needs shell on, which must be off to reach gear.",
        ),
        ('[[amend]]\nentry = "check.made_safe"\noff = ["piston"]', "guard made_safe cannot be made before take_off:shell"),
        ('[[amend]]\nentry = "check.made_safe"\nneeds = ["made_safe"]', "guard made_safe needs itself."),
        ('[[amend]]\nentry = "check.made_safe"\nrelease = true', "guard made_safe is on the release list"),
        ('[[amend]]\nentry = "check.made_safe"\non = ["battery"]\noff = []', "battery may be off by then."),
    ],
)
def test_a_broken_rule_is_named(more: str, flaw: str) -> None:
    """In one sentence, with the keys."""
    found = flaws(small_box(more).procedure("fixed guide"))
    assert any(flaw in one for one in found), found


def test_a_guard_is_made_again_only_when_it_no_longer_holds() -> None:
    """Made before the first step that needs it, and once more after the battery was in."""
    procedure = small_box().procedure("fixed guide")
    steps = [
        Step(StepKind.TAKE_OFF, "battery"),
        Step(StepKind.TAKE_OFF, "shell"),
        Step(StepKind.TAKE_OFF, "spring"),
        Step(StepKind.PUT_BACK, "spring"),
        Step(StepKind.PUT_BACK, "shell"),
        Step(StepKind.PUT_BACK, "battery"),
        Step(StepKind.TAKE_OFF, "battery"),
        Step(StepKind.TAKE_OFF, "shell"),
    ]
    guarded = with_guards(procedure, (), steps)
    names = [step.name for step in guarded.steps]
    assert names.count("make:made_safe") == 2
    assert names.index("make:made_safe") == names.index("take_off:shell") - 1
    assert "made_safe" in guarded.fresh
    assert with_guards(procedure, ("made_safe",), steps[1:5]).steps == tuple(steps[1:5])


def test_what_was_bonded_is_waited_for_until_the_check_is_made() -> None:
    """By the name of the work or by its touch; a check made since waits for nothing."""
    procedure = small_box().procedure("fixed guide")
    opened = [
        {"number": 1, "action": "open_up", "part": "piston"},
        {"number": 2, "action": "open_up", "part": "gear_shims_left"},
    ]
    pack = Step(StepKind.MAKE, "shim_pack")
    for bonded in ({"action": "bond_bearing"}, {"part": "bearing", "kind": "bond"}):
        log = [*opened, {"number": 3, "when": "2026-05-03", **bonded}]
        waiting = still_curing(procedure, happenings(procedure, read_events(log)))
        assert {step: (one.words, one.event, one.work) for step, one in waiting.items()} == {
            pack: (
                "not before 24 h have passed since event 3 on 3 May (bond the gear's left bearing), until the bond has cured",
                3,
                "bond_bearing",
            )
        }
        back = [
            {"number": 4, "action": "put_back", "part": "gear_shims_left"},
            {"number": 5, "action": "put_back", "part": "gear"},
        ]
        made = {"number": 6, "check": "shim_pack", "value": "0.1 mm"}
        assert not still_curing(procedure, happenings(procedure, read_events([*log, *back, made])))


def test_a_log_without_its_guards_is_found_out() -> None:
    """Opened before the gun was made safe, or after the battery was in again; not if it was made safe in between."""
    procedure = small_box().procedure("fixed guide")
    safe = {"check": "made_safe", "passed": True}

    def found(*fields: Mapping[str, object]) -> list[tuple[int, str, tuple[str, ...]]]:
        log = read_events([{**one, "number": number} for number, one in enumerate(fields, start=1)])
        return [(one.event, one.step.name, one.guards) for one in unguarded(procedure, happenings(procedure, log))]

    battery, shell = {"action": "take_off", "part": "battery"}, {"action": "take_off", "part": "shell"}
    assert found({"action": "open_up", "part": "piston"}) == [(1, "take_off:shell", ("made_safe",))]
    assert found(battery, shell) == [(2, "take_off:shell", ("made_safe",))]
    assert found(battery, {**safe, "passed": False}, shell) == [(3, "take_off:shell", ("made_safe",))]
    assert found(battery, safe, shell) == []
    assert found(battery, safe, {"action": "put_back", "part": "battery"}, battery, shell) == [
        (5, "take_off:shell", ("made_safe",))
    ]
