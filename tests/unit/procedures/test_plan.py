"""Plans for the small box, whose right order is known by heart."""

from __future__ import annotations

import pytest

from stripdown.errors import InputError, ProcedureError
from stripdown.procedures.plan import Plan, plan
from stripdown.procedures.steps import StepKind
from stripdown.procedures.why import plan_with, why_before
from tests.small_box import small_box

_BOX = small_box()


def _names(found: Plan) -> list[str]:
    return [step.step.name for step in found.steps]


def test_work_inside_brings_opening_proof_and_closing() -> None:
    """As found first, made safe before the shell, bond before the pack, pack before closing, closing before the string."""
    found = plan(_BOX, work=["bond_bearing"], as_found=["string"], variation="fixed guide")
    names = _names(found)
    order = [
        "as_found:string",
        "take_off:battery",
        "make:made_safe",
        "take_off:shell",
        "take_off:piston",
        "do:bond_bearing",
        "make:shim_pack",
        "put_back:shell",
        "put_back:battery",
        "make:string",
    ]
    assert sorted(order, key=names.index) == order
    assert "make:seal" not in names  # nothing that it spoils
    assert (found.makings, found.moves, found.openings, found.visited) == (3, 12, 1, 1)
    assert [step.wait for step in found.waits] == [24.0]
    assert found.consumables == ("bearing adhesive",)
    assert {"screwdriver", "feeler gauges"} <= set(found.tools)


def test_cautions_stand_at_their_step() -> None:
    """The flying spring at the shell, the eyes at the string."""
    found = {
        step.step.name: tuple(map(str, step.cautions))
        for step in plan(_BOX, work=["replace_spring"], variation="fixed guide").steps
    }
    assert found["take_off:shell"] == ("The spring flies.",)
    assert found["make:string"] == ("Eye protection.",)


def test_a_quick_guide_changes_a_spring_through_the_back() -> None:
    """The same work opens the box with a fixed guide, and not with a quick-change guide."""
    assert "take_off:shell" in _names(plan(_BOX, work=["replace_spring"], variation="fixed guide"))
    quick = plan(_BOX, work=["replace_spring"], variation="quick guide")
    assert "take_off:shell" not in _names(quick)
    assert [name for name in _names(quick) if name.startswith("make:")] == ["make:made_safe", "make:string"]


def test_a_plan_begins_where_the_gun_lies() -> None:
    """Half stripped, by the log or by hand; what is off is put back, and what was proved on the way is not proved again."""
    log = [
        {"number": 1, "action": "open_up", "part": "piston"},
        {"number": 2, "check": "seal", "passed": True},
        {"number": 3, "check": "shim_pack", "value": 0.1, "unit": "mm"},
    ]
    found = plan(_BOX, wanted=["seal"], events=log, variation="fixed guide")
    names = _names(found)
    assert names[:4] == ["put_back:piston", "put_back:spring", "put_back:shell", "put_back:battery"]
    assert set(names[4:]) == {"make:closed_float", "make:string"}
    bare = plan(_BOX, variation="fixed guide", parts_off=["battery", "shell", "spring", "piston"])
    assert "make:shim_pack" in _names(bare)
    assert "make:seal" not in _names(bare)


def test_a_reading_as_found_that_came_too_late_is_said() -> None:
    """An open gun has no string as found."""
    found = plan(_BOX, as_found=["string"], variation="fixed guide", parts_off=["battery", "shell"])
    assert "as_found:string" not in _names(found)
    [late] = found.too_late
    assert late.reason.startswith("the chronograph string can no longer be read as found: the battery was taken off already")


def test_a_reading_as_found_can_be_all_the_making_that_is_needed() -> None:
    """Wanted and read as found, and nothing disturbs it: it is made once."""
    assert _names(plan(_BOX, wanted=["string"], as_found=["string"], variation="fixed guide")) == ["as_found:string"]


def test_a_failed_check_brings_its_remedy() -> None:
    """Wanted again, a seal that failed asks for what may mend it; not if the work does so anyway."""
    log = [{"number": 1, "action": "open_up", "part": "piston"}, {"number": 2, "check": "seal", "passed": False}]
    found = plan(_BOX, wanted=["seal"], events=log, variation="fixed guide")
    assert dict(found.remedies) == {"replace_piston": "seal"}
    assert _names(found).index("do:replace_piston") < _names(found).index("make:seal")
    assert not plan(_BOX, work=["replace_piston"], wanted=["seal"], events=log, variation="fixed guide").remedies


def test_what_stays_open_is_said() -> None:
    """What the log disturbed and the plan does not prove is named with its reason; what nobody ever touched owes nothing."""
    assert not plan(_BOX, work=["replace_spring"], variation="quick guide").left_open
    log = [{"number": 1, "action": "open_up", "part": "piston"}, {"number": 2, "action": "close_up"}]
    found = plan(_BOX, work=["replace_spring"], events=log, variation="quick guide")
    assert set(found.left_open) == {"closed_float"}
    assert (
        found.left_open["closed_float"].reason == "the closed-box float was never proved, and the shell was taken off (event 1)."
    )


def test_the_tools_at_hand_choose_the_method() -> None:
    """The best method that they allow; without any, the one that lacks the least."""
    for tools, name in ((None, "feeler gauge"), (["dial gauge"], "dial gauge"), (["finger"], "feeler gauge")):
        found = plan(_BOX, wanted=["shim_pack"], variation="fixed guide", tools_at_hand=tools)
        [step] = [step for step in found.steps if step.key == "shim_pack"]
        assert step.method is not None
        assert step.method.name == name
        assert step.trial == ("shell",)


