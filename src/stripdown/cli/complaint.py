"""`stripdown complaint`: what to find out first, and what to ask of the planner."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.quantity_option import json_option
from stripdown.cli.terminal import answers
from stripdown.cli.variation_option import variation_option
from stripdown.plain.si import written

if TYPE_CHECKING:
    from stripdown.procedures.complaint_trees import Complaint, Finding


@click.command(
    cls=ExampleCommand,
    examples=[
        "stripdown complaint",
        "stripdown complaint will not fire",
        'stripdown complaint "bursts on semi" --variation "version 3, electronic"',
    ],
)
@click.argument("words", nargs=-1)
@variation_option
@json_option
def complaint(*, words: tuple[str, ...], variation: str, as_json: bool) -> None:
    """Print the short tree of questions for a complaint: what to look at, what each answer says, and what to ask of the planner.

    WORDS are what the player says: "fires, no ball", whine, "over the limit". Without them, all complaints are listed. Work,
    checks and readings stand with their keys, as a job file takes them.
    """
    from stripdown.procedures.complaints import load_complaints  # noqa: PLC0415  the data take a moment

    complaints = load_complaints()
    if not words:
        every = complaints.trees(variation).values()
        if as_json:
            click.echo(written({"complaints": {one.key: {"name": one.name, "words": one.words} for one in every}}))
            return
        from stripdown.cli.printed_complaint import print_complaints  # noqa: PLC0415

        print_complaints(answers(), every)
        return
    found = complaints.find(" ".join(words), variation)
    if as_json:
        chosen = complaints.procedures.variation(variation)
        click.echo(written({"variation": dict(chosen.choices), **_fields(found)}))
        return
    from stripdown.cli.printed_complaint import print_complaint  # noqa: PLC0415

    print_complaint(answers(), complaints.procedures.procedure(variation), found)


def _fields(found: Complaint) -> dict[str, Any]:
    return {
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
    from stripdown.plain.requests import request_fields  # noqa: PLC0415

    end = {"then": finding.then} if finding.request is None else {"request": request_fields(finding.request)}
    return {"finding": finding.key, "seen": finding.seen, "says": finding.says, **end}
