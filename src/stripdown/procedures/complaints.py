"""What people complain of: found by their words, with its tree for this gun."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from stripdown.errors import InputError
from stripdown.procedures.complaint_trees import Complaint, Finding, Question
from stripdown.procedures.description import Procedures
from stripdown.procedures.documents import packaged_text, plain_words
from stripdown.procedures.entries import Entry, checked_keys, read_condition, read_entries
from stripdown.procedures.loading import load_procedures
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.records import read_fires
from stripdown.procedures.request import Request
from stripdown.procedures.variations import Variation
from stripdown.tables.nearest import near_names, nearest_name
from stripdown.tables.table import Table, read_tables

_FILE = "complaints.toml"
_QUESTION_FIELDS = ("key", "when", "ask", "how", "tools", "minutes", "finding", "fires")
_FINDING_FIELDS = ("key", "when", "seen", "says", "next", "work", "wanted", "as_found", "troubles")
_LITTLE = frozenset(
    {"a", "an", "and", "at", "gun", "i", "in", "is", "it", "my", "of", "on", "or", "the", "to", "too", "when", "will", "with"}
)


@dataclass(frozen=True, kw_only=True, eq=False)
class Complaints:
    """All complaints, before it is known which gun."""

    procedures: Procedures
    entries: Mapping[str, Entry]

    def trees(self, variation: Variation | Mapping[str, str] | str | Iterable[str]) -> Mapping[str, Complaint]:
        """The trees of one variation."""
        chosen = self.procedures.variation(variation)
        procedure = self.procedures.procedure(chosen)
        found = {}
        for key, entry in self.entries.items():
            table = entry.fixed(chosen, {})
            if table is not None:
                found[key] = _tree(key, table, procedure, lambda one: _holds(one, self.procedures, chosen))
        return found

    def find(self, words: str, variation: Variation | Mapping[str, str] | str | Iterable[str]) -> Complaint:
        """The complaint that some words mean."""
        return _fitting(words, self.trees(variation).values())


@functools.cache
def load_complaints() -> Complaints:
    """Read the packaged complaints.

    Returns
    -------
    Complaints

    Raises
    ------
    CatalogueError
        With file, table and field.
    """
    return read_complaints(packaged_text(_FILE), file=_FILE, procedures=load_procedures())


def read_complaints(text: str, *, file: str, procedures: Procedures) -> Complaints:
    """Read complaints from TOML."""
    whole = read_tables(text, file=file, known=["complaint"])
    entries = {entry.key: entry for entry in read_entries(whole, "complaint", procedures.features)}
    for entry in entries.values():
        for table in entry.versions():
            _look_through(table, procedures)
    return Complaints(procedures=procedures, entries=entries)


def find_complaint(words: str, variation: Variation | Mapping[str, str] | str | Iterable[str] = "") -> Complaint:
    """The packaged complaint that some words mean.

    Parameters
    ----------
    words
        Key, name, another way to say it, or a sentence that holds one of these.
    variation
        What gun it is: feature to choice, or choices alone; what is not said is assumed.

    Returns
    -------
    Complaint

    Raises
    ------
    InputError
        If none fits, or several fit equally well, with the nearest ones.
    """
    return load_complaints().find(words, variation)


def _fitting(words: str, complaints: Iterable[Complaint]) -> Complaint:
    said = plain_words(words)
    every = tuple(complaints)
    exact = [one for one in every if said in _sayings(one)]
    if exact:
        return exact[0]
    tokens = [word for word in said.split() if word not in _LITTLE]
    scores = {one.key: max(_likeness(tokens, saying) for saying in _sayings(one)) for one in every}
    best = max(scores.values(), default=0.0)
    nearest = [one for one in every if scores[one.key] == best]
    if best >= 1.0 and len(nearest) == 1:
        return nearest[0]
    names = [one.name for one in (nearest if best > 0.0 else every)]
    sayings = [saying for one in every for saying in _sayings(one)]
    is_like = best == 0.0 and near_names(said, sayings)
    hint = nearest_name(said, sayings) if is_like else f"It may be one of: {'; '.join(names)}."
    raise InputError(f'"{words}" fits no complaint.', field="complaint", value=words, hint=hint)


def _sayings(complaint: Complaint) -> tuple[str, ...]:
    return tuple(dict.fromkeys(plain_words(one) for one in (complaint.key, complaint.name, *complaint.words)))


def _likeness(tokens: list[str], saying: str) -> float:
    """Above 1 if the words hold the whole saying, the more of it the higher; below 1 the share of it that they hold."""
    wanted = [word for word in saying.split() if word not in _LITTLE]
    shared = sum(word in tokens for word in wanted)
    if not wanted or not shared:
        return 0.0
    return float(shared) if shared == len(wanted) else 0.9 * shared / max(len(wanted), len(tokens))


def _holds(table: Table, procedures: Procedures, variation: Variation) -> bool:
    return variation.satisfies(read_condition(table, "when", procedures.features))


def _tree(key: str, table: Table, procedure: Procedure, is_here: Callable[[Table], bool]) -> Complaint:
    every = table.tables("question")
    here = [one for one in every if is_here(one)]
    order = [one.text("key") for one in every]
    present = {one.text("key") for one in here}
    # A question that this gun does not have is passed over: the next one takes its place.
    follows = {name: next((later for later in order[position:] if later in present), "") for position, name in enumerate(order)}
    questions = tuple(
        Question(
            key=one.text("key"),
            ask=one.text("ask"),
            how=one.text("how"),
            tools=one.texts("tools"),
            minutes=one.amount("minutes"),
            findings=tuple(_finding(found, procedure, follows) for found in one.tables("finding") if is_here(found)),
            fires=read_fires(one),
        )
        for one in here
    )
    return Complaint(key=key, name=table.text("name"), words=table.texts("words"), care=table.texts("care"), questions=questions)


def _finding(table: Table, procedure: Procedure, follows: Mapping[str, str]) -> Finding:
    then = table.text("next", default="")
    request = Request(
        work=tuple(one for one in table.texts("work") if one in procedure.actions),
        wanted=tuple(one for one in table.texts("wanted") if one in procedure.checks),
        as_found=tuple(one for one in table.texts("as_found") if one in procedure.checks),
        troubles=table.texts("troubles"),
    )
    return Finding(
        key=table.text("key"),
        seen=table.text("seen"),
        says=table.text("says"),
        request=None if then else request,
        then=follows[then] if then else "",
    )


def _look_through(table: Table, procedures: Procedures) -> None:
    """Names exist, no path goes back, every finding either ends in a request or goes on."""
    table.only("name", "words", "care", "question")
    questions = table.tables("question")
    order = [one.text("key") for one in questions]
    seen: set[str] = set()
    for position, question in enumerate(questions):
        question.only(*_QUESTION_FIELDS)
        read_condition(question, "when", procedures.features)
        if question.amount("minutes") <= 0.0:
            raise question.wrong("minutes", None, "is missing: the cheapest look comes first.")
        if len(question.tables("finding")) < 2:
            raise question.wrong("finding", None, "must have at least two: a question has two answers.")
        for finding in question.tables("finding"):
            finding.only(*_FINDING_FIELDS)
            read_condition(finding, "when", procedures.features)
            key, then = finding.text("key"), finding.text("next", default="")
            if key in seen or key in order:
                raise finding.wrong("key", key, "is there already in this tree.")
            seen.add(key)
            asked = [*finding.texts("work"), *finding.texts("wanted"), *finding.texts("as_found")]
            if bool(then) == bool(asked):
                raise finding.wrong("next", then or None, "must stand alone: the next question, or what to ask of the planner.")
            if then and then not in order[position + 1 :]:
                raise finding.wrong("next", then, "is no later question of this complaint.")
            checked_keys(finding, "work", finding.texts("work"), procedures.actions, "action")
            checked_keys(finding, "wanted", finding.texts("wanted"), procedures.checks, "check")
            checked_keys(finding, "as_found", finding.texts("as_found"), procedures.checks, "check")
            checked_keys(finding, "troubles", finding.texts("troubles"), procedures.troubles, "trouble")
    if len(set(order)) < len(order) or not order:
        raise table.wrong("question", order, "must hold questions, each key once.")