@pytest.mark.parametrize(
    ("asked", "complaint"),
    [
        ({"work": ["bond_baering"]}, r'"bond_baering" is no action of this gun\. Did you mean bond_bearing'),
        ({"wanted": ["sael"]}, r'"sael" is no check of this gun\. Did you mean seal'),
        ({"as_found": ["nothing_like_it"]}, '"nothing_like_it" is no check'),
        ({"work": ["bond_bearing", "replace_bearing"]}, 'the work contradicts itself: "bond the gear\'s left bearing"'),
        ({"parts_off": ["pistn"]}, r'"pistn" is no part of this gun\. Did you mean piston'),
    ],
)
def test_a_request_that_makes_no_sense_is_refused(asked: dict[str, list[str]], complaint: str) -> None:
    """Unknown names with the nearest ones, and contradictory work by both."""
    with pytest.raises(InputError, match=complaint):
        plan(_BOX, variation="fixed guide", **asked)  # type: ignore[arg-type]


def test_work_of_another_variation_is_told_from_a_slip() -> None:
    """A latch cannot be replaced that was deleted."""
    with pytest.raises(InputError, match="belongs to another variation; this gun is: fixed guide, latch deleted"):
        plan(_BOX, work=["replace_latch"], variation="latch deleted")


_IMPOSSIBLE = """
[[pair]]
first = "do:replace_gear"
then = "do:replace_piston"
why = "one was declared so"
[[pair]]
first = "do:replace_piston"
then = "do:replace_gear"
why = "and the other so"
"""


def test_what_cannot_be_done_in_any_order_names_the_shortest_circle() -> None:
    """Each step of the circle with its reason."""
    with pytest.raises(ProcedureError, match=r'"replace the \w+" before "replace the \w+" \(.*declared so\)'):
        plan(small_box(_IMPOSSIBLE), work=["replace_gear", "replace_piston"], variation="fixed guide")


_TWICE = """
[action.settle_spring]
name = "settle the new spring"
touches = [["spring", "adjust"]]
on = ["spring", "shell", "battery"]
how = "Two hundred shots."

[[pair]]
first = "do:settle_spring"
then = "do:replace_piston"
why = "the piston is fitted to a settled spring"
[[pair]]
first = "do:replace_spring"
then = "do:settle_spring"
why = "it is the new spring that settles"
"""


def test_a_request_with_a_circle_is_solved_by_opening_twice() -> None:
    """A spring that must be settled in the closed gun before the piston is replaced."""
    found = plan(small_box(_TWICE), work=["replace_spring", "settle_spring", "replace_piston"], variation="fixed guide")
    assert found.openings == 2
    assert found.visited > 1
    names = _names(found)
    assert names.index("do:replace_spring") < names.index("do:settle_spring") < names.index("do:replace_piston")
    assert names.count("make:string") == 1


def test_why_answers_with_the_shortest_chain() -> None:
    """Bond before the string: through the float, the closing, or whatever demands it; asked the wrong way round, it says so."""
    found = plan(_BOX, work=["bond_bearing"], variation="fixed guide")
    answer = why_before(found, "bond_bearing", "make:shim_pack")
    assert [one.words for one in answer.chain] == ["The bond must be hard before a float is measured."]
    far = why_before(found, "take_off:battery", "make:string")
    assert far.chain[0].first.key == "battery"
    assert far.chain[-1].then.key == "string"
    assert all(one.then == two.first for one, two in zip(far.chain, far.chain[1:], strict=False))
    assert why_before(found, "make:shim_pack", "do:bond_bearing").is_turned
    guarded = why_before(found, "made_safe", "take_off:shell")
    assert "gun made safe must hold" in guarded.chain[0].words


def test_why_without_a_plan_makes_the_one_that_both_steps_ask_for() -> None:
    """Work, checks and parts each bring what is behind them."""
    found = plan_with(_BOX, ("bond the gear's left bearing", "put_back:shell"), variation="fixed guide")
    answer = why_before(found, "bond the gear's left bearing", "put_back:shell")
    assert answer.chain
    assert {step.kind for step in found.steps} >= {StepKind.DO, StepKind.PUT_BACK}


@pytest.mark.parametrize(("first", "then", "complaint"), [("bonding", "string", "no step"), ("string", "string", "same step")])
def test_why_names_what_it_does_not_know(first: str, then: str, complaint: str) -> None:
    """A step that the plan lacks, or the same step twice."""
    found = plan(_BOX, work=["bond_bearing"], variation="fixed guide")
    with pytest.raises(InputError, match=complaint):
        why_before(found, first, then)


def test_keys_may_come_from_whatever_yields_them() -> None:
    """Generators are read once and kept; one text is one key, not its letters."""
    off = ["battery", "shell"]
    wanted = plan(_BOX, work=["bond_bearing"], parts_off=off, variation="fixed guide")
    for work in ("bond_bearing", iter(["bond_bearing"]), {"bond_bearing"}):
        assert _names(plan(_BOX, work=work, parts_off=iter(off), variation=iter(["fixed guide"]))) == _names(wanted)
    assert "take_off:battery" not in _names(wanted)


@pytest.mark.parametrize(("field", "value"), [("work", None), ("wanted", 7), ("as_found", [7]), ("parts_off", {"battery": True})])
def test_what_is_no_list_of_keys_is_refused(field: str, value: object) -> None:
    """The argument is named, and what would be right."""
    with pytest.raises(InputError, match=rf"^{field} (must be a list of texts|holds 7, which is no text)\.? Write {field} ="):
        plan(_BOX, variation="fixed guide", **{field: value})  # type: ignore[arg-type]
