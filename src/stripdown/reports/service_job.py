"""What a service sheet is told besides the plan: which gun, what was found, and what somebody has taken upon himself."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from stripdown.studies.job_reckonings import Reckoned


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenReject:
    """A part that was graded a reject and has not been replaced."""

    words: str
    override: str = ""
    who: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ServiceJob:
    """The head of a service sheet."""

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
