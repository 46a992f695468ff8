"""The release list: what must be true before the gun leaves the bench, and what forbids it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from stripdown.charts.standing_signs import SIGNS
from stripdown.procedures.checks import Check
from stripdown.procedures.plan import Plan
from stripdown.procedures.standing import CheckStanding, Standing
from stripdown.procedures.steps import StepKind
from stripdown.reports.content import Named
from stripdown.reports.service_content import ReleaseLine, ReleasePart
from stripdown.reports.service_job import ServiceJob
from stripdown.reports.service_steps import sentence

_MOST_NAMED = 6
_REMARK = (
    "This list is help for the technician. Whether the gun may be fired, and where, is decided by the site's own chronograph and "
    "marshal, by local rules and by the law."
)


def release_part(job: ServiceJob, plan: Plan, standings: Mapping[str, CheckStanding]) -> ReleasePart:
    """Say what must be true before the gun leaves."""
    steps: dict[str, list[str]] = {}
    for step in plan.steps:
        if step.kind is StepKind.MAKE:
            steps.setdefault(step.key, []).append(str(step.number))
    wanted = plan.procedure.release_list | frozenset(plan.request.wanted)
    listed = [key for key in plan.procedure.checks if key in wanted]
    rest = [key for key in listed if key not in steps and key not in plan.left_open]
    return ReleasePart(
        blocks=tuple(_rejects(job)),
        overridden=tuple(
            Named(name=sentence(reject.words), text=f"{sentence(reject.override)}{f' ({reject.who})' if reject.who else ''}")
            for reject in job.rejects
            if reject.override
        ),
        to_prove=tuple(_line(plan, standings, key, steps[key]) for key in listed if key in steps),
        left_open=tuple(_line(plan, standings, key, []) for key in plan.left_open),
        holding=tuple(plan.procedure.checks[key].name for key in rest if _is_fresh(standings, key)),
        undisturbed=tuple(plan.procedure.checks[key].name for key in rest if not _is_fresh(standings, key)),
        remark=_REMARK,
    )


def blocks(job: ServiceJob, plan: Plan) -> Iterator[str]:
    """What forbids release whatever this plan does."""
    yield from (f"Reject that is still in the gun: {words}" for words in _rejects(job))
    if plan.left_open:
        count, them = len(plan.left_open), "it" if len(plan.left_open) == 1 else "them"
        names = ", ".join(plan.procedure.checks[key].name for key in plan.left_open)
        which = names if count <= _MOST_NAMED else f"{count} checks, named in the release list"
        yield f"Not fresh, and not proved by this plan: {which}. The gun does not leave without {them}."


def _is_fresh(standings: Mapping[str, CheckStanding], key: str) -> bool:
    return key in standings and standings[key].standing is Standing.FRESH


def _rejects(job: ServiceJob) -> Iterator[str]:
    for reject in job.rejects:
        if not reject.override:
            yield f"{sentence(reject.words)} It blocks release until it is replaced, or overridden with a reason."


def _stands(check: Check, known: CheckStanding | None) -> str:
    """The standing in a word, and the reason, which may begin with that word itself."""
    if known is None or known.standing is Standing.NEVER:
        return sentence(f"never {check.proved}")
    if known.standing is Standing.FRESH:
        return "Fresh now; the plan undoes it."  # else it would not be made again
    word = known.standing.value
    return sentence(known.reason if known.reason.startswith(word) else f"{word}: {known.reason}")


def _line(plan: Plan, standings: Mapping[str, CheckStanding], key: str, steps: list[str]) -> ReleaseLine:
    check = plan.procedure.checks[key]
    known = standings.get(key)
    standing = known.standing if known is not None else Standing.NEVER
    return ReleaseLine(
        name=check.name,
        standing=standing,
        letter=SIGNS[standing].letter,
        reason=_stands(check, known),
        steps=", ".join(steps),
    )
