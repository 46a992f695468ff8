"""Answers about rings and leaks as plain values for ``--json``."""

from __future__ import annotations

import dataclasses
from typing import Any

from stripdown.core.part_condition.band import AgainstBand
from stripdown.plain.si import plain, si_record

_UNITS = {"value": "1", "low": "1", "high": "1", "standard_strain": "1"}


def seal_fields(record: object) -> dict[str, Any]:
    """Turn an answer about a ring or a leak into plain values; its verdicts say where each figure lies."""
    fields = si_record(record, units=_UNITS, leave_out=("verdicts",))
    if any(field.name == "verdicts" for field in dataclasses.fields(record)):  # type: ignore[arg-type]
        fields["verdicts"] = [_verdict(verdict) for verdict in getattr(record, "verdicts")]  # noqa: B009  of any such record
    return fields


def _verdict(verdict: AgainstBand) -> dict[str, Any]:
    return {**si_record(verdict, units=_UNITS), "place": plain(verdict.place)}
