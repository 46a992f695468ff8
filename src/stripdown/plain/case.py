"""A whole case as plain values for ``--json``."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from stripdown.plain.causes import explanation_fields, gun_fields
from stripdown.plain.limits import limit_fields, verdict_fields
from stripdown.plain.si import assumed_fields, si_fields
from stripdown.plain.strings import comparison_fields, left_out_fields, string_fields

if TYPE_CHECKING:
    from stripdown.studies.service_case import CaseStudy


def case_fields(study: CaseStudy, *, unsaid: Sequence[str], cautions: Sequence[str]) -> dict[str, Any]:
    """Turn a studied case into plain values, with what cannot be said of it and what must be heeded in words."""
    shots = {"before": study.shot_before, "after": study.shot_after}
    return {
        "title": study.title,
        **gun_fields(study.gun),
        "invented": study.invented,
        "unsaid": list(unsaid),
        "found": list(study.found),
        "done": list(study.done),
        "before": [string_fields(string) for string in study.before],
        "after": [string_fields(string) for string in study.after],
        "comparisons": [comparison_fields(pair) for pair in study.comparisons],
        "limit": None if study.limit is None else limit_fields(study.limit),
        "verdict": None if study.verdict is None else verdict_fields(study.verdict),
        "explanation": None if study.explanation is None else explanation_fields(study.explanation),
        "simulated_shots": {name: None if shot is None else si_fields(shot.figures) for name, shot in shots.items()},
        "assumed": [assumed_fields(entry) for entry in study.assumed],
        "left_out": left_out_fields(study.left_out),
        "notes": list(study.notes),
        "cautions": list(cautions),
        "sources": list(study.sources),
        "input_digest": study.input_digest,
    }
