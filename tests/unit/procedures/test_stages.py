"""From one gun to another: on a box small enough to know every answer by heart."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from stripdown.errors import CatalogueError, InputError
from stripdown.procedures.becoming import becoming, flaws_of_becoming
from stripdown.procedures.description import Procedures
from stripdown.procedures.needed import Situation
from stripdown.procedures.plan import plan
from stripdown.procedures.search import find_steps
from stripdown.procedures.stages import find_stages
from stripdown.procedures.standing import Standing, standing
from tests.small_box import small_box

_LATCHED = "fixed guide, latch present"
_WORK = """
[action.leave_out_latch]
name = "leave the latch out"
when = {{ latch = "latch_present" }}
becomes = {{ latch = {latch} }}
place = "train"
touches = [["latch", "replace"]]
off = ["{off}"]
how = "Out."

[action.fit_latch]
name = "fit a latch"
when = {{ latch = "latch_deleted" }}
becomes = {{ latch = "latch_present" }}
place = "train"
touches = [["latch", "replace"]]
off = ["shell"]
how = "In."

[check.latch_bite]
name = "bite of the latch"
when = {{ latch = "latch_present" }}
fact = "It holds."
place = "mat"
about = ["latch"]
on = ["shell", "latch"]
release = true
expect = "A click."
footing = "common_practice"
[[check.latch_bite.method]]
name = "by hand"
how = "Turn."
"""


def _box(*, latch: str = '"latch_deleted"', off: str = "latch") -> Procedures:
    return small_box(_WORK.format(latch=latch, off=off))


def _log(*fields: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    return [{"number": number, **one} for number, one in enumerate(fields, start=1)]


_OUT = (
    {"check": "latch_bite", "passed": True},
    {"action": "open_up", "part": "latch"},
    {"action": "leave_out_latch"},
)


def test_a_part_that_leaves_comes_off_and_one_that_arrives_goes_in() -> None:
    """The latch stays out and its bite is not proved; fitted again it goes in, though it never came off, and is."""
    out = [step.step.name for step in plan(_box(), work=["leave_out_latch"], variation=_LATCHED).steps]
    assert out.index("take_off:latch") < out.index("do:leave_out_latch") < out.index("put_back:shell")
    assert not {"put_back:latch", "make:latch_bite"} & set(out)
    back = plan(_box(), work=["fit_latch"], variation="fixed guide, latch deleted")
    steps = [step.step.name for step in back.steps]
    assert steps.index("do:fit_latch") < steps.index("put_back:latch") < steps.index("put_back:shell")
    assert steps.index("put_back:shell") < steps.index("make:latch_bite")
    [arriving] = [step for step in back.steps if step.arrives]
    assert (arriving.name, back.becomes) == ("put in the latch", {"latch": "latch_present"})


def test_the_log_is_that_of_the_new_gun_from_the_event_on() -> None:
    """A check that went is not asked for, a part that went cannot be put back; what is fitted again has to be proved."""
    assert "latch_bite" not in standing(_box(), _log(*_OUT), variation=_LATCHED)
    with pytest.raises(InputError, match=r"event 4: part .* belongs to another variation"):
        standing(_box(), _log(*_OUT, {"action": "put_back", "part": "latch"}), variation=_LATCHED)
    again = standing(_box(), _log(*_OUT, {"action": "fit_latch"}), variation=_LATCHED)["latch_bite"]
    assert (again.standing, again.since) == (Standing.STALE, 2)


def test_a_change_that_is_taken_back_never_was() -> None:
    """Unless something came after it that only the new gun allows."""
    withdrawn = _log(*_OUT, {"supersedes": 3})
    assert "latch_bite" in standing(_box(), withdrawn, variation=_LATCHED)
    with pytest.raises(InputError, match="event 5: supersedes"):
        standing(_box(), _log(*_OUT, {"action": "fit_latch"}, {"supersedes": 3}), variation=_LATCHED)


def test_two_changes_of_one_feature_contradict_each_other() -> None:
    """A gun has a latch or none."""
    with pytest.raises(InputError, match="contradicts itself"):
        plan(_box(), work=["fit_latch", "leave_out_latch"], variation=_LATCHED)


def test_work_that_changes_no_gun_is_one_stage() -> None:
    """And the same steps as before there were stages."""
    procedure = _box().procedure(_LATCHED)
    situation = Situation(work=frozenset({"replace_piston", "bond_bearing"}), wanted=frozenset({"seal"}))
    [stage] = find_stages(procedure, situation)
    assert stage.becoming is None
    assert stage.steps == find_steps(procedure, situation).steps
    assert becoming(procedure, "replace_piston") is None


def test_data_that_leave_a_gun_that_nobody_can_close_are_named() -> None:
    """A part that is still in when the new gun has none; and a choice that no gun has, or two at once."""
    [flaw] = flaws_of_becoming(_box(off="battery").procedure(_LATCHED))
    assert flaw == "action leave_out_latch makes a gun without latch, and does not need it off."
    for wrong, words in (('"half"', "is no choice of latch"), ('["latch_deleted", "latch_present"]', "must be one choice")):
        with pytest.raises(CatalogueError, match=words):
            _box(latch=wrong)
