"""What `stripdown plan` prints for people."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from stripdown.cli.hanging import print_hanging
from stripdown.cli.harmless_text import harmless
from stripdown.cli.printed_reckonings import print_reckonings
from stripdown.cli.terminal import print_paragraph
from stripdown.procedures.steps import StepKind
from stripdown.reports.reckoned_words import reckonings

if TYPE_CHECKING:
    from collections.abc import Collection

    from rich.console import Console

    from stripdown.procedures.plan import Plan, PlannedStep
    from stripdown.studies.service_job import JobStudy

_LIMITS = (
    "The plan follows the rules of the trade as written in the procedures; the gun's own manual, local law and a qualified "
    "person come first."
)


def print_plan(console: Console, study: JobStudy, *, with_how: bool) -> None:
    """Print a plan: what to fetch, the steps by place, and what stays open."""
    plan, job = study.plan, study.job
    console.print(harmless(job.title), style="bold")
    made_up = " Gun and events are invented." if job.invented else ""
    print_paragraph(console, f"{harmless(job.gun_name) or 'Gun'}: {job.variation.name}.{made_up}")
    print_paragraph(console, _in_short(plan))
    for note in job.notes:
        print_paragraph(console, harmless(note))
    console.print()
    _print_fetching(console, plan)
    print_reckonings(console, reckonings(study.reckoned))
    for place, steps in groupby(plan.steps, key=lambda step: step.place):
        console.print(place or "anywhere", style="bold")
        for step in steps:
            _print_step(console, step, with_how=with_how, reckoned=study.reckoned.calculators)
    console.print()
    for late in plan.too_late:
        print_paragraph(console, f"Too late: {late.reason}")
    if plan.left_open:
        print_paragraph(console, "This plan leaves open, and the gun is not ready without them:")
        for one in plan.left_open.values():
            print_hanging(console, "  - ", one.reason)
    for override in study.release.overridden:
        print_hanging(console, "Overridden: ", harmless(override))
    print_paragraph(console, _LIMITS)


def _in_short(plan: Plan) -> str:
    if not plan.steps:
        return "Nothing is left to do for this request."
    waits = sum(step.wait for step in plan.waits)
    waiting = f", and {_duration(60.0 * waits)} of waiting, some of it beside other work" if waits else ""
    openings = "" if plan.openings < 2 else f" It opens {plan.openings} times: what is asked for cannot be done in one opening."
    is_curing = any(step.not_before for step in plan.steps)
    curing = ' Earlier work may still be curing: see the steps that say "not before".' if is_curing else ""
    return (
        f"{len(plan.steps)} steps: {plan.moves} parts off or back, {plan.makings} checks to make. "
        f"About {_duration(plan.minutes)} of work{waiting}.{curing}{openings}"
    )


def _print_fetching(console: Console, plan: Plan) -> None:
    if plan.tools:
        print_hanging(console, "Tools        ", ", ".join(plan.tools))
    if plan.consumables:
        print_hanging(console, "Consumables  ", ", ".join(plan.consumables))
    for step in plan.waits:
        print_hanging(console, "Wait         ", f"{_duration(60.0 * step.wait)} {step.wait_for} (after step {step.number})")
    if plan.tools or plan.consumables:
        console.print()


def _print_step(console: Console, step: PlannedStep, *, with_how: bool, reckoned: Collection[str]) -> None:
    indent = " " * 10
    purpose = f" ({step.purpose})" if step.purpose and step.kind is not StepKind.TAKE_OFF else ""
    print_hanging(console, f"  [ ] {step.number:>3} ", f"{step.name}{purpose}")
    if step.not_before:
        print_hanging(console, indent, f"{step.not_before[0].upper()}{step.not_before[1:]}.")
    for caution in step.cautions:
        print_hanging(console, f"{indent}! ", caution)
    if step.trial:
        print_hanging(console, indent, f"Trial closing: {', '.join(step.trial)} on for this check, and off again.")
    if with_how and step.how:
        print_hanging(console, indent, f"{step.method.name}: {step.how}" if step.method is not None else step.how)
    if step.calculator:
        done = " (reckoned above for what was measured)" if step.calculator in reckoned else ""
        print_hanging(console, indent, f"Reckon: stripdown {step.calculator}{done}")
    if step.expect:
        print_hanging(console, indent, f"Passes: {step.expect}")
    if step.wait:
        print_hanging(console, indent, f"Then wait {_duration(60.0 * step.wait)} {step.wait_for}.")


def _duration(minutes: float) -> str:
    hours, rest = divmod(max(round(minutes / 5.0), 1) * 5, 60)
    return f"{hours} h {rest} min" if hours and rest else f"{hours} h" if hours else f"{rest} min"
