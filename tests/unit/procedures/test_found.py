"""What is read as found, what is lost, and late entries; answers by hand, common practice without a source."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from stripdown.bench.visit import Visit
from stripdown.errors import InputError
from stripdown.procedures.begun import begun_by
from stripdown.procedures.events import read_events
from stripdown.procedures.found import befores
from stripdown.procedures.happenings import happenings
from stripdown.procedures.inspection import load_inspection
from stripdown.procedures.loading import load_procedures
from stripdown.procedures.plan import Plan, plan, plan_from
from stripdown.procedures.request import Request
from stripdown.procedures.standing import standings
from stripdown.studies.service_job import study_job

_FIRED = {"check": "string_hop_off", "kind": "as_found", "value": "0.6 %"}
_STRINGS = ["as_found:string_hop_off", "as_found:string_hop_set", "as_found:string_automatic"]


def _log(*fields: Mapping[str, Any]) -> list[dict[str, Any]]:
    return [{"number": number, **one} for number, one in enumerate(fields, start=1)]


def _plan(*fields: Mapping[str, Any], work: str = "replace_piston_ring", variation: str = "version 2") -> Plan:
    return plan(load_procedures(), work=[work], events=_log(*fields), variation=variation, arrival={"ran": "yes"})


def _steps(found: Plan) -> list[str]:
    return [str(one.step) for one in found.steps]


@pytest.mark.parametrize("variation", ["version 2", "version 3, quick change, electronic"])
def test_a_pack_that_is_out_already_goes_in_again_for_the_reading(variation: str) -> None:
    """Nothing is disturbed by it: pack and magazine in, the strings fired, both out again, made safe, and only then the work."""
    out = [{"action": "take_off", "part": part} for part in ("magazine", "battery")]
    steps = _steps(_plan(*out, variation=variation))
    assert set(steps[:2]) == {"put_back:battery", "put_back:magazine"}
    assert steps[2:5] == _STRINGS
    assert steps.index("take_off:battery") < steps.index("make:made_safe") < steps.index("take_off:front_end")


def test_a_pack_does_not_go_in_before_its_leads_are_proved() -> None:
    """Leads that were soldered anew want a meter first: the string as found is lost, and no pack is joined for it."""
    opened = [{"action": "open_up", "part": "wires"}, {"action": "resolder_wires"}]
    found = _plan(*opened, work="replace_nub")
    assert "as_found:string_hop_off" not in _steps(found)
    assert _steps(found).index("make:polarity") < _steps(found).index("put_back:battery")


@pytest.mark.parametrize("variation", ["version 2", "version 3"])
def test_what_is_lost_says_by_what_and_when(variation: str) -> None:
    """The first thing that changed what it is about, with its event; the step is not in the plan."""
    opened = {"action": "open_up", "part": "piston_ring", "when": "2026-05-03"}
    found = _plan(opened, {"action": "replace_piston_ring"}, work="lubricate_cylinder", variation=variation)
    lost = {one.check: one.reason for one in found.too_late}
    assert lost["piston_drag"].startswith("the piston drag can no longer be read as found: the piston head's ring was ")
    assert "on 3 May (event 1)" in lost["string_hop_off"]
    assert not any(step.startswith("as_found:piston_drag") for step in _steps(found))


def test_a_before_that_no_longer_compares_is_said_at_the_step_that_reads_it_again() -> None:
    """Another ball batch while the gun is still closed."""
    found = _plan(_FIRED, {"action": "change_ball_batch"})
    again = next(one for one in found.steps if str(one.step) == "as_found:string_hop_off")
    assert again.purpose == "again: the ball batch was replaced (event 2), and before and after no longer compare"


def test_another_batch_beside_the_work_comes_before_both_readings() -> None:
    """What is fired before and after is fired with the new one, or it would not compare."""
    steps = _steps(plan(load_procedures(), work=["change_ball_batch", "replace_piston_ring"], variation="version 2"))
    assert steps.index("do:change_ball_batch") < steps.index("as_found:string_hop_off") < steps.index("do:replace_piston_ring")


def test_what_is_not_read_as_found_for_a_reason_says_it() -> None:
    """Whoever knows that a shot would do harm says so, and the rest is read."""
    procedure = load_procedures().procedure("version 2")
    found = plan_from(
        procedure,
        Request(work=("replace_piston_ring",)),
        off=frozenset(),
        known=standings(procedure, ()),
        begun=begun_by(procedure, ()),
        unread={"string_hop_off": "the shell is cracked"},
    )
    assert "as_found:string_hop_off" not in _steps(found)
    assert {one.check: one.reason for one in found.too_late} == {
        "string_hop_off": "the chronograph string with the hop-up off is not read as found: the shell is cracked."
    }
    assert "as_found:piston_drag" in _steps(found)


def test_a_reading_of_an_earlier_visit_is_no_before() -> None:
    """Fired in March and undisturbed since: by September the gun was used, and the visit fires its own."""
    gun = load_procedures().variation("version 2")
    fields: dict[str, Any] = {
        "title": "",
        "inspection": load_inspection(),
        "variation": gun,
        "request": Request(work=("replace_piston_ring",)),
        "events": read_events(_log({**_FIRED, "kind": None})),
    }
    assert "as_found:string_hop_off" not in _steps(study_job(Visit(**fields)).plan)
    assert "as_found:string_hop_off" in _steps(study_job(Visit(**fields, after=1)).plan)


def test_a_late_entry_counts_after_the_event_that_it_names() -> None:
    """Before the first event too, and one behind the other."""
    procedure = load_procedures().procedure("version 2")
    log = _log(
        {"action": "open_up", "part": "piston_ring"},
        {"action": "replace_piston_ring"},
        {**_FIRED, "after": 0},
        {"check": "string_hop_set", "kind": "as_found", "value": "0.7 %", "after": 3},
    )
    happened = happenings(procedure, read_events(log))
    assert [one.event.number for one in happened] == [3, 4, 1, 2]
    assert befores(procedure, happened)["string_hop_off"].holds
    assert befores(procedure, happened)["piston_drag"].disturbed is not None


@pytest.mark.parametrize(
    ("entry", "complaint"),
    [
        ({**_FIRED}, r"event 3: check .* cannot have been done: the .* off\. .*If it was read earlier, write after = "),
        ({**_FIRED, "after": 1}, r"event 3: check .* cannot have been done"),
        ({**_FIRED, "after": 3}, r'event 3: after "3" must be the number of an earlier event'),
        ({"check": "spring_free_length", "kind": "as_found", "value": "2 mm"}, r"leave out the kind"),
    ],
)
def test_a_late_entry_that_cannot_be_is_refused(entry: Mapping[str, Any], complaint: str) -> None:
    """With what would be right."""
    opened = ({"action": "open_up", "part": "main_spring"}, {"action": "replace_main_spring"})
    with pytest.raises(InputError, match=complaint):
        _plan(*opened, entry)


def test_a_reading_as_found_after_its_part_was_changed_says_when_it_could_have_been() -> None:
    """The event before the change is the last after which it can have been read."""
    opened = ({"action": "open_up", "part": "main_spring"}, {"action": "replace_main_spring", "when": "2026-05-03"})
    read = {"check": "spring_free_length", "kind": "as_found", "value": "2 mm"}
    complaint = (
        r"event 3: check \"spring_free_length\" cannot be the free length of the main spring as it was found: the main spring "
        r"was replaced on 3 May \(event 2\) before it\. If it was read before that, write after = 1; if it was read after the "
    )
    with pytest.raises(InputError, match=complaint):
        _plan(*opened, read)
    assert _plan(*opened, {**read, "after": 1}).steps
