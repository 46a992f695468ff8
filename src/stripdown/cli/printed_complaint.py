"""What `stripdown complaint` prints for people."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from stripdown.cli.hanging import print_hanging
from stripdown.cli.printed_requests import asked_words
from stripdown.cli.printed_sheet import print_heading, print_sentences, print_title
from stripdown.cli.terminal import print_paragraph

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.procedures.complaint_trees import Complaint, Finding
    from stripdown.procedures.procedure import Procedure

_HOW_TO_READ = (
    "Begin at 1. The cheapest look comes first. Where an answer ends in work or checks, write the complaint and what you found, "
    "as it stands in brackets, into the request of a job file (docs/job-file.md), and ask `stripdown plan` for the order. Common "
    "practice of the trade, no source."
)


def print_complaints(console: Console, complaints: Iterable[Complaint]) -> None:
    """Print all complaints with other words for them."""
    print_title(console, "Complaints")
    for one in complaints:
        print_hanging(console, f"{one.name}: ", ", ".join(one.words))
    console.print()
    print_paragraph(console, 'In your own words: stripdown complaint "does not feed".')


def print_complaint(console: Console, procedure: Procedure, complaint: Complaint) -> None:
    """Print the tree of a complaint."""
    print_title(console, complaint.name)
    print_paragraph(console, f"Gun: {procedure.variation}.")
    print_paragraph(console, _HOW_TO_READ)
    print_heading(console, "Cautions")
    print_sentences(console, complaint.care)
    numbers = {question.key: number for number, question in enumerate(complaint.questions, start=1)}
    for question in complaint.questions:
        console.print()
        lead = f"{numbers[question.key]}. "
        print_hanging(console, lead, f"{question.ask} ({question.minutes:g} min)")
        print_hanging(console, " " * len(lead), question.how)
        if question.tools:
            print_hanging(console, " " * len(lead), f"With: {', '.join(question.tools)}.")
        for finding in question.findings:
            key = "" if finding.request is None else f" [{finding.key}]"
            print_hanging(console, "   - ", f"{finding.seen[0].upper()}{finding.seen[1:]}{key}: {finding.says}")
            print_hanging(console, "     => ", _end(procedure, finding, numbers))


def _end(procedure: Procedure, finding: Finding, numbers: dict[str, int]) -> str:
    if finding.request is None:
        return f"go to {numbers[finding.then]}"
    return asked_words(procedure, finding.request)
