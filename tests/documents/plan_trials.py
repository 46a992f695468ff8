"""Makes docs/validation-plans.md: plans against exhaustive search, on procedures that are made up at random.

``python -m tests.documents.plan_trials docs/validation-plans.md`` takes a few minutes and stops at the first difference.
"""

from __future__ import annotations

import random
import sys
from collections import Counter
from pathlib import Path

from stripdown.errors import ProcedureError
from stripdown.procedures.loading import load_procedures
from stripdown.procedures.needed import needed_steps
from stripdown.procedures.plan import plan
from stripdown.procedures.search import find_steps
from stripdown.procedures.steps import StepKind
from tests.exhaustive_plans import cheapest
from tests.made_up_procedures import MOST_ACTIONS, MOST_CHECKS, MOST_PARTS, made_up_procedure, made_up_situation

TRIALS = 10_000
_MOVES = {StepKind.TAKE_OFF, StepKind.PUT_BACK}


def main(target: str) -> None:
    """Try, compare, and write the page."""
    outcomes: Counter[str] = Counter()
    kinds: Counter[str] = Counter()
    most_visited = most_openings = 0
    for seed in range(TRIALS):
        chance = random.Random(seed)  # noqa: S311  not for secrets
        procedure = made_up_procedure(chance)
        situation = made_up_situation(procedure, chance)
        best = cheapest(procedure, situation)
        try:
            found = find_steps(procedure, situation)
        except ProcedureError:
            cost = None
            outcomes["refused, and exhaustive search finds nothing"] += 1
        else:
            cost = (sum(one.kind is StepKind.MAKE for one in found.steps), sum(one.kind in _MOVES for one in found.steps))
            off = Counter(one.key for one in found.steps if one.kind is StepKind.TAKE_OFF)
            openings = max(off.values(), default=0)
            outcomes["without circle: one state" if found.visited == 1 else "with a circle: searched"] += 1
            outcomes["of these opened twice or more"] += openings > 1
            most_visited, most_openings = max(most_visited, found.visited), max(most_openings, openings)
        if cost != best:
            raise SystemExit(f"seed {seed}: the plan costs {cost}, exhaustive search {best}")
        needed = needed_steps(procedure, situation)
        kinds["readings as found"] += bool(situation.as_found)
        kinds["a reading as found that serves as the making"] += bool(needed.served)
        kinds["a failed check that brings its remedy"] += bool(needed.remedies)
        kinds["half stripped at the start"] += bool(situation.off)
        kinds["declared orders"] += bool(procedure.order)
    Path(target).write_text(_page(outcomes, kinds, most_visited, most_openings), encoding="utf-8")


def _full_service() -> str:
    """The work of planning a full service on the variation with the most parts, checks and actions."""
    procedures = load_procedures()
    entries = (*procedures.parts.values(), *procedures.checks.values(), *procedures.actions.values())
    largest = max(procedures.variations(), key=lambda one: sum(one.satisfies(entry.condition) for entry in entries))
    job = procedures.named_job("full service", largest)
    found = plan(procedures, work=job.work, wanted=job.wanted, as_found=job.as_found, variation=largest)
    return (
        f"A full service on the largest variation ({largest.name}): {len(found.steps)} steps, {found.makings} makings, "
        f"{found.moves} moves, states visited: **{found.visited}**."
    )


def _page(outcomes: Counter[str], kinds: Counter[str], most_visited: int, most_openings: int) -> str:
    told = (
        "Made by `python -m tests.documents.plan_trials`. Procedures made up at random, sound by the data contract "
        f"(at most {MOST_PARTS} parts, {MOST_CHECKS} checks, {MOST_ACTIONS} actions; `tests/made_up_procedures.py`); the "
        "cheapest way found by trying everything (`tests/exhaustive_plans.py`). Makings and moves were **equal in all "
        f"{TRIALS}**; what was refused cannot be done. At most {most_visited} states were looked at, and the gun was opened at "
        f"most {most_openings} times."
    )
    lines = [
        "# Plans against exhaustive search",
        "",
        told,
        "",
        "| outcome | how often |",
        "|---|---|",
        *(f"| {outcome} | {outcomes[outcome]} |" for outcome in sorted(outcomes, key=lambda one: (one.startswith("of"), one))),
        "",
        "| trials with | how often |",
        "|---|---|",
        *(f"| {kind} | {count} |" for kind, count in sorted(kinds.items())),
        "",
        "## Work on the packaged procedures",
        "",
        _full_service(),
        "",
    ]
    return "\n".join(lines)


if __name__ == "__main__":
    main(*sys.argv[1:])
