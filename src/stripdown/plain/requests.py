"""What to ask of the planner, as plain values for ``--json``."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from stripdown.procedures.request import Request


def request_fields(request: Request) -> dict[str, tuple[str, ...]]:
    """Turn a request into plain values, with the names that a job file has."""
    return {"work": request.work, "wanted": request.wanted, "as_found": request.as_found, "troubles": request.troubles}
