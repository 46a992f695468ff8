"""Doing a plan as it stands never reorders the rest: after each step, entered in the log, the plan is what was left of it.

Left aside is what is made, put in and taken out on the way: it depends on what the gun holds at that moment.
"""

from __future__ import annotations

import pytest

from stripdown.bench.visit import Visit
from stripdown.procedures.inspection import load_inspection
from stripdown.procedures.loading import load_procedures
from stripdown.procedures.request import Request
from stripdown.procedures.steps import Step
from stripdown.studies.service_job import study_job
from tests.packaged_requests import as_events

_JOBS = tuple(key for key in load_procedures().named_jobs(()))
_VARIATIONS = (
    "version 2",
    "version 3, quick change, electronic, ported",
    "version 2, quick change, pre-cocking, bushings, latch deleted, second tooth off",
    "version 3, contacts, teeth off at release",
)


def _reordered(variation: str, job: str) -> list[tuple[int, Step]]:
    """The steps after which the rest was another than before, or in another order."""
    procedures = load_procedures()
    gun = procedures.variation(variation)
    request = Request().with_job(procedures.named_job(job, gun))
    visit = Visit(title="", inspection=load_inspection(), variation=gun, request=request)
    left = [one.step for one in study_job(visit).plan.steps]
    procedure = procedures.procedure(gun)
    on_the_way = procedure.guards | procedure.leaving | procedure.left_out
    done: list[Step] = []
    found = []
    while left:
        done.append(left.pop(0))
        log = as_events(done, first=1)
        now = Visit(title="", inspection=visit.inspection, variation=gun, request=request, events=log)
        after = [one.step for one in study_job(now).plan.steps]
        if [step for step in after if step.key not in on_the_way] != [step for step in left if step.key not in on_the_way]:
            found.append((len(done), done[-1]))
        left = after
        assert len(done) < 400, "the plan does not end"
    return found


@pytest.mark.parametrize(
    ("variation", "job"), [(_VARIATIONS[0], "full_service"), (_VARIATIONS[1], "reseal"), (_VARIATIONS[2], "new_hop_up_rubber")]
)
def test_doing_a_plan_as_it_stands_never_reorders_the_rest(variation: str, job: str) -> None:
    """At none of its steps; before, at 21 of the 135 of a full service."""
    assert _reordered(variation, job) == []


@pytest.mark.slow
@pytest.mark.parametrize("variation", _VARIATIONS)
@pytest.mark.parametrize("job", _JOBS)
def test_doing_a_plan_as_it_stands_never_reorders_the_rest_of_any_job(variation: str, job: str) -> None:
    """As above, each named job on four guns."""
    assert _reordered(variation, job) == []
