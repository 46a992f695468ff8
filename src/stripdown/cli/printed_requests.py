"""What to ask of the planner, in words and in keys."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from stripdown.procedures.procedure import Procedure
    from stripdown.procedures.request import Request


def asked_words(procedure: Procedure, request: Request, *, is_choice: bool = False) -> str:
    """A request in one sentence, each name with its key."""
    found = [f"read as found: {_checks(procedure, request.as_found)}"] if request.as_found else []
    if request.work:
        found.append((", or " if is_choice else ", ").join(f"{procedure.actions[key].name} [{key}]" for key in request.work))
    if request.wanted:
        found.append(f"prove: {_checks(procedure, request.wanted)}")
    return "; ".join(found)


def _checks(procedure: Procedure, keys: tuple[str, ...]) -> str:
    return ", ".join(f"{procedure.checks[key].name} [{key}]" for key in keys)
