"""What a job file asks for, and what of it is done."""

from __future__ import annotations

from collections.abc import Iterable

from stripdown.errors import InputError
from stripdown.files.job_tables import JobTables
from stripdown.procedures.complaint_trees import request_for
from stripdown.procedures.complaints import find_complaint
from stripdown.procedures.description import Procedures
from stripdown.procedures.events import AS_FOUND, MOVES
from stripdown.procedures.happenings import Happening, action_key
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.request import Request
from stripdown.procedures.variations import Variation


def read_request(tables: JobTables, procedures: Procedures, variation: Variation) -> tuple[Request, int]:
    """Read what is asked for: named jobs, and single work, checks and readings."""
    request = Request(
        work=tables.texts("request", "work"),
        wanted=tables.texts("request", "wanted"),
        as_found=tables.texts("request", "as_found"),
    )
    for words in tables.texts("request", "job"):
        with tables.at("request", "job"):
            request = request.with_job(procedures.named_job(words, variation))
    complaint, finding = tables.text("request", "complaint", default=""), tables.text("request", "finding", default="")
    if complaint:
        with tables.at("request", "finding" if finding else "complaint"):
            request = request.joined(_after_finding(complaint, finding, variation))
    return request, tables.count("request", "after")


def _after_finding(complaint: str, finding: str, variation: Variation) -> Request:
    """What a finding in the tree of a complaint asks for."""
    tree = find_complaint(complaint, variation)
    if not finding:
        first = tree.questions[0]
        raise InputError(
            f'"{tree.name}" is a complaint, and no finding yet.',
            field="complaint",
            value=complaint,
            hint=f'Look first (stripdown complaint {tree.key}), then write what you saw: finding = "{first.findings[0].key}".',
        )
    return request_for(tree, finding)


def still_to_do(procedure: Procedure, request: Request, log: Iterable[Happening], *, after: int) -> Request:
    """What of a request the log does not have yet."""
    since = [happening.event for happening in log if happening.event.number > after]
    done = {action_key(procedure, event) for event in since if event.action is not None and event.action not in MOVES}
    read = {event.check for event in since if event.kind == AS_FOUND}
    return Request(
        work=tuple(action for action in request.work if action not in done),
        wanted=request.wanted,
        as_found=tuple(check for check in request.as_found if check not in read),
    )
