"""From a job, its plan and its standing to what the service sheet says, and to the PDF that one takes to the bench."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping

from stripdown import __version__
from stripdown.charts.standing_graph import standing_graph
from stripdown.charts.themes import PAPER
from stripdown.procedures.plan import Plan
from stripdown.procedures.standing import CheckStanding
from stripdown.procedures.steps import StepKind
from stripdown.reports.bench_times import hands_time
from stripdown.reports.content import Named, Picture
from stripdown.reports.drawn import drawn
from stripdown.reports.page_head import INVENTED
from stripdown.reports.press import PageHead, press, running_title
from stripdown.reports.reckoned_pictures import reckonings_drawn
from stripdown.reports.service_content import ServiceRestsOn, ServiceSheet
from stripdown.reports.service_job import ServiceJob
from stripdown.reports.service_release import blocks, release_part
from stripdown.reports.service_steps import found_readings, sentence, shim_map, stages, waits
from stripdown.reports.source_marks import SourceMarks

_PICTURE_WIDTH = 490  # points: nearly all between the margins
_TALLEST = 640.0  # points: a page, less its heading and the foot of the sheet
_CONDITIONS = (
    "day and time",
    "temperature",
    "pack and its voltage",
    "ball batch, weighed",
    "chronograph, distance",
    "shots before it",
)


def build_service_sheet(job: ServiceJob, plan: Plan, standings: Mapping[str, CheckStanding]) -> bytes:
    """Print the service sheet of a job."""
    sheet = service_sheet_of(job, plan, standings)
    head = PageHead(
        title=running_title(job.title, job.gun),
        invented=INVENTED if job.is_invented else "",
        program=sheet.rests_on.program,
        digest=job.input_digest,
    )
    return press("service.typ", sheet, head=head)


def service_sheet_of(job: ServiceJob, plan: Plan, standings: Mapping[str, CheckStanding]) -> ServiceSheet:
    """Say in words what the service sheet holds."""
    marks = SourceMarks(plan)
    readings = found_readings(plan, marks)
    return ServiceSheet(
        title=job.title,
        gun=job.gun,
        gun_note=job.gun_note,
        variation=plan.procedure.variation,
        asked=tuple(_asked(job, plan)),
        amount=_amount(plan),
        stops=(*blocks(job, plan), *(sentence(late.reason) for late in plan.too_late)),
        tools=plan.tools,
        consumables=plan.consumables,
        waits=waits(plan),
        conditions=_CONDITIONS if any(not reading.too_late for reading in readings) else (),
        found=readings,
        shims=shim_map(plan, job.shims_in_place),
        reckoned=reckonings_drawn(job.reckoned),
        stages=stages(plan, marks, reckoned=job.reckoned.calculators),
        release=release_part(job, plan, standings),
        picture=_picture(plan, standings),
        rests_on=ServiceRestsOn(
            marks=marks.explained(),
            understood=job.understood,
            program=f"stripdown {__version__}",
            input_digest=job.input_digest,
        ),
    )


def _asked(job: ServiceJob, plan: Plan) -> Iterator[Named]:
    procedure, request = plan.procedure, plan.request
    if job.asked:
        yield Named(name="asked for", text=" ".join(sentence(words) for words in job.asked))
    if request.work:
        yield Named(name="work", text=sentence("; ".join(procedure.actions[key].name for key in request.work)))
    if plan.remedies:
        because = "; ".join(
            f"{procedure.actions[action].name}, since the {procedure.checks[check].name} did not pass"
            for action, check in plan.remedies.items()
        )
        yield Named(name="added", text=sentence(because))
    if request.wanted:
        yield Named(name="to be fresh", text=sentence(", ".join(procedure.checks[key].name for key in request.wanted)))
    if request.as_found:
        yield Named(name="as found", text=sentence(", ".join(procedure.checks[key].name for key in request.as_found)))


def _amount(plan: Plan) -> str:
    times = {0: "nothing is taken off", 1: "opened once", 2: "opened twice"}
    opened = times.get(plan.openings, f"opened {plan.openings} times")
    hands = hands_time(plan.minutes)
    words = [f"{len(plan.steps)} {'step' if len(plan.steps) == 1 else 'steps'}", opened]
    words += [f"about {hands} of the hands"] if hands else []
    words += [f"{len(plan.waits)} {'wait' if len(plan.waits) == 1 else 'waits'}"] if plan.waits else []
    return sentence(", ".join(words))


def _picture(plan: Plan, standings: Mapping[str, CheckStanding]) -> Picture | None:
    """Only the checks that this plan makes or leaves open; all others hold."""
    made = {step.key for step in plan.steps if step.kind is StepKind.MAKE}
    concerned = made | plan.left_open.keys() | set(plan.request.wanted)
    if not concerned:
        return None
    theme = dataclasses.replace(PAPER, width=_PICTURE_WIDTH)
    return drawn(
        standing_graph(plan.procedure, standings, theme=theme, only=concerned, to_make=made), theme=theme, tallest=_TALLEST
    )
