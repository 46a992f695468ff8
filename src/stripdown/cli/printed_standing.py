"""What `stripdown standing` prints for people."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from stripdown.cli.hanging import print_hanging
from stripdown.cli.harmless_text import harmless
from stripdown.cli.terminal import print_paragraph
from stripdown.procedures.standing import CheckStanding, Standing

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.studies.service_job import JobStudy

_SIGNS = {Standing.FAILED: "x", Standing.STALE: "~", Standing.FRESH: "+", Standing.NEVER: "-"}


def print_standing(console: Console, study: JobStudy, *, with_all: bool) -> None:
    """Print how the checks of a job stand, and what blocks release."""
    job, procedure = study.job, study.job.procedure
    console.print(harmless(job.title), style="bold")
    made_up = " Gun and events are invented." if job.invented else ""
    print_paragraph(console, f"{harmless(job.gun_name) or 'Gun'}: {job.variation.name}.{made_up}")
    if job.parts_off:
        off = ", ".join(procedure.parts[part].name for part in procedure.parts if part in job.parts_off)
        print_hanging(console, "Off now: ", f"{off}.")
    signs = ", ".join(f"{sign} {standing.value}" for standing, sign in _SIGNS.items())
    print_paragraph(console, f"Signs: {signs}.")
    made = [one for one in job.known.values() if one.standing is not Standing.NEVER]
    _print_some(console, study, "On the release list", [one for one in made if one.check in procedure.release_list])
    _print_some(console, study, "Besides", [one for one in made if one.check not in procedure.release_list])
    owed = [one for one in job.known.values() if one.standing is Standing.NEVER and one.is_owed]
    never = [one for one in job.known.values() if one.standing is Standing.NEVER and not one.is_owed]
    if with_all:
        _print_some(console, study, "Never made, and disturbed by what is in the log", owed)
        _print_some(console, study, "Never made, and disturbed by nothing in the log", never)
    else:
        _print_names(console, study, "Never made, and disturbed by what is in the log: ", owed)
    console.print()
    _print_release(console, study)


def _print_some(console: Console, study: JobStudy, title: str, some: Iterable[CheckStanding]) -> None:
    listed = sorted(some, key=lambda one: list(_SIGNS).index(one.standing))
    if not listed:
        return
    console.print()
    console.print(title, style="bold")
    for one in listed:
        check = study.job.procedure.checks[one.check]
        print_hanging(console, f"  {_SIGNS[one.standing]} {one.standing.value:<6} ", _told(check.name, one.reason))


def _print_names(console: Console, study: JobStudy, lead: str, some: Iterable[CheckStanding]) -> None:
    names = [study.job.procedure.checks[one.check].name for one in some if one.check in study.job.procedure.release_list]
    if names:
        console.print()
        print_hanging(console, f"{_SIGNS[Standing.NEVER]} ", f"{lead}{'; '.join(names)}.")


def _told(name: str, reason: str) -> str:
    """Name and reason, without saying the name twice."""
    start = f"the {name} "
    return f"{name} {reason[len(start) :]}" if reason.startswith(start) else f"{name}: {reason}"


def _print_release(console: Console, study: JobStudy) -> None:
    release = study.release
    for finding in release.findings:
        print_hanging(console, "! ", harmless(finding))
    for override in release.overridden:
        print_hanging(console, "Overridden: ", harmless(override))
    if release.is_ready:
        print_paragraph(console, "Nothing blocks release. The site's own chronograph and marshal, and local law, decide.")
        return
    count = len(release.blocks)
    print_paragraph(
        console, f"Not ready to leave: {count} thing{'s' if count > 1 else ''} block{'' if count > 1 else 's'} release."
    )
    for block in release.other_blocks:
        print_hanging(console, "  - ", harmless(block))
