"""What is said of complaints: all of them, or one with its tree of questions."""

from __future__ import annotations

from collections.abc import Iterator

from stripdown.procedures.complaint_trees import Complaint, Finding, Question
from stripdown.procedures.procedure import Procedure
from stripdown.studies.looks import ComplaintTrees
from stripdown.words.answer import Answer, Cell, Column, Named, Sentence, Table
from stripdown.words.requests import asked_words
from stripdown.words.sentences import capital, caution_sentence

_HOW_TO_READ = Sentence(
    key="how_to_read",
    full=(
        "Begin at 1. The cheapest look comes first. Where an answer ends in work or checks, write the complaint and what you "
        "found, as it stands in brackets, into the request of the job, and plan it for the order. Common practice of the trade, "
        "no source."
    ),
    act="plan_job",
)
_COLUMNS = (Column(head=""), Column(head=""))


def complaints_answer(found: ComplaintTrees) -> Answer:
    """List all complaints with other words for them."""
    return Answer(
        key="complaints",
        title="Complaints",
        named=tuple(Named(key=one.key, name=one.name, text=", ".join(one.words)) for one in found.trees),
        notes=(Sentence(key="own_words", full="In your own words:", act="ask_complaint"),),
    )


def complaint_answer(found: ComplaintTrees) -> Answer:
    """Say the tree of a complaint: what to look at, what each answer means, and what to ask of the planner."""
    (tree,) = found.trees
    numbers = {question.key: number for number, question in enumerate(tree.questions, start=1)}
    return Answer(
        key="complaint",
        title=tree.name,
        lead=(Sentence(key="gun", full=f"Gun: {found.procedure.variation}."), _HOW_TO_READ),
        parts=(
            Answer(key="care", title="", cautions=tuple(map(caution_sentence, (*tree.care, *_firing(tree, numbers))))),
            *(_question(found.procedure, question, numbers) for question in tree.questions),
        ),
    )


def _firing(tree: Complaint, numbers: dict[str, int]) -> Iterator[str]:
    """What is said once of the questions that run the gun."""
    firing = [str(numbers[question.key]) for question in tree.questions if question.fires]
    if firing:
        one = len(firing) == 1
        which = f"Question {firing[0]} runs" if one else f"Questions {', '.join(firing[:-1])} and {firing[-1]} run"
        yield (
            f"{which} the gun under power: only one that has run since it was last opened or wired. Any other is closed and "
            "not yet run: plan its first power, and ask then."
        )


def _question(procedure: Procedure, question: Question, numbers: dict[str, int]) -> Answer:
    lead = [question.how, f"With: {', '.join(question.tools)}." if question.tools else ""]
    rows = tuple((Cell(text=" -"), _finding(procedure, finding, numbers)) for finding in question.findings)
    return Answer(
        key=question.key,
        title=f"{numbers[question.key]}. {question.ask} ({question.minutes:g} min)",
        lead=tuple(Sentence(full=words) for words in lead if words),
        tables=(Table(key="findings", columns=_COLUMNS, rows=rows),),
    )


def _finding(procedure: Procedure, finding: Finding, numbers: dict[str, int]) -> Cell:
    if finding.request is None:
        key, then = "", f"go to {numbers[finding.then]}"
    else:
        key, then = f" [{finding.key}]", asked_words(procedure, finding.request)
    return Cell(text=f"{capital(finding.seen)}{key}: {finding.says}", small=f"=> {then}", key=finding.key)
