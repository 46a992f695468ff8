"""The short tree of questions that leads from a complaint to work: the cheapest look first."""

from __future__ import annotations

from dataclasses import dataclass

from stripdown.errors import InputError
from stripdown.procedures.request import Request
from stripdown.tables.nearest import nearest_name


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One answer to a question: it ends in a request, or goes on with another question.

    Parameters
    ----------
    key
        Stable name; a complaint has it once.
    seen
        What was found.
    says
        What that means.
    request
        What to ask the planner for; None if it goes on.
    then
        Key of the next question; empty if it ends.
    """

    key: str
    seen: str
    says: str
    request: Request | None = None
    then: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One look or test of a tree.

    Parameters
    ----------
    key
        Stable name; a complaint has it once.
    ask
        The question.
    how
        How one finds out.
    tools
        With what.
    minutes
        Time of the hands, a number of minutes.
    findings
        What one may find.
    fires
        How finding out runs the gun under power; empty if it does not.
    """

    key: str
    ask: str
    how: str
    tools: tuple[str, ...]
    minutes: float
    findings: tuple[Finding, ...]
    fires: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Complaint:
    """A complaint with its tree, for one variation of gun.

    Parameters
    ----------
    key
        Stable name (``"will_not_fire"``).
    name
        How people say it.
    words
        Other ways to say it.
    care
        What can hurt while one looks.
    questions
        Questions in order; the first is where one begins, and no path goes back.
    """

    key: str
    name: str
    words: tuple[str, ...]
    care: tuple[str, ...]
    questions: tuple[Question, ...]

    def question(self, key: str) -> Question:
        """A question of the tree.

        Parameters
        ----------
        key
            Its key.

        Returns
        -------
        Question

        Raises
        ------
        InputError
            If the tree has none, with the nearest keys.
        """
        for one in self.questions:
            if one.key == key:
                return one
        hint = nearest_name(key, [one.key for one in self.questions])
        raise InputError(f'"{key}" is no question of "{self.name}".', field="question", value=key, hint=hint)

    def finding(self, key: str) -> Finding:
        """A finding of the tree.

        Parameters
        ----------
        key
            Its key.

        Returns
        -------
        Finding

        Raises
        ------
        InputError
            If the tree has none, with the nearest keys.
        """
        findings = {one.key: one for question in self.questions for one in question.findings}
        if key not in findings:
            hint = nearest_name(key, findings)
            raise InputError(f'"{key}" is no finding of "{self.name}".', field="finding", value=key, hint=hint)
        return findings[key]


def request_for(complaint: Complaint, finding: str | Finding) -> Request:
    """What to ask the planner for after a finding.

    Parameters
    ----------
    complaint
        The complaint.
    finding
        The finding, or its key.

    Returns
    -------
    Request

    Raises
    ------
    InputError
        If the tree has no such finding, or the finding leads to another question.
    """
    one = complaint.finding(finding if isinstance(finding, str) else finding.key)
    if one.request is None:
        question = complaint.question(one.then)
        raise InputError(
            f'"{one.key}" is not the end of "{complaint.name}".',
            field="finding",
            value=one.key,
            hint=f"Answer {question.key} next: {question.ask}",
        )
    return one.request
