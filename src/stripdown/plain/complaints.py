"""Complaints and their trees of questions as plain values."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from stripdown.plain.requests import request_fields

if TYPE_CHECKING:
    from collections.abc import Iterable

    from stripdown.procedures.complaint_trees import Complaint, Finding
    from stripdown.procedures.variations import Variation


def complaints_fields(every: Iterable[Complaint]) -> dict[str, Any]:
    """Turn the list of complaints into plain values."""
    return {"complaints": {one.key: {"name": one.name, "words": one.words} for one in every}}


def complaint_fields(found: Complaint, variation: Variation) -> dict[str, Any]:
    """Turn the tree of a complaint into plain values."""
    return {
        "variation": dict(variation.choices),
        "complaint": found.key,
        "name": found.name,
        "care": found.care,
        "questions": [
            {
                "question": question.key,
                "ask": question.ask,
                "how": question.how,
                "tools": question.tools,
                "time_min": question.minutes,
                "findings": [_finding(one) for one in question.findings],
            }
            for question in found.questions
        ],
    }


def _finding(finding: Finding) -> dict[str, Any]:
    end = {"then": finding.then} if finding.request is None else {"request": request_fields(finding.request)}
    return {"finding": finding.key, "seen": finding.seen, "says": finding.says, **end}
