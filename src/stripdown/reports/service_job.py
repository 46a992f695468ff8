"""What a service sheet is told besides the plan: which gun, what was found, and what somebody has taken upon himself."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from stripdown.studies.job_reckonings import Reckoned


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenReject:
    """A part that was graded a reject and has not been replaced.

    Parameters
    ----------
    words
        Part, finding and day in plain words.
    override
        Why somebody lets it pass all the same; empty if nobody does: it then blocks release.
    who
        Who does; empty if nobody said.
    """

    words: str
    override: str = ""
    who: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ServiceJob:
    """The head of a service sheet.

    Parameters
    ----------
    title
        What the job is called.
    gun
        Its name.
    input_digest
        Of the job's files together, hexadecimal.
    gun_note
        Remarks on the gun.
    asked
        What was asked for, in the words of the job: named jobs, remarks. The names of work, checks and readings follow from the
        plan.
    is_invented
        Whether gun or figures are made up.
    rejects
        Rejects that are still in the gun.
    shims_in_place
        What lies where by the log, in words, by key of the part.
    reckoned
        What the calculators say.
    understood
        How the job's files were understood.
    """

    title: str
    gun: str
    input_digest: str
    gun_note: str = ""
    asked: tuple[str, ...] = ()
    is_invented: bool = False
    rejects: tuple[OpenReject, ...] = ()
    shims_in_place: Mapping[str, str] = field(default_factory=dict)
    reckoned: Reckoned = field(default_factory=Reckoned)
    understood: tuple[str, ...] = ()
